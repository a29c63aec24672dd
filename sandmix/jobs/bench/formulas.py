"""The figure of a test from its readings: which formula of the bench each test takes, and which of its words."""

from __future__ import annotations

from collections.abc import Callable

from sandmix.bench import measurements
from sandmix.jobs.bench.readings import Readings
from sandmix.language.units import GRAVITY_M_S2


def figure_of(form: Readings) -> float | str:
    """Return the figure of the test that the form names, from its readings as they are."""
    return _FIGURES[str(form.test)](form)


def _washed(form: Readings) -> float:
    assert form.sample_g is not None
    if form.clay_washed_g is not None:
        return measurements.washed_pct_dry(form.sample_g, form.clay_washed_g)
    return _lost(form)


def _lost(form: Readings) -> float:
    assert form.sample_g is not None and form.left_g is not None
    return measurements.lost_pct(form.sample_g, form.left_g)


def _moisture(form: Readings) -> float:
    assert form.sample_wet_g is not None and form.sample_dry_g is not None
    return measurements.moisture_pct_wet(form.sample_wet_g, form.sample_dry_g)


def _blue(form: Readings) -> float:
    assert form.sample_g is not None and form.titre_ml is not None
    assert form.calibration_ml is not None and form.calibration_clay_g is not None
    return measurements.blue_clay_pct_dry(form.sample_g, form.titre_ml, form.calibration_ml, form.calibration_clay_g)


def _permeability(form: Readings) -> float:
    assert form.pressure_cm is not None and form.time_s is not None
    return measurements.permeability(form.pressure_cm, form.time_s, form.specimen)


def _compactability(form: Readings) -> float:
    assert form.height_before_mm is not None and form.height_after_mm is not None
    return measurements.compactability_pct(form.height_before_mm, form.height_after_mm)


def _water_sensitivity(form: Readings) -> float:
    return measurements.water_sensitivity(form.moistures, form.compactabilities, getattr(form, "direction", 0.0))


def _strength(form: Readings) -> float:
    if form.load_kg is not None:
        return measurements.strength_kpa(form.load_kg * GRAVITY_M_S2, form.specimen)
    if form.load_n is not None:
        return measurements.strength_kpa(form.load_n, form.specimen)
    assert form.strength_kpa is not None
    return form.strength_kpa


def _swell(form: Readings) -> float:
    assert form.swell_ml is not None
    return form.swell_ml * measurements.SWELL_SAMPLE_G / (form.sample_g or measurements.SWELL_SAMPLE_G)


def _tin_density(form: Readings) -> float:
    assert form.net_g is not None
    volume_ml = form.tin_ml
    if volume_ml is None:
        assert form.tin_diameter_mm is not None and form.tin_height_mm is not None
        volume_ml = measurements.round_tin_ml(form.tin_diameter_mm, form.tin_height_mm)
    return form.net_g / volume_ml


def _flask_density(form: Readings) -> float:
    assert form.flask_net_kg is not None
    inside_l = form.flask_inside_l
    if inside_l is None:
        assert form.flask_length_mm is not None and form.flask_width_mm is not None and form.drag_depth_mm is not None
        inside_l = form.flask_length_mm * form.flask_width_mm * form.drag_depth_mm / 1e6
    return form.flask_net_kg / inside_l


def _jar(form: Readings) -> float:
    assert form.jar_sand_mm is not None and form.jar_fines_mm is not None
    return 100 * form.jar_fines_mm / (form.jar_sand_mm + form.jar_fines_mm)


def _squeeze(form: Readings) -> str:
    assert form.squeeze is not None
    return form.squeeze


def _hardness(form: Readings) -> float:
    assert form.hardness is not None
    return form.hardness


def _shatter(form: Readings) -> float:
    assert form.sample_g is not None and form.left_g is not None
    return measurements.kept_pct(form.sample_g, form.left_g)


def _spray(form: Readings) -> float:
    assert form.strokes is not None and form.sprayed_g is not None
    return measurements.strokes_per_100ml(form.strokes, form.sprayed_g)


_FIGURES: dict[str, Callable[[Readings], float | str]] = {
    "moisture": _moisture,
    "wash": _washed,
    "methylene_blue": _blue,
    "permeability": _permeability,
    "compactability": _compactability,
    "water_sensitivity": _water_sensitivity,
    "strength": _strength,
    "swell": _swell,
    "tin_density": _tin_density,
    "jar": _jar,
    "squeeze": _squeeze,
    "shatter": _shatter,
    "hardness": _hardness,
    "loss_on_ignition": _lost,
    "volatiles": _lost,
    "spray": _spray,
    "flask_density": _flask_density,
}
