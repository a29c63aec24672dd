"""The words with more than one value: sizes, picks, a table by key, rows of things.

Each part is a word, which checks and reads it. What is wrong in a part is reported under the label of the whole word.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, cast

from sandmix.language.errors import InputError, Problem
from sandmix.language.texts import LONGEST_TEXT, of_text
from sandmix.language.wording import list_of, lowered, plain, shown_given
from sandmix.language.words import Quantity, ReadValue, Value, Word

MOST_ROWS = 200
MOST_KEYS = 100
"""A table has at most so many numbers: there are no more sieves in a stack."""
LONGEST_SIZES = 200
FIGURES = 5
_BY = re.compile(r"\s*(?:[x×*;]|\bby\b)\s*", re.IGNORECASE)
_ROW_ENDS = re.compile(r"[;\n]|,(?=\s*\w+\s*:)|,(?=\s+[#\w][^:;,\n]*:)")
_PICK_ENDS = re.compile(r"[;,\n]")
_TRAILING_UNIT = re.compile(r"[^\W\d]+$|[\"″”'′’]$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes(Word):
    """Several lengths at once, such as the three sides of a box: a list, or a text such as "200 x 100 x 20 mm".

    They are shown with the sign ``between`` between them, to five figures of the largest.
    """

    kind: ClassVar[str] = "sizes"
    each: Quantity
    count: int
    basis: str = ""
    between: str = "×"

    @property
    def unit(self) -> str:
        """The unit of each of them."""
        return self.each.unit

    def read(self, given: object) -> ReadValue:
        parts = self._parts(given)
        if len(parts) != self.count:
            raise self.refuse(
                given, self.allowed, f"{self.count} sizes are needed. Write them as {self._example}, or as a list."
            )
        return self._read_each(parts)

    def _read_each(self, parts: Sequence[object]) -> ReadValue:
        """All of them, or everything that is wrong in them at once."""
        values: list[float] = []
        problems: list[Problem] = []
        for part in parts:
            try:
                value = self.each.read(part).value
                assert isinstance(value, float)
                values.append(value)
            except InputError as error:
                problems.extend(error.problems)
        if problems:
            own = f"{self.each.label}: "
            raise InputError(
                Problem(
                    word=self.name,
                    given=problem.given,
                    allowed=problem.allowed,
                    message=f"{self.label}: {problem.message.removeprefix(own)}",
                )
                for problem in problems
            )
        return ReadValue(value=values)

    def show(self, value: Value) -> str:
        sizes = [
            float(size) for size in (value if isinstance(value, list) else [value]) if isinstance(size, (int, float))
        ]
        largest = max((abs(size) for size in sizes), default=0.0)
        digits = FIGURES - 1 - math.floor(math.log10(largest)) if largest else 0
        return f"{f' {self.between} '.join(plain(round(size, digits) + 0.0) for size in sizes)} {self.each.unit}"

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"{self.count} sizes, each {self.each.allowed}"

    @property
    def _example(self) -> str:
        return " x ".join(["200", "100", "20", "10"][: self.count]) + f" {self.each.unit}"

    def _parts(self, given: object) -> list[object]:
        """The text of each size; a separate unit, or one after the last size, counts for sizes without a unit."""
        unit = ""
        if isinstance(given, Mapping) and set(given) <= {"value", "unit"} and "value" in given:
            unit, given = str(given.get("unit") or ""), given["value"]
        if isinstance(given, (list, tuple)):
            return [
                {"value": part, "unit": unit} if unit and isinstance(part, (int, float)) else part for part in given
            ]
        if not isinstance(given, str) or len(given) > LONGEST_SIZES:
            raise self.refuse(given, self.allowed, f"these aren't sizes. Write them as {self._example}.")
        parts = [part.strip() for part in _BY.split(given)]
        typed = [_TRAILING_UNIT.search(part) for part in parts]
        if any(typed) and not typed[-1]:
            raise self.refuse(
                given,
                self.allowed,
                f"the unit could belong to all sizes or to one. Write it after the last, as {self._example}, or after each.",
            )
        unit = typed[-1][0] if typed[-1] else unit
        return [part if found or not unit else f"{part} {unit}" for part, found in zip(parts, typed, strict=True)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picks(Word):
    """Several of some named things, such as signs of a defect: a list of their keys or labels, or a text such as "scabs, blows".

    Its value is a list of keys, each once, in the order of the choices.
    """

    kind: ClassVar[str] = "picks"
    choices: Mapping[str, str]

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"one or more of {list_of(tuple(self.choices))}"

    def read(self, given: object) -> ReadValue:
        given = of_text(given)
        if isinstance(given, str) and len(given) <= LONGEST_TEXT:
            given = [part.strip() for part in _PICK_ENDS.split(given) if part.strip()]
        if not isinstance(given, Sequence) or isinstance(given, (str, bytes)):
            raise self.refuse(given, self.allowed, f"this isn't a list. Choose {self.allowed}.")
        if len(given) > MOST_ROWS:
            said = f"the list has {len(given)} entries; at most {MOST_ROWS} can be read. Name each once."
            raise self.refuse(f"{len(given)} of them", self.allowed, said)
        found: set[str] = set()
        problems: list[Problem] = []
        for part in given:
            if key := self._key(part):
                found.add(key)
            else:
                said = f"“{shown_given(part)}” isn't one of the choices. Choose {self.allowed}."
                problems += self.refuse(part, self.allowed, said).problems
        if problems:
            raise InputError(problems)
        return ReadValue(value=[key for key in self.choices if key in found])

    def show(self, value: Value) -> str:
        keys = value if isinstance(value, Sequence) and not isinstance(value, str) else ()
        return ", ".join(self.choices.get(str(key), str(key)) for key in keys) or "none"

    def _key(self, part: object) -> str:
        said = part.strip().lower() if isinstance(part, str) else ""
        names = ((key, (key, key.replace("_", " "), label.lower())) for key, label in self.choices.items())
        return next((key for key, spellings in names if said in spellings), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnKey:
    """How a form asks for a key that the table does not list.

    ``label`` names such a thing, ``key_label`` names its key, and ``unit`` is the unit of a key that is entered as a number in its own
    box. ``bare`` is put before a number that is entered elsewhere, to say what it is.
    """

    label: str
    key_label: str
    unit: str
    bare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Table(Word):
    """Numbers by key, such as what each sieve retained: ``{"50": 21.4, "pan": 0.2}``, or a text such as "50: 21.4; pan: 0.2".

    A list of pairs, ``[["50", 21.4], ["pan", 0.2]]``, means the same. Where the table is shown, numbers below ``shown_from`` are left out.
    """

    kind: ClassVar[str] = "table"
    own: ClassVar[OwnKey | None] = None
    keys: Mapping[str, str]
    each: Quantity
    shown_from: float = 0.0

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"{list_of(tuple(self.keys))}, each {self.each.allowed}"

    def read(self, given: object) -> ReadValue:
        pairs = _pairs(of_text(given))
        if not pairs:
            raise self.refuse(
                given, self.allowed, f"this isn't a table. Enter a number for each of {list_of(tuple(self.keys))}."
            )
        if len(pairs) > MOST_KEYS:
            said = f"the table has {len(pairs)} numbers; at most {MOST_KEYS} can be read. Leave some out."
            raise self.refuse(f"{len(pairs)} numbers", self.allowed, said)
        values: dict[str, float] = {}
        problems: list[Problem] = []
        for key, part in pairs:
            try:
                name = self.key_of(key)
                label = self.keys.get(name, name)
                if name in values:
                    raise self.refuse(key, self.allowed, f"{label} is given twice. Enter the sum once.")
            except InputError as error:
                problems += error.problems
                continue
            try:
                value = self.each.read(part).value
                assert isinstance(value, float)
                values[name] = value
            except InputError as error:
                problems += _under(self, label, self.each, error)
        if problems:
            raise InputError(problems)
        return ReadValue(value=self.ordered(values))

    def key_of(self, given: object) -> str:
        """Return the key that *given* names; raises InputError."""
        name = str(given).strip().lower()
        if name not in self.keys:
            said = f"“{shown_given(given)}” isn't one of the keys. Use {list_of(tuple(self.keys))}."
            raise self.refuse(given, self.allowed, said)
        return name

    def ordered(self, values: Mapping[str, float]) -> dict[str, float]:
        """Return the values in the order in which they are shown."""
        return {key: values[key] for key in self.keys if key in values}

    def show(self, value: Value) -> str:
        rows = list(value.items()) if isinstance(value, Mapping) else []
        shown = [f"{self.keys.get(key, key)}: {self.each.show(part)}" for key, part in rows if part >= self.shown_from]
        rest = [f"the rest under {self.each.show(self.shown_from)} each"] if len(shown) < len(rows) else []
        return ", ".join(shown + rest)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows(Word):
    """Several things of one kind, each with the same words: lots of sand, materials on hand. A list of objects, or its JSON text.

    ``each`` are the words of a row, ``needed`` those that every row must have, ``row_label`` names one row, and ``spoken`` are the words
    that are shown of each row where rows are listed in a sentence.
    """

    kind: ClassVar[str] = "rows"
    each: tuple[Word, ...]
    needed: tuple[str, ...]
    row_label: str
    spoken: tuple[str, ...] = ()
    fewest: int = 1
    most: int = MOST_ROWS

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"{self.fewest} to {self.most} of them, each with {list_of(tuple(word.name for word in self.each))}"

    @property
    def _example(self) -> str:
        return "{" + ", ".join(f'"{word}": …' for word in self.needed) + "}"

    def read(self, given: object) -> ReadValue:
        given = of_text(given)
        if not isinstance(given, Sequence) or isinstance(given, (str, bytes)):
            raise self.refuse(
                given, self.allowed, f"this isn't a list. Enter a list of {self.row_label}s, each as {self._example}."
            )
        if not self.fewest <= len(given) <= self.most:
            raise self.refuse(
                f"{len(given)} of them",
                self.allowed,
                f"the list holds {len(given)} {self.row_label}s. Enter {self.fewest} to {self.most}.",
            )
        rows: list[Mapping[str, object]] = []
        problems: list[Problem] = []
        remarks: list[str] = []
        bands: dict[tuple[int, str], tuple[float, float]] = {}
        for at, part in enumerate(given):
            row, wrong, odd = self._row(at, part, bands)
            rows.append(row)
            problems += wrong
            remarks += odd
        if problems:
            raise InputError(problems)
        return ReadValue(value=rows, remark=" ".join(remarks), parts=bands)

    def _row(
        self, at: int, given: object, bands: dict[tuple[int, str], tuple[float, float]]
    ) -> tuple[dict[str, object], list[Problem], list[str]]:
        """One row, what is wrong in it, and what is unusual. The bands of its uncertain words are added to *bands*."""
        name = f"{self.row_label} {at + 1}"
        if not isinstance(given, Mapping):
            said = f"{name} isn't an object of words and values. Write it as {self._example}."
            return {}, list(self.refuse(given, self.allowed, said).problems), []
        words = {word.name: word for word in self.each}
        row: dict[str, object] = {}
        problems: list[Problem] = []
        remarks: list[str] = []
        for key, part in given.items():
            if key not in words:
                said = f"{name}: “{shown_given(key)}” isn't an input of a {self.row_label}. The inputs are {list_of(tuple(words), 'and')}."
                problems += self.refuse(key, self.allowed, said).problems
            elif part is not None and part != "":
                try:
                    taken = words[key].read(part)
                except InputError as error:
                    problems += _under(self, name, words[key], error)
                    continue
                row[key] = taken.value
                if band := _band(words[key], taken):
                    bands[at, key] = band
                remarks += [f"{name}, {lowered(taken.remark)}"] if taken.remark else []
        for key in self.needed:
            if key not in row and not problems:
                said = f"{name}: the {lowered(words[key].label)} is missing. Enter it."
                problems += self.refuse("nothing", self.allowed, said).problems
        defaults = {word.name: getattr(word, "default", None) for word in self.each}
        return {**defaults, **row}, problems, remarks

    def show(self, value: Value) -> str:
        rows = value if isinstance(value, Sequence) else ()
        if not self.spoken:
            return f"{len(rows)} {self.row_label}{'' if len(rows) == 1 else 's'}"
        words = [word for name in self.spoken for word in self.each if word.name == name]
        return "; ".join(
            " ".join(word.show(cast("Value", row[word.name])) for word in words)
            for row in rows
            if isinstance(row, Mapping)
        )


def _band(word: Word, taken: ReadValue) -> tuple[float, float] | None:
    """The band of an uncertain word of a row, None where it is exact."""
    if not isinstance(word, Quantity) or not isinstance(taken.value, float):
        return None
    half_width = word.half_width(taken.value, assumed=False) if taken.half_width is None else taken.half_width
    return word.band(taken.value, half_width) if half_width > 0 else None


def _pairs(given: object) -> list[tuple[object, object]]:
    """The keys and numbers of a table, each pair as often as it was given; none if it is not a table.

    In a text, a comma ends a pair if a key follows.
    """
    if isinstance(given, Mapping):
        return list(given.items())
    if isinstance(given, str) and len(given) <= LONGEST_TEXT:
        parts = [part.partition(":") for part in _ROW_ENDS.split(given) if part.strip()]
        return [(key.strip(), value.strip()) for key, _, value in parts] if all(colon for _, colon, _ in parts) else []
    if not isinstance(given, list) or not all(isinstance(pair, list) and len(pair) == 2 for pair in given):
        return []
    return [(key, value) for key, value in given]


def _under(whole: Word, name: str, part: Word, error: InputError) -> list[Problem]:
    """What is wrong in a part, under the label of the whole and the place of the part."""
    own = (f"{part.label}: ", f"{part.label}, ")
    return [
        Problem(
            word=whole.name,
            given=problem.given,
            allowed=problem.allowed,
            message=f"{whole.label}, {name}: {part.label.lower()}"
            + (problem.message[len(part.label) :] if problem.message.startswith(own) else f": {problem.message}"),
        )
        for problem in error.problems
    ]
