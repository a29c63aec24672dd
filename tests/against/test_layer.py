"""A layer of sand around plain bodies.

Source: geometry, by hand (derived): the faces, edges and corners of a box; the side, ends and rims of a cylinder, the rims by Pappus's rule;
a larger ball less a smaller one. The library uses the formula of Steiner and Minkowski, which knows no such parts.
"""

import math

from against.published import Checks

from sandmix.mould.body import Body

LAYER = Checks("layer", source="geometry", sure="derived")


def layer_cm3(shape, *sizes_mm, thick_mm):
    length, width, height = sizes_mm
    return Body(shape=shape, length_mm=length, width_mm=width, height_mm=height).layer_cm3(thick_mm)


def test_a_layer_around_a_box_is_its_faces_its_edges_and_its_corners():
    """10 mm: faces 2 (6000 + 2400 + 4000) * 10 = 248 000; twelve edges, a quarter of a rod each, π 100 / 4 * 4 * 200; eight corners, one ball."""
    by_hand = 248 + math.pi * 20 + 4 / 3 * math.pi
    found = layer_cm3("box", 100, 60, 40, thick_mm=10)
    LAYER.figure(found, f"{by_hand:.3f}", "10 mm around a box of 100 × 60 × 40 mm", unit="cm³")


def test_a_layer_around_a_cylinder_is_its_side_its_ends_and_its_rims():
    """10 mm: side π (40² − 30²) 80; ends 2 π 30² 10; two rims together half a ring, whose half disc's middle lies at 30 + 40 / 3π (Pappus)."""
    side, ends = math.pi * (1600 - 900) * 80, 2 * math.pi * 900 * 10
    rims = 2 * math.pi * (30 + 40 / (3 * math.pi)) * math.pi * 100 / 2
    found = layer_cm3("upright", 60, 60, 80, thick_mm=10)
    LAYER.figure(found, f"{(side + ends + rims) / 1000:.3f}", "10 mm around a cylinder of 60 × 80 mm", unit="cm³")


def test_a_layer_around_a_ball_is_the_larger_ball_less_the_smaller():
    by_hand = 4 / 3 * math.pi * (70**3 - 50**3) / 1000
    found = layer_cm3("ball", 100, 100, 100, thick_mm=20)
    LAYER.figure(found, f"{by_hand:.3f}", "20 mm around a ball of 100 mm", unit="cm³")
