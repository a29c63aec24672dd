"""Which test of the sand it is, and every reading that a test can have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.asking.form import Form, ask
from sandmix.bench.catalogue import TESTS, Procedure, Test
from sandmix.bench.measurements import rams_like_the_standard
from sandmix.bench.water_tests import TIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings(Form):
    """A test of the sand and its readings."""

    test: str = ask("test", first=True, required=True)
    sample_wet_g: float | None = ask("sample_wet_g", first=True)
    sample_dry_g: float | None = ask("sample_dry_g", first=True)
    sample_g: float | None = ask("sample_g", first=True, help="Dry mass of the sand or clay that went into the test.")
    clay_washed_g: float | None = ask(
        "clay_washed_g",
        first=True,
        label="Washed out",
        help="Clay and fines that the wash took. You can give what is left instead.",
    )
    left_g: float | None = ask("left_g", first=True)
    titre_ml: float | None = ask("titre_ml", first=True)
    calibration_ml: float | None = ask("calibration_ml", first=True)
    calibration_clay_g: float | None = ask("calibration_clay_g", first=True)
    pressure_cm: float | None = ask("pressure_cm", first=True)
    time_s: float | None = ask("time_s", first=True)
    specimen: str = ask("specimen")
    height_before_mm: float | None = ask("height_before_mm", first=True)
    height_after_mm: float | None = ask("height_after_mm", first=True)
    rammer_kg: float | None = ask("rammer_kg", first=True)
    rammer_fall_mm: float | None = ask("rammer_fall_mm", first=True)
    moisture_first_pct_wet: float | None = ask("moisture_first_pct_wet", first=True)
    moisture_second_pct_wet: float | None = ask("moisture_second_pct_wet", first=True)
    compactability_first_pct: float | None = ask("compactability_first_pct", first=True)
    compactability_second_pct: float | None = ask("compactability_second_pct", first=True)
    load_kg: float | None = ask("load_kg", first=True)
    load_n: float | None = ask("load_n", first=True)
    strength_kpa: float | None = ask(
        "strength_kpa",
        first=True,
        label="Strength, as read",
        help="If the machine shows the pressure itself. You can give the load instead.",
    )
    swell_ml: float | None = ask("swell_ml", first=True)
    tin_ml: float | None = ask("tin_ml", first=True)
    tin_diameter_mm: float | None = ask("tin_diameter_mm", first=True)
    tin_height_mm: float | None = ask("tin_height_mm", first=True)
    net_g: float | None = ask("net_g", first=True)
    flask_net_kg: float | None = ask("flask_net_kg", first=True)
    flask_inside_l: float | None = ask("flask_inside_l", first=True)
    flask_length_mm: float | None = ask("flask_length_mm", first=True)
    flask_width_mm: float | None = ask("flask_width_mm", first=True)
    drag_depth_mm: float | None = ask(
        "drag_depth_mm", first=True, label="Depth of that flask", help="Inside, of the half that was weighed."
    )
    jar_sand_mm: float | None = ask("jar_sand_mm", first=True)
    jar_fines_mm: float | None = ask("jar_fines_mm", first=True)
    squeeze: str | None = ask("squeeze", first=True)
    hardness: float | None = ask("hardness", first=True)
    hardness_scale: str | None = ask("hardness_scale", first=True)
    volatiles_at: str | None = ask("volatiles_at", first=True)
    strokes: float | None = ask("strokes", first=True)
    sprayed_g: float | None = ask("sprayed_g", first=True)
    dose_ml: float | None = ask("dose_ml", exact=True)
    scale_step_g: float = ask("scale_step_g")
    manner: str = ask("manner")
    repeats: float = ask("repeats", exact=True)
    wanted_error: float | None = ask("wanted_error", exact=True)
    history: Sequence[float] | None = ask("history")

    @property
    def row(self) -> Test:
        """The test that is named."""
        return TESTS[self.test]

    @property
    def procedure(self) -> Procedure:
        """How the test was done: at home, or in a laboratory where that has its own way."""
        return self.row.lab if self.manner == "lab" and self.row.lab is not None else self.row.home

    def has(self, *words: str) -> bool:
        """Whether all of *words* are given."""
        return all(getattr(self, word) is not None for word in words)

    def number(self, word: str) -> float:
        """Return the reading *word*; it must be given."""
        reading: float = getattr(self, word)
        return reading

    @property
    def tin_rammed(self) -> str:
        """Whether a tin was rammed as the standard, or in an own way: by the energy of its blows, else by how the test was done."""
        if self.has(*TIN):
            return "standard" if rams_like_the_standard(*(self.number(word) for word in TIN)) else "own"
        return "standard" if self.manner == "lab" else "own"

    @property
    def moistures(self) -> tuple[float, float]:
        """Both moistures of the water sensitivity."""
        return self.number("moisture_first_pct_wet"), self.number("moisture_second_pct_wet")

    @property
    def compactabilities(self) -> tuple[float, float]:
        """Both compactabilities of the water sensitivity."""
        return self.number("compactability_first_pct"), self.number("compactability_second_pct")
