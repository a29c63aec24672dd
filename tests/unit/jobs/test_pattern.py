"""The job *pattern*: by file, by sizes, by water, by mass; what is left out, and what is handed on."""

import json
import math

import pytest
from shapes import ball, binary, box, cube, extruded, inward, lathe, model, moved, package, ring, shifted, torus

from sandmix.doors.facade import call


def of_file(triangles, **inputs):
    data = triangles if isinstance(triangles, bytes) else binary(triangles)
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, **inputs}}
    answer = json.loads(call(json.dumps(request), {"it": data}))
    assert answer["ok"], answer
    return answer


def test_a_cube_of_a_file_in_millimetres():
    """A cube of 40 mm: 64 cm³, 96 cm², modulus 6.667 mm, and 64 × 2.7 g = 172.8 g of aluminium."""
    answer = of_file(cube(40.0))
    result = answer["result"]
    assert result["volume_cm3"] == pytest.approx(64)
    assert result["casting_volume_cm3"] == pytest.approx(64)
    assert result["area_cm2"] == result["casting_area_cm2"] == pytest.approx(96)
    assert result["modulus_mm"] == pytest.approx(20 / 3)
    assert result["box_mm"] == [40, 40, 40]
    assert result["projected_area_cm2"] == pytest.approx(16)
    assert result["casting_kg"] == pytest.approx(0.1728)
    assert result["centre_mm"] == pytest.approx([20, 20, 20])
    assert (result["closed"], result["shells"], result["facets"]) == (True, 1, 12)
    assert answer["state"] == {"word": "measured", "tone": "go"}
    assert answer["remarks"] == [
        "An STL holds no unit: it is taken in millimetres. Look at the sizes; if they are wrong, give the unit."
    ]


@pytest.mark.parametrize(("unit", "mm"), [("mm", 1), ("cm", 10), ("m", 1000), ("in", 25.4)])
def test_unit_and_scale_make_it_larger(unit, mm):
    result = of_file(cube(1.0), unit=unit, scale=2)["result"]
    assert result["box_mm"] == pytest.approx([2 * mm] * 3)
    assert result["volume_cm3"] == pytest.approx((2 * mm) ** 3 / 1000)


def test_a_3mf_brings_its_own_unit():
    answer = of_file(package(model(cube(2.0), "inch")), unit="mm")
    assert answer["result"]["box_mm"] == pytest.approx([50.8] * 3)
    assert answer["remarks"] == ["The 3MF says that its unit is the inch. That counts, not the unit given here."]
    assert of_file(package(model(cube(2.0), "inch")))["remarks"] == []


def test_a_pattern_is_larger_than_its_casting_by_the_shrink():
    """At 2 %: a pattern of 102 mm makes a casting of 100 mm, 1000 cm³."""
    asked = {"measured": "pattern", "shrink_pct": 2}
    result = of_file(cube(102.0), **asked)["result"]
    assert result["casting_volume_cm3"] == pytest.approx(1000)
    assert result["casting_area_cm2"] == pytest.approx(600)
    assert result["pattern_volume_cm3"] == pytest.approx(1.02**3 * 1000)
    back = of_file(cube(100.0), shrink_pct=2)["result"]
    assert back["casting_volume_cm3"] == pytest.approx(1000)
    assert back["pattern_volume_cm3"] == pytest.approx(1.02**3 * 1000)


def test_stock_is_put_on_a_part_and_taken_off_a_casting(ask):
    """A block of 10 × 5 × 2 cm: 100 cm³, 160 cm². 2 mm on it are 32 cm³ by its surface."""
    part = ask("pattern", box_mm="100 x 50 x 20 mm", measured="part", machining_stock_mm=2)
    assert part["result"]["casting_volume_cm3"] == pytest.approx(132)
    assert part["result"]["part_kg"] == pytest.approx(0.27)
    low, high = part["doubt"]["casting_volume_cm3"]
    assert low < 10.4 * 5.4 * 2.4 < high, "the true block with 2 mm all over is within the band"
    casting = ask("pattern", box_mm="100 x 50 x 20 mm", machining_stock_mm=2)
    assert casting["result"]["casting_volume_cm3"] == pytest.approx(100)
    assert casting["result"]["part_kg"] == pytest.approx(0.068 * 2.7)


