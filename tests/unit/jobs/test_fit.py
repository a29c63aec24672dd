"""The job *fit*, by hand arithmetic from the definitions of its words, and its answer in words."""

import json

import pytest

from sandmix.doors.facade import call

WIDE = {"name": "wide", "flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 100}
LONG = {"name": "long", "flask_length_mm": 280, "flask_width_mm": 180, "drag_depth_mm": 90, "cope_depth_mm": 70}
SHORT = {"name": "short", "flask_length_mm": 220, "flask_width_mm": 170, "drag_depth_mm": 90, "cope_depth_mm": 70}
BLOCK = {"pattern_length_mm": 150, "pattern_width_mm": 100, "pattern_height_mm": 40}
HELD = BLOCK | {"flasks": [WIDE, SHORT, LONG]}
BOARDS = [
    {"thickness_mm": 18, "width_mm": 123, "length_mm": 1000},
    {"thickness_mm": 18, "width_mm": 100, "length_mm": 800},
]


def said(answer):
    return " ".join(answer["remarks"])


@pytest.fixture
def fit(ask):
    def fit(**inputs):
        answer = ask("fit", **inputs)
        assert answer["ok"], answer["problems"]
        return answer

    return fit


def test_the_flask_with_the_least_sand_that_clears_is_taken(fit):
    """Long: 280 × 180 × 160 = 8.064 L less 0.6, × 1.55 = 11.569 kg, a quarter more 14.462. (280 − 150 − 30 − 20) / 2 = 40; (180 − 100) / 2."""
    answer = fit(**HELD)
    result = answer["result"]
    assert result["flask_taken"] == "long"
    assert result["rammed_kg"] == pytest.approx(11.5692)
    assert result["make_kg"] == pytest.approx(14.4615)
    assert (result["ends_mm"], result["sides_mm"], result["below_mm"], result["above_mm"]) == (40, 40, 50, 70)
    assert result["beside_mm"] == 30
    assert answer["state"] == {"word": "fits", "tone": "go"}
    assert answer["headline"].startswith("Take “long”")


def test_what_the_other_flasks_need_more_or_lack(fit):
    """Wide: (18 − 8.064) L × 1.55 × 1.25 = 19.251 kg, at 2 a kilogram 38.50. Short: (220 − 200) / 2 = 10 at the ends, 20 short."""
    result = fit(**HELD, cost_per_kg=2)["result"]
    wide, short = result["others"]
    assert wide["extra_kg"] == pytest.approx(19.251)
    assert wide["extra_cost"] == pytest.approx(38.502)
    assert wide["said"] == "it needs 19.3 kg more sand, which costs 38.50 more"
    assert short == {"name": "short", "said": "it is too small: 20 mm too little at the ends"}
    assert result["sand_cost"] == pytest.approx(28.923)
    assert "“short”: it is too small: 20 mm too little at the ends." in said(fit(**HELD))
    assert fit(**HELD)["result"]["others"][0]["said"] == "it needs 19.3 kg more sand"


def test_a_flask_can_be_chosen_by_its_name(fit):
    answer = fit(**HELD, flask_name="wide")
    assert answer["result"]["flask_taken"] == "wide"
    assert (
        next(row for row in answer["result"]["others"] if row["name"] == "long")["said"] == "it needs 19.3 kg less sand"
    )
    short = fit(**HELD, flask_name="short")
    assert short["state"]["word"] == "too small"
    assert "20 mm too little at the ends. “long” would be large enough." in said(short)
    assert short["headline"] == "“short” is too small: 20 mm too little at the ends."
    alone = fit(**BLOCK, flasks=[SHORT], flask_name="short")
    assert "One of 260 × 160 mm, drag 80, cope 40 would be large enough." in said(alone)


def test_where_none_is_large_enough_the_flask_to_make_is_given(fit):
    """150 + 30 + 20 + 60 by 100 + 60; drag 40 + 40, cope 40."""
    answer = fit(**BLOCK, flasks=[SHORT])
    result = answer["result"]
    assert result["flask_taken"] == "one to make"
    assert [result[f"least_{word}_mm"] for word in ("length", "width", "drag", "cope")] == [260, 160, 80, 40]
    assert answer["headline"].startswith(
        "None of the flasks on hand is large enough. Make one of 260 × 160 mm, drag 80, cope 40 inside"
    )
    assert answer["state"]["word"] == "make one"
    assert "enter boards on hand" in said(answer)
    assert fit(**BLOCK)["state"]["tone"] == "plain"
    named = fit(**HELD, flask_name="one to make")
    assert named["headline"].startswith("Make one")


def test_a_flask_without_a_cope_says_why_it_is_too_small(ask):
    block = {"pattern_length_mm": 160, "pattern_width_mm": 90, "pattern_height_mm": 30}
    tray = {"flask_length_mm": 320, "flask_width_mm": 280, "drag_depth_mm": 90}
    answer = ask("fit", **block, flasks=[tray, tray | {"name": "tub", "cope_depth_mm": 0}])
    ways_out = answer["ways_out"]
    assert answer["headline"].startswith("No flask on hand has a cope: enter the depth of its upper half, or make one")
    assert any("No cope depth was entered for “flask 1” and “tub”" in way for way in ways_out)
    assert not any("No cope depth" in way for way in ask("fit", **block, flasks=[tray], open_top="yes")["ways_out"])


def test_what_to_cut_from_the_boards(fit):
    """Sides 260 + 36 = 296, ends 160: 80 and 40 rip one board of 123 wide, 296 + 296 + 160 + 160 + 9 = 921 mm; walls 1824 mm."""
    answer = fit(**BLOCK, boards=BOARDS)
    result = answer["result"]
    assert len(result["cuts"]) == 8
    assert {cut["board"] for cut in result["cuts"]} == {"board 1"}
    assert (result["boards_used"], result["boards_fewest"]) == (1, 1)
    assert result["cut_length_mm"] == 1824
    assert "Boards used: 1. No plan needs fewer." in said(answer)
    assert [item["text"] for item in answer["checklist"]] == [
        "Cut 2 × drag side 296 × 80 mm from board 1.",
        "Cut 2 × cope side 296 × 40 mm from board 1.",
        "Cut 2 × drag end 160 × 80 mm from board 1.",
        "Cut 2 × cope end 160 × 40 mm from board 1.",
    ]
    on_hand = fit(**HELD, boards=BOARDS)
    assert "cuts" not in on_hand["result"]
    assert on_hand["checklist"] == []


def test_boards_that_are_not_enough_and_plans_that_may_not_be_the_best(fit):
    """A board of 60 wide holds no wall of 80. Boards of 90 × 310 give one strip each of 80: by area 109 440 of 27 900 each, four; it takes six."""
    narrow = said(fit(**BLOCK, boards=[{"thickness_mm": 18, "width_mm": 60, "length_mm": 2000}]))
    assert "These pieces can't be cut from them: drag side 296 × 80 mm and drag end 160 × 80 mm." in narrow
    many = fit(**BLOCK, boards=[{"thickness_mm": 15, "width_mm": 90, "length_mm": 310, "count": 9}])
    assert many["result"]["boards_fewest"] == 4
    assert many["result"]["boards_used"] > 4
    assert "By their area alone 4 could be enough" in said(many)
    assert "The boards are 15 mm thick, and the walls are calculated as 18 mm." in said(many)


def test_the_heap_and_the_filler(fit):
    """14.4615 − 10 = 4.4615 kg short: / (1.55 × 1.25) = 2.3027 L. Room: 8.064 less 280 × 180 × 140: 1.008 L. Of 20 kg is enough."""
    short = fit(**HELD, heap_kg=10)
    result = short["result"]
    assert result["surplus_kg"] == pytest.approx(-4.4615)
    assert result["mix_to_make_kg"] == pytest.approx(4.4615)
    assert result["filler_to_add_l"] == pytest.approx(4.4615 / 1.9375)
    assert result["filler_room_l"] == pytest.approx(1.008)
    assert "Filler blocks alone can't replace the missing sand" in said(short)
    assert short["state"]["word"] == "short"
    assert "The heap is 4.5 kg short." in short["headline"]
    close = fit(**HELD, heap_kg=14.6)
    assert close["state"] == {"word": "close", "tone": "care"}
    assert "Whether the heap is enough is close." in close["headline"]
    roomy = fit(**BLOCK, flasks=[WIDE], heap_kg=28)
    assert "dry filler blocks would replace the missing sand" in said(roomy)
    assert "filler" not in said(fit(**HELD, heap_kg=20))


def test_the_facing_layer(fit):
    """20 mm about 150 × 100 × 40: A 50 000, M π 290: 1e6 + 364 425 + 33 510 = 1 397 935 mm³; two of them × 1.55."""
    result = fit(**BLOCK, patterns_count=2)["result"]
    assert result["facing_l"] == pytest.approx(2 * 1.397935, abs=1e-5)
    assert result["facing_kg"] == pytest.approx(2 * 1.397935 * 1.55, abs=1e-5)
    bare = fit(**BLOCK, facing_mm=0)
    assert bare["result"]["facing_kg"] == 0
    assert not any(line.startswith("facing") for line in bare["working"])


def test_what_is_lifted(fit):
    """Drag 280 × 180 × 90 = 4.536 L, cope 3.528; × 1.55. Wood given 2. Castings 0.6 L × 2.7 = 1.62, gating 0.1 × 2.7; rammed (8.064 − 0.7) 1.55."""
    result = fit(**HELD, frame_kg=2, gating_volume_cm3=100)["result"]
    assert result["drag_kg"] == pytest.approx(7.0308)
    assert result["cope_kg"] == pytest.approx(5.4684)
    assert result["both_kg"] == pytest.approx(14.4992)
    assert result["casting_kg"] == pytest.approx(1.62)
    assert result["poured_kg"] == pytest.approx(7.364 * 1.55 + 2 + 1.62 + 0.27)


def test_wood_is_worked_out_where_it_is_not_given(fit):
    """Round 2 × 316 + 2 × 180 = 992, × 160 × 18; board 316 × 216 × 18: 4.0856 L of plywood × 0.6."""
    result = fit(**HELD)
    assert result["result"]["frame_kg"] == pytest.approx((992 * 160 * 18 + 316 * 216 * 18) * 6e-7)
    low, high = result["doubt"]["frame_kg"]
    assert high - low == pytest.approx(0.3 * result["result"]["frame_kg"])


def test_uplift_bars_ties_and_clamps(fit):
    """0.015 m² × (0.07 + 0.03) m × 2370 kg/m³ = 3.555 kg."""
    result = fit(**HELD)["result"]
    assert result["uplift_kg"] == pytest.approx(3.555)
    assert (result["cope_bars"], result["wall_ties"], result["clamps"]) == (0, 0, 2)
    wide = fit(pattern_length_mm=400, pattern_width_mm=300, pattern_height_mm=40, wall_thickness_mm=12)
    assert wide["result"]["cope_bars"] == 3
    assert wide["result"]["clamps"] == 4
    assert "The cope needs 3 bars across its width, at least 19 mm from the pattern and at most" in said(wide)
    assert "In 12 mm plywood the long walls need" in said(wide)
    shallow = fit(**BLOCK, flasks=[WIDE | {"flask_length_mm": 360, "cope_depth_mm": 15}], flask_name="wide")
    assert "The cope needs 1 bar across its width, at least 19 mm from the pattern." in said(shallow)
    assert "shallow" in said(shallow)


def test_two_people_where_it_is_above_the_guideline_figures(fit):
    assert "two people" not in said(fit(**HELD))
    some = {"name": "x", "flask_length_mm": 300, "flask_width_mm": 200, "drag_depth_mm": 100, "cope_depth_mm": 80}
    assert "above the lower guideline figure" in said(fit(**BLOCK, flasks=[some]))
    both = said(fit(**BLOCK, flasks=[WIDE | {"cope_depth_mm": 150}]))
    assert "above both guideline figures" in both
    assert "The cope alone holds" in both


def test_an_open_top(fit):
    answer = fit(**HELD, open_top="yes", parting_height_mm=10)
    result = answer["result"]
    assert result["flask_taken"] == "short"
    assert not {"above_mm", "uplift_kg", "ways_up"} & result.keys()
    assert result["cope_kg"] == 0
    assert "stays rough" in said(answer)
    assert "the parting that you gave is not used" in said(answer)
    assert "draft" not in said(answer)


def test_the_orientation(fit):
    """On its side the block lies in 260 × 100 × 180 less 0.6 L, × 1.55 = 6.32 kg; uplift 60 cm² × 70 mm × 2370 = 0.995 kg.

    60 × 60 × 300 upright, with a sprue: 170 × 120 × 380 less 1.08 = 6.672 L; lying 410 × 120 × 140 less 1.08 = 5.808: 13 % less.

    A slab of 250 × 250 × 20: flat 310 × 310 × 100 less 1.25 = 8.36; on edge 310 × 80 × 330 less 1.25 = 6.934: 17 % less.
    """
    flat = fit(**BLOCK)
    assert flat["result"]["suggested_way"] == "height up, parted on top"
    assert len(flat["result"]["ways_up"]) == 9
    assert "less sand than as given" not in said(flat)
    assert "width up, parted on top: 6.32 kg of sand, cope 40 mm, draw 100 mm, uplift 1 kg" in flat["working"]
    tall = fit(pattern_length_mm=60, pattern_width_mm=60, pattern_height_mm=300)
    assert tall["result"]["suggested_way"] == "width up, parted on top"
    assert ("With its width upright, parted on top, the pattern needs 13 % less sand than as given.") in said(tall)
    slab = said(fit(pattern_length_mm=250, pattern_width_mm=250, pattern_height_mm=20, sprue_mm=0))
    assert "17 % less sand" in slab
    assert "the draw is deeper: 250 mm" in slab


def test_what_is_round_underneath(fit):
    ball = {"pattern_shape": "ball", "pattern_length_mm": 90, "pattern_width_mm": 90, "pattern_height_mm": 90}
    resolved = fit(**ball)
    assert "45 mm of the height in the drag" in " ".join(resolved["working"])
    assert "ways_up" in resolved["result"]
    assert "is undercut and would tear the sand" in resolved["result"]["ways_up"][0]["said"]
    held = said(fit(**ball, parting_height_mm=20))
    assert "Put the parting 45 mm above its underside." in held
    odd = said(fit(**(ball | {"pattern_width_mm": 80})))
    assert "taken as 86.67 mm across" in odd


def test_the_volume_is_worked_out_from_the_sizes_with_a_remark(fit):
    assert "600 cm³" in said(fit(**HELD))
    given = fit(**HELD, pattern_volume_cm3=420)
    assert "worked out from its sizes" not in said(given)
    assert given["result"]["casting_kg"] == pytest.approx(1.134)


def test_the_home_rule_is_for_small_castings(fit):
    """Bronze of 0.6 L: 8700 × 0.6e-3 = 5.22 kg."""
    assert fit(**BLOCK, clearance_rule="home")["result"]["beside_mm"] == 25
    assert "weighs 5.2 kg" in said(fit(**BLOCK, clearance_rule="home", metal="tin_bronze"))
    assert fit(**BLOCK, metal="tin_bronze")["result"]["beside_mm"] == 40


def test_a_close_fit_is_remarked(fit):
    near = {"flask_length_mm": 261, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 70}
    assert "by less than 2 mm" in said(fit(**BLOCK, flasks=[near | {"flask_width_mm": 163}]))
    assert "by less than 2 mm" not in said(fit(**HELD))
    low = {"flask_length_mm": 300, "flask_width_mm": 200, "drag_depth_mm": 81, "cope_depth_mm": 0}
    assert "by less than 2 mm" in said(fit(**BLOCK, flasks=[low], open_top="yes"))


def test_an_unnamed_flask_has_its_number(fit):
    nameless = {word: size for word, size in LONG.items() if word != "name"}
    assert fit(**BLOCK, flasks=[SHORT, nameless])["result"]["flask_taken"] == "flask 2"


def test_it_is_drawn_where_it_fits_in(fit):
    assert "<svg" in fit(**HELD, burnt_depth_mm=2, dry_depth_mm=20)["drawings"]["section"]
    narrow = SHORT | {"flask_width_mm": 90}
    assert fit(**BLOCK, flasks=[narrow], flask_name="short")["drawings"] == {}


def test_it_leads_to_the_filling_and_back(fit, ask):
    step = fit(**HELD, heap_kg=28)["next"][0]
    assert step["job"] == "flask"
    filled = ask("flask", **step["inputs"])
    assert filled["ok"]
    assert "section" in filled["drawings"]
    (back,) = [link for link in filled["next"] if link["job"] == "fit"]
    assert ask("fit", **back["inputs"])["ok"]


def test_it_leads_to_the_weights_on_the_cope(fit, ask):
    """Flat at the parting: 150 cm² under 70 of cope and 30 of cup, 3.555 kg there as here. A ball counts by its mean depth: the same lift."""
    for pattern in (
        HELD,
        {"pattern_shape": "ball", "pattern_length_mm": 90, "pattern_width_mm": 90, "pattern_height_mm": 90},
    ):
        answer = fit(**pattern)
        step = answer["next"][1]
        assert step["job"] == "pour"
        assert ask("pour", **step["inputs"])["result"]["uplift_kg"] == pytest.approx(
            answer["result"]["uplift_kg"], rel=1e-3
        )
    assert fit(**HELD)["next"][1]["inputs"]["head_mm"] == "100 mm"
    assert [step["job"] for step in fit(**HELD, open_top="yes")["next"]] == ["flask"]


def test_a_flask_larger_than_any_flask_is_not_passed_on(fit):
    """Twenty-four of 800 × 700 mm: no flask of 3000 mm holds them, and 13.4 m² are more than a projected area can be."""
    many = fit(pattern_length_mm=800, pattern_width_mm=700, pattern_height_mm=20, patterns_count=24)
    assert [step["job"] for step in many["next"]] == ["pattern"]


def test_a_list_may_be_given_as_text(fit):
    assert fit(**BLOCK, flasks=json.dumps([LONG]))["result"]["flask_taken"] == "long"


def test_all_impossible_inputs_are_refused_at_once(ask):
    wrong = {"patterns_count": 1.5, "parting_height_mm": 41, "pattern_volume_cm3": 700, "flask_name": "none"}
    boards = [BOARDS[0] | {"name": "a", "count": 1.5}, BOARDS[1] | {"name": "a"}]
    answer = ask("fit", **BLOCK, **wrong, boards=boards)
    assert [problem["word"] for problem in answer["problems"]] == [
        "patterns_count",
        "parting_height_mm",
        "pattern_volume_cm3",
        "boards",
        "boards",
        "flask_name",
    ]


def test_a_wall_far_too_thin_needs_more_ties_than_are_counted(fit):
    thin = {"flask_length_mm": 3000, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 20}
    answer = fit(**BLOCK, flasks=[thin | {"name": "thin"}], flask_name="thin", wall_thickness_mm=3)
    assert "20 or more cleats or clamps" in said(answer)


def test_the_answer_says_what_a_short_heap_covers(fit):
    """Wide: 18 L less 0.6, × 1.55 = 26.97 rammed, 33.7 with spare. Least: 260 × 160 × 120 = 4.992 L less 0.6, × 1.55 × 1.25 = 8.51 kg."""
    covered = said(fit(**BLOCK, flasks=[WIDE], heap_kg=28))
    assert "leaves nothing in reserve for spills" in covered
    smaller = "a smaller flask that you would have to make: 260 × 160 mm, drag 80, cope 40 inside needs 8.51 kg"
    assert smaller in covered
    short = said(fit(**BLOCK, flasks=[WIDE], heap_kg=10))
    assert "in reserve" not in short
    assert smaller in short
    assert "a smaller flask" not in said(fit(**BLOCK, flasks=[WIDE], heap_kg=8.5))
    assert "a smaller flask" not in said(fit(**BLOCK, heap_kg=8))


def test_the_flask_that_is_filled_next_needs_as_much_sand_as_here(ask, fit):
    """Long, with 90 cm³ of gating: 8.064 L less 0.69, × 1.5 × 1.3 = 14.379 kg; both halves with 3 kg of wood: 8.064 × 1.5 + 3 = 15.096."""
    own = {"rammed_density_kg_l": 1.5, "spare_pct": 30, "frame_kg": 3, "gating_volume_cm3": 90}
    step = fit(**HELD, **own, heap_kg=28)["next"][0]
    filled = ask("flask", **step["inputs"])["result"]
    assert filled["make_kg"] == pytest.approx(14.3793, abs=1e-4)
    assert filled["both_kg"] == pytest.approx(15.096, abs=1e-4)


def test_a_pattern_that_fills_its_flask_is_passed_on_by_its_sizes_alone(ask, fit):
    """260 × 160 × 120 mm hold 4.992 L, and 0.6 of pattern with 4.391 of gating leave a gram or two of sand."""
    step = fit(**BLOCK, gating_volume_cm3=4391)["next"][0]
    assert "pattern_volume_cm3" not in step["inputs"]
    assert ask("flask", **step["inputs"])["ok"]
    assert fit(**BLOCK, gating_volume_cm3=4000)["next"][0]["inputs"]["pattern_volume_cm3"] == "600 cm³"


def test_a_sprue_that_is_wider_at_its_base_has_room_too(ask):
    """150 of pattern, 30 between, 60 of sprue and 30 beside at each end: 300."""
    given = {**BLOCK, "sprue_mm": 40}
    assert ask("fit", **given)["result"]["least_length_mm"] == 280
    assert ask("fit", **given, sprue_base_mm=60)["result"]["least_length_mm"] == 300


class TestRiser:
    """A block of 150 × 100 × 40 mm, 1.62 kg in aluminium: 40 mm of sand above and below, 30 beside and between."""

    def test_one_beside_the_casting_needs_length_and_cope(self, ask):
        """150 + 25 of neck + 50 + 60 = 285 by 160; parted on top 40 + 40 of drag, and as high as wide, so 50 of cope."""
        result = ask("fit", **BLOCK, sprue_mm=0, riser_diameter_mm=50, parting_height_mm=40)["result"]
        sizes = [result[f"least_{side}_mm"] for side in ("length", "width", "drag", "cope")]
        assert sizes == [285, 160, 80, 50]

    def test_one_on_top_needs_depth_and_sand_beside_it_where_it_is_wider(self, ask):
        """Half as high as wide, on the casting in the drag; beside 80 mm across nothing is added, and beside 200 mm there are 30 mm each way."""
        sizes = {}
        for across in (80, 200):
            result = ask("fit", **BLOCK, sprue_mm=0, riser_kind="top", riser_diameter_mm=across)["result"]
            sizes[across] = [result[f"least_{side}_mm"] for side in ("length", "width", "drag", "cope")]
        assert sizes == {80: [210, 160, 80, 40], 200: [260, 260, 80, 100]}

    def test_a_flask_whose_cope_is_too_low_for_it_says_by_how_much(self, ask):
        flask = {"name": "low", "flask_length_mm": 300, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 45}
        answer = ask(
            "fit", **BLOCK, sprue_mm=0, riser_diameter_mm=50, riser_height_mm=70, flasks=[flask], flask_name="low"
        )
        assert "25 mm too little of cope for the riser" in answer["headline"]
        assert answer["state"]["tone"] == "care"

    def test_one_that_no_flask_can_hold_is_refused(self):
        given = {**BLOCK, "riser_diameter_mm": 1600, "riser_height_mm": "3 m"}
        answer = json.loads(call(json.dumps({"job": "fit", "inputs": given})))
        assert {problem["word"] for problem in answer["problems"]} == {"riser_diameter_mm", "riser_height_mm"}
        assert all("more than any flask can hold" in problem["message"] for problem in answer["problems"])

    def test_the_section_shows_it(self, ask):
        section = ask("fit", **BLOCK, sprue_mm=0, riser_diameter_mm=50)["drawings"]["section"]
        assert "A riser stands beside it, 50 mm across and 50 mm high." in section
        for none in ({}, {"riser_diameter_mm": 0}):
            assert "riser" not in ask("fit", **BLOCK, sprue_mm=0, **none)["drawings"]["section"]
