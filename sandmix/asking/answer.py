"""The answer of a job to its inputs as plain data: fill the form, compute, propagate the uncertainty, write the answer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from sandmix.asking.contributions import called, surer, uncertain, word_of
from sandmix.asking.form import Filled, asks, fill, moved
from sandmix.asking.job import AnyJob, Computed, Figures, Telling, WayOut
from sandmix.language.sources import SOURCES
from sandmix.language.wording import list_of, lowered
from sandmix.language.words import Quantity
from sandmix.maths.uncertainty import Band, Key, Propagated, propagate, rescaled
from sandmix.vocabulary import WORDS
from sandmix.vocabulary.surer import CAUSES

Answer = dict[str, Any]
MOST_NAMED = 3


def answer(job: AnyJob, inputs: Mapping[str, object], *, doubt: bool = True) -> Answer:
    """Return the answer of *job* to *inputs* as plain data; raises InputError with everything that is wrong."""
    filled = job.resolve(fill(job.form, job.unfold(inputs)))
    signed: Figures = {word: value for word, value in job.run(filled.form).items() if _is_finite(value)}
    propagated = _propagated(job, filled, signed)
    bands = _bands(job, filled, propagated, signed)
    figures: Figures = {
        word: _cut(word, value) if isinstance(value, float) else value for word, value in signed.items()
    }
    finished = figures | job.finish(filled, figures, bands)
    figures = {word: value for word, value in finished.items() if _is_finite(value)}
    computed = Computed(filled=filled, figures=figures, doubt=bands)
    telling = job.tell(computed)
    result: Figures = {word: figures[word] for word in job.answers if word in figures}
    told: Answer = _plain(telling)
    return told | {
        "ok": True,
        "job": job.name,
        "result": result,
        **(_doubt(job, filled, propagated, {word: bands[word] for word in result if word in bands}) if doubt else {}),
        "remarks": [
            *filled.remarks,
            *telling.remarks,
            *_left_out(job, filled, result),
            *_open(filled, propagated, result),
        ],
        "ways_out": [*filled.remarks, *(remark for remark in telling.remarks if isinstance(remark, WayOut))],
        "cautions": [str(caution) for caution in telling.cautions],
        "sources": {key: SOURCES[key].citation for key in _source_keys(job, filled, result, telling)},
        "state": {"word": telling.state[0], "tone": telling.state[1]},
        "lead": _plain(telling.lead) | {"sentence": telling.headline},
        "shown": [_shown(computed, word, telling.labels.get(word)) for word in result],
    }


def _plain(value: Any) -> Any:
    """A dataclass and all that it holds as dictionaries, tuples and lists. What has no parts is not copied, as `asdict` would do."""
    if isinstance(value, (str, float)):
        return value
    if isinstance(value, dict):
        return {name: _plain(part) for name, part in value.items()}
    if isinstance(value, (tuple, list)):
        return type(value)(map(_plain, value))
    names = _names_in(value.__class__)
    return {name: _plain(getattr(value, name)) for name in names} if names else value


@cache
def _names_in(kind: type) -> tuple[str, ...]:
    """The names of a dataclass's fields; none for any other type."""
    return tuple(part.name for part in fields(kind)) if is_dataclass(kind) else ()


def _shown(computed: Computed[Any], word: str, label: str | None) -> Answer:
    return {
        "word": word,
        "label": label or WORDS[word].label,
        "text": computed.text(word),
        "range": computed.range(word),
        "basis": getattr(WORDS[word], "basis", ""),
    }


def _doubt(job: AnyJob, filled: Filled[Any], propagated: Propagated, bands: Mapping[str, Band]) -> Answer:
    """The likely ranges, what makes each uncertain, and for each the cheapest way to make it surer."""
    found = uncertain(filled, propagated, bands, job.known_from)
    own = job.causes(filled.form) if job.causes else {}
    return {
        "doubt": {word: list(band) for word, band in bands.items()},
        "uncertainty": {word: [one.to_dict() for one in listed] for word, listed in found.items()}
        | {word: own[word] for word in bands if word in own},
        "surer": {word: step.to_dict() for word, step in surer(filled, found).items()},
    }