def test_plain_sizes_carry_half_a_millimetre(ask):
    """A cube of 20 mm: 7.414875 and 8.615125 cm³ at 19.5 and 20.5."""
    answer = ask("pattern", box_mm=[20, 20, 20])
    assert answer["doubt"]["volume_cm3"] == pytest.approx([7.414875, 8.615125])


def test_water_tells_the_pattern(ask):
    answer = ask("pattern", displaced_water_ml=262.193024, shrink_pct=1.6, box_mm=[100, 80, 50])
    assert answer["result"]["casting_volume_cm3"] == pytest.approx(250)
    assert "modulus_mm" not in answer["result"]
    high = answer["doubt"]["volume_cm3"][1]
    assert high - answer["result"]["volume_cm3"] == pytest.approx(math.hypot(5, 0.02 * 262.193024))
    assert answer["next"][0]["inputs"]["pattern_length_mm"] == "100 mm"


def test_the_mass_of_a_wooden_pattern(ask):
    """200 g of pine at 0.50 is 400 cm³; from 0.40 to 0.60 it is 500 to 333."""
    answer = ask("pattern", pattern_mass_g=200, pattern_material="pine")
    assert answer["result"]["volume_cm3"] == pytest.approx(400)
    low, high = answer["doubt"]["volume_cm3"]
    assert (low, high) == (pytest.approx(333, abs=1), pytest.approx(500, abs=1))


def test_the_mass_of_a_print(ask):
    """At 20 % infill and walls of 30 % of the rest, 44 % is plastic: 100 g at 1.24 is 183.3 cm³."""
    answer = ask("pattern", pattern_mass_g=100, pattern_material="pla", infill_pct=20)
    assert answer["result"]["volume_cm3"] == pytest.approx(100 / 1.24 / 0.44)
    low, high = answer["doubt"]["volume_cm3"]
    assert high > 1.3 * answer["result"]["volume_cm3"] > 1.3 * low
    known = ask(
        "pattern", pattern_mass_g=100, pattern_material="pla", infill_pct=0, walls_pct=100, pattern_density_kg_l=1
    )
    assert known["result"]["volume_cm3"] == pytest.approx(100)
    assert ask("pattern", pattern_mass_g=100, pattern_density_kg_l=2)["result"]["volume_cm3"] == pytest.approx(50)


def test_an_open_shape_has_a_box_and_no_volume():
    answer = of_file(cube(40.0)[:2] + cube(40.0)[4:])
    assert not {"volume_cm3", "modulus_mm", "casting_kg", "projected_area_cm2"} & answer["result"].keys()
    assert answer["result"]["box_mm"] == [40, 40, 40]
    assert answer["result"]["closed"] is False
    assert answer["headline"] == "No volume can be computed: it is not closed. Its box is 40 × 40 × 40 mm."
    assert (
        "It is open in 1 place: at x / y / z 40 / 20 / 20 mm, 40 mm across, 4 edges around. "
        "Mend it where it was drawn, and save it anew." in answer["remarks"]
    )
    assert answer["next"] == []


def said(answer, text):
    return any(text in remark for remark in answer["remarks"])


def test_what_was_mended_is_said():
    turned = ball(radius=40.0)
    turned[7] = turned[7][::-1]
    assert said(of_file(turned), "1 facet faced the other way than their neighbours")
    assert said(of_file(inward(cube(40.0))), "The whole of it faced inwards. It was turned.")
    assert said(of_file(cube(40.0) + inward(moved(cube(40.0), (90.0, 0.0, 0.0)))), "1 shell faced inwards")
    assert said(of_file([*cube(40.0), ((1.0, 1.0, 1.0),) * 3]), "1 facet of no area were passed over.")
    assert said(
        of_file([*cube(40.0)[1:], tuple(tuple(x + 1e-5 for x in place) for place in cube(40.0)[0])]),
        "mm apart were taken as one",
    )


