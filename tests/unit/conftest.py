"""What the unit tests share: asking a job as any door does."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from sandmix.cooling.freezing import FINE, Case, Cooling
from sandmix.doors.facade import call
from sandmix.materials.metals import thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT


@pytest.fixture(scope="session")
def ask() -> Callable[..., dict[str, Any]]:
    """Ask a job by name, its inputs as keywords, and return the whole answer."""

    def ask(job: str, **inputs: object) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs})))

    return ask


@pytest.fixture(scope="session")
def casting() -> Callable[..., Case]:
    """A case to solve: pure aluminium at 720 °C, a plate of modulus 10 mm in sand A at 3.5 % of wet mass, and what is said otherwise."""

    def casting(metal: str = "aluminium", sand: str = "a", **others: Any) -> Case:
        usual = {"pour_temp_c": 720.0, "water": 3.5 / 96.5, "shape_n": 0.0, "modulus_mm": 10.0}
        return Case(metal=thermal(metal), sand=SANDS_FOR_HEAT[sand], **(usual | others))

    return casting


@pytest.fixture(scope="session")
def cooled(casting: Callable[..., Case]) -> Callable[..., Cooling]:
    """How a casting cooled, written by hand: four steps, and what is said otherwise."""

    def cooled(case: Case | None = None, **others: Any) -> Cooling:
        usual: dict[str, Any] = {
            "case": case or casting(),
            "grid": FINE,
            "freeze_s": 20.0,
            "times_s": [10.0, 20.0, 30.0, 50.0],
            "middle_c": [700.0, 660.0, 400.0, 200.0],
            "frozen_mm": [5.0, 10.0, 10.0, 10.0],
            "dry_mm": [4.0, 8.0, 10.0, 12.0],
            "metal_j_m2": [30e6, 20e6, 10e6, 6e6],
            "gone_j_m2": [0.0, 0.0, 1e6, 2e6],
            "dried_c": [300.0, 280.0, 240.0, 160.0],
            "depths_mm": [0.0, 10.0, 20.0],
            "peaks_c": [600.0, 400.0, 200.0],
            "faces_mm": [0.0, 1.0, 3.0],
            "warm_c": [[300.0], [500.0, 300.0], [400.0, 280.0], []],
            "residual": 0.0,
        }
        return Cooling(**(usual | others))

    return cooled
