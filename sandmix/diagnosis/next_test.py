"""Which test parts the leading causes best for its effort, and which finding would turn the order.

A test is worth what it is expected to take off the uncertainty among the leading causes, in bits of entropy, over the square root of its
minutes; half of that where another test of the same thing, its water or its pores, has been done. The whole chances are used here, without
the power that damps them in the weights: a test that is done is one clue, not many.

Source: own (the square root, and what counts as a turn); entropy in bits is mathematics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.defects.causes import CAUSES, OTHER, SYMPTOMS
from sandmix.defects.findings import CHECKS, SAME, TRIALS, Trial
from sandmix.diagnosis.ranking import Evidence, Weights, leading, posterior, sign, weigh
from sandmix.language.wording import plain
from sandmix.language.words import Quantity
from sandmix.materials.metals import Metal
from sandmix.vocabulary import WORDS

TURNED = 1.5
"""How many times the old leader the new one must weigh, for a finding to be named as what would change the order."""
OVERLAP = 0.5
"""What is left of a trial's worth where another of those that look at the same thing has been done."""
LEAST_BITS = 1e-6
"""What a trial must tell, in bits over √minutes, to be worth doing at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reversal:
    """A finding that would put another cause on top: the finding in words, and that cause."""

    finding: str
    cause: str


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
    return _drop_bits([{cause: weight} for cause, weight in weights.items()], trial)


def _drop_bits(groups: Sequence[Weights], trial: Trial) -> float:
    """The same among groups of causes: which group it is, whichever cause in it."""
    whole = sum(sum(group.values()) for group in groups)
    left = 0.0
    for at in range(len(trial.outcomes)):
        joint = [sum(weight * trial.chances(cause)[at] for cause, weight in group.items()) / whole for group in groups]
        left += sum(joint) * entropy_bits(joint)
    return max(0.0, entropy_bits(sum(group.values()) for group in groups) - left)


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
    as much. Where one cause leads alone it is parted from all others together.
    """
    scored = ranked_trials(weights, done)
    return scored[0][1] if scored else None


def ranked_trials(weights: Weights, done: Iterable[str]) -> list[tuple[float, Trial]]:
    """Return the trials not done that would tell anything, the best first: the expected drop in bits over √minutes, and the trial."""
    found = leading(weights)
    groups = [{cause: weights[cause]} for cause in found]
    if len(found) == 1:
        groups.append({cause: weight for cause, weight in weights.items() if cause not in found})
    left = open_trials(done)
    seen = set().union(*(same for same in SAME if same & (TRIALS.keys() - {trial.key for trial in left})))
    scored = [
        (_drop_bits(groups, trial) * (OVERLAP if trial.key in seen else 1.0) / math.sqrt(trial.effort_min), trial)
        for trial in left
    ]
    return sorted((pair for pair in scored if pair[0] > LEAST_BITS), key=lambda pair: -pair[0])


def what_turns_it(clues: Sequence[Evidence], metal: Metal) -> Reversal | None:
    """Return the finding, of those not made yet, that would put another cause on top and is likeliest to be met; none if none alone would.

    On top means well above the old leader. The runner-up goes first: another cause counts only where no finding puts the runner-up there.
    """
    weights = weigh(clues)
    now, second = [cause for cause in weights if cause != OTHER][:2]
    met: list[tuple[bool, float, Reversal]] = []
    for words, chances in _possible([clue.key for clue in clues], metal):
        after = posterior(weights, [(chances, 1.0)])
        top = max(after, key=after.__getitem__)
        if top not in (now, OTHER) and after[top] >= TURNED * after[now]:
            odds = sum(weight * chances[cause] for cause, weight in weights.items())
            met.append((top == second, odds, Reversal(finding=words, cause=top)))
    return max(met, key=lambda item: item[:2])[2] if met else None


def _possible(done: Sequence[str], metal: Metal) -> Iterable[tuple[str, Weights]]:
    """Each finding not made yet, in words, and its chance under each cause."""
    for trial in open_trials(done):
        for at in range(len(trial.outcomes)):
            yield finding_in_words(trial, at, metal), {cause: trial.chances(cause)[at] for cause in CAUSES}
    for key in SYMPTOMS:
        if key not in done and f"no_{key}" not in done and key not in CHECKS:
            yield SYMPTOMS[key].label, sign(key).chances


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
