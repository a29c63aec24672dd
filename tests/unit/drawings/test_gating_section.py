"""The section of the gating: its parts touch, its levels are to scale, and nothing leaves the frame."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from sandmix.drawings import gating_section
from sandmix.drawings.gating_section import GatingSection
from sandmix.jobs import JOBS

HOOKS = GatingSection(
    cup_mm=30,
    head_mm=120,
    sprue_mm=90,
    top_mm=20,
    base_mm=14,
    runner_mm=25,
    gate_mm=4,
    over_gate_mm=10,
    under_gate_mm=15,
)
FROM_BELOW = replace(HOOKS, over_gate_mm=80, under_gate_mm=0)
HIGH = replace(HOOKS, over_gate_mm=0, under_gate_mm=900)
CASES = [HOOKS, FROM_BELOW, HIGH, replace(HOOKS, top_mm=300, base_mm=200, runner_mm=250)]


@pytest.mark.parametrize("section", CASES)
def test_sprue_runner_gate_and_cavity_touch(section):
    assert section.cup.foot_mm == section.sprue[0][1]
    assert section.sprue[2][1] >= section.runner.y_mm
    assert section.runner.right_mm == section.gate.x_mm
    assert section.gate.right_mm == section.cavity.x_mm
    assert section.gate.y_mm >= section.runner.y_mm
    assert section.gate.foot_mm > section.cavity.y_mm
    assert section.gate.y_mm < section.cavity.foot_mm


def test_heights_count_from_the_metals_surface():
    """120 mm of head: the cavity is 10 mm above that level and 15 mm below it."""
    assert (HOOKS.cavity.y_mm, HOOKS.cavity.foot_mm) == (110, 135)
    assert HOOKS.gate.y_mm == 120
    assert FROM_BELOW.gate.foot_mm == FROM_BELOW.cavity.foot_mm == 120, (
        "from below the gate is at the foot of the cavity"
    )


def test_a_sprue_that_ends_above_the_gate_stands_on_a_deeper_runner():
    assert replace(HOOKS, sprue_mm=70).runner.y_mm == 100


@pytest.mark.parametrize("section", CASES)
def test_everything_stays_in_the_frame(section):
    root = ET.fromstring(gating_section.draw(section, "s", "Title"))
    wide, high = (float(size) for size in root.attrib["viewBox"].split()[2:])
    for shape in root.iter():
        if shape.tag.endswith("rect"):
            x, y, across, down = (float(shape.attrib[name]) for name in ("x", "y", "width", "height"))
            assert min(x, y, across, down) >= 0
            assert x + across <= wide
            assert y + down <= high


def test_the_words_name_every_size():
    said = gating_section.describe(HOOKS)
    assert [int(size) for size in re.findall(r"(\d+) mm", said)] == [90, 20, 14, 30, 120, 4, 10, 15]


def test_the_job_draws_it_where_the_height_is_known(ask):
    example = dict(JOBS["gate"].example)
    assert "section" in ask("gate", **example)["drawings"]
    without = {word: value for word, value in example.items() if word not in ("fill_height_mm", "cope_height_mm")}
    assert ask("gate", **without | {"gate_place": "top"})["drawings"] == {}


@pytest.mark.parametrize(("place", "below"), [("top", 25), ("bottom", 0), ("parting", 15)])
def test_the_job_puts_the_cavity_where_the_metal_enters(ask, place, below):
    said = ask("gate", **{**JOBS["gate"].example, "gate_place": place})["drawings"]["section"]
    where = f"{below} mm below it"
    assert where in said
