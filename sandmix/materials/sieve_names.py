"""How people name a sieve: by its number, by its opening, or as the pan; and the word for a whole grading."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from sandmix.language import amounts
from sandmix.language.tables import OwnKey, Table
from sandmix.language.units import Unreadable
from sandmix.language.wording import list_of, shown_given
from sandmix.materials.fineness import PAN, SIEVES
from sandmix.materials.partial_sieves import OPENINGS_MM, OTHER_NUMBERS, name_of, opening_mm

_NUMBER = re.compile(r"(?:(?:sieve|mesh|no\.?|nr\.?|number)\s*)*#?\s*0*(\d{1,3})\s*(?:mesh)?")
_MICRONS = re.compile(r"(.+?)\s*(?:µm|μm|um|microns?|micrometres?|micrometers?)")
_LONGEST = 40
BY_OPENING = f"{OPENINGS_MM[0]:g} to {OPENINGS_MM[1]:g} mm"


class NoSieve(Exception):
    """The text does not name a sieve; the argument says why and what to write."""


def read(text: str) -> str:
    """Return the key of the sieve that *text* names; raises NoSieve.

    A bare number is the number of a sieve; an opening has a unit: mm, µm or in.

    >>> read("No. 50"), read("#60"), read("300 um"), read("0,8 mm"), read("pan")
    ('50', '0.25 mm', '50', '0.8 mm', 'pan')
    """
    plain = text.strip().lower()
    if len(plain) > _LONGEST:
        raise NoSieve(f"does not name a sieve. {_HOW}")
    if plain == PAN:
        return PAN
    if found := _NUMBER.fullmatch(plain):
        if found[1] in SIEVES:
            return found[1]
        if found[1] in OTHER_NUMBERS:
            return name_of(OTHER_NUMBERS[found[1]])
        raise NoSieve(f"is not the number of a sieve. {_HOW}")
    return name_of(_opening_mm(plain))


def _opening_mm(plain: str) -> float:
    microns = _MICRONS.fullmatch(plain)
    try:
        reading = amounts.read(f"{microns[1]} mm" if microns else plain, "mm")
    except (Unreadable, OverflowError, ValueError):
        raise NoSieve(f"does not name a sieve. {_HOW}") from None
    if reading.typed_unit is None:
        raise NoSieve(f"could be a number or an opening. Write its unit, such as {shown_given(plain)} mm.")
    opening = reading.value / 1000 if microns else reading.value
    if not OPENINGS_MM[0] <= opening <= OPENINGS_MM[1]:
        raise NoSieve(f"is not an opening for sieving sand. Enter an opening of {BY_OPENING}.")
    return opening


@dataclass(frozen=True, slots=True, kw_only=True)
class Sieves(Table):
    """What each sieve holds, by number or by opening; its value goes from the coarsest to the pan."""

    own: ClassVar[OwnKey | None] = OwnKey(label="sieve of my own", key_label="Opening", unit="mm", bare="No.")

    @property
    def allowed(self) -> str:
        """The values that it can have, in words."""
        return f"{list_of(tuple(self.keys))}, or openings of {BY_OPENING}, each {self.each.allowed}"

    def key_of(self, given: object) -> str:
        if not str(given).strip():
            raise self.refuse(given, self.allowed, f"one sieve has no name. {_HOW}")
        try:
            return read(str(given))
        except NoSieve as error:
            raise self.refuse(given, self.allowed, f"“{shown_given(given)}” {error}") from None

    def ordered(self, values: Mapping[str, float]) -> dict[str, float]:
        return {name: values[name] for name in sorted(values, key=opening_mm, reverse=True)}


_HOW = f"Name it by its number, {list_of(tuple(SIEVES))}, or by its opening with a unit, such as 0.8 mm."
