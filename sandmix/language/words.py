"""The kinds of word: how a word checks, reads and shows its value.

A word is declared once, in ``vocabulary``. Forms, options, error messages, likely ranges and the page *Words* are all drawn from it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import ClassVar, Protocol, TypedDict, Unpack

from sandmix.language import amounts, units
from sandmix.language.errors import InputError, Problem
from sandmix.language.shown_units import ShownUnit, unit_for, wished
from sandmix.language.wording import (
    amount_of,
    in_unit,
    list_of,
    lowered,
    not_to_nothing,
    number_to,
    places,
    plain,
    short,
    shown_given,
    up_to,
    with_unit,
)

Value = (
    float
    | int
    | str
    | bool
    | Sequence[float]
    | Sequence[str]
    | Mapping[str, float]
    | Sequence[Mapping[str, object]]
    | None
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Error:
    """How far a reading may be off, as a 95 % half-width: a fixed part and a share of the value, or a wider one where it is only assumed."""

    absolute: float = 0.0
    relative: float = 0.0
    assumed: float | None = None

    def half_width(self, value: float, *, assumed: bool = False) -> float:
        """Return the 95 % half-width around *value*, in the unit of the word."""
        if assumed and self.assumed is not None:
            return self.assumed
        return math.hypot(self.absolute, self.relative * value)


EXACT = Error()
_LEAST_HALF_WIDTH = 1e-15
"""A ± that is a smaller share of the largest value counts as none: its square would be beyond what a float can hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadValue:
    """A value as read, the ± that came with it if there is one, and a remark if it is allowed but unusual.

    ``parts`` are the 95 % bands of words in rows, by row and word.
    """

    value: Value
    half_width: float | None = None
    remark: str = ""
    parts: Mapping[tuple[int, str], tuple[float, float]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """What every word has."""

    kind: ClassVar[str] = "word"
    name: str
    label: str
    help: str = ""
    source: str = "own"

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return "a text"

    def read(self, given: object) -> ReadValue:
        """Return the value that *given* means; raises InputError with everything that is wrong in it."""
        raise NotImplementedError

    def show(self, value: Value) -> str:
        """Return *value* as a person reads it."""
        return str(value)

    def refuse(self, given: object, allowed: str, what_to_do: str) -> InputError:
        """Return the error for *given*: what was given, what is allowed, what to do."""
        said = shown_given(given)
        return InputError([Problem(word=self.name, given=said, allowed=allowed, message=f"{self.label}: {what_to_do}")])


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity(Word):
    """A number with a unit, a basis, physical bounds, a usual range (or else a typical value) and a measuring error.

    ``by_factor``: its likely range is a factor each way, as with a time that may be half or twice as long.
    """

    kind: ClassVar[str] = "quantity"
    unit: str
    basis: str = ""
    low: float
    high: float
    usual: tuple[float, float] | None = None
    typical: float | None = None
    default: float | None = None
    digits: int = 2
    step: float = 1.0
    error: Error = EXACT
    error_note: str = ""
    units: tuple[str, ...] = ()
    names: Mapping[str, float] = field(default_factory=dict)
    rounds_like: str = ""
    rounds_up: bool = False
    is_share: bool = False
    by_factor: bool = False
    steps: str = ""

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        named = "".join(f", or {name}" for name in self.names)
        return f"{plain(self.low)} to {amount_of(self.high, self.unit)}{named}"

    def read(self, given: object) -> ReadValue:
        named = self._name_in(given)
        if named:
            return ReadValue(value=self.names[named])
        value, half_width, bare = self._amount(given)
        if not math.isfinite(value):
            raise self.refuse(given, self.allowed, f"this number is far too large. Enter {self.allowed}.")
        if not self.low <= value <= self.high:
            raise self.refuse(given, self.allowed, self._out_of_bounds(value, bare))
        if half_width is not None and half_width < _LEAST_HALF_WIDTH * max(abs(self.low), abs(self.high)):
            half_width = 0.0
        return ReadValue(value=value, half_width=half_width, remark=self._odd(value))

    def show(self, value: Value) -> str:
        return self.show_to(float(value), None) if isinstance(value, (int, float)) else str(value)

    def show_to(self, value: float, half_width: float | None) -> str:
        """Return *value* with its unit and no more digits than *half_width* allows.

        The unit is the one that suits the value (`unit_for`).
        """
        for name, named in self.names.items():
            if value == named:
                return name
        shown = self._shown_in(value)
        digits = not_to_nothing(shown.of(value), places(shown.digits, shown.width(half_width or 0)))
        number = number_to(self._up(shown.of(value), digits), digits)
        return with_unit(
            number if half_width or "." not in number or not self.trims else number.rstrip("0").rstrip("."), shown.unit
        )

    def show_range(self, low: float, high: float, value: float, half_width: float) -> str:
        """Return *low* to *high* in the unit and to the decimal place of *value*; nothing where both ends look the same."""
        shown = self._shown_in(value)
        digits = not_to_nothing(shown.of(value), places(shown.digits, shown.width(half_width)))
        least, most = number_to(shown.of(low), digits), number_to(self._up(shown.of(high), digits), digits)
        return "" if least == most else f"{least} to {with_unit(most, shown.unit)}"

    def _up(self, value: float, digits: int) -> float:
        """The value to show: the next higher one where rounding down would mislead, as with a time to wait."""
        return up_to(value, digits) if self.rounds_up else value

    def show_several(self, values: Sequence[float]) -> str:
        """Return a list of values as a person reads it: the first, the last, and how many steps there are."""
        shown = (
            self._shown_in(max(values, key=abs))
            if self.unit in wished()
            else ShownUnit(unit=self.unit, digits=self.digits)
        )
        first, last = (number_to(shown.of(value), shown.digits) for value in (values[0], values[-1]))
        span = with_unit(first if first == last else f"{first} to {last}", shown.unit)
        steps = self.steps.removesuffix("s") if len(values) == 1 else self.steps
        return f"{span} over {len(values)} {steps}" if steps else f"{span}, {len(values)} figures"

    @property
    def trims(self) -> bool:
        """Whether an exact value is shown without trailing zeros: 35 kg, but 30.50 for money."""
        return bool(self.unit)

    def half_width(self, value: float, *, assumed: bool) -> float:
        """Return the measuring error of *value* as a 95 % half-width."""
        return self.error.half_width(value, assumed=assumed)

    def band(self, value: float, half_width: float) -> tuple[float, float]:
        """Return the band of *half_width* around *value*, cut off at the bounds."""
        return float(max(self.low, value - half_width)), float(min(self.high, value + half_width))

    def _name_in(self, given: object) -> str:
        """The name of a figure that was given in its place, with or without a unit, or an empty text."""
        said = given.get("value") if isinstance(given, Mapping) else given
        name = said.strip().lower() if isinstance(said, str) else ""
        return name if name in self.names else ""

    def _shown_in(self, value: float) -> ShownUnit:
        return unit_for(self.unit, self.units, value, self.digits)

    def _amount(self, given: object) -> tuple[float, float | None, bool]:
        unit, half_width = None, None
        if isinstance(given, Mapping):
            unit, half_width, given = self._parts(given)
        if isinstance(given, bool) or not isinstance(given, (int, float, str)):
            raise self.refuse(
                given, self.allowed, f"this isn't a number. Enter a number{in_unit(self.unit)}: {self.allowed}."
            )
        if isinstance(given, str):
            if self.is_share and "%" in given:
                return self._percent(given)
            try:
                reading = amounts.read(given, self.unit, when_bare=unit)
            except units.Unreadable as error:
                what_to_do = f"{lowered(error.why)} Allowed: {self.allowed}. {error.instead}"
                raise self.refuse(given, self.allowed, what_to_do) from None
            except (OverflowError, ValueError):
                raise self.refuse(given, self.allowed, f"this number is too long. Enter {self.allowed}.") from None
            return (
                reading.value,
                half_width if reading.half_width is None else reading.half_width,
                reading.typed_unit is None and unit is None,
            )
        try:
            value = units.convert(float(given), unit or self.unit, self.unit)
        except OverflowError:
            value = math.inf
        return value, half_width, unit is None

    def _percent(self, given: str) -> tuple[float, float | None, bool]:
        """A share of 1 that was written in percent."""
        try:
            reading = amounts.read(given, "%")
        except (units.Unreadable, OverflowError, ValueError):
            raise self.refuse(
                given, self.allowed, f"“{shown_given(given)}” isn't a share. Write 0.02 or 2 %."
            ) from None
        return reading.value / 100, None if reading.half_width is None else reading.half_width / 100, False

    def _parts(self, given: Mapping[object, object]) -> tuple[str | None, float | None, object]:
        unknown = sorted(str(key) for key in given if key not in ("value", "unit", "doubt"))
        if unknown or "value" not in given:
            raise self.refuse(
                dict(given), self.allowed, 'write an amount as a number, a text, or {"value", "unit", "doubt"}.'
            )
        unit = given.get("unit")
        named = None if unit is None else units.named(unit, self.unit)
        if unit is not None and named is None:
            fits = units.same_dimension(self.unit)
            use = f"Use {list_of(fits)}" if any(fits) else "Enter the number without a unit"
            raise self.refuse(unit, ", ".join(fits), f"“{shown_given(unit)}” doesn't fit here. {use}.")
        half_width = given.get("doubt")
        if half_width is not None and (
            isinstance(half_width, bool) or not isinstance(half_width, (int, float)) or not 0 <= half_width < 1e300
        ):
            raise self.refuse(
                half_width, "0 or more", "its ± (“doubt”) must be a number of 0 or more, in the same unit."
            )
        if half_width is None:
            return named, None, given["value"]
        whole = units.convert(float(half_width), named or self.unit, self.unit) - units.convert(
            0.0, named or self.unit, self.unit
        )
        return named, whole, given["value"]

    def _out_of_bounds(self, value: float, bare: bool) -> str:
        much = "little" if value < self.low else "much"
        said = f"{amount_of(value, self.unit)} is too {much}. Enter {self.allowed}."
        if self.is_share and bare and 1 < value <= 100:
            return f"{said} If you mean percent, write {plain(value)} %."
        if bare and value > self.high:
            for smaller in units.same_dimension(self.unit):
                if self.low <= units.convert(value, smaller, self.unit) <= self.high and smaller != self.unit:
                    return f"{said} If you mean {smaller}, write {amount_of(value, smaller)}."
        return f"{said} Check the number{' and its unit' if self.unit else ''}."

    def _odd(self, value: float) -> str:
        if self.usual is None or self.usual[0] <= value <= self.usual[1]:
            return ""
        low, high = self.usual
        usual = f"{plain(low)} to {amount_of(high, self.unit)}"
        return (
            f"{self.label}: {amount_of(short(value), self.unit)} is outside the usual {usual}. It is used as entered."
        )


class QuantitySettings(TypedDict, total=False):
    """What the declaration of a quantity may say, besides its name, label, unit and basis."""

    help: str
    source: str
    low: float
    high: float
    usual: tuple[float, float] | None
    typical: float | None
    default: float | None
    digits: int
    step: float
    error: Error
    error_note: str
    units: tuple[str, ...]
    names: Mapping[str, float]
    rounds_like: str
    rounds_up: bool
    is_share: bool
    by_factor: bool
    steps: str


class Declare(Protocol):
    """Declares a quantity by its name and label; what is not given is as in its family."""

    def __call__(
        self, name: str, label: str, basis: str | None = None, **settings: Unpack[QuantitySettings]
    ) -> Quantity: ...


def quantities(unit: str, family_basis: str = "", **common: Unpack[QuantitySettings]) -> Declare:
    """Return the function that declares a family of quantities: of one unit, and alike in what *common* says.

    >>> mm = quantities("mm", "inside", low=10, high=3000)
    >>> mm("depth_mm", "Depth", low=0).allowed
    '0 to 3000 mm'
    """

    def declare(name: str, label: str, basis: str | None = None, **settings: Unpack[QuantitySettings]) -> Quantity:
        both: QuantitySettings = {**common, **settings}
        return Quantity(name=name, label=label, unit=unit, basis=family_basis if basis is None else basis, **both)

    return declare


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Word):
    """One of a few named things."""

    kind: ClassVar[str] = "choice"
    choices: Mapping[str, str] = field(default_factory=dict)
    default: str | None = None

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return list_of(tuple(self.choices))

    def read(self, given: object) -> ReadValue:
        if isinstance(given, bool):
            given = "yes" if given else "no"
        if isinstance(given, str):
            plain = given.strip().lower()
            for value, label in self.choices.items():
                if plain in (value, label.lower(), value.replace("_", " ")):
                    return ReadValue(value=value)
        what_to_do = f"“{shown_given(given)}” isn't one of the choices. Choose {self.allowed}."
        raise self.refuse(given, self.allowed, what_to_do)

    def show(self, value: Value) -> str:
        return self.choices.get(str(value), str(value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence(Word):
    """A short text in an answer."""

    kind: ClassVar[str] = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Names(Word):
    """Several names in an answer, such as sieves."""

    kind: ClassVar[str] = "list"

    def show(self, value: Value) -> str:
        names = [str(name) for name in value] if isinstance(value, Sequence) and not isinstance(value, str) else []
        return ", ".join(names) or "none"
