"""What follows a diagnosis: its cautions, and the jobs to go on with."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import (
    BURNS,
    CUTTING,
    DRYING,
    DUST,
    FLUX_FUME,
    HOLD_DOWN,
    HOT_CASTING,
    HOT_SAND,
    TURN,
    WET_CHARGE,
    WET_MOULD,
    Caution,
)
from sandmix.asking.job import Computed, Next
from sandmix.defects.findings import TRIALS
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.materials.metals import METALS
from sandmix.recipes.too_wet import GO, Wetness
from sandmix.vocabulary import WORDS


def trial_key(computed: Computed[DiagnoseForm]) -> str:
    """Return the key of the next test, or nothing where no test would show more."""
    return str(computed.figures.get("next_test") or "")


_BY_CAUSE: dict[str, tuple[Caution, ...]] = {
    "too_dry": (HOT_SAND, DUST),
    "too_wet": (WET_MOULD, DRYING),
    "little_live_clay": (DUST,),
    "much_dead_fines": (DUST,),
    "much_clay": (DUST,),
    "hot_sand": (HOT_SAND,),
    "gas_in_metal": (WET_CHARGE, FLUX_FUME),
    "long_melt": (WET_CHARGE, FLUX_FUME),
    "light_cope": (HOLD_DOWN,),
    "opened_early": (HOT_CASTING,),
    "poured_cold": (BURNS,),
    "poured_hot": (BURNS,),
    "dross": (BURNS, FLUX_FUME),
    "gate_erosion": (BURNS,),
    "crush": (HOLD_DOWN,),
}
_BY_SIGN: dict[str, tuple[Caution, ...]] = {
    "bubbling_sprue": (WET_MOULD, BURNS),
    "steam": (WET_MOULD,),
    "wet_squeeze": (WET_MOULD,),
    "run_out": (HOLD_DOWN, BURNS),
    "walls_blow_out": (TURN,),
    "dusty": (DUST,),
    "torn_casting": (HOT_CASTING,),
    "glowing_metal": (BURNS,),
}
_BY_TRIAL: dict[str, tuple[Caution, ...]] = {
    "sample": (WET_CHARGE, BURNS),
    "probe": (WET_CHARGE, BURNS),
    "moisture": (DRYING,),
    "wash": (DRYING,),
    "sieves": (DUST,),
    "where": (CUTTING,),
    "saw": (CUTTING,),
    "fracture": (CUTTING,),
    "tear_face": (CUTTING,),
}


def cautions(computed: Computed[DiagnoseForm], leading: list[str]) -> Iterable[Caution]:
    """Return the cautions for the signs, the leading causes, a mould that is too wet, and the next test."""
    form = computed.form
    if Wetness(metal=METALS[form.metal], sand_pct_wet=form.moisture_pct_wet).sand != GO:
        yield WET_MOULD
    for table, keys in ((_BY_SIGN, form.seen), (_BY_CAUSE, leading), (_BY_TRIAL, (trial_key(computed),))):
        for key in keys:
            yield from table.get(key, ())


_BENCH = {
    "squeeze": "squeeze",
    "moisture": "moisture",
    "compactability": "compactability",
    "live_clay": "methylene_blue",
    "wash": "wash",
    "permeability": "permeability",
    "strength": "strength",
}
_GO_ON = (
    ("temper", "Bring the sand to its moisture", {"too_dry", "too_wet"}, ("moisture_pct_wet",)),
    ("rebond", "Restore the sand", {"little_live_clay", "much_dead_fines"}, ("clay_pct_dry", "dead_fines_pct_dry", "moisture_pct_wet")),
    ("blend", "Blend in another sand", {"too_fine", "too_coarse", "much_clay"}, ()),
    ("pour", "Work out the weights and the charge", {"light_cope", "poured_cold", "poured_hot", "gas_in_metal"}, ("pour_temp_c",)),
    ("burnout", "See how long the mould stays hot", {"opened_early", "hot_sand"}, ("pour_temp_c",)),
)  # fmt: skip


def links(computed: Computed[DiagnoseForm], leading: list[str]) -> Iterable[Next]:
    """Return the next test as a job, then the jobs that help with the leading causes, each with the inputs that were given."""
    form, key = computed.form, trial_key(computed)
    if key in _BENCH:
        yield Next(
            job="bench", label=f"{TRIALS[key].short}: steps and result", inputs={"test": _BENCH[key]}, foremost=True
        )
    if key == "sieves":
        yield Next(job="fineness", label="Sieve test: the result", foremost=True)
    if key == "weigh":
        yield Next(job="pattern", label="Volume and mass of the casting", inputs={"metal": form.metal}, foremost=True)
    for job, label, causes, words in _GO_ON:
        if causes & set(leading):
            inputs = {word: WORDS[word].show(form.read[word]) for word in words if word in form.read}
            if form.is_poured_below_liquidus:
                inputs.pop("pour_temp_c", None)
            inputs |= {"metal": form.metal} if job != "rebond" and job != "blend" else {}
            yield Next(job=job, label=label, inputs=inputs)
