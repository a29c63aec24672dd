"""The job *pattern*: by file, by sizes, by water, by mass; what is left out, and what is passed on."""

import json
import math

import pytest
from shapes import ball, binary, box, cube, dumbbell, extruded, lathe, model, moved, package, ring, shifted, torus

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
    assert len(answer["remarks"]) == 1, "that millimetres are assumed"


@pytest.mark.parametrize(("unit", "mm"), [("mm", 1), ("cm", 10), ("m", 1000), ("in", 25.4)])
def test_unit_and_scale_make_it_larger(unit, mm):
    result = of_file(cube(1.0), unit=unit, scale=2)["result"]
    assert result["box_mm"] == pytest.approx([2 * mm] * 3)
    assert result["volume_cm3"] == pytest.approx((2 * mm) ** 3 / 1000)


def test_a_3mf_has_its_own_unit():
    answer = of_file(package(model(cube(2.0), "inch")), unit="mm")
    assert answer["result"]["box_mm"] == pytest.approx([50.8] * 3)
    assert len(answer["remarks"]) == 1, "that the unit of the file is used"
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


def test_stock_is_added_to_a_part_and_taken_off_a_casting(ask):
    """A block of 10 × 5 × 2 cm: 100 cm³, 160 cm². 2 mm of stock are 32 cm³ by its surface."""
    part = ask("pattern", box_mm="100 x 50 x 20 mm", measured="part", machining_stock_mm=2)
    assert part["result"]["casting_volume_cm3"] == pytest.approx(132)
    assert part["result"]["part_kg"] == pytest.approx(0.27)
    low, high = part["doubt"]["casting_volume_cm3"]
    assert low < 10.4 * 5.4 * 2.4 < high, "the true block with 2 mm all over is within the band"
    casting = ask("pattern", box_mm="100 x 50 x 20 mm", machining_stock_mm=2)
    assert casting["result"]["casting_volume_cm3"] == pytest.approx(100)
    assert casting["result"]["part_kg"] == pytest.approx(0.068 * 2.7)


def test_plain_sizes_are_uncertain_by_half_a_millimetre(ask):
    """A cube of 20 mm: 7.414875 and 8.615125 cm³ at 19.5 and 20.5."""
    answer = ask("pattern", box_mm=[20, 20, 20])
    assert answer["doubt"]["volume_cm3"] == pytest.approx([7.414875, 8.615125])


def test_displaced_water_gives_the_pattern(ask):
    answer = ask("pattern", displaced_water_ml=262.193024, shrink_pct=1.6, box_mm=[100, 80, 50])
    assert answer["result"]["casting_volume_cm3"] == pytest.approx(250)
    assert "modulus_mm" not in answer["result"]
    high = answer["doubt"]["volume_cm3"][1]
    assert high - answer["result"]["volume_cm3"] == pytest.approx(math.hypot(5, 0.02 * 262.193024))
    by_job = {link["job"]: link["inputs"] for link in answer["next"]}
    assert by_job["fit"]["pattern_length_mm"] == "100 mm"
    assert by_job["plan"]["box_mm"].startswith("100")


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
    answer = of_file(cube(40.0)[:2] + cube(40.0)[4:], shrink_pct=0)
    assert not {"volume_cm3", "modulus_mm", "casting_kg", "projected_area_cm2"} & answer["result"].keys()
    assert answer["result"]["box_mm"] == [40, 40, 40]
    assert answer["result"]["closed"] is False
    assert answer["state"]["word"] == "not closed"
    (link,) = answer["next"]
    assert link["job"] == "fit"
    sides = ("pattern_length_mm", "pattern_width_mm", "pattern_height_mm")
    assert link["inputs"] == {"metal": "aluminium"} | dict.fromkeys(sides, "40 mm")


def said(answer, text):
    return any(text in remark for remark in answer["remarks"])


def test_pieces_that_overlap_are_counted_once_and_have_no_modulus():
    answer = of_file(cube(40.0) + moved(cube(40.0), (30.0, 20.0, 20.0)))
    assert answer["result"]["casting_volume_cm3"] == pytest.approx(124, rel=0.01)
    assert "modulus_mm" not in answer["result"]
    low, high = answer["doubt"]["volume_cm3"]
    assert low < 124 < high
    assert answer["state"]["tone"] == "care"