def test_what_can_not_be_mended_is_said():
    assert said(
        of_file(cube(40.0) + moved(cube(8.0), (9.0,) * 3)), "No volume is computed: a shell lies inside another"
    )
    fin = ((0.0, 0.0, 0.0), (0.0, 0.0, 40.0), (-5.0, 5.0, 5.0))
    assert said(of_file([*cube(40.0), fin, fin, fin]), "Along 3 edges more facets meet than can pair.")
    both = cube(40.0) + moved(cube(40.0), (40.0, 40.0, 0.0))
    at = next(at for at, facet in enumerate(both) if sum(place[:2] == (40.0, 40.0) for place in facet) == 2)
    both[at] = both[at][::-1]
    assert said(of_file(both), "two facets face opposite ways")
    sieve = [facet for at, facet in enumerate(ball(radius=40.0)) if at not in (0, 60, 100, 150, 200)]
    assert said(of_file(sieve), "; and others. Mend it")


def test_pieces_that_overlap_are_counted_once_and_have_no_modulus():
    answer = of_file(cube(40.0) + moved(cube(40.0), (30.0, 20.0, 20.0)))
    assert answer["result"]["casting_volume_cm3"] == pytest.approx(124, rel=0.01)
    assert "modulus_mm" not in answer["result"]
    low, high = answer["doubt"]["volume_cm3"]
    assert low < 124 < high
    assert said(answer, "% of the volume was there twice, and is counted once.")
    assert said(answer, "where pieces overlap, the surface of the file is more than the casting's")
    assert answer["state"]["tone"] == "care"


def test_a_hollow_wants_a_core():
    assert said(of_file(cube(40.0) + inward(moved(cube(8.0), (9.0,) * 3))), "1 closed hollow lies inside.")


def test_an_odd_size_is_a_remark(ask):
    assert said(of_file(cube(2.0)), "Its longest side is 2 mm, which is tiny for a casting. Look at the unit.")
    assert said(ask("pattern", box_mm=[1600, 20, 20]), "huge")
    assert said(ask("pattern", pattern_mass_g=500, pattern_material="wax", box_mm=[20, 20, 20]), "more than the 8 cm3")


def test_the_next_jobs_take_what_was_found(ask):
    answer = of_file(ring(24, 40.0, 10.0), measured="pattern", up="+x")
    fit, flask, _, _ = answer["next"]
    assert [link["job"] for link in answer["next"]] == ["fit", "flask", "pour", "burnout"]
    assert fit["inputs"] == {"metal": "aluminium"} | flask["inputs"]
    assert fit["inputs"]["pattern_height_mm"] == "100 mm", "x is up, and the ring lies in x and y"
    assert flask["inputs"]["pattern_length_mm"] == "100 mm"
    assert float(flask["inputs"]["pattern_width_mm"].split()[0]) == pytest.approx(20, abs=1)
    for link in answer["next"]:
        problems = ask(link["job"], **link["inputs"]).get("problems", [])
        assert [problem for problem in problems if problem["word"] in link["inputs"]] == []
    cast = of_file(cube(40.0), shrink_pct=2)["next"]
    assert cast[2]["inputs"]["projected_area_cm2"] == "16.65 cm2", "the mould is as large as the pattern: 16 × 1.02²"


def test_a_ball_falls_away_from_its_top():
    """The space over a ball is r/3 of its outline in the mean: 13.3 mm at r = 40."""
    answer = of_file(ball(24, 40.0))
    assert answer["result"]["more_head_mm"] == pytest.approx(40 / 3, rel=0.02)
    assert said(answer, "It falls away from its top by 13")


def compared(triangles, **inputs):
    return of_file(triangles, ways="yes", shrink_pct=0, **inputs)


def test_the_ways_up_are_compared_where_that_is_asked():
    """1.6 kg: 40, 40 and 30 mm about it, a sprue of 20 with 30 between: flat 260 × 160 × 120, on edge 260 × 100 × 180."""
    assert not {"ways_up", "suggested_way", "parting_height_mm"} & of_file(box(150, 100, 40))["result"].keys()
    answer = compared(box(150, 100, 40))
    rows = {row["way"]: row for row in answer["result"]["ways_up"]}
    assert len(rows) == 6
    flat = rows["z up, parted on top"]
    assert flat["sand_l"] == pytest.approx(0.26 * 0.16 * 120 - 0.6)
    assert (flat["cope_mm"], flat["draw_mm"], flat["parting_height_mm"]) == pytest.approx((40, 40, 40))
    assert flat["lift_kg"] == pytest.approx(0.15 * 0.1 * 0.07 * 2370)
    assert (flat["undercut_cm2"], flat["straight_cm2"], flat["least_draft_deg"]) == pytest.approx((0, 200, 0))
    side = rows["y up, parted on top"]
    assert side["sand_l"] == pytest.approx(0.26 * 0.1 * 180 - 0.6)
    assert answer["result"]["suggested_way"] == "y up, parted on top"
    assert answer["result"]["parting_height_mm"] == pytest.approx(100)
    assert answer["doubt"]["parting_height_mm"] == [100, 100]
    assert sum("of sand, cope" in line for line in answer["working"]) == 6


