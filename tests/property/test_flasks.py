"""Properties of choosing a flask and of its section, for any inputs within the bounds of the words."""

import math
import re
import xml.etree.ElementTree as ET

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.mould.body import SHAPES, Body

NS = "{http://www.w3.org/2000/svg}"
SIZE = st.floats(5, 300)
SIGNED = {"above_mm", "below_mm", "ends_mm", "sides_mm", "surplus_kg"}
BROAD = {"m": 0.98, " ": 0.32, "i": 0.28, "l": 0.28, ".": 0.32}


def sound(answer):
    assert "fault" not in answer, answer["problems"]
    if not answer["ok"]:
        assert all(problem["message"] for problem in answer["problems"])
        return
    for word, value in answer["result"].items():
        if isinstance(value, float):
            assert math.isfinite(value), word
            assert value >= 0 or word in SIGNED, (word, value)
        for row in value if isinstance(value, list) else ():
            assert all(part >= 0 and math.isfinite(part) for part in row.values() if isinstance(part, float)), row
    for word, (low, high) in answer["doubt"].items():
        value = answer["result"][word]
        assert low <= value + 1e-9 * abs(value), word
        assert value <= high + 1e-9 * abs(value), word
    for svg in answer["drawings"].values():
        in_frame(svg)


def in_frame(svg):
    """Every coordinate except those of hatches and of what ends at the walls, and every text in a wide font."""
    root = ET.fromstring(svg)
    wide, high = (float(part) for part in root.get("viewBox").split()[2:])
    skipped = {
        id(part) for each in root.iter() if each.get("clip-path") or each.tag == NS + "pattern" for part in each.iter()
    }
    for part in root.iter():
        if id(part) in skipped:
            continue
        get = {name: float(value) for name, value in part.items() if re.fullmatch(r"-?[\d.]+", value)}
        assert all(math.isfinite(value) for value in get.values())
        tag = part.tag.removeprefix(NS)
        if tag == "rect":
            within(wide, high, get["x"], get["y"])
            within(wide, high, get["x"] + get["width"], get["y"] + get["height"])
        elif tag == "ellipse":
            within(wide, high, get["cx"] - get["rx"], get["cy"] - get["ry"])
            within(wide, high, get["cx"] + get["rx"], get["cy"] + get["ry"])
        elif tag == "line":
            within(wide, high, get["x1"], get["y1"])
            within(wide, high, get["x2"], get["y2"])
        elif tag == "text":
            half = sum(BROAD.get(sign, 0.64) for sign in part.text) * get["font-size"] / 2
            middle = get["x"] + {"start": half, "middle": 0.0, "end": -half}[part.get("text-anchor")]
            within(wide, high, middle - half, get["y"] - 10)
            within(wide, high, middle + half, get["y"] + 3)
        elif tag == "path":
            for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", part.get("d")):
                within(wide, high, float(x), float(y))


def within(wide, high, x, y):
    assert -0.02 <= x <= wide + 0.02, (x, wide)
    assert -0.02 <= y <= high + 0.02, (y, high)


@pytest.mark.parametrize("job", ["fit", "flask"])
def test_answers_are_sound_and_drawings_stay_in_their_frame(ask, lawful, job):
    @examples(250)
    @given(asked=lawful(job))
    def holds(asked):
        sound(ask(job, **asked))

    holds()


def test_the_same_for_usual_inputs(ask, sensible):
    @examples(250)
    @given(asked=sensible("fit"))
    def holds(asked):
        asked.pop("flask_name", None)
        asked["patterns_count"] = round(asked.get("patterns_count", 1))
        asked["pattern_volume_cm3"] = 0
        if "parting_height_mm" in asked:
            asked["parting_height_mm"] *= asked["pattern_height_mm"] / 200
        answer = ask("fit", **asked)
        sound(answer)

    holds()