def test_the_next_jobs_get_what_was_measured(ask):
    answer = of_file(ring(24, 40.0, 10.0), measured="pattern", up="+x")
    _, fit, feed, gate, flask, *_ = answer["next"]
    assert [link["job"] for link in answer["next"]] == ["plan", "fit", "feed", "gate", "flask", "pour", "burnout"]
    assert feed["inputs"]["casting_area_cm2"]
    assert gate["inputs"]["fill_height_mm"] == "100 mm"
    assert gate["inputs"]["gate_ratio"] == "1:4:4"
    assert fit["inputs"] == {"metal": "aluminium"} | flask["inputs"]
    assert fit["inputs"]["pattern_height_mm"] == "100 mm", "x is up, and the ring lies in x and y"
    assert flask["inputs"]["pattern_length_mm"] == "100 mm"
    assert float(flask["inputs"]["pattern_width_mm"].split()[0]) == pytest.approx(20, abs=1)
    for link in answer["next"]:
        problems = ask(link["job"], **link["inputs"]).get("problems", [])
        assert [problem for problem in problems if problem["word"] in link["inputs"]] == []
    cast = of_file(cube(40.0), shrink_pct=2)["next"]
    assert cast[5]["inputs"]["projected_area_cm2"] == "16.65 cm²", "the mould is as large as the pattern: 16 × 1.02²"


def test_the_riser_gets_the_part_that_freezes_last_and_the_gates_the_thinnest_wall():
    """Two blocks on a rod of 12 mm: the larger, 40 × 40 × 40 mm, has a modulus of 40/6 mm, more than the whole."""
    links = {link["job"]: link["inputs"] for link in of_file(dumbbell())["next"]}
    modulus, _, off, unit = links["feed"]["modulus_mm"].split()
    assert (float(modulus), unit) == (pytest.approx(40 / 6, rel=0.05), "mm")
    assert float(off) == pytest.approx(0.3 * 40 / 6, rel=0.05)
    assert links["plan"]["modulus_mm"] == links["feed"]["modulus_mm"]
    assert "casting_area_cm2" not in links["feed"]
    assert float(links["gate"]["thinnest_mm"].split()[0]) == pytest.approx(12, rel=0.05)
    assert links["plan"]["thinnest_mm"] == links["gate"]["thinnest_mm"]


def test_a_block_thicker_than_any_wall_is_no_wall_to_fill():
    links = {link["job"]: link["inputs"] for link in of_file(cube(600.0))["next"]}
    assert "thinnest_mm" not in links["gate"]


def test_the_upper_side_of_a_ball_is_below_its_top_on_average():
    """The space above a ball is r/3 of its projected area: 13.3 mm at r = 40."""
    answer = of_file(ball(24, 40.0))
    assert answer["result"]["more_head_mm"] == pytest.approx(40 / 3, rel=0.02)
    assert said(answer, "its upper side is 13")


def compared(triangles, **inputs):
    return of_file(triangles, ways="yes", shrink_pct=0, **inputs)


def test_orientations_are_compared_where_that_is_asked():
    """1.6 kg: 40, 40 and 30 mm around it, a sprue of 20 with 30 between: flat 260 × 160 × 120, on edge 260 × 100 × 180."""
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


def test_the_best_orientation_leads_to_its_flask(ask):
    link = compared(torus(40.0, 10.0))["next"][-1]
    assert link["job"] == "fit"
    assert link["inputs"]["pattern_height_mm"].startswith("20")
    assert link["inputs"]["parting_height_mm"] == "10 mm"
    assert ask("fit", **link["inputs"])["ok"]