def test_the_parting_is_that_of_the_pattern_which_is_larger_than_its_casting():
    answer = of_file(box(150, 100, 40), ways="yes", shrink_pct=2)
    assert answer["result"]["parting_height_mm"] == pytest.approx(102)
    same = of_file(box(150, 100, 40), ways="yes", shrink_pct=2, measured="pattern")
    assert same["result"]["parting_height_mm"] == pytest.approx(100)


def test_the_way_to_take_goes_on_to_its_flask(ask):
    link = compared(torus(40.0, 10.0))["next"][-1]
    assert link["job"] == "fit"
    assert link["inputs"]["pattern_height_mm"].startswith("20")
    assert link["inputs"]["parting_height_mm"] == "10 mm"
    assert ask("fit", **link["inputs"])["ok"]


WHY = [
    (box(150, 100, 40), {},
     "Lay it with y up, parted on top. It takes 6.32 kg of sand then, and 6.56 kg with x up, parted on top; turned over it does as well."),
    (torus(40.0, 10.0), {}, "Lay it with z up, parted 10 mm above its underside. Nothing of it is undercut then, but"),
    (shifted(torus(40.0, 10.0)), {"up": "+x"}, "Lay it with x up, parted 10 mm above its underside."),
    (lathe([(20, 0), (40, 0), (30, 10), (20, 10), (20, 0)]), {}, "turned over the metal would lift the cope with"),
    (extruded([(0.0, 0.0), (7.0, -7.0), (107.0, 93.0), (100.0, 100.0)], [(0, 1, 2), (0, 2, 3)], 60), {},
     "It parts flat then, with"),
    (extruded([(0.0, 0.0), (40.0, 0.0), (0.0, 40.0)], [(0, 1, 2)], 40), {},
     "The metal lifts the cope with 0.13 kg then, and with 0.27 kg where it lies with"),
    (cube(40.0), {}, "It does as well with x up, parted on top; turned over it does as well."),
]  # fmt: skip


@pytest.mark.parametrize(("triangles", "inputs", "text"), WHY)
def test_why_that_way_and_why_not_the_next(triangles, inputs, text):
    answer = compared(triangles, **inputs)
    assert said(answer, text), answer["remarks"]
    assert answer["result"]["suggested_way"] in answer["remarks"][-1] + "".join(answer["remarks"])


def test_what_its_walls_want_is_said():
    assert said(
        compared(cube(40.0)),
        "64 cm2 of its walls stand straight, within a degree, and are drawn up to 40 mm. Give them 1 to 2 mm",
    )
    assert not said(compared(ball(24, 40.0)), "stand straight")


def test_another_way_than_the_one_asked_for_is_pointed_out():
    answer = compared(torus(40.0, 10.0), up="-x")
    assert said(answer, "Outline and head of metal above are for x down. Set the way up to +z for those of this way.")
    assert not said(compared(torus(40.0, 10.0)), "Outline and head of metal above")


def test_what_no_way_up_lets_go_wants_a_core():
    """Two rings, each held one way: the larger lies, and of the smaller 4 R r − π r² = 3.2 cm2 hold."""
    both = torus(20.0, 5.0) + moved(shifted(torus(40.0, 5.0)), (0.0, 120.0, 0.0))
    answer = compared(both)
    assert said(
        answer,
        "No way up lets it draw whole: 3.2 cm2 of it, seen straight up and down, hold it in the sand. It wants a core",
    )
    assert said(answer, "The least of it is undercut then, 3.2 cm2, but")
    assert "of it would tear the sand" in answer["result"]["ways_up"][0]["said"]


