"""The vocabulary, the forms and the sources as plain data: what every page, option and glossary is drawn from."""

from __future__ import annotations

from dataclasses import asdict

from sandmix import __version__
from sandmix.asking.answer import Answer
from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.bench.catalogue import TESTS, Procedure, Test
from sandmix.book.events import KINDS, EventKind
from sandmix.defects.causes import CAUSES, GRADES, SYMPTOMS
from sandmix.defects.findings import TRIALS
from sandmix.diagnosis.next_test import finding_in_words
from sandmix.diagnosis.ranking import POWER
from sandmix.jobs import JOBS
from sandmix.language.sources import SOURCES
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.uploads import LONGEST_UPLOAD, Upload
from sandmix.language.words import Choice, Quantity, Word
from sandmix.materials.metals import METALS
from sandmix.vocabulary import CHAPTERS, WORDS

METAL = "aluminium"


def describe() -> Answer:
    """Return the vocabulary, the choices, the forms and the sources, from which every form and option is drawn."""
    return {
        "ok": True,
        "job": "describe",
        "version": __version__,
        "words": {name: _described(word) for name, word in WORDS.items()},
        "chapters": {title: [word.name for word in chapter] for title, chapter in CHAPTERS.items()},
        "jobs": [_described_job(job) for job in JOBS.values()],
        "tests": [_described_test(test) for test in TESTS.values()],
        "events": [_described_event(kind) for kind in KINDS.values()],
        "ailments": _ailments(),
        "sources": {key: asdict(source) | {"citation": source.citation} for key, source in SOURCES.items()},
    }


def _ailments() -> Answer:
    """The table behind *diagnose*: grades, causes, signs, and what tests find; bands are those for the metal that is taken where none is named."""
    metal = METALS[METAL]
    return {
        "grades": dict(GRADES),
        "causes": [
            {
                "key": cause.key,
                "label": cause.label,
                "prior_pct": cause.prior_pct,
                "remedy": cause.remedy,
                "source": cause.source,
            }
            for cause in CAUSES.values()
        ],
        "symptoms": [
            {
                "key": sign.key,
                "label": sign.label,
                "family": sign.family,
                "chances": dict(sign.chances),
                "otherwise": sign.otherwise,
                "source": sign.source,
            }
            for sign in SYMPTOMS.values()
        ],
        "tests": [
            {
                "key": trial.key,
                "short": trial.short,
                "label": trial.label,
                "effort_min": trial.effort_min,
                "word": trial.word,
                "outcomes": [finding_in_words(trial, at, metal) for at in range(len(trial.outcomes))],
                "usual": list(trial.usual),
                "rows": {cause: list(row) for cause, row in trial.rows.items()},
                "source": trial.source,
            }
            for trial in TRIALS.values()
        ],
        "metal": metal.label,
        "power": POWER,
    }


def _described(word: Word) -> Answer:
    common = {"name": word.name, "kind": word.kind, "label": word.label, "help": word.help, "source": word.source}
    if isinstance(word, Choice):
        return common | {
            "choices": [{"value": value, "label": label} for value, label in word.choices.items()],
            "default": word.default,
        }
    if isinstance(word, Upload):
        return common | {"endings": list(word.endings), "most_bytes": LONGEST_UPLOAD}
    if isinstance(word, Picks):
        return common | {"choices": [{"value": value, "label": label} for value, label in word.choices.items()]}
    if isinstance(word, Sizes):
        each = word.each
        return common | {
            "unit": each.unit,
            "units": list(each.units),
            "count": word.count,
            "low": each.low,
            "high": each.high,
        }
    if isinstance(word, Table):
        return common | {
            "keys": dict(word.keys),
            "own": asdict(word.own) if word.own else None,
            "each_label": word.each.label,
            "unit": word.each.unit,
            "low": word.each.low,
            "high": word.each.high,
        }
    if isinstance(word, Rows):
        return common | {
            "row_label": word.row_label,
            "each": [_described(part) for part in word.each],
            "needed": list(word.needed),
            "fewest": word.fewest,
            "most": word.most,
        }
    if not isinstance(word, Quantity):
        return common
    return common | {
        "unit": word.unit,
        "units": list(word.units or (word.unit,)),
        "basis": word.basis,
        "low": word.low,
        "high": word.high,
        "usual": list(word.usual) if word.usual else None,
        "default": word.default,
        "digits": word.digits,
        "step": word.step,
        "error": word.error_note,
        "names": list(word.names),
    }


def _described_job(job: AnyJob) -> Answer:
    return {
        "name": job.name,
        "short": job.short,
        "title": job.title,
        "answered_with": job.answered_with,
        "on_casting_day": job.on_casting_day,
        "mind": job.mind,
        "page": job.name,
        "asks": [_described_ask(name, part) for name, part in asks(job.form).items()],
        "ways": [
            {
                "name": ways.name,
                "label": ways.label,
                "options": [{"name": way.name, "label": way.label, "words": list(way.words)} for way in ways.options],
            }
            for ways in job.ways
        ],
        "only_for": [
            {"choice": only.choice, "words": {word: list(values) for word, values in only.words.items()}}
            for only in job.only_for
        ],
        "answers": list(job.answers),
        "example": dict(job.example),
        "story": job.story,
    }


def _described_test(test: Test) -> Answer:
    return {
        "key": test.key,
        "label": test.label,
        "measures": test.measures,
        "says": test.says,
        "says_not": test.says_not,
        "figure": test.figure,
        "readings": list(test.readings),
        "home": _described_procedure(test.home),
        "lab": _described_procedure(test.lab) if test.lab is not None else None,
    }


def _described_procedure(procedure: Procedure) -> Answer:
    return {
        "takes": list(procedure.takes),
        "steps": [
            {"text": step.text, "wait_s": step.wait_s, "wait_label": step.wait_label} for step in procedure.steps
        ],
        "error": procedure.error,
    }


def _described_event(kind: EventKind) -> Answer:
    return {
        "kind": kind.key,
        "label": kind.label,
        "help": kind.help,
        "quick": kind.quick,
        "asks": [_described_ask(name, part) for name, part in asks(kind.form).items()],
    }


def _described_ask(name: str, part: Ask) -> Answer:
    return {
        "word": name,
        "label": part.label,
        "help": part.help,
        "default": part.default,
        "usual": list(part.usual) if part.usual else None,
        "exact": part.exact,
        "place": "first" if part.first else "more",
        "required": part.required,
    }
