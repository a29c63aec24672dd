"""What holds for every job, for any input within the limits of its words."""

import json
import math

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

JOBS = (
    *("mix", "temper", "flask", "rebond", "shopping", "pour", "burnout", "bench", "estimate", "tin", "feed", "gate"),
    "plan",
)
DEARER = {"burnout": 30, "plan": 60}
MASSES = {
    "mix": (("make_kg", "sand_on_hand_kg", "clay_on_hand_kg"), {"mixer_kg"}),
    "temper": (("heap_kg",), set()),
    "rebond": (("heap_kg", "target_kg", "bin_kg"), set()),
    "pour": (("casting_volume_cm3", "projected_area_cm2", "cope_kg", "core_volume_cm3"), {"crucible_l"}),
    "burnout": (("casting_volume_cm3", "casting_area_cm2", "sand_kg", "flask_sand_kg"), {"modulus_mm", "box_mm"}),
}
BELOW_ZERO = {"surplus_kg", "moisture_step_pct_wet"}
ROUNDED = {"water_most_kg", "put_on_kg"}
KG = {"low": 2, "high": 200}
WET = st.floats(0, 8)


def examples_for(job, cheap):
    """How many are drawn: fewer of a job whose answer takes long."""
    return examples(max(4, cheap // DEARER.get(job, 1)))


def refused_or_sound(answer):
    assert "fault" not in answer, (answer["problems"], answer.get("fault"))
    if not answer["ok"]:
        assert all(problem["message"] for problem in answer["problems"])
        return
    for word, value in answer["result"].items():
        if isinstance(value, list):
            assert all(row["kg"] > 0 and math.isfinite(row["kg"]) for row in value), value
        elif not isinstance(value, str):
            assert math.isfinite(value), word
            assert value >= 0 or word in BELOW_ZERO, (word, value)
    for word, (low, high) in answer["doubt"].items():
        value = answer["result"][word]
        assert low <= value + 1e-9 * abs(value), word
        assert value <= high + 1e-9 * abs(value), word
        assert low >= 0 or word in BELOW_ZERO, word
        assert math.isfinite(high), word
    for timer in answer["timers"]:
        assert timer["after_s"] >= 0
        assert timer["latest_s"] is None or timer["after_s"] <= timer["latest_s"] + 1e-6
    for chart in answer["charts"]:
        lines = [line for panel in (chart, *chart["below"]) for line in (*panel["series"], *panel["band"])]
        assert all(math.isfinite(x) and math.isfinite(y) for line in lines for x, y in (*line["points"], *line["ends"]))


@pytest.mark.parametrize("job", JOBS)
def test_nothing_is_negative_or_endless_and_nothing_faults(ask, lawful, job):
    @examples_for(job, 300)
    @given(asked=lawful(job))
    def holds(asked):
        refused_or_sound(ask(job, **asked))

    holds()


@pytest.mark.parametrize(
    "job", ["mix", "temper", "flask", "rebond", "shopping", "pour", "burnout", "estimate", "tin", "feed"]
)
def test_every_amount_of_what_to_do_is_a_figure_of_the_answer(ask, sensible, job):
    @examples_for(job, 120)
    @given(asked=sensible(job))
    def holds(asked):
        answer = ask(job, **asked)
        assume(answer["ok"])
        shown = {row["text"] for row in answer["shown"]} | {row["text"].split(",")[0] for row in answer["shown"]}
        named = {row["name"] for row in answer["result"].get("plan", ())}
        for row in answer["todo"]:
            assert row["text"]
            of_a_material = row["text"].partition(", as bought")[0] in named
            assert row["amount"] in shown | {""} or of_a_material, (row, shown)
        if answer["state"]["tone"] == "stop":
            assert not any("First water" in row["text"] for row in answer["todo"]), "no dose on a stop"
            assert answer["todo"], "a stop says what to do instead"

    holds()


@pytest.mark.parametrize("job", ["pour", "burnout"])
def test_the_same_of_what_is_usual(ask, sensible, job):
    @examples_for(job, 240)
    @given(asked=sensible(job))
    def holds(asked):
        refused_or_sound(ask(job, **asked))

    holds()


@pytest.mark.parametrize("job", JOBS)
def test_leaving_out_the_ranges_changes_nothing_else(call_bare, ask, without_ranges, lawful, job):
    @examples_for(job, 100)
    @given(asked=lawful(job))
    def holds(asked):
        assert call_bare(job, asked) == without_ranges(ask(job, **asked))

    holds()


@pytest.mark.parametrize("job", MASSES)
def test_double_the_batch_doubles_every_mass(ask, sensible, job):
    @examples_for(job, 150)
    @given(data=st.data())
    def holds(data):
        asked = data.draw(sensible(job))
        scaled, unscaled = MASSES[job]
        asked = {word: value for word, value in asked.items() if word not in unscaled}
        asked |= {word: data.draw(st.floats(1, 500)) for word in scaled if word in asked}
        compare_with_the_double(ask, job, asked, scaled)

    holds()


def compare_with_the_double(ask, job, asked, scaled):
    twice = asked | {word: 2 * asked[word] for word in scaled if word in asked}
    one, two = ask(job, **asked), ask(job, **twice)
    assume(one["ok"])
    assert two["ok"]
    for word, value in one["result"].items():
        if word.endswith(("_kg", "_l", "_buckets")) and word not in ROUNDED:
            assert two["result"][word] == pytest.approx(2 * value, rel=1e-6, abs=1e-6), word
        elif word.endswith(("_pct_dry", "_pct_wet", "_pct_sand", "binding", "verdict")):
            assert two["result"][word] == (
                value if isinstance(value, str) else pytest.approx(value, rel=1e-6, abs=1e-6)
            ), word


@given(data=st.data())
@examples(300)
def test_rebond_then_ask_again_asks_for_nothing(ask, sensible, data):
    asked = data.draw(sensible("rebond"))
    asked["dead_fines_pct_dry"] = data.draw(st.floats(0, 15))
    first = ask("rebond", **asked)
    assume(first["ok"])
    target = first["result"]["heap_after_kg"]
    again = asked | {
        "heap_kg": target,
        "target_kg": target,
        "moisture_pct_wet": asked.get("target_moisture_pct_wet", 3.5),
        "clay_pct_dry": asked["target_clay_pct_dry"],
        "dead_fines_pct_dry": first["result"]["dead_fines_after_pct_dry"],
    }
    second = ask("rebond", **again)
    assert second["ok"], second
    for word in ("discard_kg", "sand_kg", "clay_kg", "water_kg", "water_to_lose_kg"):
        assert second["result"][word] == pytest.approx(0, abs=1e-6 * target), word


@given(data=st.data())
@examples(200)
def test_rebond_conserves_mass(ask, sensible, data):
    """Heap less discard, with all that is added and less what dries off, is the target."""
    asked = data.draw(sensible("rebond"))
    answer = ask("rebond", **asked)
    assume(answer["ok"])
    plan = answer["result"]
    target = asked.get("target_kg", plan["heap_after_kg"])
    made = (
        asked["heap_kg"]
        - plan["discard_kg"]
        + plan["sand_kg"]
        + plan["clay_kg"]
        + plan["water_kg"]
        - plan["water_to_lose_kg"]
    )
    assert made == pytest.approx(target, rel=1e-6)


@given(data=st.data())
@examples(200)
def test_all_that_is_weighed_in_is_the_mix(ask, sensible, data):
    answer = ask("mix", **data.draw(sensible("mix")))
    assume(answer["ok"])
    mix = answer["result"]
    assume(answer["state"]["tone"] != "stop" or "water_kg" in mix)
    assert mix["sand_kg"] + mix["clay_kg"] + mix["water_kg"] - mix["water_to_lose_kg"] == pytest.approx(
        mix["make_kg"], rel=1e-9
    )


@given(heap=st.floats(2, 200), wet=WET, wetter=WET, target=st.floats(2, 6))
@examples(300)
def test_a_wetter_heap_never_needs_more_water(ask, heap, wet, wetter, target):
    low, high = sorted((wet, wetter))
    dry_answer, wet_answer = (
        ask("temper", heap_kg=heap, moisture_pct_wet=moisture, target_moisture_pct_wet=target)["result"]
        for moisture in (low, high)
    )
    assert wet_answer["water_kg"] <= dry_answer["water_kg"]
    assert wet_answer["first_water_kg"] <= dry_answer["first_water_kg"]
    assert wet_answer["water_most_kg"] <= dry_answer["water_most_kg"] + 1e-9


@given(
    make=st.floats(1, 200), clay=st.floats(1, 15), moisture=st.floats(2, 6), activity=st.floats(40, 100),
    damp=st.floats(0, 3), bagged=st.floats(5, 15),
)  # fmt: skip
@examples(200)
def test_a_recipe_read_back_in_another_basis_is_the_same_mix(ask, make, clay, moisture, activity, damp, bagged):
    around = {
        "make_kg": make,
        "moisture_pct_wet": moisture,
        "clay_activity_pct": activity,
        "sand_moisture_pct_wet": damp,
        "clay_moisture_pct_wet": bagged,
    }
    said = ask("mix", **around, clay_pct_dry=clay)["result"]
    bases = [
        {"clay_pct_sand": said["clay_pct_sand"]},
        {"clay_pct_wet": said["clay_pct_wet"]},
        {"parts_sand": said["parts_sand"], "parts_clay": said["parts_clay"]},
    ]
    for basis in bases:
        if basis.get("parts_sand", 1) > 1000:
            continue
        back = ask("mix", **around, **basis)["result"]
        for word in ("sand_kg", "clay_kg", "water_kg", "make_kg"):
            assert back[word] == pytest.approx(said[word], rel=1e-6, abs=1e-9), basis


@pytest.mark.parametrize("job", JOBS)
def test_a_next_step_is_taken_without_a_complaint_about_what_it_hands_on(ask, sensible, job):
    @examples_for(job, 50)
    @given(asked=sensible(job))
    def holds(asked):
        answer = ask(job, **asked)
        assume(answer["ok"] and answer["result"].get("make_kg", 0) < 5000)
        for link in answer["next"]:
            onward = ask(link["job"], **link["inputs"])
            problems = [] if onward["ok"] else onward["problems"]
            assert [problem for problem in problems if problem["word"] in link["inputs"]] == []

    holds()


@pytest.mark.parametrize("job", JOBS)
def test_an_answer_is_the_same_each_time(ask, sensible, job):
    @examples_for(job, 60)
    @given(asked=sensible(job))
    def holds(asked):
        assert json.dumps(ask(job, **asked)) == json.dumps(ask(job, **asked))

    holds()