WHY = [
    (box(150, 100, 40), {},
     "6.32 kg of sand, but 6.56 kg with x up"),
    (torus(40.0, 10.0), {}, "z up, parted 10 mm above its underside. Then nothing is undercut"),
    (shifted(torus(40.0, 10.0)), {"up": "+x"}, "x up, parted 10 mm above its underside."),
    (lathe([(20, 0), (40, 0), (30, 10), (20, 10), (20, 0)]), {}, "turned over the uplift would be"),
    (extruded([(0.0, 0.0), (7.0, -7.0), (107.0, 93.0), (100.0, 100.0)], [(0, 1, 2), (0, 2, 3)], 60), {}, "Then a flat parting is enough"),
    (extruded([(0.0, 0.0), (40.0, 0.0), (0.0, 40.0)], [(0, 1, 2)], 40), {},
     "Then the uplift on the cope is 0.13 kg, but 0.27 kg with"),
    (cube(40.0), {}, "It is as good with x up"),
]  # fmt: skip


@pytest.mark.parametrize(("triangles", "inputs", "text"), WHY)
def test_why_that_orientation_and_not_the_next(triangles, inputs, text):
    answer = compared(triangles, **inputs)
    assert said(answer, text), answer["remarks"]
    assert answer["result"]["suggested_way"] in answer["remarks"][-1] + "".join(answer["remarks"])


def test_vertical_walls_are_remarked():
    assert said(
        compared(cube(40.0)),
        "64 cm² of its walls are vertical, within a degree, and are drawn up to 40 mm.",
    )
    assert not said(compared(ball(24, 40.0)), "are vertical")


def test_another_orientation_than_the_chosen_one_is_remarked():
    answer = compared(torus(40.0, 10.0), up="-x")
    assert said(answer, "are for x down. For those of this orientation, choose +z under")
    assert not said(compared(torus(40.0, 10.0)), "The projected area and the head of metal above")


def test_what_is_undercut_in_every_orientation_needs_a_core():
    """Two rings, each held one way: the larger lies, and of the smaller 4 R r − π r² = 3.2 cm² hold."""
    both = torus(20.0, 5.0) + moved(shifted(torus(40.0, 5.0)), (0.0, 120.0, 0.0))
    answer = compared(both)
    assert said(answer, "Then the least is undercut, 3.2 cm², but")
    assert "is undercut and would tear the sand" in answer["result"]["ways_up"][0]["said"]


def test_a_stepped_parting_frees_all_of_it():
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
    assert answer["result"]["ways_up"][0]["undercut_cm2"] == 0


def test_pieces_that_overlap_are_compared_less_exactly():
    both = compared(box(60, 60, 10) + box(20, 20, 35, (20.0, 20.0, 5.0)))
    assert both["result"]["ways_up"][0]["undercut_cm2"] == 0


