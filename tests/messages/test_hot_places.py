"""Every sentence about where a shape freezes last: written by hand, then compared with the library's."""

import json
import re

import pytest
from shapes import ball, binary, box, cube, dumbbell, moved, t_bar

from sandmix.doors.facade import call


def answer(triangles, **inputs):
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, "unit": "mm", **inputs}}
    return json.loads(call(json.dumps(request), {"it": binary(triangles)}))


def about_places(triangles, **inputs):
    words = ("Freezes last", "Other thick", "Because pieces overlap, thick")
    return [remark for remark in answer(triangles, **inputs)["remarks"] if remark.startswith(words)]


def test_two_blocks_on_a_rod():
    """40 mm of 40 × 40, modulus 40/6; 28 mm of 28 × 30, modulus 14/3; the rod is 12 mm."""
    first, others = about_places(dumbbell())
    thick = re.fullmatch(r"Freezes last: ([\d.]+) mm thick at x / y / z .*", first)
    assert float(thick[1]) == pytest.approx(40, rel=0.004)
    assert first.endswith(
        " mm, modulus about 6.7 mm. The thinnest wall is 12 mm. Pour or feed from there, or make it thinner."
    )
    assert others.startswith("Other thick places, each with thinner metal around it: 28 mm thick at x / y / z ")
    assert others.endswith(" mm, modulus about 4.7 mm.")


def test_one_place_that_stands_out_is_named():
    """The joint of a T of 10 mm walls is 12.5 mm."""
    (said,) = about_places(t_bar())
    assert said.startswith("Freezes last: 12.5 mm thick at x / y / z ")
    assert "The thinnest wall is 10 mm." in said


@pytest.mark.parametrize("triangles", [cube(40.0), box(200, 150, 6), ball(40, 20.0), cube(40.0)[1:]])
def test_nothing_is_said_of_an_even_section_or_an_open_shape(triangles):
    assert about_places(triangles) == []


def test_more_than_four_places_are_counted():
    cubes = [facet for at in range(6) for facet in cube(20.0 + at, (60.0 * at, 0.0, 0.0))]
    _, others = about_places(cubes)
    assert others.count("mm thick at") == 3
    assert others.endswith(", and 2 more.")


def test_pieces_that_overlap_are_known_roughly():
    """A block of 40 and one of 20 that reaches into it, and a ball apart from both."""
    said = about_places(cube(40.0) + moved(cube(20.0), (30.0, 10.0, 10.0)) + moved(ball(20, 15.0), (100.0, 20.0, 20.0)))
    assert said[0].startswith("Freezes last: ")
    assert "thinnest" not in said[0]
    assert said[-1].startswith("Because pieces overlap, thick places are only known to ± ")
    assert said[-1].endswith(" mm, and the thinnest wall is left out.")


def test_the_working_gives_the_bounds_of_the_modulus():
    """A plate of 6 mm: 1 mm as a ball, 3 mm as a plate."""
    (line,) = [line for line in answer(box(200, 150, 6))["working"] if line.startswith("thick place")]
    assert line.startswith("thick place 1: 6")
    assert line.endswith("(as a ball 1.00, as a wide plate 3.00)")
