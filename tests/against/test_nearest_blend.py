"""The nearest blend compared with a general-purpose linear programme, on random lots.

Source: the definitions (least distance of the fineness number from the target, then the least share on the fullest sieve) written in
another way and solved by scipy.optimize.linprog. Without a mass to make, the unknowns are shares of grain. With a mass they are kilograms
as the lots lie, each with its own share of grain: the range of numbers that the stock allows comes from iterating a linear programme
(Dinkelbach), the target is cut to that range, and the spread is checked by the sign of a linear programme at the answer's own
fullest sieve and slightly below it.
Basis: shares of the grain, clay left out; masses as they lie. Derived. Computed by: the author of these tests.
Tolerance: 1e-5 of the fineness number, 1e-6 of the whole on the fullest sieve, 1e-6 of the mass.
"""

import random

import numpy as np
import pytest
from against.published import Checks
from scipy.optimize import linprog

from sandmix.materials.fineness import SIEVES

SCIPY = Checks("nearest_blend", source="scipy", sure="library")
SEED, FREE, BOUND = 71, 200, 120
NUMBERS = list(SIEVES)
MULTIPLIERS = np.array([sieve.multiplier for sieve in SIEVES.values()])


def drawn(cases, *, bound):
    dice = random.Random(SEED + bound)
    for _ in range(cases):
        lots = []
        for _ in range(dice.randint(2, 6)):
            start = dice.randint(0, len(NUMBERS) - 4)
            sieves = NUMBERS[start : start + dice.randint(1, 5)]
            lot = {"kg": dice.uniform(0.5, 60), "retained": {sieve: dice.uniform(0.1, 50) for sieve in sieves}}
            if bound:
                lot |= {
                    word: dice.uniform(0, 12) for word in ("moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")
                }
            lots.append(lot)
        case = {
            "lots": lots,
            "target_gfn": dice.uniform(20, 180),
            "gfn_leeway": dice.choice([0, 0, dice.uniform(0, 10)]),
        }
        yield case | ({"make_kg": dice.uniform(0.1, 1) * sum(lot["kg"] for lot in lots)} if bound else {})


def gradings(case):
    """One row per lot: the share of its grain on each sieve."""
    held = np.array([[lot["retained"].get(number, 0.0) for number in NUMBERS] for lot in case["lots"]])
    return held / held.sum(axis=1, keepdims=True)


def grain_shares(case):
    return np.array([
        (1 - lot.get("moisture_pct_wet", 0) / 100)
        * (1 - lot.get("clay_pct_dry", 0) / 100 - lot.get("dead_fines_pct_dry", 0) / 100)
        for lot in case["lots"]
    ])  # fmt: skip


def taken(case, result):
    kg = np.zeros(len(case["lots"]))
    for row in result["take"]:
        kg[int(row["name"].removeprefix("lot ")) - 1] = row["kg"]
    return kg


@pytest.fixture(scope="module")
def free(result):
    return [(case, result("match", **case)) for case in drawn(FREE, bound=False)]


@pytest.fixture(scope="module")
def bound(result):
    return [(case, result("match", **case)) for case in drawn(BOUND, bound=True)]


def test_without_a_mass_the_number_and_the_spread_are_those_of_scipy(free):
    reached = 0
    for case, result in free:
        shares = gradings(case)
        own = shares @ MULTIPLIERS
        low, high = case["target_gfn"] - case["gfn_leeway"], case["target_gfn"] + case["gfn_leeway"]
        reached += own.min() <= high and own.max() >= low
        low, high = min(max(low, own.min()), own.max()), max(min(high, own.max()), own.min())
        count = len(own)
        near = 1e-9 * high
        found = linprog(
            [*np.zeros(count), 1],
            A_ub=[*(np.append(column, -1) for column in shares.T), np.append(own, 0), np.append(-own, 0)],
            b_ub=[*np.zeros(len(NUMBERS)), high + near, near - low],
            A_eq=[[*np.ones(count), 0]],
            b_eq=[1],
            bounds=(0, None),
        )
        assert found.status == 0, case
        nearest = min(max(result["gfn"], low), high)
        SCIPY.agrees(result["gfn"], nearest, "nearest number without a mass, 200 random sets", rel=1e-5, case=case)
        what = "least share on the fullest sieve, %"
        SCIPY.agrees(result["fullest_pct"], 100 * found.fun, what, within=1e-4, case=case)
    assert 0.3 < reached / FREE < 1