def test_the_command_line_reads_a_file(capsys, tmp_path):
    from sandmix.doors import cli, document_file

    path = tmp_path / "cube.stl"
    path.write_bytes(binary(cube(40.0)))
    assert cli.main(["pattern", "--mesh", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["result"]["volume_cm3"] == pytest.approx(64)
    assert cli.main(["pattern", "--mesh", str(tmp_path / "none.stl")]) == 2
    assert "can't be read" in capsys.readouterr().err
    document_file.LARGEST_UPLOAD_BYTES, kept = 10, document_file.LARGEST_UPLOAD_BYTES
    try:
        assert cli.main(["pattern", "--mesh", str(path)]) == 2
    finally:
        document_file.LARGEST_UPLOAD_BYTES = kept
    assert "larger than 10 bytes" in capsys.readouterr().err
    with pytest.raises(SystemExit):
        cli.main(["pattern", "--help"])
    assert "--mesh FILE" in capsys.readouterr().out


def test_a_shape_of_a_file_has_a_thickest_place_and_a_thinnest_wall():
    """Blocks of 40 and 28 mm on a rod of 12 mm."""
    result = of_file(dumbbell())["result"]
    assert result["thickest_mm"] == pytest.approx(40, rel=0.005)
    assert result["thinnest_mm"] == pytest.approx(12, rel=0.005)
    first, second = result["hot_places"]
    assert (first["thickness_mm"], second["thickness_mm"]) == pytest.approx((40, 28), rel=0.005)
    assert [first["x_mm"], first["y_mm"], first["z_mm"]] == pytest.approx([0, 0, 20], abs=1)
    assert first["modulus_mm"] == pytest.approx(40 / 6, rel=0.02)
    assert (first["least_modulus_mm"], first["most_modulus_mm"]) == pytest.approx((40 / 6, 20), rel=0.005)


def test_thickness_is_that_of_the_casting_in_its_own_size():
    """In inches and at half the size; a pattern of 102 mm for 100; a part of 40 mm with 2 mm of stock on each face."""
    inches = of_file(cube(2.0), unit="in", scale=0.5)["result"]
    assert inches["thickest_mm"] == pytest.approx(25.4, rel=0.003)
    assert inches["hot_places"][0]["x_mm"] == pytest.approx(12.7, abs=0.2)
    asked = {"measured": "pattern", "shrink_pct": 2}
    assert of_file(cube(102.0), **asked)["result"]["thickest_mm"] == pytest.approx(100, rel=0.003)
    part = of_file(cube(40.0), measured="part", machining_stock_mm=2)["result"]
    assert part["thickest_mm"] == pytest.approx(44, rel=0.003)
    assert part["hot_places"][0]["modulus_mm"] == pytest.approx(44 / 6, rel=0.01)
    assert of_file(cube(40.0), machining_stock_mm=2)["result"]["thickest_mm"] == pytest.approx(40, rel=0.003)


def test_the_range_of_the_thickest_place_includes_what_its_section_may_have():
    low, high = of_file(cube(40.0))["doubt"]["thickest_mm"]
    assert low <= 40 <= high
    assert high - low == pytest.approx(0.03 * 40, rel=0.3)
    dipped = of_file(cube(40.0), measured="pattern", shrink_pct=1.5)["doubt"]["thickest_mm"]
    assert dipped[1] - dipped[0] > high - low


@pytest.mark.parametrize("up", ["+z", "-z", "+x", "-x", "+y", "-y"])
def test_which_way_is_up_does_not_move_a_place(up):
    assert of_file(dumbbell(), up=up)["result"]["hot_places"] == of_file(dumbbell())["result"]["hot_places"]


def test_no_thickness_without_a_volume_or_a_shape(ask):
    words = {"thickest_mm", "thinnest_mm", "hot_places"}
    assert not words & of_file(cube(40.0)[1:])["result"].keys()
    assert not words & ask("pattern", box_mm=[50, 40, 30])["result"].keys()


def test_the_riser_is_for_the_place_that_freezes_last():
    """The dumbbell: its large block has 40/6, the whole casting less. A cube has only one modulus, so its surface is enough."""

    def riser(triangles):
        (link,) = [link for link in of_file(triangles)["next"] if link["job"] == "feed"]
        answer = json.loads(call(json.dumps({"job": "feed", "inputs": link["inputs"]})))
        assert answer["ok"], answer
        return link["inputs"], answer["result"]

    inputs, result = riser(dumbbell())
    assert float(inputs["modulus_mm"].split()[0]) == pytest.approx(40 / 6, rel=0.01)
    assert result["modulus_mm"] == pytest.approx(40 / 6, rel=0.01)
    assert "modulus_mm" not in riser(cube(40.0))[0]


def test_no_part_of_a_casting_is_said_to_have_more_than_a_ball_of_its_volume():
    """A disc of 30 × 10 with a pin of 3: at its middle it is a wide plate of modulus 5, but a ball of 7 cm³ has 4."""
    pinned = lathe([(0, 0), (15, 0), (15, 10), (1.5, 10), (1.5, 60), (0, 60)], 48)
    (link,) = [link for link in of_file(pinned)["next"] if link["job"] == "feed"]
    volume = of_file(pinned)["result"]["casting_volume_cm3"]
    most = 10 * (volume * 3 / 4 / math.pi) ** (1 / 3) / 3
    assert float(link["inputs"]["modulus_mm"].split()[0]) <= 1.0005 * most
    assert json.loads(call(json.dumps({"job": "feed", "inputs": link["inputs"]})))["ok"]
