"""What tests can find: all trials by key, by reading and by the outcome of a check."""

from __future__ import annotations

from sandmix.defects.casting_trials import CASTING_TRIALS
from sandmix.defects.sand_trials import SAND_TRIALS

_ROWS = (*SAND_TRIALS, *CASTING_TRIALS)
TRIALS = {row.key: row for row in _ROWS}
OVERLAPPING = (
    frozenset({"squeeze", "compactability", "moisture"}),
    frozenset({"permeability", "sieves"}),
    frozenset({"wall", "where", "saw"}),
    frozenset({"feed_look", "riser"}),
    frozenset({"gate_look", "gate_speed"}),
)
"""Trials that test the same property: the sand's water, its pores, the casting's holes."""
READINGS = {row.word: row for row in _ROWS if row.word}
"""The trials that give a reading, by its word."""
CHECKS = {outcome: row for row in _ROWS if not row.word for outcome in row.outcomes}
"""The trials whose outcome a person picks, by each of their outcomes."""
