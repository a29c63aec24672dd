"""What a job asks: a frozen dataclass whose fields are words, checked alone and then together.

A field is ``name: float | None = ask("name")``; the word says how it is read, its bounds and its measuring error. A required field is
never None, so its type says so: ``name: float = ask("name", required=True)``. A form may narrow a word (its label, help, default,
usual range, or *exact*: a wish, without measuring error), never its unit or basis.

Where a job works out a field that was left empty, a subclass says that it is always there, and `Filled.into` fills it::

    class ResolvedTemper(TemperForm):
        moisture_pct_wet: float

A rule between fields is a method with ``@rule`` that yields what is wrong. It runs whenever the fields that it looks at are right, even
where another field is wrong. Keep each rule to one matter, so that no field which it does not need keeps it from running.

``jobs/temper`` is a short example.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields, replace
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import shown_given
from sandmix.language.words import Quantity, ReadValue, Value, Word
from sandmix.maths.uncertainty import Band, Ends, Key
from sandmix.vocabulary import WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """How one form asks for a word: on its first page or under "more", whether it is required, and what it narrows."""

    word: Word
    first: bool
    required: bool
    exact: bool
    label: str
    help: str
    default: Value
    usual: tuple[float, float] | None

    def read(self, given: object) -> ReadValue:
        """Return the value that *given* means, with a remark where it is outside the usual range of this form."""
        word = self.word
        return (replace(word, usual=self.usual) if isinstance(word, Quantity) else word).read(given)


def ask(
    name: str,
    *,
    first: bool = False,
    required: bool = False,
    exact: bool = False,
    label: str = "",
    help: str = "",
    default: float | None = None,
    blank: bool = False,
    usual: tuple[float, float] | None = None,
) -> Any:
    """Return the dataclass field that asks for the word *name*.

    Its default is *default*, or else that of the word, or none if *blank*. Its usual range is *usual*, or else that of the word.
    """
    word = WORDS[name]
    own = None if blank else getattr(word, "default", None)
    asked = Ask(
        word=word,
        first=first,
        required=required and (own if default is None else default) is None,
        exact=exact,
        label=label or word.label,
        help=help or word.help,
        default=own if default is None else default,
        usual=usual or getattr(word, "usual", None),
    )
    return field(default=asked.default, metadata={"ask": asked})


Check = Callable[[Any], Iterable[Problem]]


def rule(check: Check) -> Check:
    """Mark a method of a form as a rule between its fields: it yields what is wrong between fields that are each allowed on their own."""
    check.__dict__["is_rule"] = True
    return check


class _NotRightError(Exception):
    """A rule looked at a field that is wrong or missing."""


def as_far_as_right(problems: Iterable[Problem]) -> Iterable[Problem]:
    """Yield *problems*, which a generator finds, up to where it looks at a field that is wrong or missing.

    Use it inside a rule that repeats one check for several groups of fields.
    """
    try:
        yield from problems
    except _NotRightError:
        return


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """Base of all forms."""

    def problems(self) -> Iterable[Problem]:
        """Yield what is wrong between the fields, rule by rule. A rule ends where it looks at a field that is not there."""
        for name in _rules(type(self)):
            yield from as_far_as_right(self._broken(name))

    def _broken(self, name: str) -> Iterable[Problem]:
        yield from getattr(self, name)()

    @classmethod
    def partly(cls, values: Mapping[str, Value], wrong: Iterable[str]) -> Form:
        """Return a form of the right *values* and the defaults, in which the fields *wrong* are not there; only its rules can be asked."""
        form, missing = object.__new__(cls), set(wrong)
        for name, part in asks(cls).items():
            if name not in missing:
                object.__setattr__(form, name, values.get(name, part.default))
        return form

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> Any:
            raise _NotRightError if name in asks(type(self)) else AttributeError(name)

    def wrong(self, name: str, allowed: str, what_to_do: str) -> Problem:
        """Return a problem with the word *name*, with its value in this form."""
        asked, value = asks(type(self))[name], getattr(self, name)
        given = "nothing" if value is None else asked.word.show(value)
        return Problem(word=name, given=given, allowed=allowed, message=f"{asked.label}: {what_to_do}")


MOST_HINTS = 100
"""After so many unknown inputs none is compared with the known ones any more."""
F = TypeVar("F", bound=Form)
"""A form as it was filled in."""
R = TypeVar("R", bound=Form)
"""A form as it is computed with: the same one, or a subclass whose fields are all there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled(Generic[F]):
    """A filled form: its values, the likely ranges of uncertain words (also in rows), which words were assumed, and remarks.

    ``origins`` names, for a word that was worked out, the causes of its uncertainty: words or other causes, each with its 95 % half-width.
    ``turns`` are values of uncertain words at which figures turn around.
    """

    form: F
    bands: Mapping[Key, Ends]
    assumed: frozenset[str]
    remarks: tuple[str, ...] = ()
    origins: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    turns: Mapping[Key, float] = field(default_factory=dict)

    def resolved(
        self,
        values: Mapping[str, Any],
        *,
        bands: Mapping[str, Ends] | Mapping[Key, Ends] | None = None,
        without: Iterable[Key] = (),
        remarks: Iterable[str] = (),
        origins: Mapping[str, Mapping[str, float]] | None = None,
    ) -> Filled[F]:
        """Return the same with some *values* set, with their *bands*, without the bands of the words *without*, and with *remarks* added."""
        return self.into(type(self.form), values, bands=bands, without=without, remarks=remarks, origins=origins)

    def into(
        self,
        kind: type[R],
        values: Mapping[str, Any],
        *,
        bands: Mapping[str, Ends] | Mapping[Key, Ends] | None = None,
        without: Iterable[Key] = (),
        remarks: Iterable[str] = (),
        origins: Mapping[str, Mapping[str, float]] | None = None,
    ) -> Filled[R]:
        """Do the same as `resolved`, and return a form of another *kind*: a subclass whose types say which fields are always there."""
        dropped: set[Key] = {*without, *values}
        kept: dict[Key, Ends] = {word: band for word, band in self.bands.items() if not {word, _whole(word)} & dropped}
        kept.update((word, band) for word, band in (bands or {}).items())
        whole = {part.name: getattr(self.form, part.name) for part in fields(self.form)}
        return Filled(
            form=kind(**{**whole, **values}),
            bands=kept,
            assumed=self.assumed,
            remarks=(*self.remarks, *remarks),
            origins={**self.origins, **(origins or {})},
            turns=self.turns,
        )


