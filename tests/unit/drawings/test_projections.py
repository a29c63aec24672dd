"""Three views as SVG: well formed, to scale, inside their frame, without overlapping text, and described in words."""

import json
import re
import xml.etree.ElementTree as ET

import pytest
from shapes import ball, binary, cube, moved, ring

from sandmix.doors.facade import call
from sandmix.drawings import projections, svg
from sandmix.mesh import solid, stl

NS = "{http://www.w3.org/2000/svg}"


def box(x, y, z):
    return [tuple((x * a / 10, y * b / 10, z * c / 10) for a, b, c in facet) for facet in cube()]


SHAPES = {
    "a cube": cube(40.0),
    "a ball": ball(40, 20.0),
    "a ring": ring(60),
    "a plate": box(120, 20, 2),
    "a plate the other way": box(20, 1200, 2),
    "a rod": box(10, 10, 300),
    "a wire": box(0.5, 0.5, 1000),
    "two pieces": cube(10.0) + moved(ball(20, 8.0), (30.0, 5.0, 20.0)),
    "tiny": cube(0.01234),
    "too small for a figure": cube(0.001234),
    "six figures": cube(999_999.0),
    "huge": cube(1.2345e8),
    "pins": [facet for i in range(30) for j in range(30) for facet in cube(1.0, (2.0 * i, 2.0 * j, 0.0))],
}
EACH = pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)


def drawn(shape, mm=1.0):
    return projections.draw(solid.measure(stl.read(binary(shape))).views, mm, "x", "T")


def numbers(text):
    return [float(part) for part in re.findall(r"-?\d+\.?\d*", text)]


def bounds(part):
    """The left, right, top and foot of an element."""
    tag = part.tag.removeprefix(NS)
    if tag == "path":
        if part.get("class") == "draw-measure":
            xs = numbers(" ".join(re.findall(r"[MLH](-?[\d.]+)", part.get("d"))))
            return min(xs), max(xs), 0.0, 0.0
        places = numbers(part.get("d"))
        return min(places[::2]), max(places[::2]), min(places[1::2]), max(places[1::2])
    if tag == "line":
        x1, x2, y1, y2 = (float(part.get(name)) for name in ("x1", "x2", "y1", "y2"))
        return min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
    assert tag == "text"
    x, y, wide = float(part.get("x")), float(part.get("y")), svg.width_of(part.text)
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[part.get("text-anchor")]
    return left, left + wide, y - 11, y + 3


def parts(root, tag):
    hidden = {id(inner) for pattern in root.iter(NS + "pattern") for inner in pattern.iter()}
    return [part for part in root.iter(NS + tag) if id(part) not in hidden]


@EACH
def test_it_is_well_formed_and_inside_its_frame(shape):
    root = ET.fromstring(drawn(shape))
    _, _, wide, high = numbers(root.get("viewBox"))
    assert wide == 320
    for part in [part for tag in ("path", "line", "text") for part in parts(root, tag)]:
        left, right, top, foot = bounds(part)
        assert left >= 0 and right <= wide, part.attrib
        assert top >= 0 and foot <= high, part.attrib


@EACH
def test_no_texts_overlap(shape):
    texts = [bounds(part) for part in parts(ET.fromstring(drawn(shape)), "text")]
    for at, one in enumerate(texts):
        for other in texts[at + 1 :]:
            assert one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]


@EACH
def test_it_is_small_to_send(shape):
    assert len(drawn(shape)) < 60_000


@EACH
def test_all_views_are_to_one_scale(shape):
    """Each view is as wide and as high as the box says, by one scale: to a tenth of a unit of the picture, to which places are written."""
    views = solid.measure(stl.read(binary(shape))).views
    shapes = [bounds(part) for part in parts(ET.fromstring(drawn(shape)), "path") if part.get("class") == "draw-shape"]
    longest = max(max(view.wide, view.high) for view in views)
    scale = next(
        (high - low) / longest
        for (left, right, top, foot), view in zip(shapes, views, strict=True)
        for low, high, length in ((left, right, view.wide), (top, foot, view.high))
        if length == longest
    )
    for (left, right, top, foot), view in zip(shapes, views, strict=True):
        assert right - left == pytest.approx(view.wide * scale, abs=0.21)
        assert foot - top == pytest.approx(view.high * scale, abs=0.21)


