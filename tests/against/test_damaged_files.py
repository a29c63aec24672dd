"""Files of shapes damaged on purpose, compared with random points that are inside or outside of their facets.

Source: solid angles, by NumPy: whether the facets wind around each of 600 random points (derived). Computed by: `tests/bench/fuzz_meshes.py`,
which tries thousands; here sixty, with its seed. Tolerance: five standard errors of the share of points, and the volume's own ±.
"""

import random
import sys
from pathlib import Path

from against.published import Checks

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "bench"))

import fuzz_meshes

FILES = 60
SOLID_ANGLES = Checks("damaged_files", source="numpy", sure="separate")


def test_a_volume_that_is_given_is_that_of_the_points_inside():
    compared = 0
    for number in range(FILES):
        chance = random.Random(1_000_003 + number)
        done, data = fuzz_meshes.damaged(chance)
        what, _ = fuzz_meshes.judge(data, chance.choice(("+z", "-z", "+x", "-y")))
        if what.endswith("compared with points"):
            compared += 1
            SOLID_ANGLES.holds(what, "a volume that is given agrees with 600 random points", case=done)
    assert compared >= 5
