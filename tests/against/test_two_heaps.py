"""Two heaps, one of which feeds the other: where the dead fines of the second end.

Source: mass balance (derived). F kg of used facing join B kg of backing at each cycle, and F kg leave the mixed backing. With d_F the dead fines
that the facing brings and g their growth in the backing per cycle, they end at d_F + g B/F: "F 3, B 37, d_F 0.5 %, g 0.02 %" gives 0.747 %.
By hand 0.5 + 0.02 × 37/3 = 0.746667.
Also: a simulation of both heaps with arrays of numpy, written apart from the library, over 20 000 casts.
"""

import numpy as np
import pytest
from against.published import Checks

from sandmix.recipes.facing import Mould, TwoSands, cast, long_run
from sandmix.recipes.mix import BoughtMaterials

BALANCE = Checks("two_heaps", source="mass_balance", sure="derived")
AT_CASTS = 20_000


def mould_of(facing, backing, lost, burnt_facing, burnt_backing):
    shares = {"burnt_facing": burnt_facing, "burnt_backing": burnt_backing, "dried_facing": 0.0, "dried_backing": 0.0}
    return Mould(facing_kg=facing, backing_kg=backing, lost_kg=lost, **shares)


def sands_of(facing_clay, backing_clay, from_backing, activity, make_up):
    shares = {"facing_clay": facing_clay, "backing_clay": backing_clay, "from_backing": from_backing, "moisture": 0.0}
    return TwoSands(**shares, make_up=make_up, materials=BoughtMaterials(clay_activity=activity))


def test_dead_fines_end_where_as_much_leaves_as_comes():
    """A clay that is 12/13 live brings 6 % live and 0.5 % idle clay with the facing. The backing grows by g = burnt share × live = 0.02 %.

    Live clay of the backing without make-up: 3 × 0.06 = 3 c + 37 × b c; with b c = 0.0002 it is c = (0.18 − 0.0074)/3.
    """
    live = (3 * 0.06 - 37 * 0.0002) / 3
    mould = mould_of(3, 37, 0, 0, 0.0002 / live)
    two = sands_of(0.06, 0, 0, 12 / 13, make_up=False)
    ends = long_run(mould, two, 37.0)
    assert cast(ends, mould, two).out.facing.dead_fines_pct_dry == pytest.approx(0.5)
    assert ends.clay_pct_dry == pytest.approx(100 * live)
    what = "dead fines of 37 kg of backing that 3 kg of facing join, 0.5 % and 0.02 % a cycle"
    BALANCE.figure(ends.dead_fines_pct_dry, "0.747", what, unit="% of the dry mass")
    assert ends.dead_fines_pct_dry == pytest.approx(0.5 + 0.02 * 37 / 3, rel=1e-9)


def simulated(f, b, lost, burnt_f, burnt_b, c_f, level, y, active, heap):
    """Both heaps as arrays of grain, live clay and dead fines in kg, cast after cast; the backing at the end, as shares."""
    backing = np.array([1 - level, level, 0.0]) * heap
    product = np.array([0.0, active, 1 - active])
    grain = np.array([1.0, 0.0, 0.0])
    for _ in range(AT_CASTS):
        out = backing * (y * f / heap)
        clay = max(0.0, (c_f * f - out[1]) / active)
        facing = out + clay * product + (f - out.sum() - clay) * grain
        backing = backing - out
        dies = backing[1] / backing.sum() * b * burnt_b
        backing = backing + np.array([0.0, -dies, dies])
        dies = facing[1] * burnt_f
        backing = backing + (facing + np.array([0.0, -dies, dies])) * (1 - lost / f)
        share = backing / backing.sum()
        # how much leaves: mass and live clay are two equations for what leaves and the clay that comes
        leaves, comes = np.linalg.solve(
            [[1.0, -1.0], [share[1], -active]], [backing.sum() - heap, backing[1] - level * heap]
        )
        if comes < 0:
            leaves, comes = backing.sum() - heap, 0.0
        if leaves < 0:
            leaves, comes = 0.0, max(0.0, (level * heap - backing[1]) / active)
        backing = backing - leaves * share + comes * product
        backing = backing + (heap - backing.sum()) * grain
    return backing / backing.sum()


@pytest.mark.parametrize(
    "case",
    [
        (3.0, 20.0, 0.4, 0.15, 0.001, 0.08, 0.07, 0.3, 0.95, 40.0),
        (3.0, 20.0, 0.0, 0.60, 0.010, 0.08, 0.07, 0.0, 0.85, 45.0),
        (2.0, 30.0, 1.5, 0.05, 0.002, 0.12, 0.03, 0.0, 1.00, 60.0),
        (5.0, 10.0, 3.0, 0.30, 0.000, 0.09, 0.08, 0.7, 0.70, 25.0),
    ],
)
def test_the_long_run_is_where_a_long_simulation_ends(case):
    f, b, lost, burnt_f, burnt_b, c_f, level, y, active, heap = case
    mould, two = mould_of(f, b, lost, burnt_f, burnt_b), sands_of(c_f, level, y, active, make_up=True)
    ends = long_run(mould, two, heap)
    grain, live, dead = simulated(*case)
    found = (ends.clay_pct_dry / 100, ends.dead_fines_pct_dry / 100, ends.grain_kg / heap)
    simulation = BALANCE.but(source="numpy", sure="separate")
    what = "live clay, dead fines and grain after 20 000 simulated casts, shares"
    simulation.agrees(found, (live, dead, grain), what, within=1e-9)
