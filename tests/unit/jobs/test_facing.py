"""The job *facing*: masses by hand, the layer, the entries for both books, and what it refuses."""

import json
import math

import pytest

from sandmix.book.book import VERSION
from sandmix.doors.facade import call

CASTING = {"casting_volume_cm3": 250, "casting_area_cm2": 420, "flask_sand_kg": 24}


def test_a_layer_of_a_plate_is_its_surface_times_the_layer(ask):
    """420 cm² × 2.5 cm × 1.6 kg/L = 1.68 kg; the rest of 24 kg is backing."""
    result = ask("facing", **CASTING, facing_mm=25, rammed_density_kg_l=1.6)["result"]
    assert result["facing_rammed_kg"] == pytest.approx(1.68)
    assert result["backing_kg"] == pytest.approx(24 - 1.68)
    assert result["facing_share_pct"] == pytest.approx(100 * 1.68 / 24)


def test_a_layer_around_a_ball_counts_its_curvature(ask):
    """A ball of 30 mm radius: 4π/3 (50³ − 30³) mm³ at 1.55 kg/L."""
    ball = {"casting_volume_cm3": 36 * math.pi, "casting_area_cm2": 36 * math.pi, "shape": "ball", "flask_sand_kg": 24}
    result = ask("facing", **ball, facing_mm=20)["result"]
    assert result["facing_rammed_kg"] == pytest.approx(4 / 3 * math.pi * (50**3 - 30**3) * 1e-6 * 1.55)


def test_the_layer_is_what_the_pour_dries_and_at_least_20_mm(ask):
    """A thin plate dries less than 20 mm; of a thick one the layer is the depth of *burnout*, up to a whole millimetre."""
    thin = ask("facing", casting_volume_cm3=40, casting_area_cm2=300, flask_sand_kg=24)["result"]
    assert thin["dry_depth_mm"] < 20 == thin["facing_layer_mm"]
    thick = ask("facing", **CASTING)["result"]
    dried = ask("burnout", casting_volume_cm3=250, casting_area_cm2=420)["result"]["dry_depth_mm"]
    assert thick["dry_depth_mm"] == pytest.approx(dried)
    assert thick["facing_layer_mm"] == math.ceil(dried)


def test_a_layer_thinner_than_what_dries_needs_care(ask):
    answer = ask("facing", **CASTING, facing_mm=10)
    assert answer["state"] == {"word": "thin layer", "tone": "care"}
    assert "make the layer deeper" in answer["ways_out"][0]


def test_facing_never_exceeds_the_flask(ask):
    result = ask("facing", **CASTING | {"flask_sand_kg": 1}, facing_mm=100)["result"]
    assert (result["facing_rammed_kg"], result["backing_kg"]) == (pytest.approx(1), pytest.approx(0, abs=1e-9))


def test_what_is_thrown_away_and_what_joins_is_the_facing_less_its_water(ask):
    result = ask("facing", **CASTING, sand_lost_kg=0.5)["result"]
    dry = (result["facing_rammed_kg"]) * 0.965
    assert 0.5 * 0.965 - 1e-9 <= result["facing_lost_kg"] <= 0.5
    assert dry - 0.5 * 0.965 <= result["facing_joins_kg"] + 1e-9 <= result["facing_rammed_kg"] - 0.4


def test_the_entries_move_the_same_sand_out_of_one_book_and_into_the_other(ask):
    answer = ask("facing", **CASTING, heap_kg=45)
    records = {record["kind"]: record["words"] for record in answer["records"]}
    assert list(records) == ["split", "joined", "poured"]
    assert float(records["split"]["split_kg"].split()[0]) == pytest.approx(
        answer["result"]["facing_rammed_kg"], rel=1e-3
    )
    assert float(records["joined"]["joined_kg"].split()[0]) == pytest.approx(
        answer["result"]["facing_joins_kg"], rel=1e-3
    )
    assert records["poured"]["sand_lost_kg"] == "0 kg"


def test_both_books_take_the_entries(ask):
    """Backing: 45 kg and what joins, less the water that the pour drives off. Facing: what was mixed less what is taken out."""
    answer = ask("facing", **CASTING, heap_kg=45)
    split, joined, poured = ({"kind": record["kind"], **record["words"]} for record in answer["records"])
    lies = {"kind": "joined", "moisture_pct_wet": "3.5 %", "clay_pct_dry": "7 %"}
    backing = heap_of({**lies, "joined_kg": "45 kg"}, joined, poured)
    facing = heap_of({**lies, "joined_kg": "10 kg"}, split)
    water = float(poured["water_driven_kg"].split()[0])
    assert backing["heap_kg"] == pytest.approx(45 + answer["result"]["facing_joins_kg"] - water, rel=1e-3)
    assert facing["heap_kg"] == pytest.approx(10 - answer["result"]["facing_rammed_kg"], rel=1e-3)


def heap_of(*events):
    """The figures of a heap with these entries, recorded one after the other by the library."""
    book = {"format": "sandmix book", "version": VERSION, "name": "The heap", "events": []}
    for at, event in enumerate(events):
        dated = {**event, "at": f"2026-05-01T1{at}:00:00Z"}
        told = json.loads(call(json.dumps({"job": "record", "inputs": {"book": book, "event": dated}})))
        book["events"].append(told["event"])
    return json.loads(call(json.dumps({"job": "heap", "inputs": {"book": book}})))["result"]


def test_the_new_grain_of_the_backing_by_hand(ask):
    """Dry: 45 kg × 0.965 backing; per cast the facing less 0.5 kg joins and as much leaves: (B/(B + e))^30 of the old grain is left."""
    result = ask("facing", **CASTING, heap_kg=45, casts=30, sand_lost_kg=0.5, clay_activity_pct=100)["result"]
    joins = (result["facing_rammed_kg"] - 0.5) / 45
    assert result["new_grain_pct"] == pytest.approx(100 * (1 - (1 + joins) ** -30))


