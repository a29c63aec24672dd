"""From signs, readings and checks to ranked causes, with the evidence for and against each.

The model is Bayes' rule for one leading cause. Given the cause, the clues count as independent:

    share(cause) ∝ prior(cause) × Π chance(clue | cause)^POWER

Its weak points, and what is done about them. *Signs are not independent*: sand that crumbles also drops. The power below 1 reduces the
overconfidence that follows, and no cause is called likely before two families of clues support it. *Two causes can be present at once*:
the cause ``other`` has the usual chance of every clue, so it gains where no single cause fits all of them. *A sign that was not picked*
counts as unknown, unless the person says that there was nothing else; then it counts with the small power ABSENT. *A reading is
uncertain*: its chance is the mean over the bands, each weighted by the part of the reading's normal distribution in it.

Source: own (the power, the thresholds and the grades); Bayes' rule is mathematics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.defects.findings import CHECKS, READINGS
from sandmix.defects.signs import SYMPTOMS
from sandmix.materials.metals import Metal
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.vocabulary import WORDS

POWER = 0.8
"""How much a clue counts, as a power of its chance: below 1, because clues are not independent."""
ABSENT = 0.3
"""The power of a sign that was looked for and not seen, times POWER."""
LIKELY = 0.45
"""The least share of a cause that is called likely."""
MARGIN = 2.0
"""How many times the share of the runner-up it must have."""
INDEPENDENT = 2
"""How many families of clues must support a cause before it is called likely."""
NEAR = 0.5
"""The part of the leader's share from which another cause counts as leading too."""
MOST_LEADING = 4
SUPPORT = 1.5
"""A clue supports a cause from this many times its usual chance, and speaks against it from the inverse."""

Shares = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One clue: its text, its family, and its chance with each cause, ``other`` included."""

    key: str
    text: str
    family: str
    chances: Shares
    power: float = 1.0


def posterior(priors: Shares, clues: Iterable[tuple[Shares, float]], power: float = POWER) -> dict[str, float]:
    """Return the share of each cause from *priors* and the chances and own power of each clue; computed with logarithms.

    >>> shares = posterior({"a": 1, "b": 3}, [({"a": 0.9, "b": 0.1}, 1.0)], power=1.0)
    >>> round(shares["a"], 6), round(shares["b"], 6)
    (0.75, 0.25)
    """
    logs = {cause: math.log(prior) for cause, prior in priors.items()}
    for chances, own in clues:
        logs = {cause: log + power * own * math.log(chances[cause]) for cause, log in logs.items()}
    top = max(logs.values())
    raw = {cause: math.exp(log - top) for cause, log in logs.items()}
    whole = sum(raw.values())
    return {cause: part / whole for cause, part in raw.items()}


def rank(clues: Iterable[Evidence]) -> dict[str, float]:
    """Return the share of every cause of the table with *clues*, the largest first."""
    shares = posterior(_priors(), [(clue.chances, clue.power) for clue in clues])
    return dict(sorted(shares.items(), key=lambda pair: -pair[1]))


@cache
def _priors() -> dict[str, float]:
    return {cause.key: cause.prior_pct for cause in CAUSES.values()}


@cache
def _sign_chances(key: str) -> dict[str, float]:
    """The chance of a sign with each cause; with ``other`` it is the mean of all, weighted by how common they are."""
    symptom, priors = SYMPTOMS[key], _priors()
    chances = {cause: symptom.chance(cause) for cause in NAMED}
    usual = sum(priors[cause] * chances[cause] for cause in NAMED) / sum(priors[cause] for cause in NAMED)
    return chances | {OTHER: usual}


def sign(key: str) -> Evidence:
    """Return the clue of a sign that was seen."""
    return Evidence(key=key, text=SYMPTOMS[key].label, family=SYMPTOMS[key].family, chances=_sign_chances(key))


def absent(keys: Iterable[str]) -> list[Evidence]:
    """Return the clues of all signs except *keys*, for a person who says that there was nothing else."""
    seen = set(keys)
    return [
        Evidence(
            key=f"no_{key}",
            text=f"not seen: {symptom.label}",
            family="absent",
            chances={cause: 1 - chance for cause, chance in _sign_chances(key).items()},
            power=ABSENT,
        )
        for key, symptom in SYMPTOMS.items()
        if key not in seen
    ]


def shares_in_bands(value: float, half_width: float, edges: Sequence[float]) -> list[float]:
    """Return the part of a reading's normal distribution in each band between *edges*; *half_width* is that of its likely range.

    A reading without uncertainty is in one band; one exactly on an edge is in the band above it.

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
    """Return the clue of a reading, averaged over its uncertainty."""
    trial, declared = READINGS[word], WORDS[word]
    shares = shares_in_bands(value, half_width, trial.edges(metal))
    chances = {
        cause: sum(share * chance for share, chance in zip(shares, trial.chances(cause), strict=True))
        for cause in CAUSES
    }
    band = list(trial.outcomes.values())[shares.index(max(shares))]
    return Evidence(
        key=word, text=f"{declared.label.lower()} {declared.show(value)} ({band})", family=trial.key, chances=chances
    )


def check(outcome: str) -> Evidence:
    """Return the clue of the outcome of a check."""
    trial = CHECKS[outcome]
    at = list(trial.outcomes).index(outcome)
    return Evidence(
        key=outcome,
        text=trial.outcomes[outcome],
        family="strength" if trial.key == "squeeze" else trial.key,
        chances={cause: trial.chances(cause)[at] for cause in CAUSES},
    )


def families_for(clues: Iterable[Evidence], cause: str) -> set[str]:
    """Return the families of the clues that support *cause*; signs that were not seen do not count."""
    return {clue.family for clue in clues if clue.family != "absent" and support(clue, cause) > 0}


def leading(shares: Shares) -> list[str]:
    """Return the leading causes, the largest first: those with at least half the leader's share, four at most, without ``other``."""
    named = sorted((cause for cause in shares if cause != OTHER), key=lambda cause: -shares[cause])
    return [cause for cause in named if shares[cause] >= NEAR * shares[named[0]]][:MOST_LEADING]


def is_likely(shares: Shares, clues: Sequence[Evidence]) -> bool:
    """Return whether to call the leader likely: its share is large enough, well ahead, and supported by two families of clues."""
    ordered = sorted(shares, key=lambda cause: -shares[cause])
    first, second = ordered[0], ordered[1]
    clear = shares[first] >= LIKELY and shares[first] >= MARGIN * shares[second]
    return first != OTHER and clear and len(families_for(clues, first)) >= INDEPENDENT


def contradictions(clues: Sequence[Evidence]) -> list[tuple[Evidence, Evidence]]:
    """Return the pairs of clues that each support some cause, but none that the other does not speak against."""
    given = [clue for clue in clues if clue.family != "absent"]
    pairs = [(one, two) for at, one in enumerate(given) for two in given[at + 1 :]]
    return [pair for pair in pairs if _contradict(*pair)]


def _contradict(one: Evidence, two: Evidence) -> bool:
    pairs = [(support(one, cause), support(two, cause)) for cause in NAMED]
    both_support = any(first > 0 for first, _ in pairs) and any(second > 0 for _, second in pairs)
    return both_support and not any(max(pair) > 0 and min(pair) >= 0 for pair in pairs)


def support(clue: Evidence, cause: str) -> int:
    """Return 1 where *clue* supports *cause*, -1 where it speaks against it, and 0 where it does neither."""
    ratio = clue.chances[cause] / clue.chances[OTHER]
    return (ratio >= SUPPORT) - (ratio <= 1 / SUPPORT)
