"""The section of a flask: well formed, to scale, inside its frame, without overlapping text, and described in words."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from sandmix.drawings import flask_drawing, flask_section
from sandmix.mould import clearance
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould, Riser
from sandmix.mould.flask import Flask

NS = "{http://www.w3.org/2000/svg}"
NEEDED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)
BROAD = {"m": 0.98, " ": 0.32, "i": 0.28, "l": 0.28, ".": 0.32}
"""Widths in a broad font, as shares of its size; digits and other letters 0.64."""


def mould(length, width, height, *, shape="box", count=1, parting=None, sprue=20.0, is_open=False, riser=None):
    body = Body(shape=shape, length_mm=length, width_mm=width, height_mm=height)
    middle = height / 2 if shape in ("ball", "lying") else height
    return Mould(body, count, middle if parting is None else parting, NEEDED, 0.0 if is_open else sprue, is_open, riser)


def cut(laid, inside=None, **more):
    inside = inside or laid.smallest_flask()
    return flask_section.of_mould(inside, laid, clearance.margins(inside, laid), **({"wall_mm": 18.0} | more))


BLOCK = mould(150, 100, 40)
BESIDE = Riser(diameter_mm=40, height_mm=50, is_on_top=False)
ON_TOP = Riser(diameter_mm=40, height_mm=30, is_on_top=True)
SECTIONS = {
    "a block": cut(BLOCK),
    "two balls, burnt and dry": cut(mould(90, 90, 90, shape="ball", count=2), burnt_mm=4.0, dry_mm=15.0),
    "dry far beyond the walls": cut(BLOCK, dry_mm=1e5, burnt_mm=3.0),
    "three lying crosswise": cut(mould(200, 50, 50, shape="lying", count=3), dry_mm=9.0),
    "open": cut(mould(150, 100, 40, is_open=True)),
    "in the cope": cut(mould(150, 100, 40, parting=0)),
    "bars": cut(BLOCK, Flask(length_mm=700, width_mm=400, drag_depth_mm=150, cope_depth_mm=150), bars=3),
    "filler": cut(BLOCK, Flask(length_mm=500, width_mm=300, drag_depth_mm=150, cope_depth_mm=150), filler_l=4.0),
    "50 mm": cut(mould(5, 5, 3, sprue=0), Flask(length_mm=65, width_mm=65, drag_depth_mm=50, cope_depth_mm=50)),
    "1200 mm": cut(mould(1100, 200, 20)),
    "1200 mm deep": cut(mould(40, 40, 1120, shape="upright")),
    "24 patterns": cut(mould(10, 10, 10, count=24)),
    "a wide sprue": cut(mould(10, 10, 10, sprue=200)),
    "no sprue": cut(mould(150, 100, 40, sprue=0)),
    "a riser beside each": cut(mould(90, 60, 40, count=2, riser=BESIDE), sprue_base_mm=12.0),
    "a riser on top": cut(mould(90, 60, 40, riser=ON_TOP)),
    "a riser and no sprue": cut(mould(90, 60, 40, sprue=0, riser=BESIDE)),
    "sizes with fractions": cut(mould(151.37, 99.9, 41.23)),
}
EACH = pytest.mark.parametrize("drawn", SECTIONS.values(), ids=SECTIONS)


def tree(drawn):
    return ET.fromstring(flask_drawing.draw(drawn, "x", "T"))


def frame(root):
    return tuple(float(part) for part in root.get("viewBox").split())


def outside_of_clips(root):
    """All elements but hatches, and what is cut off at the walls."""
    skipped = {
        id(part)
        for hidden in root.iter()
        if hidden.tag in (NS + "pattern",) or hidden.get("clip-path")
        for part in hidden.iter()
    }
    return [part for part in root.iter() if id(part) not in skipped]


def numbers(text):
    return [float(part) for part in re.findall(r"-?\d+\.?\d*", text)]


def reach(part):
    """The x and y that an element reaches."""
    get = lambda name: float(part.get(name, 0))  # noqa: E731
    tag = part.tag.removeprefix(NS)
    if tag == "rect":
        return [get("x"), get("x") + get("width")], [get("y"), get("y") + get("height")]
    if tag == "ellipse":
        return [get("cx") - get("rx"), get("cx") + get("rx")], [get("cy") - get("ry"), get("cy") + get("ry")]
    if tag == "line":
        return [get("x1"), get("x2")], [get("y1"), get("y2")]
    if tag == "path":
        return path_reach(part.get("d"))
    if tag == "text":
        left, top, right, foot = text_box(part)
        return [left, right], [top, foot]
    return [], []


def path_reach(path):
    xs, ys = [], []
    for command, rest in re.findall(r"([MLHV])([^MLHVZ]*)", path):
        found = numbers(rest)
        xs += found[::2] if command in "ML" else found if command == "H" else []
        ys += found[1::2] if command in "ML" else found if command == "V" else []
    return xs, ys


def text_box(part):
    size = float(part.get("font-size"))
    wide = size * sum(BROAD.get(sign, 0.64) for sign in part.text)
    x, y = float(part.get("x")), float(part.get("y"))
    left = x - {"start": 0, "middle": wide / 2, "end": wide}[part.get("text-anchor")]
    return left, y - 0.76 * size, left + wide, y + 0.2 * size


@EACH
def test_all_of_it_is_in_the_frame(drawn):
    root = tree(drawn)
    _, _, wide, high = frame(root)
    for part in outside_of_clips(root):
        xs, ys = reach(part)
        assert all(-0.01 <= x <= wide + 0.01 for x in xs), ET.tostring(part)
        assert all(-0.01 <= y <= high + 0.01 for y in ys), ET.tostring(part)


@EACH
def test_burnt_and_dry_sand_end_at_the_walls(drawn):
    root = tree(drawn)
    sand = next(part for part in root.iter(NS + "rect") if part.get("class") == "draw-sand")
    clip = next(root.iter(NS + "clipPath"))[0]
    assert [clip.get(name) for name in ("x", "y", "width", "height")] == [
        sand.get(name) for name in ("x", "y", "width", "height")
    ]


@EACH
def test_no_texts_overlap(drawn):
    boxes = [(text_box(part), part.text) for part in tree(drawn).iter(NS + "text")]
    for at, (one, said) in enumerate(boxes):
        for other, also in boxes[at + 1 :]:
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] + 0.5 or other[3] <= one[1] + 0.5
            assert apart, (said, also)


@EACH
def test_text_is_11_pixels_high_where_the_picture_is_252_wide(drawn):
    root = tree(drawn)
    _, _, wide, _ = frame(root)
    assert all(float(part.get("font-size")) * 252 / wide >= 11 for part in root.iter(NS + "text"))


def rects(root, css):
    return [part for part in root.iter(NS + "rect") if part.get("class") == css and float(part.get("width")) != 16]


def test_it_is_to_scale_both_ways():
    """260 × 120 inside, 18 of wood: the cavity 150 × 40 at 30 from the left and 40 from the top."""
    root = tree(SECTIONS["a block"])
    (sand,) = rects(root, "draw-sand")
    scale = float(sand.get("width")) / 260
    assert float(sand.get("height")) / scale == pytest.approx(120, abs=0.05)
    cavity = next(part for part in root.find(f".//{NS}g[@class='draw-cavities']"))
    assert float(cavity.get("width")) / scale == pytest.approx(150, abs=0.05)
    assert float(cavity.get("height")) / scale == pytest.approx(40, abs=0.05)
    assert (float(cavity.get("x")) - float(sand.get("x"))) / scale == pytest.approx(30, abs=0.05)
    assert (float(cavity.get("y")) - float(sand.get("y"))) / scale == pytest.approx(40, abs=0.05)
    board = max(rects(root, "draw-wood"), key=lambda part: float(part.get("width")))
    assert float(board.get("width")) / scale == pytest.approx(296, abs=0.05)
    assert float(board.get("height")) / scale == pytest.approx(18, abs=0.05)


def test_shells_are_to_scale_about_what_is_round():
    """Two balls of 90 mm: radii 45, 49 and 60."""
    root = tree(SECTIONS["two balls, burnt and dry"])
    radii = {
        part.get("class"): float(part.get("rx"))
        for part in root.iter(NS + "ellipse")
        if part.get("class") != "draw-hatch"
    }
    assert radii["draw-burnt"] / radii["draw-metal"] == pytest.approx(49 / 45, rel=1e-3)
    assert radii["draw-dry"] / radii["draw-metal"] == pytest.approx(60 / 45, rel=1e-3)
    order = [part.get("class") for part in root.iter(NS + "ellipse") if part.get("class") != "draw-hatch"]
    assert order.index("draw-dry") < order.index("draw-burnt") < order.index("draw-metal")


def test_shells_about_a_block_are_rounded_at_its_corners():
    root = tree(cut(BLOCK, dry_mm=12.0))
    dry = root.find(f".//{NS}g[@class='draw-shells']")[0]
    cavity = root.find(f".//{NS}g[@class='draw-cavities']")[0]
    scale = float(cavity.get("width")) / 150
    assert float(dry.get("width")) / scale == pytest.approx(174, abs=0.1)
    assert float(dry.get("rx")) / scale == pytest.approx(12, abs=0.05)


def measures(root):
    """Level measures by the words over them: how long each is drawn."""
    lines = [numbers(part.get("d"))[:4] for part in root.iter(NS + "path") if part.get("class") == "draw-measure"]
    texts = [(float(part.get("x")), float(part.get("y")), part.text) for part in root.iter(NS + "text")]
    found = {}
    for x1, y1, x2, y2 in lines:
        for x, y, words in texts:
            if (
                y1 == y2
                and abs(y + 4 - y1) < 0.02
                and min(x1, x2) - 60 < x < max(x1, x2) + 60
                and abs(x - (x1 + x2) / 2) < 20
            ):
                found[words] = abs(x2 - x1)
    return found


def test_measures_say_what_they_span():
    """Lengths along a block: 30 to the wall, 150, 30 to the sprue of 20, 30 to the wall; inside 260."""
    found = measures(tree(SECTIONS["a block"]))
    assert found["150 mm"] / found["260 mm inside"] == pytest.approx(150 / 260, rel=1e-3)
    assert found["30 mm"] / found["260 mm inside"] == pytest.approx(30 / 260, rel=5e-3)


def test_depths_are_beside_the_flask():
    texts = [part.text for part in tree(SECTIONS["a block"]).iter(NS + "text")]
    assert texts[:7] == ["cope", "40 mm", "drag", "80 mm", "40 mm", "40 mm", "40 mm"]
    opened = [part.text for part in tree(SECTIONS["open"]).iter(NS + "text")]
    assert opened[:4] == ["drag", "80 mm", "40 mm", "40 mm"]


def test_the_legend_names_what_is_there_and_no_more():
    def words(name):
        return {part.text for part in tree(SECTIONS[name]).iter(NS + "text")}

    assert not {"dry", "clay burnt", "filler"} & words("a block")
    assert {"dry", "clay burnt"} <= words("two balls, burnt and dry")
    assert "filler" in words("filler")


def test_ids_begin_with_the_given_name_and_title_and_description_are_there():
    text = flask_drawing.draw(SECTIONS["a block"], "here", 'A "box" & more')
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    assert all(name.startswith("here-") for name in ids)
    root = ET.fromstring(text)
    assert root.find(NS + "title").text == 'A "box" & more'
    assert root.find(NS + "desc").text == SECTIONS["a block"].describe
    for used in re.findall(r"url\(#([^)]+)\)", text):
        assert used in ids


class TestRiserAndSprue:
    """Two blocks of 90 × 60 × 40 mm in the drag, each with a riser of 40 mm beside it: 30 mm of sand, 90 of casting, 20 of neck, 40 of riser."""

    def test_risers_stand_on_the_parting_behind_a_neck(self):
        """At 30 + 90 + 20 = 140 and, one step of 90 + 60 + 30 further, at 320; the cope is 50 deep, as high as the riser."""
        section = SECTIONS["a riser beside each"]
        assert [(box.x_mm, box.y_mm, box.wide_mm, box.high_mm) for box in section.risers] == [
            (140, 0, 40, 50),
            (320, 0, 40, 50),
        ]

    def test_the_sprue_comes_after_them_and_is_as_wide_as_its_base(self):
        """Behind the last riser at 360 and 30 mm of sand, 20 mm at the top: the base of 12 lies in its middle."""
        section = SECTIONS["a riser beside each"]
        assert (section.sprue.x_mm, section.sprue.wide_mm, section.sprue_top_mm) == (394, 12, 20)
        assert "20 mm across at the top and 12 mm at the base" in section.describe
        assert "A riser stands beside each cavity, 40 mm across and 50 mm high." in section.describe

    def test_one_on_top_ends_on_the_cavity(self):
        """A cope of 40: the cavity lies in the drag, so the riser of 30 begins 10 mm below the top of the cope."""
        section = SECTIONS["a riser on top"]
        [riser] = section.risers
        assert (riser.x_mm + riser.wide_mm / 2, riser.y_mm, riser.foot_mm) == (30 + 45, 10, 40)
        assert "A riser stands on top of it, 40 mm across and 30 mm high." in section.describe

    def test_without_a_runner_a_neck_joins_them(self):
        """The cavity ends at 120, the riser begins at 140, and the neck in the drag reaches to its middle at 160."""
        [neck] = SECTIONS["a riser and no sprue"].necks
        assert (neck.x_mm, neck.right_mm, neck.y_mm) == (120, 160, 50)

    def test_a_neck_in_the_cope_ends_at_the_riser(self):
        """Parted underneath, the cope is 80 deep and the cavity lies in its lowest 40; the neck is as high as long, 20."""
        [neck] = cut(mould(90, 60, 40, sprue=0, parting=0, riser=BESIDE)).necks
        assert (neck.x_mm, neck.right_mm, neck.y_mm, neck.foot_mm) == (120, 140, 60, 80)

    def test_one_that_is_higher_than_the_cope_is_not_drawn(self):
        laid = mould(90, 60, 40, riser=BESIDE)
        assert cut(laid, Flask(length_mm=300, width_mm=300, drag_depth_mm=100, cope_depth_mm=49)) is None


def test_the_description_says_what_it_shows():
    assert SECTIONS["a block"].describe == (
        "A flask 260 mm long inside, drag 80 mm, cope 40 mm. The cavity is 150 mm long and 40 mm high, 30 mm from the left wall, "
        "40 mm below the top of the cope, 40 mm above the bottom board. The sprue is 30 mm beside it, with a cup on the cope."
    )
    two = SECTIONS["two balls, burnt and dry"].describe
    assert "2 cavities, each 90 mm long" in two
    assert two.endswith("Clay is burnt to 4 mm from the casting. The sand is dry to 15 mm from the casting.")
    assert "cope" not in SECTIONS["open"].describe
    assert "3 bars cross the cope." in SECTIONS["bars"].describe
    assert "A bar crosses the cope." in replace(SECTIONS["bars"], bars=SECTIONS["bars"].bars[:1]).describe
    assert "Filler blocks 22 mm thick are at both ends." in SECTIONS["filler"].describe


def test_filler_stays_50_mm_from_the_cavity():
    """4 L across 160 mm and 300 mm deep, half at each end: 41.7 mm; a flask of 400 leaves (400 − 200) / 2 − 50 = 50, one of 310 leaves 5."""

    def thick(length):
        flask = Flask(length_mm=length, width_mm=160, drag_depth_mm=150, cope_depth_mm=150)
        return [box.wide_mm for box in cut(BLOCK, flask, filler_l=4.0).fillers]

    assert thick(400) == pytest.approx([4e6 / (2 * 160 * 300)] * 2)
    assert thick(310) == [5, 5]
    assert thick(300) == []


def test_bars_keep_away_from_pattern_sprue_and_parting():
    """600 long, bars of 12: the last of three at 450 − 6 would stand in reach of a sprue at 400; feet 19 above the parting, or above the pattern."""
    flask = Flask(length_mm=600, width_mm=400, drag_depth_mm=150, cope_depth_mm=150)
    drawn = cut(mould(300, 200, 60, parting=30), flask, bars=3)
    assert drawn.sprue.x_mm == pytest.approx(455)
    assert [bar.x_mm for bar in drawn.bars] == pytest.approx([144, 294, 455 - 19 - 12])
    assert [bar.high_mm for bar in drawn.bars] == pytest.approx([150 - 30 - 19, 101, 101])
    shallow = Flask(length_mm=600, width_mm=400, drag_depth_mm=150, cope_depth_mm=45)
    assert cut(mould(300, 200, 60, parting=30), shallow, bars=3).bars == ()
    across = Flask(length_mm=400, width_mm=600, drag_depth_mm=150, cope_depth_mm=150)
    assert cut(BLOCK, across, bars=3).bars == ()


def test_the_runner_lies_where_the_pattern_is():
    assert SECTIONS["a block"].runner.y_mm == 40
    up = SECTIONS["in the cope"]
    assert up.runner.foot_mm == up.inside.cope_depth_mm


def test_a_pattern_that_does_not_fit_in_is_not_drawn():
    small = Flask(length_mm=150, width_mm=90, drag_depth_mm=100, cope_depth_mm=100)
    assert cut(BLOCK, small) is None
    assert cut(BLOCK, Flask(length_mm=400, width_mm=400, drag_depth_mm=30, cope_depth_mm=100)) is None