def moved(form: F, values: Mapping[Key, Any]) -> F:
    """Return the form with some words, or words in rows, set to other values."""
    whole = {word: value for word, value in values.items() if isinstance(word, str)}
    for word, value in values.items():
        if isinstance(word, tuple):
            name, at, part = word
            rows = list(whole.get(name, getattr(form, name)))
            rows[at] = {**rows[at], part: value}
            whole[name] = rows
    return replace(form, **whole)


def _whole(word: Key) -> str:
    return word if isinstance(word, str) else word[0]


_ASKS: dict[type[Form], dict[str, Ask]] = {}


def asks(form: type[Form]) -> dict[str, Ask]:
    """Return what *form* asks, by word, in its order. A field whose type a subclass narrows is the same input as in the base."""
    if form not in _ASKS:
        kinds = [kind for kind in reversed(form.__mro__) if issubclass(kind, Form)]
        _ASKS[form] = {
            part.name: part.metadata["ask"] for kind in kinds for part in fields(kind) if "ask" in part.metadata
        }
    return _ASKS[form]


def _rules(form: type[Form]) -> tuple[str, ...]:
    """The names of a form's rules, those of its bases first; a method that replaces one takes its place."""
    named = (name for kind in reversed(form.__mro__) for name, part in vars(kind).items() if hasattr(part, "is_rule"))
    return tuple(dict.fromkeys(named))


