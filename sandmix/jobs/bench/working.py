"""The formula of each test of the bench, written out with its readings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed
from sandmix.bench import measurements
from sandmix.bench.measurements import SPECIMENS
from sandmix.jobs.bench.form import BenchForm, ResolvedBench
from sandmix.language.units import GRAVITY_M_S2
from sandmix.language.wording import plain, to_figures
from sandmix.vocabulary import WORDS


def working(computed: Computed[BenchForm]) -> Iterable[str]:
    """Yield the formula with its readings, and what the ± is made of."""
    form, row = computed.form, computed.form.row
    assert isinstance(form, ResolvedBench)
    value = computed.figures[row.figure]
    if not isinstance(value, float):
        return
    unit = getattr(WORDS[row.figure], "unit", "")
    yield f"{_formula(form)} = {to_figures(value, 4)} {unit}".rstrip()
    if form.test == "methylene_blue":
        yield f"dye of {measurements.DYE_G_L:g} g a litre is {measurements.dye_mol_l():.4f} mol/L ({measurements.DYE_G_MOL:.2f} g/mol)"
    if form.test == "wash":
        yield f"what stays afloat is finer than about 20 µm: that sinks {measurements.sinking_mm_min(20):.0f} mm a minute"
    if form.test == "compactability":
        yield f"three falls of 14 lb through 2 in bring {measurements.ram_energy_j():.1f} J"
    if form.scatter > 0:
        total = computed.half_width(row.figure)
        yield f"± {to_figures(total, 2)} in all, of which the test itself, beside the readings, leaves ± {to_figures(form.scatter, 2)}"


def _formula(form: ResolvedBench) -> str:
    return _FORMULAS[str(form.test)](form)


def _lost(form: ResolvedBench) -> str:
    if form.test == "wash" and form.clay_washed_g is not None:
        return f"100 × {_n(form.clay_washed_g)} / {_n(form.sample_g)}"
    return f"100 × ({_n(form.sample_g)} − {_n(form.left_g)}) / {_n(form.sample_g)}"


def _moisture(form: ResolvedBench) -> str:
    return f"100 × ({_n(form.sample_wet_g)} − {_n(form.sample_dry_g)}) / {_n(form.sample_wet_g)}"


def _blue(form: ResolvedBench) -> str:
    known = f"({_n(form.calibration_clay_g)} / {_n(form.calibration_ml)})"
    return f"100 × {_n(form.titre_ml)} × {known} / {_n(form.sample_g)}"


def _permeability(form: ResolvedBench) -> str:
    body = SPECIMENS[form.specimen]
    below = f"({_n(form.pressure_cm)} × {body.area_cm2:.3f} × {_n(form.time_s)} / 60)"
    return f"V H / (p A t) = {measurements.AIR_CM3:g} × {body.height_cm:g} / {below}"


def _compactability(form: ResolvedBench) -> str:
    return f"100 × ({_n(form.height_before_mm)} − {_n(form.height_after_mm)}) / {_n(form.height_before_mm)}"


def _water_sensitivity(form: ResolvedBench) -> str:
    wet, loose = form.moistures, form.compactabilities
    return f"10 × ({_n(wet[0])} − {_n(wet[1])}) / ({_n(loose[0])} − {_n(loose[1])})"


def _strength(form: ResolvedBench) -> str:
    area_cm2 = SPECIMENS[form.specimen].area_cm2
    if form.load_kg is not None:
        return f"10 × {_n(form.load_kg)} kg × {GRAVITY_M_S2:g} / {area_cm2:.3f} cm²"
    return "as read" if form.load_n is None else f"10 × {_n(form.load_n)} N / {area_cm2:.3f} cm²"


def _swell(form: ResolvedBench) -> str:
    return f"{_n(form.swell_ml)} × {measurements.SWELL_SAMPLE_G:g} / {_n(form.sample_g or measurements.SWELL_SAMPLE_G)}"


def _tin(form: ResolvedBench) -> str:
    if form.tin_ml is not None:
        return f"{_n(form.net_g)} / {_n(form.tin_ml)}"
    return f"{_n(form.net_g)} / (π/4 × {_n(form.tin_diameter_mm)}² × {_n(form.tin_height_mm)} / 1000)"


def _flask(form: ResolvedBench) -> str:
    if form.flask_inside_l is not None:
        return f"{_n(form.flask_net_kg)} / {_n(form.flask_inside_l)}"
    sizes = " × ".join(_n(size) for size in (form.flask_length_mm, form.flask_width_mm, form.drag_depth_mm))
    return f"{_n(form.flask_net_kg)} / ({sizes} / 1 000 000)"


def _jar(form: ResolvedBench) -> str:
    return f"100 × {_n(form.jar_fines_mm)} / ({_n(form.jar_sand_mm)} + {_n(form.jar_fines_mm)})"


def _shatter(form: ResolvedBench) -> str:
    return f"100 × {_n(form.left_g)} / {_n(form.sample_g)}"


def _spray(form: ResolvedBench) -> str:
    return f"100 × {_n(form.strokes)} / {_n(form.sprayed_g)}"


def _hardness(form: ResolvedBench) -> str:
    return "as read"


_FORMULAS = {
    "moisture": _moisture,
    "wash": _lost,
    "methylene_blue": _blue,
    "permeability": _permeability,
    "compactability": _compactability,
    "water_sensitivity": _water_sensitivity,
    "strength": _strength,
    "swell": _swell,
    "tin_density": _tin,
    "jar": _jar,
    "shatter": _shatter,
    "hardness": _hardness,
    "loss_on_ignition": _lost,
    "volatiles": _lost,
    "spray": _spray,
    "flask_density": _flask,
}


def _n(value: float | None) -> str:
    assert value is not None
    return plain(value)
