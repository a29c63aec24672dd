"""From signs, readings and checks to ranked causes, with what speaks for and against each.

The model is Bayes' rule for one leading cause, with the evidence taken as independent once the cause is known:

    weight(cause) ∝ prior(cause) × Π chance(clue | cause)^POWER

Where it is weak, and what is done about it. *Signs are not independent*: sand that crumbles also drops. The power below 1 damps the
overconfidence that this brings, and nothing is concluded before signs of two families speak. *Two causes can be there at once*: the
cause ``other`` has the usual chance of every clue, so it gains where no single cause fits all of them. *A sign that was not picked* says
nothing, unless the person says that there was nothing else; then it speaks with the small power ABSENT. *A reading has its doubt*:
its chance is that of the bands, each weighted by the part of the reading's normal spread that lies in it, never that of its point alone.

Source: own (the power, the thresholds and the grades); Bayes' rule is mathematics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from sandmix.defects.causes import CAUSES, NAMED, OTHER, SYMPTOMS
from sandmix.defects.findings import CHECKS, READINGS
from sandmix.materials.metals import Metal
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.vocabulary import WORDS

POWER = 0.8
"""How far a clue counts, as a power of its chance: below 1, since clues are not independent."""
ABSENT = 0.3
"""The power of a sign that was looked for and is not there, times POWER."""
LIKELY = 0.45
"""The least weight of a cause that is called likely."""
MARGIN = 2.0
"""How many times the runner-up it must weigh."""
INDEPENDENT = 2
"""How many families of evidence must speak for a cause before it is called likely."""
NEAR = 0.5
"""The part of the leader's weight from which a cause counts among the leading."""
MOST_LEADING = 4
SPEAKS = 1.5
"""How many times the usual chance a clue must have under a cause to speak for it; or the usual its own, to speak against."""

Weights = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One piece of evidence: what it says, the family it belongs to, and its chance under each cause, ``other`` included."""

    key: str
    words: str
    family: str
    chances: Weights
    power: float = 1.0


def posterior(priors: Weights, clues: Iterable[tuple[Weights, float]], power: float = POWER) -> dict[str, float]:
    """Return the weight of each cause, as shares of one, from *priors* and each clue's chances and own power; computed in logs.

    >>> weights = posterior({"a": 1, "b": 3}, [({"a": 0.9, "b": 0.1}, 1.0)], power=1.0)
    >>> round(weights["a"], 6), round(weights["b"], 6)
    (0.75, 0.25)
    """
    logs = {cause: math.log(prior) for cause, prior in priors.items()}
    for chances, own in clues:
        logs = {cause: log + power * own * math.log(chances[cause]) for cause, log in logs.items()}
    top = max(logs.values())
    raw = {cause: math.exp(log - top) for cause, log in logs.items()}
    whole = sum(raw.values())
    return {cause: part / whole for cause, part in raw.items()}


def weigh(clues: Iterable[Evidence]) -> dict[str, float]:
    """Return the weight of every cause of the table under *clues*, as shares of one, the heaviest first."""
    weights = posterior(_priors(), [(clue.chances, clue.power) for clue in clues])
    return dict(sorted(weights.items(), key=lambda pair: -pair[1]))


@cache
def _priors() -> dict[str, float]:
    return {cause.key: cause.prior_pct for cause in CAUSES.values()}


@cache
def _sign_chances(key: str) -> dict[str, float]:
    """The chance of a sign under each cause; under ``other`` it is the mean of all by how common they are."""
    sign, priors = SYMPTOMS[key], _priors()
    chances = {cause: sign.chance(cause) for cause in NAMED}
    usual = sum(priors[cause] * chances[cause] for cause in NAMED) / sum(priors[cause] for cause in NAMED)
    return chances | {OTHER: usual}


def sign(key: str) -> Evidence:
    """Return the clue of a sign that was seen."""
    return Evidence(key=key, words=SYMPTOMS[key].label, family=SYMPTOMS[key].family, chances=_sign_chances(key))


def absent(keys: Iterable[str]) -> list[Evidence]:
    """Return the clues of all signs but *keys*, for a person who says that there was nothing else."""
    seen = set(keys)
    return [
        Evidence(
            key=f"no_{key}",
            words=f"not seen: {symptom.label}",
            family="absent",
            chances={cause: 1 - chance for cause, chance in _sign_chances(key).items()},
            power=ABSENT,
        )
        for key, symptom in SYMPTOMS.items()
        if key not in seen
    ]


def shares_in_bands(value: float, half_width: float, edges: Sequence[float]) -> list[float]:
    """Return which part of a reading's normal spread lies in each band between *edges*; *half_width* is that of its 95 % band.

    A reading without doubt lies in one band; one that stands on an edge, in the band above it.

    >>> shares_in_bands(5.0, 0.0, [4, 6]), [round(part, 3) for part in shares_in_bands(4.0, 1.96, [4, 5])]
    ([0.0, 1.0, 0.0], [0.5, 0.341, 0.159])
    """
    deviation = half_width / TWO_SIGMA
    below = [
        float(edge > value) if deviation <= 0 else 0.5 * math.erfc((value - edge) / deviation / math.sqrt(2))
        for edge in edges
    ]
    return [high - low for low, high in zip([0.0, *below], [*below, 1.0], strict=True)]


def reading(word: str, value: float, half_width: float, metal: Metal) -> Evidence:
    """Return the clue of a reading, integrated over its doubt."""
    trial = READINGS[word]
    assert trial.edges is not None
    shares = shares_in_bands(value, half_width, trial.edges(metal))
    chances = {
        cause: sum(share * chance for share, chance in zip(shares, trial.chances(cause), strict=True))
        for cause in CAUSES
    }
    at = max(range(len(shares)), key=shares.__getitem__)
    declared = WORDS[word]
    return Evidence(
        key=word,
        words=f"{declared.label.lower()} {declared.show(value)} ({list(trial.outcomes.values())[at]})",
        family=trial.key,
        chances=chances,
    )


def check(outcome: str) -> Evidence:
    """Return the clue of a check's outcome."""
    trial = CHECKS[outcome]
    at = list(trial.outcomes).index(outcome)
    return Evidence(
        key=outcome,
        words=trial.outcomes[outcome],
        family="strength" if trial.key == "squeeze" else trial.key,
        chances={cause: trial.chances(cause)[at] for cause in CAUSES},
    )


