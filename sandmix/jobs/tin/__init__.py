"""The job *tin*: how much water a heap needs by a tin test, with a slope that is learned from a person's own tests."""

from __future__ import annotations

from sandmix.asking.job import Job, Way, Ways, needs_always
from sandmix.jobs.tin.figures import finish, known, run
from sandmix.jobs.tin.form import TinForm, resolve
from sandmix.jobs.tin.telling import tell

JOB = Job(
    name="tin",
    short="Dose by the tin",
    title="How much water does the tin test call for?",
    answered_with="the water to add in two minutes, the moisture read off your own line, and how many tests make it exact",
    group="heap",
    form=TinForm,
    resolve=resolve,
    run=run,
    known=known,
    known_from="book",
    finish=finish,
    tell=tell,
    answers=(
        "compactability_now_pct",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "dried_kg",
        "moisture_step_pct_wet",
        "moisture_pct_wet",
        "compactability_slope",
        "prior_share_pct",
        "tin_pairs",
        "tin_steps",
        "pairs_to_go",
        "ram_energy_kj_m2",
        "matching_fall_mm",
    ),
    needs=needs_always(("water_kg", "first_water_kg", "water_most_kg", "water_to_lose_kg"), "heap_kg"),
    ways=(
        Ways(
            name="tin",
            label="How do you give the tin test?",
            options=(
                Way(name="heights", label="Two heights", words=("height_before_mm", "height_after_mm")),
                Way(name="reading", label="A reading", words=("compactability_now_pct",)),
            ),
        ),
    ),
    example={
        "height_before_mm": "120 mm",
        "height_after_mm": "75 mm",
        "since_mulling_h": "0.2 h",
        "book": """[
{"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
{"kind": "calibrated", "at": "2027-03-06", "rammer_kg": "2.5 kg", "rammer_fall_mm": "280 mm", "tin_diameter_mm": "75 mm"},
{"kind": "measured", "at": "2027-03-13", "sample_wet_g": "500 g", "sample_dry_g": "485 g", "compactability_read_pct": "38 %"},
{"kind": "measured", "at": "2027-03-20", "sample_wet_g": "500 g", "sample_dry_g": "482 g", "compactability_read_pct": "51 %"},
{"kind": "measured", "at": "2027-03-27T09:00Z", "sample_wet_g": "500 g", "sample_dry_g": "487 g", "compactability_read_pct": "29 %",
 "water_added_kg": "0.30 kg"},
{"kind": "measured", "at": "2027-03-27T11:00Z", "compactability_read_pct": "44 %"}]""",
        "now": "2027-04-03T09:00Z",
    },
    story="The hall's chest was mulled just now, and in the tin 120 mm of loose sand sink to 75 mm. Three tests and one dose are in its book.",
)
