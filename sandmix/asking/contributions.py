"""What makes an answer uncertain: the inputs that bring the ±, each with its share, and the cheapest way to a smaller one.

It is read off the propagation, so that no job has a line of code for it. The share of an input is the share of the variance that it brings; the
variance of an uneven effect is the mean of both sides squared. Where an input was itself worked out, its own causes take its place.
Source: the usual law of propagation, as in `maths/uncertainty.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, asks
from sandmix.language.tables import Rows
from sandmix.language.words import Quantity
from sandmix.maths.statistics import without_noise
from sandmix.maths.uncertainty import Band, Key, Propagated
from sandmix.vocabulary import WORDS
from sandmix.vocabulary.surer import CAUSES, STEPS

Offer = tuple[tuple[str, ...], str, float]
"""A step that a person can take: the inputs that it is about, what to do, and the share of their ± that is then left."""
LEAST_TOLD = 0.01
WORTH_IT = 0.9
"""A step is named where it brings the ± to this share of today's or below."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contribution:
    """One input, its name for a person, its share of a figure's variance, and what it alone moves the figure by, down and up."""

    input: str
    label: str
    share: float
    half_width: tuple[float, float]

    @property
    def text(self) -> str:
        """The share as a person reads it."""
        return f"{100 * self.share:.0f} %" if self.share >= LEAST_TOLD else "under 1 %"

    def to_dict(self) -> dict[str, object]:
        """Return the contribution as an answer holds it."""
        return {
            "input": self.input,
            "label": self.label,
            "share": self.share,
            "half_width": self.half_width,
            "text": self.text,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Surer:
    """A step that makes a figure surer: what to do, the half-width today and after it, in the figure's unit."""

    text: str
    now: float
    after: float

    @property
    def sentence(self) -> str:
        """What to do, and what that brings."""
        return f"{self.text} That brings the ± to about {100 * self.after / self.now:.0f} % of today's."

    def to_dict(self) -> dict[str, object]:
        """Return the step as an answer holds it."""
        return {"text": self.text, "now": self.now, "after": self.after, "sentence": self.sentence}


def contributions(filled: Filled[Any], propagated: Propagated, word: str) -> list[Contribution]:
    """Return what makes the figure *word* uncertain, the largest share first; nothing where the propagation did not make its band."""
    found = []
    for key, share, (below, above) in propagated.shares(word):
        for cause, part in _causes(filled, key):
            root = math.sqrt(part)
            half_width = (below * root, above * root)
            found.append(
                Contribution(input=_name(cause), label=called(filled, cause), share=share * part, half_width=half_width)
            )
    return sorted(found, key=lambda one: -one.share)


def surer(filled: Filled[Any], found: Mapping[str, Sequence[Contribution]]) -> dict[str, Surer]:
    """Return, for each figure, the step that makes it surest, of those that a person can take; none where none is worth its work."""
    values = {part: getattr(filled.form, part) for part in asks(type(filled.form))}
    known = [(step.inputs, *offered) for step in STEPS if (offered := step.offered(values))]
    measured = _measured(filled, values)
    best = {word: _best(known, measured, listed) for word, listed in found.items()}
    return {word: step for word, step in best.items() if step}


def _best(known: Sequence[Offer], measured: Mapping[str, Offer], found: Sequence[Contribution]) -> Surer | None:
    """The step that makes a figure surest; None where none is worth its work."""
    widths = {one.input: max(one.half_width) for one in found}
    now = math.hypot(*widths.values())
    steps = []
    for inputs, text, left in (*known, *(measured[name] for name in widths if name in measured)):
        after = math.hypot(*(width * (left if name in inputs else 1.0) for name, width in widths.items()))
        steps.append(Surer(text=text, now=now, after=after))
    best = min(steps, key=lambda step: step.after, default=None)
    return best if best is not None and now > 0 and best.after <= WORTH_IT * now else None


def _measured(filled: Filled[Any], values: Mapping[str, Any]) -> dict[str, Offer]:
    """The step to measure an input that was taken for granted, by the input; only where that makes it surer."""
    offers: dict[str, Offer] = {}
    for name, value in values.items():
        word = WORDS[name]
        if isinstance(word, Quantity) and name in filled.assumed and isinstance(value, (int, float)):
            assumed, measured = (word.half_width(float(value), assumed=known) for known in (True, False))
            if 0 < measured < assumed:
                offers[name] = (name,), f"Measure it yourself: {called(filled, name).lower()}.", measured / assumed
    return offers


def _causes(filled: Filled[Any], key: Key) -> Iterable[tuple[Key, float]]:
    """The causes of an input that was worked out, each with its share of the input's variance; itself where it has none."""
    causes: Mapping[str, float] = filled.origins.get(key, {}) if isinstance(key, str) else {}
    whole = sum(half**2 for half in causes.values())
    return [(cause, half**2 / whole) for cause, half in causes.items() if half] if whole else [(key, 1.0)]


def _name(key: Key) -> str:
    return key if isinstance(key, str) else f"{key[0]}[{key[1]}].{key[2]}"


def word_of(key: Key) -> Quantity:
    """Return the quantity behind the key of an uncertain number."""
    rows = WORDS[key if isinstance(key, str) else key[0]]
    word = next(part for part in rows.each if part.name == key[2]) if isinstance(rows, Rows) else rows
    assert isinstance(word, Quantity)
    return word


def called(filled: Filled[Any], key: Key) -> str:
    """What a person calls an input: by the form's label, or the name of a cause that is no word."""
    if isinstance(key, str):
        asked = asks(type(filled.form))
        return CAUSES[key] if key in CAUSES else asked[key].label if key in asked else WORDS[key].label
    rows = WORDS[key[0]]
    assert isinstance(rows, Rows)
    return f"{word_of(key).label}, {rows.row_label.lower()} {key[1] + 1}"


def uncertain(
    filled: Filled[Any], propagated: Propagated, bands: Mapping[str, Band], known_from: str
) -> dict[str, list[Contribution]]:
    """Return the contributions to each figure that has a band of some width; a band that the propagation did not make is that of *known_from*."""
    found: dict[str, list[Contribution]] = {}
    for word, (low, high) in bands.items():
        if without_noise(high - low, high) <= 0:
            continue
        listed = contributions(filled, propagated, word)
        if not listed and known_from:
            half = (high - low) / 2
            listed = [
                Contribution(input=known_from, label=called(filled, known_from), share=1.0, half_width=(half, half))
            ]
        if listed:
            found[word] = listed
    return found
