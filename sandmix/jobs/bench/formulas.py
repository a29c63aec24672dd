"""The figure of a test from its readings: the formula of each test and the words that go into it."""

from __future__ import annotations

from collections.abc import Callable

from sandmix.bench import measurements
from sandmix.jobs.bench.readings import Readings
from sandmix.language.units import GRAVITY_M_S2

Formula = Callable[[Readings], float]


def figure_of(form: Readings) -> float | str:
    """Return the figure of the test that the form names."""
    return str(form.squeeze) if form.test == "squeeze" else _FIGURES[form.test](form)


def _by(formula: Callable[..., float], *words: str) -> Formula:
    """A figure by *formula* from the readings *words*, in its order."""

    def figure(form: Readings) -> float:
        return formula(*(form.number(word) for word in words))

    return figure


def _by_first_given(**formulas: Formula) -> Formula:
    """A figure by the formula of the first reading that is given; the last one needs no check."""

    def figure(form: Readings) -> float:
        *earlier, last = formulas
        return formulas[next((word for word in earlier if form.has(word)), last)](form)

    return figure


def _as_read(reading: float) -> float:
    return reading


def _permeability(form: Readings) -> float:
    return measurements.permeability(form.number("pressure_cm"), form.number("time_s"), form.specimen)


def _water_sensitivity(form: Readings) -> float:
    return measurements.water_sensitivity(form.moistures, form.compactabilities, getattr(form, "direction", 0.0))


def _strength_by_load(form: Readings) -> float:
    return measurements.strength_kpa(form.number("load_kg") * GRAVITY_M_S2, form.specimen)


def _strength_by_force(form: Readings) -> float:
    return measurements.strength_kpa(form.number("load_n"), form.specimen)


def _swell(form: Readings) -> float:
    return form.number("swell_ml") * measurements.SWELL_SAMPLE_G / (form.sample_g or measurements.SWELL_SAMPLE_G)


def _density(mass: float, volume: float) -> float:
    return mass / volume


def _round_tin_density(mass_g: float, diameter_mm: float, height_mm: float) -> float:
    return mass_g / measurements.round_tin_ml(diameter_mm, height_mm)


def _box_density(mass_kg: float, length_mm: float, width_mm: float, depth_mm: float) -> float:
    return mass_kg / (length_mm * width_mm * depth_mm / 1e6)


def _jar(sand_mm: float, fines_mm: float) -> float:
    return 100 * fines_mm / (sand_mm + fines_mm)


_LOST = _by(measurements.lost_pct, "sample_g", "left_g")
_FIGURES: dict[str, Formula] = {
    "moisture": _by(measurements.moisture_pct_wet, "sample_wet_g", "sample_dry_g"),
    "wash": _by_first_given(clay_washed_g=_by(measurements.share_pct, "sample_g", "clay_washed_g"), left_g=_LOST),
    "methylene_blue": _by(
        measurements.blue_clay_pct_dry, "sample_g", "titre_ml", "calibration_ml", "calibration_clay_g"
    ),
    "permeability": _permeability,
    "compactability": _by(measurements.compactability_pct, "height_before_mm", "height_after_mm"),
    "water_sensitivity": _water_sensitivity,
    "strength": _by_first_given(
        load_kg=_strength_by_load, load_n=_strength_by_force, strength_kpa=_by(_as_read, "strength_kpa")
    ),
    "swell": _swell,
    "tin_density": _by_first_given(
        tin_ml=_by(_density, "net_g", "tin_ml"),
        tin_diameter_mm=_by(_round_tin_density, "net_g", "tin_diameter_mm", "tin_height_mm"),
    ),
    "jar": _by(_jar, "jar_sand_mm", "jar_fines_mm"),
    "shatter": _by(measurements.share_pct, "sample_g", "left_g"),
    "hardness": _by(_as_read, "hardness"),
    "loss_on_ignition": _LOST,
    "volatiles": _LOST,
    "spray": _by(measurements.strokes_per_100ml, "strokes", "sprayed_g"),
    "flask_density": _by_first_given(
        flask_inside_l=_by(_density, "flask_net_kg", "flask_inside_l"),
        flask_length_mm=_by(_box_density, "flask_net_kg", "flask_length_mm", "flask_width_mm", "drag_depth_mm"),
    ),
}
