"""Reads amounts as people write them, and converts them to the unit that is needed.

"2,5 kg", "3-1/2 in", "3 lb 4 oz", "7 ½ in" and "6.4 ± 0.3 %" are read, in the digits of any alphabet. A text with two meanings is refused
with a question: "5 gal" (which gallon?), "1,000" (one, or a thousand?), "a cup" (no fixed size).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from sandmix.language.units import BY_NAME, UNITS, Unit, Unreadable, convert

LONGEST_TEXT = 60

_TWO_MEANINGS = {
    "gal": ("A gallon can be the US one (3.785 L) or the imperial one (4.546 L).", "Write US gal or imp gal."),
    "fl oz": ("A fluid ounce can be the US one or the imperial one.", "Write the volume in mL."),
    "pt": ("A pint can be the US one or the imperial one.", "Write the volume in mL."),
    "qt": ("A quart can be the US one or the imperial one.", "Write the volume in L."),
    "ton": ("A ton can be 1000 kg, 2000 lb or 2240 lb.", "Write the mass in kg or lb."),
}
_TWO_MEANINGS |= {
    "gallon": _TWO_MEANINGS["gal"],
    "gallons": _TWO_MEANINGS["gal"],
    "gals": _TWO_MEANINGS["gal"],
    "pint": _TWO_MEANINGS["pt"],
}
_TWO_MEANINGS |= {
    "pints": _TWO_MEANINGS["pt"],
    "quart": _TWO_MEANINGS["qt"],
    "quarts": _TWO_MEANINGS["qt"],
    "tons": _TWO_MEANINGS["ton"],
}
_NO_FIXED_SIZE = (
    "cup",
    "spoon",
    "tsp",
    "tbsp",
    "handful",
    "shovel",
    "bucket",
    "scoop",
    "jar",
    "tin",
    "can",
    "bag",
    "pinch",
)

_FRACTIONS = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_FRACTION_CHARACTER = re.compile("|".join(_FRACTIONS))
_SPACES = re.compile(r"[\s\u00a0\u2009\u202f]+")
_TERM = re.compile(
    r"""(?P<whole>\d+)[ ]*[- ][ ]*(?P<over>\d+)/(?P<under>\d+)     # 3-1/2, 3 1/2
      | (?P<over_alone>\d+)/(?P<under_alone>\d+)                 # 1/2
      | (?P<spaced>\d{1,3}(?:[ ]\d{3})+(?:[.,]\d+)?)(?![\d/])     # 35 000
      | (?P<plain>(?:\d+(?:[.,]\d+)*|[.,]\d+)(?:e[+-]?\d+)?)       # 2,5  1.234,5  1e3
    """,
    re.VERBOSE | re.IGNORECASE,
)
_RATIO = re.compile(r"^\d+(?:[.,]\d+)? ?(?::|in|to) ?\d+(?:[.,]\d+)?(?: by (?:depth|volume))?$", re.IGNORECASE)
_RANGE = re.compile(r"^\d+(?:[.,]\d+)?[^\d±]*?(?:(?<!e)-|to)[^\d±]*\d+(?:[.,]\d+)?(?!\d*/)", re.IGNORECASE)
_UNIT_TEXT = re.compile(r"[^\d±+]*")
_POWER_UNIT_TEXT = re.compile(r"[^\d±+]*(?:(?<=[mnt])[23](?!\d))?", re.IGNORECASE)
_WITH_POWERS = ("area", "volume", "density", "pressure")
_CARET = re.compile(r"(?<=[A-Za-z])\^(?=[23](?!\d))")
_SLASH = re.compile(r"\s*/\s*")
_WHOLE_UNIT = re.compile(r"[^\d±+\s]*(?:\s+[^\d±+\s]+)*[^\s±+]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAmount:
    """An amount read from a text: its value in the unit asked for, the ± after it if there is one, and the unit that was typed."""

    value: float
    half_width: float | None
    typed_unit: str | None


def read(text: str, unit: str, *, when_bare: str | None = None) -> ReadAmount:
    """Read an amount as a person writes it and return it in *unit*. A number without a unit is in *when_bare*, or else in *unit*.

    Raises Unreadable with the reason and what to write instead.

    >>> round(read("3-1/2 in", "mm").value, 9)
    88.9
    >>> round(read("3 lb 4 oz", "kg").value, 4)
    1.4742
    >>> read("2,5", "kg").value
    2.5
    """
    if len(text) > LONGEST_TEXT:
        raise Unreadable(f"{len(text)} characters are too long for an amount.", _number_and(unit))
    plain = _plain(text)
    if not plain:
        raise Unreadable("This is empty.", _number_and(unit))
    _only_one_amount(plain, unit)
    amount, sign, margin = plain.partition("±")
    value, typed = _amount(amount.strip(), unit, when_bare)
    if not sign:
        return ReadAmount(value=value, half_width=None, typed_unit=typed)
    half_width, margin_unit = _amount(margin.strip(), unit, typed or when_bare)
    if margin_unit is not None and typed is None:
        value, typed = _amount(amount.strip(), unit, margin_unit)[0], margin_unit
    if UNITS[unit].offset or (margin_unit or typed) == "°F":
        half_width -= convert(0.0, margin_unit or typed or when_bare or unit, unit)
    return ReadAmount(value=value, half_width=abs(half_width), typed_unit=typed)


def naming_unit(text: str, unit: str) -> str:
    """Return *text* so that it names its unit: *unit* follows where it names none of its own.

    >>> naming_unit("5e2", "g"), naming_unit("3 lb 4 oz", "g")
    ('5e2 g', '3 lb 4 oz')
    """
    try:
        typed = read(text, unit).typed_unit
    except (Unreadable, OverflowError, ValueError):
        return text
    return text if typed else f"{text} {unit}".strip()


def _only_one_amount(text: str, unit: str) -> None:
    in_parts = UNITS[unit].dimension in ("number", "share")
    if ":" in text or (in_parts and _RATIO.match(text)):
        what_to_do = "Write the two numbers in the two boxes for parts." if in_parts else _number_and(unit)
        if not unit:
            what_to_do = "Write one number. For parts, write each number in its own box."
        raise Unreadable(f"“{_short(text)}” is a ratio, not one amount.", what_to_do)
    if _RANGE.match(text):
        raise Unreadable(
            f"“{_short(text)}” is a range.", "Write one number, with its ± if you know it, as in 6.4 ± 0.3."
        )
    if text.count("±") > 1 or text.startswith("±"):
        raise Unreadable("The ± belongs after a number, and only once.", "Write it as in 6.4 ± 0.3.")


def _plain(text: str) -> str:
    digits = "".join(str(int(letter)) if letter.isdecimal() else letter for letter in text)
    spelled = _FRACTION_CHARACTER.sub(lambda found: " " + _FRACTIONS[found.group()], digits)
    signs = (
        spelled.replace("−", "-")
        .replace("–", "-")
        .replace("⁄", "/")
        .replace("٫", ".")
        .replace("+/-", "±")
        .replace("+-", "±")
    )
    return _SPACES.sub(" ", _CARET.sub("", signs)).strip()


def _amount(text: str, unit: str, when_bare: str | None) -> tuple[float, str | None]:
    negative = text.startswith("-")
    rest = text.lstrip("+-").strip() if text[:1] in "+-" else text
    total, typed, last_factor = 0.0, None, math.inf
    first = True
    while rest:
        found = _TERM.match(rest)
        if found is None:
            raise _no_number(text, unit)
        number = _number(found)
        rest = rest[found.end() :].lstrip()
        whole_unit = _unit_as_written(rest)
        name, rest = _split_unit(rest, UNITS[unit].dimension)
        if not name and not first:
            raise Unreadable(f"“{_short(text)}” has a second number without a unit.", "Write it as in 3 lb 4 oz.")
        named = _named(name, unit, text, whole_unit) if name else UNITS[when_bare or unit]
        if not first and (named.factor >= last_factor or named.offset):
            raise Unreadable(
                f"“{_short(text)}” doesn't go from a larger unit to a smaller one.", "Write it as in 3 lb 4 oz."
            )
        total += convert(number, named.symbol, unit)
        typed = named.symbol if name and typed is None else typed
        last_factor, first = named.factor, False
    if first:
        raise _no_number(text, unit)
    if negative:
        total = (
            total
            if not total
            else convert(-convert(total, unit, typed or when_bare or unit), typed or when_bare or unit, unit)
        )
    return total, typed


def _split_unit(text: str, dimension: str) -> tuple[str, str]:
    """The unit at the start of *text*, and the rest; the 2 or 3 of cm2 and cm3 belongs to the unit where areas or volumes fit."""
    found = (_POWER_UNIT_TEXT if dimension in _WITH_POWERS else _UNIT_TEXT).match(text)
    name = found.group() if found else ""
    return name.strip(), text[len(name) :].lstrip()


def _unit_as_written(text: str) -> str:
    """The unit at the start of *text* with the digits that belong to it, to be quoted whole where it is refused."""
    found = _WHOLE_UNIT.match(text)
    return found.group().strip() if found else ""


def _named(name: str, unit: str, text: str, whole_unit: str) -> Unit:
    key = name.lower().rstrip(".") if name.lower() not in BY_NAME else name.lower()
    key = _SLASH.sub("/", key)
    if key == "m" and UNITS[unit].dimension == "time":
        key = "min"
    if key == "oz" and UNITS[unit].dimension == "volume":
        key = "fl oz"
    if key in _TWO_MEANINGS:
        raise Unreadable(*_TWO_MEANINGS[key])
    if any(key.startswith(vessel) for vessel in _NO_FIXED_SIZE):
        raise _no_fixed_size(text, unit)
    found = BY_NAME.get(key)
    if found is None:
        other = BY_NAME.get(whole_unit.lower())
        if other and other.dimension != UNITS[unit].dimension:
            raise _misfit(text, unit)
        raise Unreadable(f"“{_short(whole_unit)}” isn't a known unit.", f"Write {_unit_name(unit)}.")
    if found.dimension != UNITS[unit].dimension:
        raise _misfit(text, unit)
    return found


def _misfit(text: str, unit: str) -> Unreadable:
    return Unreadable(f"“{_short(text)}” has a unit that doesn't fit here.", f"Write {_unit_name(unit)}.")


def _number(found: re.Match[str]) -> float:
    if found["whole"] is not None:
        return int(found["whole"]) + _quotient(found["over"], found["under"])
    if found["over_alone"] is not None:
        return _quotient(found["over_alone"], found["under_alone"])
    if found["spaced"] is not None:
        return float(found["spaced"].replace(" ", "").replace(",", "."))
    return _decimal(found["plain"])


def _quotient(over: str, under: str) -> float:
    if int(under) == 0:
        raise Unreadable(f"“{_short(over)}/{_short(under)}” divides by zero.", "Write the number with a decimal point.")
    return int(over) / int(under)


def _decimal(text: str) -> float:
    digits, _, exponent = text.lower().partition("e")
    comma, point = digits.count(","), digits.count(".")
    if comma and point:
        mark = "," if digits.rfind(",") > digits.rfind(".") else "."
        whole, _, part = digits.rpartition(mark)
        if mark in whole or not _in_threes(whole, "." if mark == "," else ","):
            raise Unreadable(
                f"“{_short(text)}” has points and commas in an order that can't be read.",
                "Write one decimal point or comma only.",
            )
        digits = re.sub("[.,]", "", whole) + "." + part
    elif comma > 1 or point > 1:
        if not _in_threes(digits, "," if comma else "."):
            raise Unreadable(
                f"“{_short(text)}” has more than one decimal mark.", "Write one decimal point or comma only."
            )
        digits = digits.replace(",", "").replace(".", "")
    elif comma:
        if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
            whole, part = digits.split(",")
            raise Unreadable(
                f"“{digits}” can mean {whole}.{part} or {whole}{part}.", f"Write {whole}.{part} or {whole}{part}."
            )
        digits = digits.replace(",", ".")
    return float(digits + ("e" + exponent if exponent else ""))


def _in_threes(text: str, mark: str) -> bool:
    return re.fullmatch(rf"\d{{1,3}}(?:{re.escape(mark)}\d{{3}})*", text) is not None


def _no_number(text: str, unit: str) -> Unreadable:
    word = text.lower().removeprefix("a ").removeprefix("one ").split(" ")[0]
    if any(word.startswith(vessel) for vessel in _NO_FIXED_SIZE):
        return _no_fixed_size(text, unit)
    return Unreadable(f"“{_short(text)}” isn't a number.", _number_and(unit))


def _no_fixed_size(text: str, unit: str) -> Unreadable:
    return Unreadable(f"“{_short(text)}” has no fixed size.", f"Weigh or measure it and write {_unit_name(unit)}.")


def _number_and(unit: str) -> str:
    return f"Write a number and {_unit_name(unit)}." if unit else "Write a number."


def _unit_name(unit: str) -> str:
    return {"": "a number", "%": "percent"}.get(unit, unit)


def _short(text: str) -> str:
    return text if len(text) <= 24 else text[:23] + "…"
