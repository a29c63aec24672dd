"""The largest circle in a joint: it touches what is farthest from its middle, checked on points along the walls' outline."""

import math

import pytest
from effort import only_long

from sandmix.feeding.joints import JOINTS, bounds_mm, tee_mm

WALL = 10.0
FAR = 60.0


def arc(middle, radius, start, end):
    steps = [start + (end - start) * at / 4000 for at in range(4001)]
    return [(middle[0] + radius * math.cos(angle), middle[1] + radius * math.sin(angle)) for angle in steps]


def straight(first, last):
    return [
        (first[0] + (last[0] - first[0]) * at / 4000, first[1] + (last[1] - first[1]) * at / 4000) for at in range(4001)
    ]


def outline(joint, fillet):
    """Points on the faces of a joint around the origin, and the line on which the circle's middle lies (a point and a direction)."""
    t, r = WALL, fillet
    if joint == "l":
        faces = straight((0, 0), (FAR, 0)) + straight((0, 0), (0, FAR))
        faces += straight((t + r, t), (FAR, t)) + straight((t, t + r), (t, FAR))
        return faces + arc((t + r, t + r), r, math.pi, 1.5 * math.pi), ((0.0, 0.0), (1.0, 1.0))
    if joint == "t":
        faces = straight((-FAR, 0), (FAR, 0))
        for side in (-1, 1):
            faces += straight((side * (t / 2 + r), t), (side * FAR, t)) + straight(
                (side * t / 2, t + r), (side * t / 2, FAR)
            )
            faces += arc((side * (t / 2 + r), t + r), r, 0, 2 * math.pi) if r else []
        return faces, ((0.0, 0.0), (0.0, 1.0))
    quarter = [
        (x, y) for x, y in straight((t / 2 + r, t / 2), (FAR, t / 2)) + straight((t / 2, t / 2 + r), (t / 2, FAR))
    ]
    quarter += arc((t / 2 + r, t / 2 + r), r, math.pi, 1.5 * math.pi) if r else []
    return [(sx * x, sy * y) for x, y in quarter for sx in (-1, 1) for sy in (-1, 1)], ((0.0, 0.0), (0.0, 1.0))


@pytest.mark.parametrize("fillet", [0.0, 5.0, *only_long(3.0)])
@pytest.mark.parametrize("joint", ["l", "t", "x"])
def test_the_circle_is_the_largest_that_touches_no_face(joint, fillet):
    """The largest least distance to the outline along the joint's axis, by trying; within the grain of the points."""
    faces, (start, way) = outline(joint, fillet)
    best = 0.0
    for at in range(121):
        x, y = start[0] + way[0] * at * 0.1, start[1] + way[1] * at * 0.1
        if joint == "x" and at > 0:
            break
        best = max(best, min(math.hypot(x - px, y - py) for px, py in faces))
    assert JOINTS[joint](WALL, fillet) == pytest.approx(2 * best, abs=0.12)


def test_a_thin_web_adds_little_to_a_plate():
    """t + b²/(4 t): a web of 4 mm on a plate of 10 mm."""
    assert tee_mm(10.0, 0.0, 4.0) == pytest.approx(10.4)
    assert tee_mm(10.0, 0.0, 0.0) == pytest.approx(10.0)


def test_three_walls_of_120_degrees():
    """The corner between two walls is t/2 / sin 60° from the middle; a fillet of 5 mm has its middle at 10/sin 60°."""
    assert JOINTS["y"](10.0, 0.0) == pytest.approx(2 * 5 / math.sin(math.pi / 3))
    assert JOINTS["y"](10.0, 5.0) == pytest.approx(2 * (10 / math.sin(math.pi / 3) - 5))


def test_the_modulus_of_a_joint_is_between_a_bar_and_a_plate():
    assert bounds_mm(12.0) == (3.0, 6.0)
