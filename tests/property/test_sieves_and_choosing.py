"""True for every stack of sieves, every match and every bag."""

import json
import math

import pytest
from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.materials import choosing, fineness, partial_sieves

OPENINGS = st.floats(0.02, 25).map(partial_sieves.name_of)
SIEVE = st.one_of(st.sampled_from(list(fineness.SIEVES)), OPENINGS)
STACKS = st.dictionaries(SIEVE, st.floats(0, 1000), min_size=1, max_size=14).filter(
    lambda retained: sum(retained.values()) > 1e-3
)
UNNAMED = st.sampled_from([None, partial_sieves.EMPTY, partial_sieves.ABSENT])
SERIES = st.dictionaries(st.sampled_from(list(fineness.SIEVES)), st.floats(0, 1000), min_size=1).filter(
    lambda retained: sum(retained.values()) > 1e-3
)
LOTS = st.lists(
    st.fixed_dictionaries(
        {"kg": st.floats(0.01, 5000), "retained": SERIES},
        optional={
            "moisture_pct_wet": st.floats(0, 25),
            "clay_pct_dry": st.floats(0, 50),
            "dead_fines_pct_dry": st.floats(0, 49),
        },
    ),
    min_size=1,
    max_size=6,
)
BAGS = st.fixed_dictionaries(
    {"bag_label": st.sampled_from([*(key for key, kind in choosing.KINDS.items() if kind.label), choosing.UNKNOWN])},
    optional={
        "stuff": st.sampled_from(["sand", "clay"]),
        "vinegar": st.sampled_from(["yes", "no", "not_tried"]),
        "jar": st.sampled_from(["clear", "cloudy", "not_tried"]),
        "grain_shape": st.sampled_from(["round", "sharp", "not_tried"]),
        "swollen": st.sampled_from(["gel", "grit", "not_tried"]),
        "perfume": st.sampled_from(["yes", "no", "not_tried"]),
        "pebbles_pct": st.floats(0, 100),
        "swell_ml": st.floats(0, 100),
        "bought_kg": st.floats(0.01, 5000),
        "ground_kg": st.floats(0.01, 5000),
        "passed_kg": st.floats(0, 5000),
        "wanted_kg": st.floats(0.01, 5000),
        "clay_activity_pct": st.floats(1, 100),
        "clay_moisture_pct_wet": st.floats(0, 30),
    },
)


def sound(answer, below_zero=()):
    assert "fault" not in answer, answer
    assert answer["ok"], answer["problems"]
    for word, value in answer["result"].items():
        if isinstance(value, float):
            assert math.isfinite(value), word
            assert value >= 0 or word in below_zero, (word, value)
            low, high = answer["doubt"][word]
            assert low - 1e-9 * abs(value) <= value <= high + 1e-9 * abs(value), word
            assert math.isfinite(low) and math.isfinite(high), word


@given(STACKS, UNNAMED)
@examples()
def test_the_number_and_the_best_guess_are_within_the_band(retained, unnamed):
    low, high = partial_sieves.band(retained, unnamed)
    for number in (partial_sieves.number(retained, unnamed), partial_sieves.estimate(retained, unnamed)):
        assert low * (1 - 1e-9) <= number <= high * (1 + 1e-9)


@given(STACKS, UNNAMED)
@examples()
def test_no_grain_is_lost_between_the_openings(retained, unnamed):
    assert sum(partial_sieves.on_series(retained, unnamed).values()) == pytest.approx(sum(retained.values()))


@given(SERIES, st.sets(st.sampled_from(list(fineness.SIEVES)[:-1])))
@examples()
def test_with_fewer_sieves_the_band_still_holds_the_true_number(full, taken_out):
    """The grain of a sieve that is taken out falls to the next finer one, or to the pan."""
    few, carried = {}, 0.0
    for number in fineness.SIEVES:
        carried += full.get(number, 0.0)
        if number not in taken_out:
            few[number], carried = carried, 0.0
    low, high = partial_sieves.band(few, partial_sieves.ABSENT)
    assert low * (1 - 1e-9) <= fineness.gfn(full) <= high * (1 + 1e-9)