def test_the_front_is_below_the_view_from_above_and_the_side_beside_it():
    above, front, side = (
        bounds(part)
        for part in parts(ET.fromstring(drawn(box(60, 30, 20))), "path")
        if part.get("class") == "draw-shape"
    )
    assert front[:2] == pytest.approx(above[:2], abs=0.11)
    assert front[2] > above[3]
    assert side[2:] == pytest.approx(front[2:], abs=0.11)
    assert side[0] > front[1]


def test_measures_and_words_are_in_mm():
    root = ET.fromstring(drawn(box(6, 3, 2), mm=25.4))
    said = [part.text for part in parts(root, "text")]
    assert said == ["from above", "front", "side", "152.4 mm", "76.2 mm", "50.8 mm"]
    assert root.find(NS + "title").text == "T"
    assert root.find(NS + "desc").text == (
        "From above it is 152.4 mm wide and 76.2 mm deep; from the front and from the side it is 50.8 mm high."
    )
    assert root.get("aria-labelledby") == "x-title x-desc"


def test_the_job_draws_a_closed_shape_and_not_an_open_one():
    def drawings(triangles):
        request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, "scale": 2}}
        return json.loads(call(json.dumps(request), {"it": binary(triangles)}))["drawings"]

    assert drawings(cube()[1:]) == {}
    root = ET.fromstring(drawings(cube())["views"])
    assert root.find(NS + "title").text == "The shape, to scale"
    assert "20 mm wide" in root.find(NS + "desc").text


def test_sizes_alone_draw_nothing():
    answer = json.loads(call('{"job": "pattern", "inputs": {"box_mm": [10, 20, 30]}}'))
    assert answer["drawings"] == {}


def circles_of(triangles, **inputs):
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, **inputs}}
    answer = json.loads(call(json.dumps(request), {"it": binary(triangles)}))
    return ET.fromstring(answer["drawings"]["views"])


@pytest.mark.parametrize("up", ["+z", "-z", "+x", "-x", "+y", "-y"])
def test_each_thick_place_is_a_circle_on_its_part_in_every_view(up):
    """A cube of 30 and one of 20, apart on every axis: each circle fills the square of its cube."""
    root = circles_of(cube(30.0) + moved(cube(20.0), (50.0, 60.0, 70.0)), up=up)
    drawn = [[float(part.get(name)) for name in ("cx", "cy", "r")] for part in root.iter(NS + "circle")]
    assert len(drawn) == 6
    squares = []
    for part in parts(root, "path"):
        if part.get("class") == "draw-shape":
            loops = [numbers(loop) for loop in part.get("d").split("Z") if loop]
            squares += sorted(
                [(min(loop[::2]), max(loop[::2]), min(loop[1::2]), max(loop[1::2])) for loop in loops],
                key=lambda square: square[0] - square[1],
            )
    for (x, y, r), (left, right, top, foot) in zip(drawn, squares, strict=True):
        assert x == pytest.approx((left + right) / 2, abs=1)
        assert y == pytest.approx((top + foot) / 2, abs=1)
        assert r == pytest.approx((right - left) / 2, abs=1)
    texts = [part.text for part in parts(root, "text")]
    assert texts.count("1") == texts.count("2") == 1
    assert root.find(NS + "desc").text.endswith("Circles show the largest balls that fit, where it freezes last.")


def test_one_place_has_no_number_and_a_thin_view_no_number():
    assert "1" not in [part.text for part in parts(circles_of(cube(40.0)), "text")]
    flat = circles_of(cube(2.0) + moved(cube(3.0), (300.0, 0.0, 0.0)))
    assert not {"1", "2"} & {part.text for part in parts(flat, "text")}


def test_numbers_of_places_close_together_do_not_overlap():
    root = circles_of([facet for at in range(6) for facet in cube(20.0 + at / 10, (26.0 * at, 0.0, 24.0 * (at % 2)))])
    texts = [bounds(part) for part in parts(root, "text")]
    for at, one in enumerate(texts):
        for other in texts[at + 1 :]:
            assert one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
