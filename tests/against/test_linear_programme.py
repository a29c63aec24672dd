"""The job rebond compared with a general-purpose linear programme, on random heaps.

Source: the same mass balances (by definition the plan keeps the most of the heap that all limits allow) written as a linear programme
and solved by scipy.optimize.linprog. Unknowns: share of the heap kept, dry sand, dry clay product, all of 0 or more.
Basis: masses in kg, sand and clay as bought, discard as it lies. Derived. Computed by: the author of these tests.
Tolerance: 1e-6 of the target mass, the solver's own. A case within 1e-6 of the border of what can be done may fall either way.
Compared here: 200 heaps; `tests/bench/programmes.py` compares 2,000.
"""

import os
import random
import re

import numpy as np
import pytest
from against.published import Checks
from scipy.optimize import linprog

SCIPY = Checks("rebond", source="scipy", sure="library", claimed="source")
ALLOWED = "10^-6 of the target mass"
CASES = int(os.environ.get("SANDMIX_CASES", "200"))
SEED = 20240


def drawn():
    """Random heaps, targets and materials, about a quarter of them with a limit that no plan can meet."""
    dice = random.Random(SEED)
    for _ in range(CASES):
        activity = dice.uniform(30, 100) if dice.random() < 0.6 else 100.0
        yield {
            "heap_kg": dice.uniform(1, 200),
            "moisture_pct_wet": dice.uniform(0, 12),
            "clay_pct_dry": dice.uniform(0, 15),
            "dead_fines_pct_dry": dice.uniform(0, 14),
            "target_clay_pct_dry": dice.uniform(1, 14),
            "target_moisture_pct_wet": dice.uniform(2, 6),
            "target_kg": dice.uniform(1, 300),
            "dead_fines_limit_pct_dry": dice.uniform(0, 10),
            "clay_activity_pct": activity,
            "clay_moisture_pct_wet": dice.uniform(0, 20),
            "sand_moisture_pct_wet": dice.uniform(0, 6),
        }


def shares(case):
    return {word: value / 100 for word, value in case.items() if "pct" in word}


def balances(case):
    """Equalities for dry mass and live clay, and the dead fines per unit of each unknown; all over the dry target."""
    pct = shares(case)
    heap_dry = case["heap_kg"] * (1 - pct["moisture_pct_wet"])
    dry = case["target_kg"] * (1 - pct["target_moisture_pct_wet"])
    equal = np.array([[heap_dry, 1, 1], [heap_dry * pct["clay_pct_dry"], 0, pct["clay_activity_pct"]]]) / dry
    wanted = np.array([1.0, pct["target_clay_pct_dry"]])
    dead = np.array([heap_dry * pct["dead_fines_pct_dry"], 0, 1 - pct["clay_activity_pct"]]) / dry
    return equal, wanted, dead, dry


def most_kept(case):
    equal, wanted, dead, dry = balances(case)
    found = linprog(
        [-1, 0, 0],
        A_ub=[dead],
        b_ub=[shares(case)["dead_fines_limit_pct_dry"]],
        A_eq=equal,
        b_eq=wanted,
        bounds=[(0, 1), (0, None), (0, None)],
    )
    return found, dry


def least_dead(case):
    equal, wanted, dead, _ = balances(case)
    return linprog(dead, A_eq=equal, b_eq=wanted, bounds=[(0, 1), (0, None), (0, None)]).fun


@pytest.fixture(scope="module")
def compared(ask):
    return [(case, ask("rebond", **case), *most_kept(case), least_dead(case)) for case in drawn()]


def test_a_plan_is_refused_exactly_where_the_programme_has_none(compared):
    differing = [
        case
        for case, answer, found, _, least in compared
        if answer["ok"] != (found.status == 0) and abs(least - shares(case)["dead_fines_limit_pct_dry"]) > 1e-6
    ]
    SCIPY.holds(differing == [], "a plan is refused where the programme has none, of 200 random heaps", case=differing)
    refused = sum(not answer["ok"] for _, answer, *_ in compared)
    assert 0.1 < refused / CASES < 0.6


def test_a_refusal_names_the_dead_fines_limit_and_the_least_that_would_do(compared):
    for case, answer, _, _, least in compared:
        if not answer["ok"]:
            (problem,) = answer["problems"]
            assert problem["word"] == "dead_fines_limit_pct_dry"
            named = float(re.search(r"at least ([\d.]+)", problem["allowed"])[1])
            what = "least limit of dead fines that a refusal names, %"
            SCIPY.agrees(named, 100 * least, what, within=0.0101, case=case)