def fill(form: type[F], inputs: Mapping[str, object], *, of: str = "this job") -> Filled[F]:
    """Read *inputs* into *form*; raises InputError with all problems, first of each word alone and then of several together.

    What is wrong between several fields is checked wherever these are right, even if others are wrong.

    An empty text or a null counts as left out. *of* names what the form belongs to, for an unknown word.
    """
    asked = asks(form)
    problems: list[Problem] = []
    values: dict[str, Value] = {}
    bands: dict[Key, Band] = {}
    remarks: list[str] = []
    given = {name: value for name, value in inputs.items() if not _left_out(value)}
    unknown = [(name, value) for name, value in given.items() if name not in asked]
    problems.extend(
        _unknown(name, value, tuple(asked), of, hints=at < MOST_HINTS) for at, (name, value) in enumerate(unknown)
    )
    for name, part in asked.items():
        if name not in given:
            if part.required:
                problems.append(
                    Problem(
                        word=name,
                        given="nothing",
                        allowed=part.word.allowed,
                        message=f"{part.label}: this is empty. Enter {part.word.allowed}.",
                    )
                )
            continue
        try:
            taken = part.read(given[name])
        except InputError as error:
            problems.extend(_relabelled(problem, part) for problem in error.problems)
            continue
        values[name] = taken.value
        remarks.extend([_with_label(taken.remark, part)] if taken.remark else [])
        bands |= {(name, *place): band for place, band in taken.parts.items()}
        if taken.half_width is not None and isinstance(taken.value, float):
            bands[name] = _clipped(part.word, taken.value, taken.half_width)
    if problems:
        wrong = {name for name, part in asked.items() if name not in values and (name in given or part.required)}
        raise InputError([*problems, *form.partly(values, wrong).problems()])
    filled = form(**values)
    if between := list(filled.problems()):
        raise InputError(between)
    assumed = frozenset(asked) - values.keys()
    return Filled(
        form=filled, bands=_own_bands(filled, asked, assumed) | bands, assumed=assumed, remarks=tuple(remarks)
    )


def band_about(name: str, value: float, half_width: float) -> Band:
    """Return the band of *half_width* around *value*, cut off at the bounds of the word."""
    return _clipped(WORDS[name], value, half_width)


def _own_bands(form: Form, asked: Mapping[str, Ask], assumed: frozenset[str]) -> dict[Key, Band]:
    bands: dict[Key, Band] = {}
    for name, part in asked.items():
        value = getattr(form, name)
        if part.exact or not isinstance(part.word, Quantity) or not isinstance(value, (int, float)):
            continue
        half_width = part.word.half_width(value, assumed=name in assumed)
        if half_width > 0:
            bands[name] = _clipped(part.word, value, half_width)
    return bands


def _clipped(word: Word, value: float, half_width: float) -> Band:
    assert isinstance(word, Quantity)
    return word.band(value, half_width)


def _left_out(value: object) -> bool:
    if isinstance(value, Mapping) and set(value) <= {"value", "unit"}:
        value = value.get("value", 0)
    return value is None or (isinstance(value, str) and not value.strip())


def _relabelled(problem: Problem, part: Ask) -> Problem:
    return replace(problem, message=_with_label(problem.message, part))


def _with_label(text: str, part: Ask) -> str:
    """A sentence of a word, with the label that this form gives to the word."""
    own = f"{part.word.label}: "
    return f"{part.label}: {text.removeprefix(own)}" if text.startswith(own) else text


def _unknown(name: str, given: object, asked: tuple[str, ...], of: str, *, hints: bool) -> Problem:
    near = get_close_matches(name[:60], asked, n=1) if hints else []
    allowed = ", ".join(asked) if hints else "the inputs"
    hint = f" Did you mean {near[0]}?" if near else f" The inputs are {allowed}." if hints else ""
    said = shown_given(name)
    return Problem(
        word=said, given=shown_given(given), allowed=allowed, message=f"“{said}” isn't an input of {of}.{hint}"
    )