@given(STACKS, UNNAMED)
@examples()
def test_one_more_sieve_never_widens_the_band(retained, unnamed):
    found = partial_sieves.next_sieve(retained, unnamed)
    if found is not None:
        low, high = partial_sieves.band(retained, unnamed)
        assert 0 <= found[1] < high - low


@given(STACKS, UNNAMED, st.one_of(st.none(), st.floats(0.1, 20000)), st.one_of(st.none(), st.floats(0, 20000)))
@examples(300)
def test_fineness_of_any_stack_is_answered_soundly(ask, retained, unnamed, sample, washed):
    answer = ask("fineness", retained=retained, unnamed_sieves=unnamed, sample_g=sample, clay_washed_g=washed)
    if sample is not None and washed is not None and washed >= sample:
        assert not answer["ok"]
    else:
        sound(answer, below_zero=("sieve_loss_pct",))


@given(LOTS, st.floats(3, 300), st.floats(0, 100), st.one_of(st.none(), st.floats(0, 1)))
@examples(300)
def test_a_match_is_sound_and_no_single_lot_is_nearer(ask, lots, wanted, leeway, share):
    whole = sum(lot["kg"] for lot in lots)
    make = None if share is None else min(5000, max(0.05, share * whole))
    if make is not None and make > whole:
        return
    answer = ask("match", lots=lots, target_gfn=wanted, gfn_leeway=leeway, make_kg=make)
    sound(answer)
    result = answer["result"]
    assert sum(row["kg"] for row in result["take"]) == pytest.approx(result["make_kg"], rel=1e-9)
    for row in result["take"]:
        assert row["kg"] <= lots[int(row["name"].removeprefix("lot ")) - 1]["kg"] * (1 + 1e-6)
    if make is not None:
        assert result["make_kg"] == pytest.approx(make, rel=1e-6)
    for lot in lots:
        if make is None or lot["kg"] >= make:
            alone = max(0.0, abs(fineness.gfn(lot["retained"]) - wanted) - leeway)
            assert max(0.0, result["gfn_off"] - leeway) <= alone + 1e-5 * wanted


@given(BAGS)
@examples(400)
def test_a_bag_is_judged_or_refused(ask, bag):
    answer = ask("choose", **bag)
    assert "fault" not in answer, answer
    if not answer["ok"]:
        return
    sound(answer)
    result = answer["result"]
    assert ("usability" in result) != ("test_first" in result)
    usabilities = [row["usability"] for row in result["reasons"]]
    assert usabilities == sorted(usabilities, key=["not_usable", "usable_with_care", "usable"].index)
    assert result.get("usability", usabilities[0]) == usabilities[0]
    if bag["bag_label"] in ("sand_mix", "cement"):
        assert result["usability"] == "not_usable"
    for link in answer["next"]:
        onward = ask(link["job"], **link["inputs"])
        refused = [] if onward["ok"] else [problem["word"] for problem in onward["problems"]]
        assert not set(refused) & set(link["inputs"]), (link, onward["problems"])


@given(BAGS, st.sampled_from(["vinegar", "jar", "perfume", "swollen"]))
@examples(200)
def test_a_worse_finding_never_makes_a_bag_better(ask, bag, test):
    worse = {"vinegar": "yes", "jar": "cloudy", "perfume": "yes", "swollen": "grit"}[test]
    before, after = ask("choose", **bag), ask("choose", **bag | {test: worse})
    if before["ok"] and bag.get(test, "not_tried") == "not_tried" and "usability" in before["result"]:
        ranks = ["usable", "usable_with_care", "not_usable"]
        assert ranks.index(after["result"]["usability"]) >= ranks.index(before["result"]["usability"])


@given(st.dictionaries(st.text(max_size=12), st.one_of(st.floats(), st.text(max_size=6)), max_size=5))
@examples(300)
def test_any_table_of_any_keys_is_answered_or_refused(ask, given_table):
    answer = ask(
        "fineness",
        retained=json.loads(
            json.dumps(given_table).replace("NaN", "0").replace("-Infinity", "0").replace("Infinity", "0")
        ),
    )
    assert "fault" not in answer, answer