def test_a_stepped_parting_says_what_it_takes():
    """A slanted bar that is slanted the other way as well: no axis parts it flat."""
    corners = [
        (x + 0.7 * y + 0.9 * z, y + 0.8 * z + 0.6 * x, z + 0.7 * x + 0.9 * y)
        for x in (0.0, 90.0)
        for y in (0.0, 8.0)
        for z in (0.0, 8.0)
    ]
    unit = [(x, y, z) for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)]
    where = dict(zip(unit, corners, strict=True))
    answer = compared([tuple(where[place] for place in facet) for facet in cube(1.0)])
    assert "parted along its shape" in answer["result"]["suggested_way"]
    assert said(
        answer,
        "A parting along its shape is cut down by hand to where the shape is widest, or rammed on a follow board.",
    )
    assert answer["result"]["ways_up"][0]["undercut_cm2"] == 0


def test_where_the_ways_can_not_be_compared_it_is_said(ask):
    assert said(compared(cube(40.0)[2:]), "The ways up are not compared: that takes a shape whose volume can be told.")
    plain = ask("pattern", box_mm=[100, 80, 20], ways="yes")
    assert said(
        plain,
        "The ways up are compared for a file of the shape. For plain sizes, the page for choosing a flask does it.",
    )


def test_pieces_that_overlap_are_compared_less_exactly():
    both = compared(box(60, 60, 10) + box(20, 20, 35, (20.0, 20.0, 5.0)))
    assert said(both, "Where pieces overlap, undercut and uplift are good to about a hundredth")
    assert both["result"]["ways_up"][0]["undercut_cm2"] == 0


NOTHING = "Send the file of the shape, or give its sizes, the water it pushes aside, or its mass."
REFUSED = [
    ({}, ["File of the shape: there is nothing to measure yet. " + NOTHING]),
    ({"displaced_water_ml": 100, "pattern_mass_g": 100}, ["Mass of the pattern: the size is said twice, and the two may differ. Keep one of them."]),
    ({"box_mm": [50, 50, 10], "body": "ring"}, ["Bore: a ring has a hole. Give its bore, or take a cylinder."]),
    ({"box_mm": [50, 40, 10], "body": "ring", "bore_mm": 40}, ["Bore: a bore of 40 mm leaves no wall in a ring of 40 mm. Look at both."]),
    ({"pattern_mass_g": 100}, ["Pattern material: a mass says nothing without it. Say what the pattern is made of, or give its density."]),
    ({"pattern_mass_g": 100, "pattern_material": "abs"},
     ["Infill of the print: a print is hollow inside, by its infill. Give that, or dip the pattern in water instead."]),
    ({"displaced_water_ml": 100, "machining_stock_mm": 1},
     ["Machining stock: what stands on every face needs the surface. Send the file, give the sizes, or leave it at 0."]),
    ({"displaced_water_ml": 500, "box_mm": [50, 50, 50]},
     ["Sizes: a box of 125 cm3 can't push 500 mL of water aside. Look at the sizes, the water and their units."]),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "said"), REFUSED)
def test_what_can_not_be_is_refused_in_words(ask, inputs, said):
    assert [problem["message"] for problem in ask("pattern", **inputs)["problems"]] == said


def test_a_file_and_sizes_are_one_too_many():
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, "box_mm": [1, 2, 3]}}
    answer = json.loads(call(json.dumps(request), {"it": binary(cube())}))
    assert (
        answer["problems"][0]["message"] == "Sizes: the size is said twice, and the two may differ. Keep one of them."
    )


def test_the_command_line_reads_a_file(capsys, tmp_path):
    from sandmix.book import book_file
    from sandmix.doors import cli

    path = tmp_path / "cube.stl"
    path.write_bytes(binary(cube(40.0)))
    assert cli.main(["pattern", "--mesh", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["result"]["volume_cm3"] == pytest.approx(64)
    assert cli.main(["pattern", "--mesh", str(tmp_path / "none.stl")]) == 2
    assert "can't be read" in capsys.readouterr().err
    book_file.LARGEST_UPLOAD_BYTES, kept = 10, book_file.LARGEST_UPLOAD_BYTES
    try:
        assert cli.main(["pattern", "--mesh", str(path)]) == 2
    finally:
        book_file.LARGEST_UPLOAD_BYTES = kept
    assert "larger than 10 bytes" in capsys.readouterr().err
    with pytest.raises(SystemExit):
        cli.main(["pattern", "--help"])
    assert "--mesh FILE" in capsys.readouterr().out