def test_the_advised_limit_is_accepted(compared, ask):
    for case, answer, *_ in compared:
        if not answer["ok"]:
            named = re.search(r"at least ([\d.]+)", answer["problems"][0]["allowed"])[1]
            assert ask("rebond", **case | {"dead_fines_limit_pct_dry": named})["ok"], case


def test_the_plan_keeps_as_much_and_adds_as_much_as_the_programme(compared):
    for case, answer, found, dry, _ in compared:
        if not answer["ok"] or found.status:
            continue
        kept, sand, clay = found.x
        pct, result = shares(case), answer["result"]
        water = (
            dry * pct["target_moisture_pct_wet"] / (1 - pct["target_moisture_pct_wet"])
            - kept * case["heap_kg"] * pct["moisture_pct_wet"]
            - sand * pct["sand_moisture_pct_wet"] / (1 - pct["sand_moisture_pct_wet"])
            - clay * pct["clay_moisture_pct_wet"] / (1 - pct["clay_moisture_pct_wet"])
        )
        size = 1e-6 * max(case["target_kg"], case["heap_kg"])
        discard = (1 - kept) * case["heap_kg"]
        SCIPY.agrees(result["discard_kg"], discard, "sand to discard, kg", within=size, allowed=ALLOWED, case=case)
        added = (
            ("sand to add, kg", result["sand_kg"], sand / (1 - pct["sand_moisture_pct_wet"])),
            ("clay to add, kg", result["clay_kg"], clay / (1 - pct["clay_moisture_pct_wet"])),
            ("water to add, kg", result["water_kg"] - result["water_to_lose_kg"], water),
        )
        for what, mine, other in added:
            SCIPY.agrees(mine, other, what, within=2 * size, allowed=f"2 · {ALLOWED}", case=case)


def test_a_limit_binds_exactly_where_sand_is_discarded(compared):
    for _, answer, *_ in compared:
        if answer["ok"]:
            assert (answer["result"]["binding"] == "nothing") == (answer["result"]["discard_kg"] == 0)


def test_easing_the_binding_limit_keeps_more_of_the_heap(compared, ask):
    """The named limit, eased by a hundred-thousandth, lets more of the heap stay."""
    limits = {"dead_fines": "dead_fines_limit_pct_dry", "live_clay": "target_clay_pct_dry", "mass": "target_kg"}
    seen = set()
    for case, answer, *_ in compared[:600]:
        if answer["ok"] and answer["result"]["binding"] != "nothing":
            word = limits[answer["result"]["binding"]]
            eased = ask("rebond", **case | {word: case[word] * 1.00001})
            assert eased["result"]["discard_kg"] < answer["result"]["discard_kg"], case
            seen.add(word)
    assert seen == set(limits.values())


def grown(case):
    """The case with the least mass at which the whole heap, sand and clay together have the target clay, or None; no limit but that."""
    pct = shares(case)
    heap_dry = case["heap_kg"] * (1 - pct["moisture_pct_wet"])
    # unknowns: dry sand, dry clay product; live clay: L + a x = c (D + s + x)
    short = pct["target_clay_pct_dry"] * heap_dry - heap_dry * pct["clay_pct_dry"]
    line = [-pct["target_clay_pct_dry"], pct["clay_activity_pct"] - pct["target_clay_pct_dry"]]
    found = linprog([1, 1], A_eq=[line], b_eq=[short], bounds=[(0, None), (0, None)])
    if found.status:
        return None
    mass = (heap_dry + found.fun) / (1 - pct["target_moisture_pct_wet"])
    return {word: value for word, value in case.items() if word != "target_kg"}, case | {"target_kg": mass}


def test_without_a_target_mass_the_heap_grows_as_little_as_the_programme(ask):
    """What must come out is then only what the dead fines force out of a sand of that mass."""
    kept_whole = forced = 0
    for case in drawn():
        pair = grown(case)
        if pair is None or pair[1]["target_kg"] > 5000:
            continue
        free, fixed = pair
        answer, (found, _) = ask("rebond", **free), most_kept(fixed)
        if not answer["ok"] or found.status:
            continue
        size = 1e-6 * max(fixed["target_kg"], case["heap_kg"])
        result = answer["result"]
        SCIPY.agrees(
            result["heap_after_kg"], fixed["target_kg"], "least mass of a heap that may grow, kg", rel=1e-6, case=case
        )
        discard, what = (1 - found.x[0]) * case["heap_kg"], "sand to discard of a heap that may grow, kg"
        SCIPY.agrees(result["discard_kg"], discard, what, within=size, allowed=ALLOWED, case=case)
        assert result["binding"] == ("nothing" if result["discard_kg"] == 0 else "dead_fines"), case
        kept_whole += result["discard_kg"] == 0
        forced += result["discard_kg"] > 0
    assert kept_whole > CASES / 5
    assert forced > CASES / 20