def _open(filled: Filled[Any], propagated: Propagated, result: Figures) -> Iterable[str]:
    """A remark for each input beyond which some figures have no answer."""
    ends: dict[tuple[Key, float], list[str]] = {}
    for name, farthest in propagated.open_ends.items():
        if name in result:
            for key, value in farthest.items():
                if key in CAUSES:
                    continue
                ends.setdefault((key, value), []).append(WORDS[name].label.lower())
    for (key, value), labels in ends.items():
        word, label = word_of(key), called(filled, key)
        side = "below" if value < _values(filled)[key] else "above"
        named = list_of(labels) if len(labels) <= MOST_NAMED else f"{', '.join(labels[:MOST_NAMED])} and others"
        yield (
            f"The likely range of {named} is open: with {lowered(label)} {side} {word.show_to(value, abs(value) / 1000)} "
            "there is no answer."
        )


def _propagated(job: AnyJob, filled: Filled[Any], figures: Figures) -> Propagated:
    """The bands by propagation, and what each input alone brings to them."""
    run = job.rough or job.run
    about = run(filled.form) if job.rough else figures
    found = propagate(
        lambda values: run(moved(filled.form, values)),
        filled.bands,
        about,
        _values(filled),
        filled.turns,
        _by_factor(about),
    )
    return rescaled(found, about, figures) if job.rough else found


def _by_factor(figures: Figures) -> set[str]:
    """The figures whose likely range is a factor each way."""
    return {word for word in figures if getattr(WORDS[word], "by_factor", False)}


def _values(filled: Filled[Any]) -> dict[Key, float]:
    """The value that each uncertain word has, of rows as well."""
    values: dict[Key, float] = {}
    for key in filled.bands:
        held = getattr(filled.form, key) if isinstance(key, str) else getattr(filled.form, key[0])[key[1]].get(key[2])
        if isinstance(held, (int, float)):
            values[key] = float(held)
    return values


def _bands(job: AnyJob, filled: Filled[Any], propagated: Propagated, figures: Figures) -> dict[str, Band]:
    bands = {**propagated.bands, **(job.known(filled.form) if job.known else {})}
    return {
        word: (_least(word, low, figures.get(word)), _most(word, high, figures.get(word)))
        for word, (low, high) in bands.items()
        if math.isfinite(low) and math.isfinite(high)
    }


def _is_finite(value: object) -> bool:
    """Whether a figure can be shown: it is there and not infinite."""
    return value is not None and not (isinstance(value, float) and not math.isfinite(value))


def _cut(word: str, value: float) -> float:
    """The value, or 0 where it is negative and the word can't be: a negative mass to add means none to add."""
    declared = WORDS[word]
    return max(value, 0.0) if isinstance(declared, Quantity) and declared.low >= 0 else value


def _least(word: str, low: float, value: object) -> float:
    """The low end of a band, cut at the bound of the word, but never above the figure itself."""
    declared = WORDS[word]
    least = declared.low if isinstance(declared, Quantity) else -math.inf
    return max(low, min(least, _cut(word, value) if isinstance(value, float) else least))


def _most(word: str, high: float, value: object) -> float:
    """The high end of a band, cut at the bound of the word, but never below the figure itself."""
    declared = WORDS[word]
    most = declared.high if isinstance(declared, Quantity) else math.inf
    return min(_cut(word, high), max(most, value if isinstance(value, float) else most))


def _left_out(job: AnyJob, filled: Filled[Any], result: Figures) -> Iterable[str]:
    """One remark for each set of missing inputs that leaves out some answers."""
    asked = asks(job.form)
    missing: dict[tuple[str, ...], list[str]] = {}
    for word, needs in job.needs(filled.form, result).items():
        absent = tuple(need for need in needs if getattr(filled.form, need) is None)
        if word not in result and absent:
            missing.setdefault(absent, []).append(lowered(WORDS[word].label))
    for absent, answers in missing.items():
        inputs = list_of([lowered(asked[need].label) for need in absent], "and")
        yield f"Left out: {list_of(answers, 'and')}. To get {'it' if len(answers) == 1 else 'them'}, enter {inputs}."


def _source_keys(job: AnyJob, filled: Filled[Any], result: Figures, telling: Telling) -> list[str]:
    used = [name for name in asks(job.form) if getattr(filled.form, name) is not None]
    keys = [WORDS[name].source for name in (*used, *result)] + [caution.source for caution in telling.cautions]
    keys += telling.sources
    return list(dict.fromkeys(keys))
