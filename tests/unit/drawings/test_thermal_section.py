"""The section of a casting and its shells, as SVG."""

import re
import xml.etree.ElementTree as ET

import pytest

from sandmix.drawings.thermal_section import HEIGHT, WIDTH, ThermalSection, describe, draw

NS = "{http://www.w3.org/2000/svg}"
PLATE = ThermalSection(half_mm=10.0, burnt_mm=2.0, dry_mm=30.0, flat=True)
BALL = ThermalSection(half_mm=45.0, burnt_mm=3.0, dry_mm=20.0, flat=False)


def parts(shell, tag):
    return [
        part for part in ET.fromstring(draw(shell, "x", "T")).iter(f"{NS}{tag}") if "shell" in part.get("class", "")
    ]


def test_a_plate_is_three_slabs_to_scale_the_widest_first():
    """Halves of 10 + 30, 10 + 2 and 10 mm: 40 : 12 : 10."""
    slabs = parts(PLATE, "rect")
    assert [slab.get("class") for slab in slabs] == ["shell-dry", "shell-burnt", "shell-metal"]
    heights = [float(slab.get("height")) for slab in slabs]
    assert heights[1] / heights[2] == pytest.approx(1.2, rel=0.01)
    assert heights[0] / heights[2] == pytest.approx(4, rel=0.01)
    assert parts(PLATE, "circle") == []


def test_anything_rounder_is_three_rings_about_one_middle():
    """Radii of 65, 48 and 45 mm."""
    rings = parts(BALL, "circle")
    radii = [float(ring.get("r")) for ring in rings]
    assert radii[0] / radii[2] == pytest.approx(65 / 45, rel=0.01)
    assert radii[1] / radii[2] == pytest.approx(48 / 45, rel=0.01)
    assert len({(ring.get("cx"), ring.get("cy")) for ring in rings}) == 1
    assert parts(BALL, "rect") == []


def test_sand_burnt_deeper_than_it_dried_is_drawn_outermost():
    deep = ThermalSection(half_mm=10.0, burnt_mm=9.0, dry_mm=4.0, flat=True)
    assert [slab.get("class") for slab in parts(deep, "rect")] == ["shell-burnt", "shell-dry", "shell-metal"]


@pytest.mark.parametrize("shell", [PLATE, BALL, ThermalSection(half_mm=10.0, burnt_mm=0.0, dry_mm=0.0, flat=False)])
def test_everything_is_inside_the_picture(shell):
    for slab in parts(shell, "rect"):
        assert float(slab.get("y")) >= 0
        assert float(slab.get("y")) + float(slab.get("height")) <= HEIGHT
    for ring in parts(shell, "circle"):
        assert float(ring.get("cy")) - float(ring.get("r")) >= 0
        assert float(ring.get("cy")) + float(ring.get("r")) <= HEIGHT


@pytest.mark.parametrize("half_mm", [0.2, 1.0, 7.0, 45.0, 400.0, 3000.0])
def test_the_scale_bar_has_a_round_length_and_is_to_scale(half_mm):
    """The metal is 2 * half thick in the picture; the measure is as long as it says in the same scale, and fits."""
    shell = ThermalSection(half_mm=half_mm, burnt_mm=half_mm / 10, dry_mm=2 * half_mm, flat=True)
    text = draw(shell, "x", "T")
    said = float(re.search(r">([\d.]+) mm</text>", text)[1])
    start, end = (float(part) for part in re.search(r"M(\d+) [\d.]+H([\d.]+)M", text).groups())
    drawn_half = float(parts(shell, "rect")[2].get("height")) / 2
    assert (end - start) / said == pytest.approx(drawn_half / half_mm, rel=0.01)
    assert f"{said:g}".strip("0.")[0] in "125"
    assert end <= WIDTH


def test_ids_begin_with_the_given_name():
    ids = re.findall(r'id="([^"]+)"', draw(PLATE, "here", "T"))
    assert len(ids) == len(set(ids)) == 4
    assert all(name.startswith("here-") for name in ids)
    assert '<title id="here-title">T</title>' in draw(PLATE, "here", "T")


def test_the_description_says_what_it_shows():
    assert describe(PLATE) == "A plate 20 mm thick. Clay is burnt to 2 mm from its face, and the sand is dry to 30 mm."
    assert describe(BALL) == (
        "A casting about 90 mm across. Clay is burnt to 3 mm from its face, and the sand is dry to 20 mm."
    )
    assert describe(ThermalSection(half_mm=5.0, burnt_mm=0.0, dry_mm=12.0, flat=True)) == (
        "A plate 10 mm thick. No clay is burnt, and the sand is dry to 12 mm."
    )
    assert describe(PLATE) in draw(PLATE, "x", "T")


def test_large_depths_are_written_without_an_exponent():
    assert "e+" not in describe(ThermalSection(half_mm=50.0, burnt_mm=180.0, dry_mm=300.0, flat=True))
