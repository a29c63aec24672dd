"""The bar that shows what a sand is made of."""

import xml.etree.ElementTree as ElementTree

import pytest

from sandmix import Sand
from sandmix.drawings import composition_bar

SVG = "{http://www.w3.org/2000/svg}"
FULL = Sand(grain_kg=20, live_clay_kg=1.5, dead_clay_kg=0.4, other_fines_kg=0.3, organics_kg=0.1, water_kg=0.8)


def rects(sand, **how):
    root = ElementTree.fromstring(composition_bar.draw(sand, "here", "A & B", **how))
    return root, {
        rect.get("class"): float(rect.get("width"))
        for rect in root.iter(f"{SVG}rect")
        if rect.get("class") != "strip-hatch"
    }


def test_a_bar_is_to_scale_by_dry_mass():
    _, widths = rects(FULL)
    assert widths["strip-grain"] / widths["strip-live"] == pytest.approx(20 / 1.5, rel=0.01)
    assert sum(width for name, width in widths.items() if name != "strip-frame") == pytest.approx(
        widths["strip-frame"], abs=0.1
    )


def test_two_bars_of_one_scale_can_be_compared():
    _, half = rects(FULL, full_dry_kg=2 * FULL.dry_kg)
    _, whole = rects(FULL)
    assert half["strip-grain"] == pytest.approx(whole["strip-grain"] / 2, abs=0.02)


def test_the_title_is_escaped_and_the_ids_are_unique():
    root, _ = rects(FULL)
    assert root.find(f"{SVG}title").text == "A & B"
    assert all(element.get("id").startswith("here-") for element in root.iter() if element.get("id"))
    assert not any(element.get("style") for element in root.iter())


def test_the_description_names_every_share():
    root, _ = rects(Sand(grain_kg=9.3, live_clay_kg=0.7, water_kg=0.5))
    assert (
        root.find(f"{SVG}desc").text
        == "10.50 kg with its water. Of the dry mass: sand grains 93.0 %, live clay 7.0 %. Of the wet mass: water 4.8 %."
    )


def test_no_sand_is_drawn_as_an_empty_frame():
    root, widths = rects(Sand())
    assert widths == {"strip-frame": 0}
    assert root.find(f"{SVG}desc").text == "0.00 kg with its water. Of the wet mass: water 0.0 %."
    assert root.find(f"{SVG}line") is None


def test_much_water_stays_inside_the_drawing():
    root, _ = rects(Sand(grain_kg=1, water_kg=9))
    assert float(root.find(f"{SVG}line").get("x2")) <= composition_bar.WIDTH
    assert all(
        float(text.get("x")) < composition_bar.WIDTH - 60
        for text in root.iter(f"{SVG}text")
        if text.text.startswith("water")
    )
