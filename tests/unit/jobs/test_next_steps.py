"""Every answer ends in a next step, and a stop never leads to the pour. The jobs are those of the menu; the rules are own."""

import pytest

from sandmix.asking.form import asks, fill
from sandmix.jobs import JOBS
from sandmix.language.errors import InputError

STOPS = {
    "temper": {"heap_kg": 45, "moisture_pct_wet": 6.4},
    "pour": {"casting_volume_cm3": 380, "moisture_pct_wet": 6.4},
    "mix": {"make_kg": 45, "clay_pct_dry": 7, "moisture_pct_wet": 6.4},
    "rebond": {"heap_kg": 45, "moisture_pct_wet": 6.4, "clay_pct_dry": 6, "target_clay_pct_dry": 7},
    "blend": {"lots": [{"kg": 20, "moisture_pct_wet": 6.4}]},
    "bench": {"test": "moisture", "sample_wet_g": 500, "sample_dry_g": 468},
    "choose": {"bag_label": "sand_mix"},
    "facing": {"casting_volume_cm3": 250, "casting_area_cm2": 420, "flask_sand_kg": 24, "moisture_pct_wet": 7},
    "tin": {
        "compactability_now_pct": 48,
        "book": [
            {"kind": "mixed", "at": "2027-03-01", "make_kg": 45, "clay_pct_dry": 8, "moisture_pct_wet": 3.4},
            {"kind": "measured", "at": "2027-03-02", "moisture_pct_wet": 6.4},
        ],
    },
}


def wrong_words(step):
    """The words of a step that its job does not know, or whose value it refuses; what is only missing is no fault."""
    form = JOBS[step["job"]].form
    unknown = step["inputs"].keys() - asks(form).keys()
    try:
        fill(form, step["inputs"])
    except InputError as error:
        return unknown | {problem.word for problem in error.problems} & step["inputs"].keys()
    return unknown


def faults(answer):
    """What is wrong with the next steps of an answer."""
    steps = answer["next"]
    found = {f"{step['job']}: {word}" for step in steps for word in wrong_words(step)}
    if not steps:
        found.add("no next step")
    if sum(step["foremost"] for step in steps) > 1:
        found.add("two foremost steps")
    if answer["state"]["tone"] == "stop" and answer["job"] != "plan" and "pour" in [step["job"] for step in steps]:
        found.add("a stop leads to the pour")
    return found


@pytest.mark.parametrize("job", JOBS)
def test_the_example_of_each_job_ends_in_a_next_step(ask, job):
    assert faults(ask(job, **JOBS[job].example)) == set()


@pytest.mark.parametrize("job", STOPS)
def test_a_stop_has_a_way_out_and_never_leads_to_the_pour(ask, job):
    answer = ask(job, **STOPS[job])
    assert answer["state"]["tone"] == "stop"
    assert faults(answer) == set()


@pytest.mark.parametrize("more", [{}, {"gating_volume_cm3": 120}, {"frame_kg": 5}, {"patterns_count": 2}])
def test_the_flask_leads_to_the_pour_with_the_cope_of_the_plan(ask, more):
    """One rule for both: the cope less all that may be in it, and half of the frame (DOOR.md)."""
    flask = {"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 90}
    plan = ask("plan", box_mm=[160, 60, 30], casting_volume_cm3=250, flasks=[flask], heap_kg=60, **more)
    steps = {step["job"]: step for step in plan["steps"]}
    pour = next(step for step in ask("flask", **steps["flask"]["inputs"])["next"] if step["job"] == "pour")
    cope, _, error = pour["inputs"]["cope_kg"].removesuffix(" kg").partition(" ± ")
    assert float(cope) == pytest.approx(steps["pour"]["inputs"]["cope_kg"]["value"], rel=1e-3)
    assert float(error) == pytest.approx(steps["pour"]["inputs"]["cope_kg"]["doubt"], rel=0.05)
    assert pour["inputs"]["head_mm"] == f"{steps['pour']['inputs']['head_mm']['value']:g} mm"
