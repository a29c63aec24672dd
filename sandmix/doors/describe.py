"""The vocabulary, the forms and the sources as plain data: what every page, option and glossary is drawn from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import asdict

from sandmix import __version__
from sandmix.asking.answer import Answer
from sandmix.asking.form import Ask, Form, asks
from sandmix.asking.job import GROUPS, AnyJob
from sandmix.bench.catalogue import TESTS, Procedure, Test
from sandmix.book.events import KINDS, EventKind
from sandmix.defects.causes import CAUSES, GRADES
from sandmix.defects.findings import TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.diagnosis.next_test import finding_in_words
from sandmix.diagnosis.ranking import POWER
from sandmix.jobs import JOBS
from sandmix.language.shown_units import SYSTEMS, UNIT_KINDS, wish_of
from sandmix.language.sources import SOURCES
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.uploads import LONGEST_UPLOAD, Upload
from sandmix.language.words import Choice, Quantity, Word
from sandmix.materials.metals import METALS
from sandmix.vocabulary import CHAPTERS, WORDS
from sandmix.vocabulary.workshop import WORKSHOP

METAL = "aluminium"
"""The metal whose limits the description shows."""


def describe() -> Answer:
    """Return the vocabulary, the choices, the forms and the sources, from which every form and option is drawn."""
    return {
        "ok": True,
        "job": "describe",
        "version": __version__,
        "words": {name: _word(word) for name, word in WORDS.items()},
        "chapters": {title: [word.name for word in chapter] for title, chapter in CHAPTERS.items()},
        "jobs": [_job(job) for job in JOBS.values()],
        "groups": [{"group": group, "label": label} for group, label in GROUPS.items()],
        "tests": [_test(test) for test in TESTS.values()],
        "events": [_event(kind) for kind in KINDS.values()],
        "ailments": _defects(),
        "unit_kinds": [asdict(kind) for kind in UNIT_KINDS],
        "unit_systems": [{"key": key, "label": label, "wish": wish_of(key)} for key, (label, _) in SYSTEMS.items()],
        "workshop": [{"label": label, "words": list(words)} for label, words in WORKSHOP.items()],
        "sources": {key: asdict(source) | {"citation": source.citation} for key, source in SOURCES.items()},
    }


def _some(thing: object, *names: str) -> Answer:
    return {name: getattr(thing, name) for name in names}


def _defects() -> Answer:
    """The tables behind *diagnose*: grades, causes, signs, and what tests find."""
    metal = METALS[METAL]
    return {
        "grades": GRADES,
        "causes": [asdict(cause) for cause in CAUSES.values()],
        "symptoms": [asdict(sign) for sign in SYMPTOMS.values()],
        "tests": [
            _some(trial, "key", "short", "label", "effort_min", "word", "usual", "rows", "source")
            | {"outcomes": [finding_in_words(trial, at, metal) for at in range(len(trial.outcomes))]}
            for trial in TRIALS.values()
        ],
        "metal": metal.label,
        "power": POWER,
    }


def _word(word: Word) -> Answer:
    common = _some(word, "name", "kind", "label", "help", "source")
    match word:
        case Choice():
            return common | _choices(word.choices) | {"default": word.default}
        case Picks():
            return common | _choices(word.choices)
        case Upload():
            return common | {"endings": word.endings, "most_bytes": LONGEST_UPLOAD}
        case Sizes():
            return common | _some(word, "basis", "count") | _some(word.each, "unit", "units", "low", "high")
        case Table():
            own = asdict(word.own) if word.own else None
            return (
                common
                | _some(word.each, "unit", "low", "high")
                | {"keys": word.keys, "own": own, "each_label": word.each.label}
            )
        case Rows():
            return (
                common
                | _some(word, "row_label", "needed", "fewest", "most")
                | {"each": [_word(part) for part in word.each]}
            )
        case Quantity():
            return (
                common
                | _some(word, "unit", "basis", "low", "high", "usual", "default", "digits", "step")
                | {"units": word.units or (word.unit,), "error": word.error_note, "names": list(word.names)}
            )
        case _:
            return common


def _choices(choices: Mapping[str, str]) -> Answer:
    return {"choices": [{"value": value, "label": label} for value, label in choices.items()]}


def _job(job: AnyJob) -> Answer:
    plain = _some(job, "name", "short", "title", "answered_with", "group", "mind", "answers", "example", "story")
    return plain | {
        "page": job.name,
        "asks": _asks(job.form),
        "ways": [asdict(ways) for ways in job.ways],
        "only_for": [asdict(only) for only in job.only_for],
    }


def _test(test: Test) -> Answer:
    return _some(test, "key", "label", "measures", "says", "says_not", "figure", "readings") | {
        "home": _procedure(test.home),
        "lab": _procedure(test.lab) if test.lab is not None else None,
    }


def _procedure(procedure: Procedure) -> Answer:
    return _some(procedure, "takes", "error") | {"steps": [asdict(step) for step in procedure.steps]}


def _event(kind: EventKind) -> Answer:
    return _some(kind, "label", "help", "quick") | {"kind": kind.key, "asks": _asks(kind.form)}


def _asks(form: type[Form]) -> list[Answer]:
    return [
        _some(part, "label", "help", "default", "usual", "exact", "required")
        | {"word": name, "place": "first" if part.first else "more"}
        | _start(part)
        for name, part in asks(form).items()
    ]


def _start(part: Ask) -> Answer:
    """Where the buttons of a number start in an empty box."""
    if not isinstance(part.word, Quantity):
        return {}
    return {"start": start(part.word, part.default if isinstance(part.default, (int, float)) else None)}


def start(word: Quantity, default: float | None) -> float:
    """Return where the buttons − and + start in an empty box: the default, or a value from the middle of the usual range.

    A default of 0 stands for none of it, so the usual range goes first. The middle is the geometric mean of both ends, or a third of the
    high end where the low end is 0 (own rule), rounded to the step of the word. Without a usual range it is the typical value, or the
    lowest whole step.

    >>> start(WORDS["drag_depth_mm"], None)
    110.0
    """
    if default:
        return default
    if word.usual is None:
        lowest = math.ceil(word.low / word.step) * word.step if default is None else default
        return round(lowest, 9) if word.typical is None else word.typical
    low, high = word.usual
    middle = math.sqrt(low * high) if low > 0 else high / 3
    return round(round(middle / word.step) * word.step, 9) or middle
