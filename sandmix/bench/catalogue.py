"""The tests of the sand as a table, one row a test: what each measures, how it is done, what it shows and what it does not.

The steps are common practice. The text of each error says where the figure comes from; sources of the other figures are those of the words.
"""

from __future__ import annotations

from sandmix.bench import clay_tests, mould_tests, water_tests
from sandmix.bench.test import Group, Procedure, Rating, Step, Test

_ORDER = (
    "moisture", "wash", "methylene_blue", "permeability", "compactability", "water_sensitivity", "strength", "swell", "tin_density",
    "jar", "squeeze", "shatter", "hardness", "loss_on_ignition", "volatiles", "spray", "flask_density",
)  # fmt: skip
_ROWS = {row.key: row for row in (*water_tests.ROWS, *clay_tests.ROWS, *mould_tests.ROWS)}
TESTS: dict[str, Test] = {key: _ROWS[key] for key in _ORDER}

__all__ = ["TESTS", "Group", "Procedure", "Rating", "Step", "Test"]