def test_the_fineness_is_the_mean_by_mass(ask):
    result = ask("facing", **CASTING, heap_kg=45, casts=30, heap_gfn=60, facing_gfn=120)["result"]
    assert result["backing_gfn_after"] == pytest.approx(60 + 60 * result["new_grain_pct"] / 100)


REFUSED = [
    ({"casts": 2.5}, "casts"),
    ({"heap_kg": 10}, "heap_kg"),
    ({"facing_clay_pct_dry": 20, "facing_from_backing_pct_dry": 90}, "facing_from_backing_pct_dry"),
    ({"clay": "clay_granules", "clay_activity_pct": 5}, "facing_clay_pct_dry"),
    ({"clay_pct_dry": 60, "dead_fines_pct_dry": 60}, "dead_fines_pct_dry"),
    ({"casting_area_cm2": 10}, "casting_area_cm2"),
    ({"casting_area_cm2": 99000}, "casting_area_cm2"),
    ({"pour_temp_c": 300}, "pour_temp_c"),
]


@pytest.mark.parametrize(("inputs", "word"), REFUSED)
def test_what_cannot_be_is_refused_in_words(ask, inputs, word):
    answer = ask("facing", **CASTING | inputs)
    assert word in [problem["word"] for problem in answer["problems"]]


def test_nothing_that_leaves_the_backing_is_said(ask):
    """A loss as large as the facing, and no clay added: nothing joins the backing and nothing leaves it."""
    answer = ask("facing", **CASTING, sand_lost_kg=24, make_up="no")
    assert "backing_end_dead_fines_pct_dry" not in answer["result"]
    assert "rise without end" in answer["headline"]
    assert answer["state"]["tone"] == "care"


def test_a_rich_facing_lets_the_backing_rise(ask):
    answer = ask("facing", **CASTING, facing_clay_pct_dry=12, clay_pct_dry=6, sand_lost_kg=0.2)
    assert answer["result"]["backing_end_clay_pct_dry"] > 6
    assert "the backing needs none" in " ".join(answer["remarks"])


def test_the_chart_begins_at_the_backing_now(ask):
    chart = ask("facing", **CASTING, heap_kg=45, casts=120, dead_fines_pct_dry=3)["charts"][0]
    live, dead = (line["points"] for line in chart["series"])
    assert (live[0], dead[0]) == ([0, 7], [0, 3])
    assert live[-1][0] == 120
    assert len(live) <= 62


def test_sand_that_ends_above_its_limit_needs_care(ask):
    """Iron burns the clay of much of its facing, and little of it is thrown away."""
    iron = {"metal": "grey_iron", "sand_lost_kg": 0.1, "facing_from_backing_pct_dry": 60, "heap_kg": 45}
    answer = ask("facing", **CASTING, **iron, dead_fines_limit_pct_dry=0.5)
    assert answer["result"]["backing_end_dead_fines_pct_dry"] > 0.5
    assert answer["state"] == {"word": "at its limit", "tone": "care"}
    assert "above the limit of 0.5 %" in " ".join(answer["ways_out"])


def test_facing_of_backing_is_an_entry_of_its_own(ask):
    answer = ask("facing", **CASTING, heap_kg=45, facing_from_backing_pct_dry=50)
    assert [record["kind"] for record in answer["records"]] == ["split", "split", "joined", "poured"]
    out, taken = (float(record["words"]["split_kg"].split()[0]) for record in answer["records"][:2])
    assert taken == pytest.approx(out / 2, rel=1e-3)


def test_granules_of_unknown_live_share_are_remarked(ask):
    assert "not known" in " ".join(ask("facing", **CASTING, clay="clay_granules")["remarks"])


def test_a_season_too_large_to_buy_for_offers_no_shopping(ask):
    large = {"casting_volume_cm3": 40000, "casting_area_cm2": 20000, "flask_sand_kg": 3000}
    assert [step["job"] for step in ask("facing", **large, casts=1000)["next"]] == ["mix", "season"]


def test_sand_too_wet_to_pour_on_gets_no_water_and_no_entry(ask):
    """Aluminium stops above 6 % of the wet mass."""
    answer = ask("facing", **CASTING, moisture_pct_wet=7)
    assert answer["state"] == {"word": "stop", "tone": "stop"}
    assert answer["headline"].startswith("Stop: the sand is too wet to pour on.")
    assert not {"facing_water_kg", "backing_water_kg"} & answer["result"].keys()
    assert answer["records"] == []
    assert answer["next"][0]["job"] == "temper"
    assert any(caution.startswith("Steam") for caution in answer["cautions"])


@pytest.mark.parametrize("moisture", [2, 4.5, 7])
def test_new_facing_is_mixed_to_the_target_of_the_metal_however_wet_the_heap_is(ask, moisture):
    """Aluminium's target is 3.5 % of the wet mass."""
    steps = ask("facing", **CASTING, moisture_pct_wet=moisture)["next"]
    assert [step["inputs"]["moisture_pct_wet"] for step in steps if step["job"] == "mix"] == ["3.5 %"]


def test_a_single_cast_is_no_plural(ask):
    given = {"casting_volume_cm3": 250, "casting_area_cm2": 420, "flask_sand_kg": 24, "heap_kg": 45}
    answer = ask("facing", **given, casts=1)
    assert any(remark.startswith("After 1 cast ") for remark in answer["remarks"])
    assert answer["charts"][0]["sentence"].startswith("Over 1 cast ")
