"""Leaves out of a usual run the tests that have the mark `full`: they belong to a long one."""

from __future__ import annotations

import pytest
from effort import is_long


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "full: only in a long run, for a usual one has another test of the same promise")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    long = [item for item in items if item.get_closest_marker("full")]
    if long and not is_long():
        items[:] = [item for item in items if item not in long]
        config.hook.pytest_deselected(items=long)
