"""The casting as plain data with a version, checked as a whole before it is used, and what changes it.

A casting is ``{"format": "sandmix casting", "version": 1, "name", "begun", "figures", "own", …}``. ``figures`` are the person's own figures
for the plan by word, as they were typed. ``own`` are those that were changed in the job of a step, by job and word. Castings from a page or
a file are checked here and nowhere else: no figure is left out without a word. Whether a figure can be right is for the job that asks for it.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from sandmix.casting.layers import ASSUMED, YOURS, Known, Layer, is_empty, merged
from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.language.tables import Rows
from sandmix.language.texts import is_finite
from sandmix.language.timestamps import seconds_of
from sandmix.language.wording import shown_given
from sandmix.language.words import Word
from sandmix.vocabulary import WORDS

FORMAT, VERSION = "sandmix casting", 1
LONGEST_NAME = 60
LONGEST_TEXT = 500
LONGEST_FIGURE = 5000
LONGEST_BOX = 200
"""A box of a row with the name of its word: a number with its unit, or a short text."""
MOST_PARTS = 500
DOCUMENTS = ("casting", "book", "now")
"""What is given with a casting and never in it: a book in it would take the place of the real one."""
STEPS = ("fit", "feed", "gate", "mix", "shopping", "temper", "flask", "facing", "pour", "burnout", "rebond")
"""The jobs of the steps in which a person can change figures."""
HEAP_WORDS = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")
SAMPLE = ("sample_wet_g", "sample_dry_g", "scale_step_g")
HEAP_FIGURES = (*HEAP_WORDS, *SAMPLE)
"""Figures of the heap and its test: true on their day, so an entry in the book takes their place."""
DEFAULTS: Mapping[str, object] = {
    "flasks": [{"flask_length_mm": 300.0, "flask_width_mm": 300.0, "drag_depth_mm": 100.0, "cope_depth_mm": 100.0}],
    "sand_bag_kg": 25.0,
    "clay_bag_kg": 25.0,
}
"""What is assumed until the person says otherwise: one common flask, and common bags (own choice)."""
BAGS_ASSUMED = "Bags of 25 kg are assumed for what was not given. Enter the size of your own."
ASSUMED_SAID = {
    "flasks": "No flask was given: one of 300 × 300 mm inside, with 100 mm in each half, is assumed. Enter your own.",
    "sand_bag_kg": BAGS_ASSUMED,
    "clay_bag_kg": BAGS_ASSUMED,
}
"""What an answer says of each figure that is assumed."""

Figures = Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Casting:
    """A checked casting.

    ``begun`` and ``finished`` are timestamps; ``finished`` is empty while the casting is open. ``pattern`` is the name of a kept pattern and
    ``pattern_figures`` its figures. ``ticks`` are the points of checklists that are ticked, ``clocks`` those that run, and ``recorded`` the
    entries that the book took over from this casting.
    """

    name: str
    begun: str
    finished: str = ""
    figures: Figures = field(default_factory=dict)
    own: Mapping[str, Figures] = field(default_factory=dict)
    pattern: str = ""
    pattern_figures: Figures = field(default_factory=dict)
    ticks: tuple[Mapping[str, object], ...] = ()
    clocks: tuple[Mapping[str, object], ...] = ()
    recorded: tuple[Mapping[str, object], ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """Return the casting as it is saved."""
        return {
            "format": FORMAT,
            "version": VERSION,
            "name": self.name,
            "begun": self.begun,
            "finished": self.finished,
            "figures": dict(self.figures),
            "own": {job: dict(figures) for job, figures in self.own.items()},
            "pattern": {"name": self.pattern, "figures": dict(self.pattern_figures)},
            "ticks": [dict(tick) for tick in self.ticks],
            "clocks": [dict(clock) for clock in self.clocks],
            "recorded": [dict(entry) for entry in self.recorded],
        }

    def known(self) -> dict[str, Known]:
        """Return the figures of the plan, each with its origin: own figures, then those of the kept pattern, then what is assumed."""
        of_pattern = f"from the pattern “{self.pattern}”" if self.pattern else "from the pattern"
        return merged(
            [
                Layer(origin=YOURS, figures=self.figures),
                Layer(origin=of_pattern, figures=self.pattern_figures),
                Layer(origin=ASSUMED, figures=DEFAULTS),
            ]
        )

    def with_figures(self, figures: Figures) -> Casting:
        """Return the casting with own *figures* for the plan set; an empty one puts the word back to what is known without it."""
        kept = {word: given for word, given in {**self.figures, **figures}.items() if not is_empty(given)}
        return replace(self, figures=kept)

    def with_entry(self, entry: Mapping[str, Any]) -> Casting:
        """Return the casting after the book took over *entry* from it: what was typed of the heap, or of the new sand, is the book's from now on."""
        noted = {part: entry[part] for part in ("kind", "id", "at") if part in entry}
        after = replace(self._without_heap(), recorded=(*self.recorded, noted))
        if entry.get("kind") != "mixed":
            return after
        return replace(after, own={job: figures for job, figures in after.own.items() if job != "mix"})

    def again(self) -> Casting:
        """Return the same casting to be done once more: without what was true only for the day of the last one."""
        return replace(self._without_heap(), finished="", ticks=(), clocks=(), recorded=())

    def ids_of(self, kind: str) -> set[str]:
        """Return the ids of the entries of one *kind* that the book took over from this casting."""
        return {str(entry.get("id")) for entry in self.recorded if entry.get("kind") == kind}

    def _without_heap(self) -> Casting:
        own = {job: _without_heap(figures) for job, figures in self.own.items()}
        return replace(
            self, figures=_without_heap(self.figures), own={job: figures for job, figures in own.items() if figures}
        )


