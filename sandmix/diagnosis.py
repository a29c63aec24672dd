"""From signs, readings and checks to ranked causes, to the test that parts them best, and to what would change the order.

The model is Bayes' rule for one leading cause, with the evidence taken as independent once the cause is known:

    weight(cause) ∝ prior(cause) × Π chance(clue | cause)^POWER

Where it is weak, and what is done about it. *Signs are not independent*: sand that crumbles also drops. The power below 1 damps the
overconfidence that this brings, and nothing is concluded before signs of two families speak. *Two causes can be there at once*: the
cause ``other`` has the usual chance of every clue, so it gains where no single cause fits all of them. *A sign that was not picked* says
nothing, unless the person says that there was nothing else; then it speaks with the small power ABSENT. *A reading has its doubt*:
its chance is that of the bands, each weighted by the part of the reading's normal spread that lies in it, never that of its point alone.

Source: own (the power, the thresholds and the grades); Bayes' rule and entropy in bits are mathematics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from .ailments import CAUSES, NAMED, OTHER, SYMPTOMS
from .findings import CHECKS, READINGS, TRIALS, Trial
from .metals import Metal
from .vocabulary import WORDS
from .words import Quantity, plain

POWER = 0.8
"""How far a clue counts, as a power of its chance: below 1, since clues are not independent."""
ABSENT = 0.3
"""The power of a sign that was looked for and is not there, times POWER."""
LIKELY = 0.45
"""The least weight of a cause that is called likely."""
MARGIN = 2.0
"""How many times the runner-up it must weigh."""
INDEPENDENT = 2
"""How many families of evidence must speak before anything is called likely."""
NEAR = 0.5
"""The part of the leader's weight from which a cause counts among the leading."""
MOST_LEADING = 4
TURNED = 1.5
"""How many times the old leader the new one must weigh, for a finding to be named as what would change the order."""
LEAST_BITS = 1e-6
"""What a trial must tell, in bits over √minutes, to be worth doing at all."""
SPEAKS = 1.5
"""How many times the usual chance a clue must have under a cause to speak for it; or the usual its own, to speak against."""

Weights = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clue:
    """One piece of evidence: what it says, the family it belongs to, and its chance under each cause, ``other`` included."""

    key: str
    words: str
    family: str
    chances: Weights
    power: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A finding that would put another cause on top: the finding in words, and that cause."""

    finding: str
    cause: str


def posterior(priors: Weights, clues: Iterable[tuple[Weights, float]], power: float = POWER) -> dict[str, float]:
    """Return the weight of each cause, as shares of one, from *priors* and each clue's chances and own power; computed in logs.

    >>> posterior({"a": 1, "b": 3}, [({"a": 0.9, "b": 0.1}, 1.0)], power=1.0)
    {'a': 0.75, 'b': 0.25}
    """
    logs = {cause: math.log(prior) for cause, prior in priors.items()}
    for chances, own in clues:
        logs = {cause: log + power * own * math.log(chances[cause]) for cause, log in logs.items()}
    top = max(logs.values())
    raw = {cause: math.exp(log - top) for cause, log in logs.items()}
    whole = sum(raw.values())
    return {cause: part / whole for cause, part in raw.items()}


def weigh(clues: Iterable[Clue]) -> dict[str, float]:
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


def sign(key: str) -> Clue:
    """Return the clue of a sign that was seen."""
    return Clue(key=key, words=SYMPTOMS[key].label, family=SYMPTOMS[key].family, chances=_sign_chances(key))


def absent(keys: Iterable[str]) -> list[Clue]:
    """Return the clues of all signs but *keys*, for a person who says that there was nothing else."""
    seen = set(keys)
    return [
        Clue(
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
    deviation = half_width / 1.96
    below = [
        float(edge > value) if deviation <= 0 else 0.5 * math.erfc((value - edge) / deviation / math.sqrt(2))
        for edge in edges
    ]
    return [high - low for low, high in zip([0.0, *below], [*below, 1.0], strict=True)]


def reading(word: str, value: float, half_width: float, metal: Metal) -> Clue:
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
    return Clue(
        key=word,
        words=f"{declared.label.lower()} {declared.show(value)} ({list(trial.outcomes.values())[at]})",
        family=trial.key,
        chances=chances,
    )


def check(outcome: str) -> Clue:
    """Return the clue of a check's outcome."""
    trial = CHECKS[outcome]
    at = list(trial.outcomes).index(outcome)
    return Clue(
        key=outcome,
        words=trial.outcomes[outcome],
        family="strength" if trial.key == "squeeze" else trial.key,
        chances={cause: trial.chances(cause)[at] for cause in CAUSES},
    )


def families(clues: Iterable[Clue]) -> set[str]:
    """Return the families of evidence that speak; what was not seen is none."""
    return {clue.family for clue in clues if clue.family != "absent"}


def leading(weights: Weights) -> list[str]:
    """Return the causes that lead, the heaviest first: those of at least half the leader's weight, four at most, ``other`` left out."""
    named = sorted((cause for cause in weights if cause != OTHER), key=lambda cause: -weights[cause])
    return [cause for cause in named if weights[cause] >= NEAR * weights[named[0]]][:MOST_LEADING]


def is_likely(weights: Weights, clues: Sequence[Clue]) -> bool:
    """Return whether the leader may be called likely: heavy enough, well ahead, and on evidence of two families or more."""
    ordered = sorted(weights, key=lambda cause: -weights[cause])
    first, second = ordered[0], ordered[1]
    clear = weights[first] >= LIKELY and weights[first] >= MARGIN * weights[second]
    return first != OTHER and clear and len(families(clues)) >= INDEPENDENT


