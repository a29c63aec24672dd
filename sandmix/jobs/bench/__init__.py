"""The job *bench*: what a test of the sand shows, how exact it is, and the least work that makes it exact enough."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.job import Job, OnlyFor
from sandmix.bench.catalogue import TESTS
from sandmix.jobs.bench.figures import finish, needs, run
from sandmix.jobs.bench.form import BenchForm, resolve
from sandmix.jobs.bench.telling import tell


def _asked_by() -> Mapping[str, tuple[str, ...]]:
    """The tests that use each reading."""
    words = dict.fromkeys(word for test in TESTS.values() for word in test.readings)
    return {word: tuple(key for key, test in TESTS.items() if word in test.readings) for word in words}


JOB = Job(
    name="bench",
    short="Test the sand",
    title="What does this test show?",
    answered_with="the figure of any of 17 tests with its ±, what it shows and what it does not, steps and timers, the least work for a smaller ±",
    group="tests",
    form=BenchForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "moisture_pct_wet",
        "washed_pct_dry",
        "clay_pct_dry",
        "permeability",
        "compactability_pct",
        "tin_rammed",
        "ram_energy_kj_m2",
        "matching_fall_mm",
        "water_sensitivity",
        "strength_kpa",
        "swell_ml",
        "rammed_density_kg_l",
        "jar_fines_pct",
        "squeeze",
        "shatter_pct",
        "hardness",
        "loss_on_ignition_pct_dry",
        "volatiles_pct_dry",
        "strokes_per_100ml",
        "stroke_ml",
        "dose_strokes",
        "plan_repeats",
        "plan_sample_g",
        "plan_step_g",
        "plan_work_min",
        "history_mean",
        "history_within",
        "ordinary",
    ),
    needs=needs,
    only_for=(OnlyFor(choice="test", words=_asked_by()),),
    example={
        "test": "compactability",
        "height_before_mm": "120 mm",
        "height_after_mm": "68 mm",
        "rammer_kg": "2.5 kg",
        "rammer_fall_mm": "250 mm",
        "tin_diameter_mm": "72 mm",
        "history": "44; 46; 43; 45",
    },
    story=(
        "A straight tin, 120 mm high and 72 mm wide, is riddled full and struck off. A rammer of 2.5 kg falls 250 mm three times and leaves 68 mm."
    ),
)