def begin(name: str, at: str) -> Casting:
    """Return a new casting, begun *at*, a timestamp."""
    return Casting(name=name, begun=at)


def read(data: object, words: Container[str] = WORDS) -> Casting:
    """Return the casting that *data* holds; raises InputError with everything that is wrong with it.

    *words* are those that the plan asks for.
    """
    whole = _checked(data)
    problems: list[str] = []
    pattern = _part(whole, "pattern", problems)
    own = _part(whole, "own", problems)
    if not_steps := [shown_given(job) for job in own if job not in STEPS]:
        problems.append(
            f"it has own figures for “{not_steps[0]}”, which isn't a step whose figures can be changed. Take them out, or use the "
            "sandmix that wrote the file."
        )
    casting = Casting(
        name=_text(whole, "name", LONGEST_NAME, problems),
        begun=_time(whole, "begun", problems),
        finished=_time(whole, "finished", problems),
        figures=_figures(whole.get("figures", {}), "its figures", problems, words),
        own={
            job[:LONGEST_NAME]: _figures(figures, f"its figures for “{shown_given(job)}”", problems)
            for job, figures in own.items()
        },
        pattern=_text(pattern, "name", LONGEST_NAME, problems),
        pattern_figures=_figures(pattern.get("figures", {}), "the figures of its pattern", problems, words),
        ticks=_list(whole, "ticks", problems),
        clocks=_list(whole, "clocks", problems),
        recorded=_list(whole, "recorded", problems),
    )
    if problems:
        raise InputError([_problem(problem) for problem in problems])
    return casting


def _checked(data: object) -> Mapping[str, Any]:
    """The casting as an object of a version that can be read."""
    from_sandmix = "Use a file that sandmix saved."
    if not isinstance(data, Mapping):
        raise _refused(f"this is not a casting. {from_sandmix}")
    if data.get("format") != FORMAT:
        raise _refused(
            f"this is another kind of file (“{shown_given(data.get('format'))}”), not a casting. {from_sandmix}"
        )
    version = data.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise _refused(f"its version (“{shown_given(version)}”) is not a number from 1. The file is damaged.")
    if version > VERSION:
        raise _refused(
            f"a newer sandmix wrote it (format {version}; this one reads up to {VERSION}). Nothing was changed. Update "
            "sandmix, then open the casting again."
        )
    return data