@examples(200)
@given(
    length=SIZE,
    width=SIZE,
    height=SIZE,
    shape=st.sampled_from(list(SHAPES)),
    count=st.integers(1, 6),
    sprue=st.floats(0, 40),
)
def test_the_flask_to_make_is_the_smallest_that_clears(ask, length, width, height, shape, count, sprue):
    pattern = {
        "pattern_length_mm": length,
        "pattern_width_mm": width,
        "pattern_height_mm": height,
        "pattern_shape": shape,
        "patterns_count": count,
        "sprue_mm": sprue,
    }
    made = ask("fit", **pattern)
    assert made["ok"], made
    least = {name: made["result"][f"least_{name}_mm"] for name in ("length", "width", "drag", "cope")}
    assume(max(least.values()) + 20 <= 3000 and min(least.values()) >= 10)

    def held(more):
        return {
            "flask_length_mm": least["length"] + more,
            "flask_width_mm": least["width"],
            "drag_depth_mm": least["drag"],
            "cope_depth_mm": least["cope"],
        }

    chosen = ask("fit", **pattern, flasks=[held(20), held(0)])["result"]
    assert chosen["flask_taken"] == "flask 2"
    assert chosen["make_kg"] == pytest.approx(made["result"]["make_kg"])
    assert chosen["others"][0]["extra_kg"] > 0


@examples(300)
@given(
    length=SIZE,
    width=SIZE,
    height=SIZE,
    shape=st.sampled_from(list(SHAPES)),
    one=st.floats(0, 50),
    more=st.floats(0, 50),
)
def test_a_layer_grows_with_its_thickness_and_stays_within_its_bounds(length, width, height, shape, one, more):
    """Steiner: the layer grows with its thickness, and is between A t and the box that is t larger on all sides."""
    body = Body(shape=shape, length_mm=length, width_mm=width, height_mm=height)
    thin, thick = body.layer_cm3(one), body.layer_cm3(one + more)
    assert thin <= thick + 1e-9
    assert thin >= body.area_mm2 * one / 1000 - 1e-9
    if shape == "box":
        around = (length + 2 * one) * (width + 2 * one) * (height + 2 * one) - length * width * height
        assert thin <= around / 1000 + 1e-6


@examples(300)
@given(
    length=SIZE,
    across=SIZE,
    shape=st.sampled_from(list(SHAPES)),
    share=st.floats(0, 1),
    up=st.sampled_from(["height", "width", "length"]),
)
def test_the_part_in_the_cope_is_part_of_the_body_and_turning_keeps_its_volume(length, across, shape, share, up):
    sizes = {"upright": (across, across, length), "ball": (across,) * 3}.get(shape, (length, across, across))
    body = Body(shape=shape, length_mm=sizes[0], width_mm=sizes[1], height_mm=sizes[2])
    area, volume = body.above(share * body.height_mm)
    assert 0 <= volume <= body.volume_cm3 * 1000 * (1 + 1e-9)
    assert 0 <= area <= body.projected_mm2 * (1 + 1e-9)
    turned = body.turned(up)
    assert turned.volume_cm3 == pytest.approx(body.volume_cm3)
    assert turned.area_mm2 == pytest.approx(body.area_mm2)
    assert body.undercut_cm2(body.height_mm / 2) == 0


def test_the_next_job_accepts_its_inputs_and_uncertainty_changes_nothing_else(ask, call_bare, without_ranges, lawful):
    @examples(120)
    @given(asked=lawful("fit"))
    def holds(asked):
        asked.pop("flask_name", None)
        asked["patterns_count"] = 1 + round(asked.get("patterns_count", 1)) % 24
        answer = ask("fit", **asked)
        assume(answer["ok"])
        for link in answer["next"]:
            onward = ask(link["job"], **link["inputs"])
            problems = [] if onward["ok"] else onward["problems"]
            assert [problem for problem in problems if problem["word"] in link["inputs"]] == []
        assert call_bare("fit", asked) == without_ranges(answer)

    holds()