def test_the_answer_agrees_with_its_own_masses(free, bound):
    for case, result in (*free, *bound):
        kg = taken(case, result)
        grain = kg * grain_shares(case)
        blended = grain @ gradings(case) / grain.sum()
        assert result["gfn"] == pytest.approx(blended @ MULTIPLIERS, rel=1e-9)
        assert result["fullest_pct"] == pytest.approx(100 * blended.max(), rel=1e-9)
        assert (kg <= np.array([lot["kg"] for lot in case["lots"]]) * (1 + 1e-6)).all(), case
        assert kg.sum() == pytest.approx(case.get("make_kg", kg.sum()), rel=1e-6)


def furthest(case, sign):
    """The highest (or with sign -1 the lowest) fineness number that the stock allows for the mass."""
    weights, own = grain_shares(case), gradings(case) @ MULTIPLIERS
    number = 0.0 if sign > 0 else 300.0
    for _ in range(60):
        found = linprog(
            -sign * weights * (own - number),
            A_eq=[np.ones(len(own))],
            b_eq=[case["make_kg"]],
            bounds=[(0, lot["kg"]) for lot in case["lots"]],
        )
        reached = (weights * own) @ found.x / (weights @ found.x)
        if abs(reached - number) < 1e-10 * reached:
            return reached
        number = reached
    raise AssertionError("does not converge")


def fuller_than(case, result, share):
    """By how much the fullest sieve of any blend as near as the answer exceeds *share* of the grain, in kg."""
    weights, shares = grain_shares(case), gradings(case)
    own, count = shares @ MULTIPLIERS, len(shares)
    low, high = case["target_gfn"] - case["gfn_leeway"], case["target_gfn"] + case["gfn_leeway"]
    low, high = min(low, result["gfn"]), max(high, result["gfn"])
    near = 1e-7 * case["make_kg"]
    found = linprog(
        [*np.zeros(count), 1],
        A_ub=[
            *(np.append(weights * (column - share), -1) for column in shares.T),
            np.append(weights * (own - high), 0),
            np.append(weights * (low - own), 0),
        ],
        b_ub=[*np.zeros(len(NUMBERS)), near, near],
        A_eq=[[*np.ones(count), 0]],
        b_eq=[case["make_kg"]],
        bounds=[*((0, lot["kg"]) for lot in case["lots"]), (None, None)],
    )
    assert found.status == 0, case
    return found.fun


def test_within_stock_the_number_is_the_nearest_possible(bound):
    short = 0
    for case, result in bound:
        least, most = furthest(case, -1), furthest(case, 1)
        low, high = case["target_gfn"] - case["gfn_leeway"], case["target_gfn"] + case["gfn_leeway"]
        low, high = min(max(low, least), most), max(min(high, most), least)
        short += (low == high and case["gfn_leeway"] > 0) or not least <= case["target_gfn"] <= most
        nearest = min(max(result["gfn"], low), high)
        SCIPY.agrees(result["gfn"], nearest, "nearest number within stock, 120 random sets", rel=1e-5, case=case)
    assert 0.1 < short / BOUND < 0.9


def test_within_stock_no_equally_near_blend_is_spread_wider(bound):
    for case, result in bound:
        share = result["fullest_pct"] / 100
        kilograms = 1e-5 * case["make_kg"]
        widest = fuller_than(case, result, share) <= kilograms and fuller_than(case, result, share - 1e-3) > 0
        SCIPY.holds(widest, "no equally near blend within stock is spread wider", case=case)