def _text(whole: Mapping[str, Any], part: str, longest: int, problems: list[str]) -> str:
    given = whole.get(part, "")
    if not isinstance(given, str) or len(given) > longest:
        problems.append(f"its {part} must be a text of at most {longest} characters. Shorten it.")
        return ""
    return "".join(letter if letter.isprintable() else " " for letter in given).strip()


def _time(whole: Mapping[str, Any], part: str, problems: list[str]) -> str:
    given = whole.get(part, "")
    if given == "":
        return ""
    try:
        seconds_of(given if isinstance(given, str) else "")
    except SandmixError as error:
        problems.append(f"the time “{part}” can't be read: {error}")
        return ""
    return str(given)


def _part(whole: Mapping[str, Any], part: str, problems: list[str]) -> Mapping[str, Any]:
    given = whole.get(part, {})
    if not isinstance(given, Mapping) or len(given) > MOST_PARTS or not all(isinstance(name, str) for name in given):
        problems.append(f"its part “{part}” is not an object of at most {MOST_PARTS} names. The file is damaged.")
        return {}
    return given


def _figures(given: object, where: str, problems: list[str], words: Container[str] = WORDS) -> Figures:
    """Figures by word: words that are asked for, and values short enough to have been typed."""
    if not isinstance(given, Mapping) or len(given) > MOST_PARTS:
        problems.append(f"{where} are not an object of words and values. The file is damaged.")
        return {}
    known = [word for word in given if word in WORDS]
    wrong = {
        "have no word “{}”. Take it out, or use the sandmix that wrote the file.": [
            word for word in given if word not in WORDS
        ],
        "hold “{}”, which is given with a casting and not in it. Take it out.": [
            word for word in known if word in DOCUMENTS
        ],
        "have “{}”, which the plan doesn't ask for. Take it out, or move it to “own”, under the job that asks for it.": [
            word for word in known if word not in words and word not in DOCUMENTS
        ],
        "have a value for “{}” that is too long. Shorten it.": [
            word for word in known if len(repr(given[word])) > _longest(WORDS[word])
        ],
        "have a number for “{}” that is far too large. Correct it.": [
            word for word, value in given.items() if not is_finite(value)
        ],
    }
    for said, found in wrong.items():
        problems.extend(f"{where} {said.format(_label(word))}" for word in found[:1])
    return {word: value for word, value in given.items() if not is_empty(value)}


def _label(word: object) -> str:
    """What a person knows a word by, or the word itself where it is unknown."""
    return WORDS[word].label if isinstance(word, str) and word in WORDS else shown_given(word)


def _longest(word: Word) -> int:
    """The length of the longest value of a word: a list may have all the rows that the word allows, each box of them filled."""
    if not isinstance(word, Rows):
        return LONGEST_FIGURE
    return max(LONGEST_FIGURE, word.most * len(word.each) * LONGEST_BOX)


def _list(whole: Mapping[str, Any], part: str, problems: list[str]) -> tuple[Mapping[str, object], ...]:
    given = whole.get(part, [])
    if not isinstance(given, list) or len(given) > MOST_PARTS or not all(_is_row(row) for row in given):
        problems.append(f"its part “{part}” is not a list of at most {MOST_PARTS} rows. The file is damaged.")
        return ()
    if not is_finite(given):
        problems.append(f"its part “{part}” has a number that is far too large. Correct it, or take its row out.")
        return ()
    return tuple(given)


def _is_row(row: object) -> bool:
    """Whether it is an object with short texts and numbers as values."""
    return isinstance(row, Mapping) and all(
        isinstance(name, str) and isinstance(value, (str, int, float, type(None))) and len(str(value)) <= LONGEST_TEXT
        for name, value in row.items()
    )


def _refused(what_to_do: str) -> InputError:
    return InputError([_problem(what_to_do)])


def _problem(what_to_do: str) -> Problem:
    return Problem(word="casting", given="a file", allowed="", message=f"The casting: {what_to_do}")


def _without_heap(figures: Figures) -> dict[str, object]:
    return {word: given for word, given in figures.items() if word not in HEAP_FIGURES}
