"""The formula of each test, written out with its readings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed
from sandmix.bench import measurements
from sandmix.bench.measurements import SPECIMENS
from sandmix.bench.water_tests import TIN
from sandmix.jobs.bench.form import ResolvedBench
from sandmix.language.units import GRAVITY_M_S2
from sandmix.language.wording import plain, to_figures
from sandmix.vocabulary import WORDS

_LOST = "100 × ({sample_g} − {left_g}) / {sample_g}"
_FORMULAS = {
    "moisture": ("100 × ({sample_wet_g} − {sample_dry_g}) / {sample_wet_g}",),
    "wash": ("100 × {clay_washed_g} / {sample_g}", _LOST),
    "methylene_blue": ("100 × {titre_ml} × ({calibration_clay_g} / {calibration_ml}) / {sample_g}",),
    "permeability": ("V H / (p A t) = {air} × {height} / ({pressure_cm} × {area} × {time_s} / 60)",),
    "compactability": ("100 × ({height_before_mm} − {height_after_mm}) / {height_before_mm}",),
    "water_sensitivity": (
        "10 × ({moisture_first_pct_wet} − {moisture_second_pct_wet}) / ({compactability_first_pct} − {compactability_second_pct})",
    ),
    "strength": ("10 × {load_kg} kg × {gravity} / {area} cm²", "10 × {load_n} N / {area} cm²", "as read"),
    "swell": ("{swell_ml} × {swell_g} / {sample_g}", "{swell_ml} × {swell_g} / {swell_g}"),
    "tin_density": ("{net_g} / {tin_ml}", "{net_g} / (π/4 × {tin_diameter_mm}² × {tin_height_mm} / 1000)"),
    "jar": ("100 × {jar_fines_mm} / ({jar_sand_mm} + {jar_fines_mm})",),
    "shatter": ("100 × {left_g} / {sample_g}",),
    "hardness": ("as read",),
    "loss_on_ignition": (_LOST,),
    "volatiles": (_LOST,),
    "spray": ("100 × {strokes} / {sprayed_g}",),
    "flask_density": (
        "{flask_net_kg} / {flask_inside_l}",
        "{flask_net_kg} / ({flask_length_mm} × {flask_width_mm} × {drag_depth_mm} / 1 000 000)",
    ),
}
"""The formulas of each test; the first whose readings are all given was used."""


def working(computed: Computed[ResolvedBench]) -> Iterable[str]:
    """Yield the formula with its readings, and what the ± consists of."""
    form, row = computed.form, computed.form.row
    value = computed.figures[row.figure]
    if not isinstance(value, float):
        return
    unit = getattr(WORDS[row.figure], "unit", "")
    yield f"{_formula(form)} = {to_figures(value, 4)} {unit}".rstrip()
    if form.test == "methylene_blue":
        yield f"dye of {measurements.DYE_G_L:g} g/L is {measurements.dye_mol_l():.4f} mol/L ({measurements.DYE_G_MOL:.2f} g/mol)"
    if form.test == "wash":
        yield f"what the wash takes is finer than about 20 µm: such grains sink {measurements.sinking_mm_min(20):.0f} mm a minute"
    if form.test == "compactability":
        yield (
            f"three falls of 14 lb through 2 in give {measurements.ram_energy_j():.2f} J, on {SPECIMENS['us'].area_cm2:.2f} cm² "
            f"{measurements.STANDARD_RAM_KJ_M2:.2f} kJ/m²"
        )
        if form.has(*TIN):
            rammer, fall, width = (plain(form.number(word)) for word in TIN)
            yield (
                f"yours: 3 × {rammer} kg × {GRAVITY_M_S2:g} × {fall} mm / (π/4 × ({width} mm)²) = "
                f"{computed.number('ram_energy_kj_m2'):.2f} kJ/m²; matching fall {fall} mm × {measurements.STANDARD_RAM_KJ_M2:.2f} / "
                f"{computed.number('ram_energy_kj_m2'):.2f} = {computed.number('matching_fall_mm'):.0f} mm"
            )
    if form.scatter > 0:
        total = computed.half_width(row.figure)
        yield f"± {to_figures(total, 2)} in all; the test itself, without its readings, accounts for ± {to_figures(form.scatter, 2)}"


def _formula(form: ResolvedBench) -> str:
    given = {word: getattr(form, word) for word in form.row.readings}
    body = SPECIMENS[form.specimen]
    values = {word: plain(value) for word, value in given.items() if isinstance(value, float)} | {
        "air": f"{measurements.AIR_CM3:g}",
        "height": f"{body.height_cm:g}",
        "area": f"{body.area_cm2:.3f}",
        "gravity": f"{GRAVITY_M_S2:g}",
        "swell_g": f"{measurements.SWELL_SAMPLE_G:g}",
    }
    return next(written for formula in _FORMULAS[form.test] if (written := _written(formula, values)))


def _written(formula: str, values: dict[str, str]) -> str:
    """The formula with its readings, or nothing where one of them is not given."""
    try:
        return formula.format_map(values)
    except KeyError:
        return ""