def kinds_for(clues: Iterable[Evidence], cause: str) -> set[str]:
    """Return the families of evidence that speak for *cause*; what was not seen is none."""
    return {clue.family for clue in clues if clue.family != "absent" and speaks(clue, cause) > 0}


def leading(weights: Weights) -> list[str]:
    """Return the causes that lead, the heaviest first: those of at least half the leader's weight, four at most, ``other`` left out."""
    named = sorted((cause for cause in weights if cause != OTHER), key=lambda cause: -weights[cause])
    return [cause for cause in named if weights[cause] >= NEAR * weights[named[0]]][:MOST_LEADING]


def is_likely(weights: Weights, clues: Sequence[Evidence]) -> bool:
    """Return whether the leader may be called likely: heavy enough, well ahead, and on two kinds of evidence for it."""
    ordered = sorted(weights, key=lambda cause: -weights[cause])
    first, second = ordered[0], ordered[1]
    clear = weights[first] >= LIKELY and weights[first] >= MARGIN * weights[second]
    return first != OTHER and clear and len(kinds_for(clues, first)) >= INDEPENDENT


def contradictions(clues: Sequence[Evidence]) -> list[tuple[Evidence, Evidence]]:
    """Return the pairs of clues that each speak for some cause, but for none that the other does not speak against."""
    spoken = [clue for clue in clues if clue.family != "absent"]
    pairs = [(one, two) for at, one in enumerate(spoken) for two in spoken[at + 1 :]]
    return [pair for pair in pairs if _clash(*pair)]


def _clash(one: Evidence, two: Evidence) -> bool:
    said = [(speaks(one, cause), speaks(two, cause)) for cause in NAMED]
    each_speaks = any(first > 0 for first, _ in said) and any(second > 0 for _, second in said)
    return each_speaks and not any(max(pair) > 0 and min(pair) >= 0 for pair in said)


def speaks(clue: Evidence, cause: str) -> int:
    """Return 1 where *clue* speaks for *cause*, -1 where against it, and 0 where it says little."""
    ratio = clue.chances[cause] / clue.chances[OTHER]
    return (ratio >= SPEAKS) - (ratio <= 1 / SPEAKS)
