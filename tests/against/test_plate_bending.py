"""A plywood wall as a beam against published plates, and the stiffness it is given.

Source: Roark's formulas for stress and strain, table 11.4 case 1a: a plate held at all four edges, w = α q b⁴ / (E t³), Poisson's ratio
0.3; read in an extract of it. Printed to four decimals. Stiffness of plywood: plywood_stiffness, table 3, five makes, read.
Hand arithmetic by the author of these tests.
"""

import pytest

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
MEASURED_N_MM2 = (7134.69, 7331.89, 7020.43, 6860.96, 8979.43)


def beam(span=100.0, thick=10.0, kpa=1.0):
    """α of the wall: what it gives, times E t³ / (q b⁴)."""
    gives = walls.gives_mm(span, 50.0, thick, kpa=kpa)
    return gives * walls.PLYWOOD_N_MM2 * thick**3 / (kpa / 1000 * span**4)


def test_it_is_the_endless_plate_without_poissons_ratio():
    """An endless plate is a beam stiffer by 1 / (1 − 0.3²): 0.1421 / 0.91 = 0.15615, ± half the last digit 0.00005 / 0.91."""
    assert beam() == pytest.approx(ENDLESS / 0.91, abs=1e-4)


@pytest.mark.parametrize("ratio", ALPHA)
def test_a_wall_that_is_held_on_all_sides_gives_less(ratio):
    assert beam() > ALPHA[ratio]


def test_the_stiffness_is_at_the_low_end_of_what_was_measured():
    assert min(MEASURED_N_MM2) - 150 < walls.PLYWOOD_N_MM2 < sum(MEASURED_N_MM2) / len(MEASURED_N_MM2)
