"""The test that best separates the leading causes for its effort, and the finding that would change the order.

The value of a test is by how much it is expected to lower the uncertainty among the leading causes, in bits of entropy, over the square
root of its minutes. It is half of that where another test of the same property (water or pores) has been done. The full chances are used
here, without the power that reduces them in the ranking: a test adds one clue, not many.

Source: own (the square root, and how far another cause must lead); entropy in bits is mathematics.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.defects.causes import CAUSES, OTHER
from sandmix.defects.findings import CHECKS, OVERLAPPING, READINGS, TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.defects.trial import Trial
from sandmix.diagnosis.ranking import Evidence, Shares, is_likely, leading, posterior, rank, sign, support
from sandmix.language.wording import plain, with_unit
from sandmix.materials.metals import Metal
from sandmix.vocabulary import WORDS

OVERTAKES = 1.5
"""How many times the share of the old leader a cause must have for a finding to count as changing the order."""
OVERLAP = 0.5
"""The factor on the value of a trial where another one of the same property has been done."""
LEAST_VALUE = 1e-6
"""The least value, in bits over √minutes, of a trial worth doing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reversal:
    """A finding that would put another cause first: the finding in words, and that cause."""

    finding: str
    cause: str


def entropy_bits(shares: Iterable[float]) -> float:
    """Return the entropy of *shares*, in bits; they need not add up to one.

    >>> entropy_bits([1, 1, 1, 1])
    2.0
    """
    listed = [share for share in shares if share > 0]
    whole = sum(listed)
    return -sum(share / whole * math.log2(share / whole) for share in listed) + 0.0


def expected_drop_bits(shares: Shares, trial: Trial) -> float:
    """Return by how much *trial* is expected to lower the entropy among the causes of *shares*, in bits; 0 or more."""
    return _drop_bits([{cause: share} for cause, share in shares.items()], trial)


def _drop_bits(groups: Sequence[Shares], trial: Trial) -> float:
    """Return the same among groups of causes, where only the group matters."""
    whole = sum(sum(group.values()) for group in groups)
    left = 0.0
    for at in range(len(trial.outcomes)):
        joint = [sum(share * trial.chances(cause)[at] for cause, share in group.items()) / whole for group in groups]
        left += sum(joint) * entropy_bits(joint)
    return max(0.0, entropy_bits(sum(group.values()) for group in groups) - left)


def open_trials(known: Iterable[str]) -> list[Trial]:
    """Return the trials that can be done and whose result is not among the clues *known*, given by key."""
    keys = set(known)
    return [
        trial
        for trial in TRIALS.values()
        if not (trial.word in keys if trial.word else trial.outcomes.keys() & keys)
        and (not trial.only_with or trial.only_with & keys)
    ]


def next_trial(clues: Sequence[Evidence]) -> Trial | None:
    """Return the test to do next, or None where no test would show more, or where it is time for the remedy of the first cause.

    Where one cause leads alone, it is the first test of that cause that is still open. Its remedy comes next once a test of its own supports
    it and it is likely, or all of them are done. Where several lead, it is the test of the highest value among their own tests. Only if none
    of these is left is it the test of the highest value among all.
    """
    shares, known = rank(clues), [clue.key for clue in clues]
    found = leading(shares)
    if len(found) == 1:
        own = _own(found, known)
        checked = any(support(clue, found[0]) > 0 for clue in clues if _trial_of(clue.key) in CAUSES[found[0]].tests)
        if (checked and not own) or (is_likely(shares, clues) and (checked or not own)):
            return None
        if own and not checked:
            return own[0]
    ranked = ranked_trials(shares, known)
    return ranked[0][1] if ranked else None


def _own(causes: Iterable[str], known: Iterable[str]) -> list[Trial]:
    """Return the open trials among the own tests of *causes*, in their order."""
    left = open_trials(known)
    return [trial for cause in causes for key in CAUSES[cause].tests for trial in left if trial.key == key]


def _trial_of(clue: str) -> str:
    """Return the key of the trial that gave *clue*, or nothing for a sign."""
    trial = READINGS.get(clue) or CHECKS.get(clue)
    return trial.key if trial else ""


def ranked_trials(shares: Shares, known: Iterable[str]) -> list[tuple[float, Trial]]:
    """Return the open trials that are worth doing, the best first: the value in bits over √minutes, and the trial.

    They are the own tests of the leading causes; where none of these is open, all trials. A cause that leads alone is separated from all
    others together. An hour must show almost eight times as much as a minute.
    """
    keys = list(known)
    found = leading(shares)
    groups = [{cause: shares[cause]} for cause in found]
    if len(found) == 1:
        groups.append({cause: share for cause, share in shares.items() if cause not in found})
    left = open_trials(keys)
    undone = {trial.key for trial in left}
    seen = set().union(*(same for same in OVERLAPPING if same & (TRIALS.keys() - undone)))
    valued = [
        (_drop_bits(groups, trial) * (OVERLAP if trial.key in seen else 1.0) / math.sqrt(trial.effort_min), trial)
        for trial in left
    ]
    worth = sorted((pair for pair in valued if pair[0] > LEAST_VALUE), key=lambda pair: -pair[0])
    own = {trial.key for trial in _own(found, keys)}
    return [pair for pair in worth if pair[1].key in own] or worth


def likeliest_reversal(clues: Sequence[Evidence], metal: Metal) -> Reversal | None:
    """Return the likeliest new finding that would put another cause well ahead of the leader, or None where no single finding would.

    A finding that puts the runner-up first goes before any that puts another cause first.
    """
    shares = rank(clues)
    now, second = [cause for cause in shares if cause != OTHER][:2]
    found: list[tuple[bool, float, Reversal]] = []
    for finding, chances in _possible([clue.key for clue in clues], metal):
        after = posterior(shares, [(chances, 1.0)])
        top = max(after, key=after.__getitem__)
        if top not in (now, OTHER) and after[top] >= OVERTAKES * after[now]:
            chance = sum(share * chances[cause] for cause, share in shares.items())
            found.append((top == second, chance, Reversal(finding=finding, cause=top)))
    return max(found, key=lambda item: item[:2])[2] if found else None


def _possible(done: Sequence[str], metal: Metal) -> Iterable[tuple[str, Shares]]:
    """Yield each finding not made yet, in words, and its chance with each cause."""
    for trial in open_trials(done):
        for at in range(len(trial.outcomes)):
            yield finding_in_words(trial, at, metal), {cause: trial.chances(cause)[at] for cause in CAUSES}
    for key in SYMPTOMS:
        if key not in done and f"no_{key}" not in done and key not in CHECKS:
            yield SYMPTOMS[key].label, sign(key).chances


def finding_in_words(trial: Trial, at: int, metal: Metal) -> str:
    """Return one outcome of *trial* in words: as a check names it, or a reading with the range of its band."""
    named, edges = list(trial.outcomes.values())[at], trial.edges(metal)
    if not edges:
        return named
    declared = WORDS[trial.word]
    if at == 0:
        span = f"under {plain(edges[0])}"
    elif at == len(edges):
        span = f"over {plain(edges[-1])}"
    else:
        span = f"of {plain(edges[at - 1])} to {plain(edges[at])}"
    return f"{declared.label.lower()} {with_unit(span, getattr(declared, 'unit', ''))} ({named})"
