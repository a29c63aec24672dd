"""A plywood wall as a beam compared with published plates, and the stiffness used for it.

Source: Roark's formulas for stress and strain, table 11.4 case 1a: a plate held at all four edges, w = α q b⁴ / (E t³), Poisson's ratio
0.3; read in an extract of it. Printed to four decimals. Stiffness of plywood: Journal of the Korean Wood Science and Technology 53(4), 2025,
p. 429, table 3 (read): five kinds of plywood, made and tested in one laboratory.
Hand arithmetic by the author of these tests.
"""

import pytest
from against.published import Checks

from sandmix.mould import walls

ALPHA = {
    1.0: 0.0444,
    1.2: 0.0616,
    1.4: 0.0770,
    1.6: 0.0906,
    1.8: 0.1017,
    2.0: 0.1110,
    3.0: 0.1335,
    4.0: 0.1400,
    5.0: 0.1417,
}
ENDLESS = 0.1421
WALL = Checks("wall", source="roark", sure="inputs")
MEASURED_N_MM2 = (7134.69, 7331.89, 7020.43, 6860.96, 8979.43)


def beam(span=100.0, thick=10.0, kpa=1.0):
    """α of the wall: how far it bends, times E t³ / (q b⁴)."""
    gives = walls.deflection_mm(span, 50.0, thick, kpa=kpa)
    return gives * walls.PLYWOOD_N_MM2 * thick**3 / (kpa / 1000 * span**4)


def test_it_is_an_infinitely_long_plate_without_poissons_ratio():
    """An infinitely long plate is a beam stiffer by 1 / (1 − 0.3²): 0.1421 / 0.91 = 0.15615, ± half the last digit 0.00005 / 0.91."""
    what = "deflection of an endless plate without sideways strain, of q b⁴/(E t³)"
    WALL.figure(beam(), f"{ENDLESS / 0.91:.4f}", what, within=1e-4)


@pytest.mark.parametrize("ratio", ALPHA)
def test_a_wall_held_on_all_sides_bends_less(ratio):
    WALL.but(sure="read").between(
        beam(), f"{ALPHA[ratio]:.4f}", "", f"a plate held on all sides, {ratio:g} times as long, bends less"
    )


def test_the_stiffness_is_at_the_low_end_of_the_measured_range():
    assert min(MEASURED_N_MM2) - 150 < walls.PLYWOOD_N_MM2 < sum(MEASURED_N_MM2) / len(MEASURED_N_MM2)
    measured = Checks("wall", source="plywood_stiffness", sure="read")
    measured.between(
        walls.PLYWOOD_N_MM2, "6711", "8979", "stiffness of plywood; the least may be 150 lower", unit="N/mm²"
    )
