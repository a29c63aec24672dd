"""The section of a riser, to scale, as SVG."""

import re
import xml.etree.ElementTree as ET

import pytest

from sandmix.drawings.riser_section import WIDTH, RiserSection, draw

NS = "{http://www.w3.org/2000/svg}"
SIDE = RiserSection(thickness_mm=20.0, above_mm=5.0, diameter_mm=75.0, height_mm=60.0, neck_mm=44.0)
TOP = RiserSection(thickness_mm=20.0, above_mm=20.0, diameter_mm=80.0, height_mm=40.0, neck_mm=None)
EXTREME = [
    RiserSection(thickness_mm=0.4, above_mm=0.0, diameter_mm=5.0, height_mm=20.0, neck_mm=0.9),
    RiserSection(thickness_mm=1000.0, above_mm=0.0, diameter_mm=3600.0, height_mm=1800.0, neck_mm=None),
    RiserSection(thickness_mm=1.0, above_mm=0.0, diameter_mm=400.0, height_mm=400.0, neck_mm=2.2),
]


def metal(section):
    root = ET.fromstring(draw(section, "x", "T"))
    return [
        part for part in root.iter(f"{NS}rect") if part.get("class") == "draw-metal" and float(part.get("height")) != 13
    ]


def size(part):
    return float(part.get("width")), float(part.get("height"))


def test_part_neck_and_riser_are_in_one_scale():
    """The riser is 75 : 60; the part 20 against its 60, and the neck no higher than the 15 mm of the part below the parting line."""
    part, neck, riser = metal(SIDE)
    assert size(riser)[0] / size(riser)[1] == pytest.approx(75 / 60, rel=0.01)
    assert size(riser)[1] / size(part)[1] == pytest.approx(3, rel=0.01)
    assert size(part)[1] / size(neck)[1] == pytest.approx(20 / 15, rel=0.01)


def test_a_side_riser_stands_on_its_neck_beside_the_part():
    part, neck, riser = metal(SIDE)
    foot = float(riser.get("y")) + size(riser)[1]
    assert foot == pytest.approx(float(neck.get("y")), abs=0.02)
    assert float(neck.get("x")) == pytest.approx(float(part.get("x")) + size(part)[0], abs=0.02)
    assert float(riser.get("x")) > float(part.get("x")) + size(part)[0]


def test_a_riser_on_top_stands_on_the_part():
    part, riser = metal(TOP)
    assert float(riser.get("y")) + size(riser)[1] == pytest.approx(float(part.get("y")), abs=0.02)
    assert float(part.get("x")) < float(riser.get("x"))
    assert float(riser.get("x")) + size(riser)[0] < float(part.get("x")) + size(part)[0]


@pytest.mark.parametrize("section", [SIDE, TOP, *EXTREME])
def test_everything_is_inside_the_picture(section):
    root = ET.fromstring(draw(section, "x", "T"))
    _, _, wide, high = map(float, root.get("viewBox").split())
    assert wide == WIDTH
    for part in root.iter(f"{NS}rect"):
        if part.get("class"):
            x, y = float(part.get("x")), float(part.get("y"))
            assert -0.01 <= x <= x + size(part)[0] <= wide + 0.01
            assert -0.01 <= y <= y + size(part)[1] <= high + 0.01


def test_the_sizes_are_written_and_described():
    text = draw(SIDE, "x", "T")
    assert re.findall(r">([^<>]*mm[^<>]*)</text>", text) == ["75 mm", "60 mm", "20 mm", "neck 44 mm wide"]
    thin = RiserSection(thickness_mm=20.0, above_mm=0.0, diameter_mm=40.0, height_mm=40.0, neck_mm=18.0)
    assert "neck 18 mm across" in draw(thin, "x", "T")
    assert "A part 20 mm thick. The riser beside it is 75 mm across and 60 mm high, with a neck of 44 mm." in text
    assert "The riser on top of it is 80 mm across and 40 mm high." in draw(TOP, "x", "T")