def entropy_bits(weights: Iterable[float]) -> float:
    """Return the uncertainty of weights, in bits; they are brought to a sum of one.

    >>> entropy_bits([1, 1, 1, 1])
    2.0
    """
    listed = [weight for weight in weights if weight > 0]
    whole = sum(listed)
    return -sum(weight / whole * math.log2(weight / whole) for weight in listed) + 0.0


def expected_drop_bits(weights: Weights, trial: Trial) -> float:
    """Return by how much *trial* is expected to lower the uncertainty among the causes in *weights*, in bits; 0 or more."""
    whole = sum(weights.values())
    left = 0.0
    for at in range(len(trial.outcomes)):
        joint = {cause: weight / whole * trial.chances(cause)[at] for cause, weight in weights.items()}
        left += sum(joint.values()) * entropy_bits(joint.values())
    return max(0.0, entropy_bits(weights.values()) - left)


def open_trials(done: Iterable[str]) -> list[Trial]:
    """Return the trials that none of the clues *done*, by key, has read yet."""
    read = set(done)
    return [
        trial
        for trial in TRIALS.values()
        if trial.word not in read and not (trial.outcomes.keys() & read and not trial.word)
    ]


def next_trial(weights: Weights, done: Iterable[str]) -> Trial | None:
    """Return the trial that parts the leading causes best for its effort, or none that would.

    Best is the greatest expected drop of uncertainty over the square root of minutes: an hour in place of a minute must tell almost eight times
    as much. Where one cause leads alone it is parted from the runner-up.
    """
    scored = ranked_trials(weights, done)
    return scored[0][1] if scored else None


def ranked_trials(weights: Weights, done: Iterable[str]) -> list[tuple[float, Trial]]:
    """Return the trials not done that would tell anything, the best first: the expected drop in bits over √minutes, and the trial."""
    rivals = {cause: weights[cause] for cause in _rivals(weights)}
    scored = [(expected_drop_bits(rivals, trial) / math.sqrt(trial.effort_min), trial) for trial in open_trials(done)]
    return sorted((pair for pair in scored if pair[0] > LEAST_BITS), key=lambda pair: -pair[0])


def _rivals(weights: Weights) -> list[str]:
    found = leading(weights)
    if len(found) > 1:
        return found
    named = sorted((cause for cause in weights if cause != OTHER), key=lambda cause: -weights[cause])
    return named[:2]


def what_turns_it(clues: Sequence[Clue], metal: Metal) -> Turn | None:
    """Return the finding, of those not made yet, that would put another cause on top and is likeliest to be met; none if none alone would.

    On top means well above the old leader. The runner-up goes first: another cause counts only where no finding puts the runner-up there.
    """
    weights = weigh(clues)
    now, second = [cause for cause in weights if cause != OTHER][:2]
    met: list[tuple[bool, float, Turn]] = []
    for words, chances in _possible([clue.key for clue in clues], metal):
        after = posterior(weights, [(chances, 1.0)])
        top = max(after, key=after.__getitem__)
        if top not in (now, OTHER) and after[top] >= TURNED * after[now]:
            odds = sum(weight * chances[cause] for cause, weight in weights.items())
            met.append((top == second, odds, Turn(finding=words, cause=top)))
    return max(met, key=lambda item: item[:2])[2] if met else None


def _possible(done: Sequence[str], metal: Metal) -> Iterable[tuple[str, Weights]]:
    """Each finding not made yet, in words, and its chance under each cause."""
    for trial in open_trials(done):
        for at in range(len(trial.outcomes)):
            yield finding_in_words(trial, at, metal), {cause: trial.chances(cause)[at] for cause in CAUSES}
    for key in SYMPTOMS:
        if key not in done and f"no_{key}" not in done and key not in CHECKS:
            yield SYMPTOMS[key].label, _sign_chances(key)


def finding_in_words(trial: Trial, at: int, metal: Metal) -> str:
    """Return one outcome of *trial* in words: a check's own, or a reading with the two ends of its band."""
    named = list(trial.outcomes.values())[at]
    if trial.edges is None:
        return named
    edges, declared = trial.edges(metal), WORDS[trial.word]
    assert isinstance(declared, Quantity)
    unit = f" {declared.unit}" if declared.unit else ""
    if at == 0:
        span = f"under {plain(edges[0])}{unit}"
    elif at == len(edges):
        span = f"over {plain(edges[-1])}{unit}"
    else:
        span = f"of {plain(edges[at - 1])} to {plain(edges[at])}{unit}"
    return f"{declared.label.lower()} {span} ({named})"


def contradictions(clues: Sequence[Clue]) -> list[tuple[Clue, Clue]]:
    """Return the pairs of clues that each speak for some cause, but for none that the other does not speak against."""
    spoken = [clue for clue in clues if clue.family != "absent"]
    pairs = [(one, two) for at, one in enumerate(spoken) for two in spoken[at + 1 :]]
    return [pair for pair in pairs if _clash(*pair)]


def _clash(one: Clue, two: Clue) -> bool:
    said = [(speaks(one, cause), speaks(two, cause)) for cause in NAMED]
    each_speaks = any(first > 0 for first, _ in said) and any(second > 0 for _, second in said)
    return each_speaks and not any(max(pair) > 0 and min(pair) >= 0 for pair in said)


def speaks(clue: Clue, cause: str) -> int:
    """Return 1 where *clue* speaks for *cause*, -1 where against it, and 0 where it says little."""
    ratio = clue.chances[cause] / clue.chances[OTHER]
    return (ratio >= SPEAKS) - (ratio <= 1 / SPEAKS)
