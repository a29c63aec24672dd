"""The job rebond with a list of materials, compared with a general-purpose linear programme on random heaps and lists.

Source: the same mass balances, written a second time as a linear programme in kilograms as bought and as they lie, solved by
scipy.optimize.linprog. Unknowns: kg of the heap that stay, kg of each material as bought. Basis: shares as the words of the door name them.
Derived. Computed by: the author of these tests. Tolerance: 1e-6 of what is compared, the solver's own; a case within 1e-6 of the
border of what can be done may fall either way. Compared here: 200 cases; `tests/bench/programmes.py` compares 2,000.
"""

import os
import random
import re

import numpy as np
import pytest
from against.published import Checks
from scipy.optimize import linprog

from sandmix.asking.form import fill
from sandmix.jobs.rebond.figures import run
from sandmix.jobs.rebond.form import RebondForm, resolve
from sandmix.language.errors import InputError

SCIPY = Checks("plan_of_materials", source="scipy", sure="library", claimed="source")
CASES = int(os.environ.get("SANDMIX_CASES", "200"))
SEED = 2


def a_material(dice, at):
    kind = dice.choice(["sand", "sand", "clay", "clay", "mix", "additive"])
    row = {"kind": kind, "name": f"{kind} {at}", "moisture_pct_wet": dice.choice([0, dice.uniform(0, 12)])}
    if kind == "clay":
        row["clay_activity_pct"] = dice.choice([100, dice.uniform(40, 100)])
    else:
        row["dead_fines_pct_dry"] = dice.choice([0, dice.uniform(0, 5)])
    if kind == "mix":
        row["clay_pct_dry"] = dice.uniform(2, 14)
    if kind in ("sand", "mix"):
        row["gfn"] = dice.uniform(40, 110)
    if dice.random() < 0.5:
        row["stock_kg"] = dice.uniform(0, 60) if kind != "clay" else dice.uniform(0, 8)
    if dice.random() < 0.9:
        row["price_per_kg"] = dice.choice([0, 0.25, dice.uniform(0.05, 3)])
    return row


def drawn():
    """Random heaps and lists; without what only some of them have: window, bin, additive, dead fines."""
    dice = random.Random(SEED)
    for _ in range(CASES):
        low = dice.uniform(40, 70)
        case = {
            "heap_kg": dice.uniform(5, 150),
            "moisture_pct_wet": dice.uniform(0, 9),
            "clay_pct_dry": dice.uniform(0, 12),
            "target_clay_pct_dry": dice.choice([6, 7, dice.uniform(1, 12)]),
            "target_moisture_pct_wet": dice.uniform(2, 6),
            "target_kg": dice.uniform(5, 150),
            "materials": [
                {"kind": "sand", "name": "plain", "gfn": 55, "price_per_kg": 0.2},
                {"kind": "clay", "name": "sound", "price_per_kg": 2},
            ][: dice.choice([0, 1, 2, 2, 2])]
            + [a_material(dice, at) for at in range(dice.randint(1, 6))],
        }
        if dice.random() < 0.8:
            case |= {"dead_fines_pct_dry": dice.uniform(0, 12), "dead_fines_limit_pct_dry": dice.uniform(0.5, 8)}
        if dice.random() < 0.4:
            case |= {"heap_gfn": dice.uniform(40, 90), "gfn_low": low, "gfn_high": low + dice.uniform(3, 30)}
        if dice.random() < 0.3:
            case["bin_kg"] = case["target_kg"] * dice.uniform(1, 1.3)
        if any(row["kind"] == "additive" for row in case["materials"]) and dice.random() < 0.5:
            case["additive_pct_dry"] = dice.uniform(0, 3)
        yield case


def shares(row):
    """Per kg as bought: dry mass, live clay, dead fines, additive, grain."""
    dry = 1 - row.get("moisture_pct_wet", 0 if row["kind"] != "clay" else 10) / 100
    live = row.get("clay_pct_dry", 0) / 100
    dead = row.get("dead_fines_pct_dry", 0) / 100
    if row["kind"] == "clay":
        live = row.get("clay_activity_pct", 100) / 100
        dead = 1 - live
    grain = 0 if row["kind"] in ("clay", "additive") else 1 - live - dead
    return dry * np.array([1, live, dead, row["kind"] == "additive", grain])


class Balances:
    """The case as matrices over kg of heap and kg as bought."""

    def __init__(self, case):
        heap = {"kind": "heap"} | {word: case.get(word, 0) for word in ("moisture_pct_wet", "clay_pct_dry")}
        heap |= {"dead_fines_pct_dry": case.get("dead_fines_pct_dry", 0), "gfn": case.get("heap_gfn")}
        rows = [heap, *case["materials"]]
        self.case = case
        self.dry, self.live, self.dead, self.extra, self.grain = np.array([shares(row) for row in rows]).T
        self.gfn = np.array([row.get("gfn") or 0 for row in rows])
        self.price = np.array([0, *(row.get("price_per_kg", 0) for row in case["materials"])])
        self.target_kg = case["target_kg"] * (1 - case["target_moisture_pct_wet"] / 100)
        self.bounds = [(0, case["heap_kg"]), *((0, row.get("stock_kg")) for row in case["materials"])]

    def limits(self):
        """Each a line over the unknowns that is at most 0, whatever is made."""
        case, made = self.case, self.dry
        if "dead_fines_pct_dry" in case:
            yield self.dead - made * case["dead_fines_limit_pct_dry"] / 100
        if "gfn_high" in case:
            yield self.grain * (self.gfn - case["gfn_high"])
            yield self.grain * (case["gfn_low"] - self.gfn)

    def equal(self):
        """Each a line over the unknowns that is 0, whatever is made."""
        yield self.live - self.dry * self.case["target_clay_pct_dry"] / 100
        yield self.extra - self.dry * self.case.get("additive_pct_dry", 0) / 100

    def solved(self, objective, *, bounds=None, bin_too=True, more=(), least_only=False):
        lines, rooms = [*self.limits(), *(line for line, _ in more)], [0.0] * len(list(self.limits()))
        rooms += [room for _, room in more]
        if bin_too and "bin_kg" in self.case:
            lines, rooms = [*lines, np.ones_like(self.dry)], [*rooms, self.case["bin_kg"]]
        same, to = list(self.equal()), [0.0, 0.0]
        if least_only:
            lines, rooms = [*lines, -self.dry], [*rooms, -self.target_kg]
        else:
            same, to = [*same, self.dry], [0.0, 0.0, self.target_kg]
        return linprog(
            objective, A_ub=lines or None, b_ub=rooms or None, A_eq=same, b_eq=to, bounds=bounds or self.bounds
        )

    def margin(self):
        """The least error of the limits, as a share of the dry target, that would make the case feasible."""
        count = len(self.dry)
        lines, same = list(self.limits()), list(self.equal())
        if "bin_kg" in self.case:
            lines.append(np.ones(count))
        rooms = [0.0] * len(list(self.limits())) + ([self.case["bin_kg"]] if "bin_kg" in self.case else [])
        ub = [np.append(line, -1.0) for line in lines]
        for line, to in [*((line, 0.0) for line in same), (self.dry, self.target_kg)]:
            ub += [np.append(line, -1.0), np.append(-line, -1.0)]
            rooms += [to, -to]
        found = linprog(np.append(np.zeros(count), 1.0), A_ub=ub, b_ub=rooms, bounds=[*self.bounds, (0, None)])
        return found.fun / self.target_kg


def plan_of(case):
    """The figures of the plan, or the problems: without uncertainty, as the facade computes them."""
    try:
        return run(resolve(fill(RebondForm, case)).form), ()
    except InputError as error:
        return None, error.problems


def advice(problem):
    """The figure that is advised, or None where none can be given."""
    found = re.match(r"(?:at least|at most) ([\d.]+)", problem.allowed)
    return float(found[1]) if found else None


@pytest.fixture(scope="module")
def compared():
    found = []
    for case in drawn():
        balances = Balances(case)
        found.append((case, balances, *plan_of(case), balances.solved(balances.price)))
    return found


def test_a_plan_is_refused_exactly_where_the_programme_has_none(compared):
    differing = [
        case
        for case, balances, answer, _, found in compared
        if (answer is not None) != (found.status == 0) and balances.margin() > 1e-6
    ]
    SCIPY.holds(differing == [], "a plan is refused where the programme has none, of 200 random lists", case=differing)
    refused = sum(answer is None for _, _, answer, *_ in compared)
    assert 0.15 < refused / CASES < 0.7


def test_the_cost_is_the_least(compared):
    priced = 0
    for case, balances, answer, _, found in compared:
        if answer is not None and found.status == 0:
            cost = sum(
                row["kg"]
                * next(each.get("price_per_kg", 0) for each in case["materials"] if each["name"] == row["name"])
                for row in answer["plan"]
            )
            room = max(1e-6 * abs(found.fun), 1e-6 * balances.target_kg)
            SCIPY.agrees(cost, found.fun, "least cost", within=room, allowed="10^-6 of cost or mass", case=case)
            if answer["cost"] is not None:
                priced += 1
                assert answer["cost"] == pytest.approx(cost)
    assert priced > CASES / 5


def test_of_the_cheapest_it_is_the_one_that_discards_least(compared):
    for case, balances, answer, _, found in compared:
        if answer is None or found.status:
            continue
        keep_most = -np.eye(len(balances.dry))[0]
        slack = 1e-9 * max(1.0, found.fun)
        second = balances.solved(keep_most, more=[(balances.price, found.fun + slack)])
        if second.status == 0:
            least, room = case["heap_kg"] + second.fun, 2e-5 * max(case["heap_kg"], balances.target_kg)
            what, allowed = "least discard of the cheapest plans, kg", "2 · 10^-5 of the mass"
            SCIPY.agrees(answer["discard_kg"], least, what, rel=1e-5, within=room, allowed=allowed, case=case)


def test_the_plan_keeps_to_every_limit(compared):
    for case, balances, answer, _, _ in compared:
        if answer is None:
            continue
        used = {row["name"]: row["kg"] for row in answer["plan"]}
        kg = np.array(
            [case["heap_kg"] - answer["discard_kg"], *(used.get(row["name"], 0) for row in case["materials"])]
        )
        near = 1e-7 * balances.target_kg
        for (low, high), mass in zip(balances.bounds, kg, strict=True):
            assert low - near <= mass <= (np.inf if high is None else high) + near, case
        assert balances.dry @ kg == pytest.approx(balances.target_kg), case
        assert all(abs(line @ kg) <= near for line in balances.equal()), case
        assert all(line @ kg <= 100 * near for line in balances.limits()), case
        if "bin_kg" in case:
            assert kg.sum() <= case["bin_kg"] + near, case
        wet = kg.sum() + max(0, answer["water_kg"]) - max(0, answer["water_to_lose_kg"])
        assert wet == pytest.approx(case["target_kg"]), case


def test_the_advice_of_a_refusal_is_accepted(compared):
    """Each named limit is set to the figure advised; with sand and clay on hand, so that a rounded share can be met."""
    words, tried = set(), 0
    for case, _, answer, problems, _ in compared:
        if answer is not None or any(problem.word == "materials" for problem in problems):
            continue
        advised = {problem.word: advice(problem) for problem in problems}
        kinds = {row["kind"] for row in case["materials"]}
        if len(problems) > 1 or None in advised.values() or not {"sand", "clay"} <= kinds:
            continue
        words |= advised.keys()
        tried += 1
        assert plan_of(case | advised)[0] is not None, (case, problems)
    assert tried > CASES / 20
    assert words >= {"target_kg", "target_clay_pct_dry", "dead_fines_limit_pct_dry", "gfn_low", "gfn_high"}


def test_less_than_the_advice_of_a_refusal_is_refused(compared):
    """A limit half of the way to the advised figure is still refused."""
    for case, _, answer, problems, _ in compared[:800]:
        if answer is None and len(problems) == 1 and problems[0].word in case:
            advised, there = advice(problems[0]), case[problems[0].word]
            if advised is not None and abs(advised - there) > 0.2:
                assert plan_of(case | {problems[0].word: (advised + there) / 2})[0] is None, case


def test_diluting_takes_the_least_sand_and_then_the_least_money(compared):
    checked = 0
    for case, balances, answer, _, _ in compared[::4]:
        if answer is None:
            continue
        bounds = [(case["heap_kg"], case["heap_kg"]), *((0, None) for _ in case["materials"])]
        found = balances.solved(balances.dry, bounds=bounds, bin_too=False, least_only=True)
        assert (answer["dilute_kg"] is None) == (found.status != 0), case
        if found.status == 0:
            checked += 1
            wet = found.fun / (1 - case["target_moisture_pct_wet"] / 100)
            SCIPY.agrees(answer["dilute_kg"], wet, "least mass of a diluted heap, kg", rel=1e-6, case=case)
            more = [(balances.dry, found.fun * (1 + 1e-9))]
            cheapest = balances.solved(balances.price, bounds=bounds, bin_too=False, least_only=True, more=more)
            if answer["dilute_cost"] is not None and cheapest.status == 0:
                room, allowed = 1e-5 * balances.target_kg, "10^-5 of cost or mass"
                found, what = answer["dilute_cost"], "least cost of diluting"
                SCIPY.agrees(found, cheapest.fun, what, rel=1e-5, within=room, allowed=allowed, case=case)
    assert checked > CASES / 25


def test_the_new_mix_after_dumping_is_the_cheapest(compared):
    checked = 0
    for case, balances, answer, _, _ in compared[::4]:
        if answer is None:
            continue
        bounds = [(0, 0), *((0, None) for _ in case["materials"])]
        found = balances.solved(balances.price, bounds=bounds, bin_too=False)
        assert (answer["dump_added_kg"] is None) == (found.status != 0), case
        if answer["dump_cost"] is not None:
            checked += 1
            what = "least cost of a new mix after dumping"
            SCIPY.agrees(answer["dump_cost"], found.fun, what, rel=1e-6, within=1e-6, case=case)
    assert checked > CASES / 25


def test_one_sand_and_one_clay_without_prices_are_the_plan_without_a_list():
    """Where nothing costs anything, the closed formula for one of each gives the plan of the programme."""
    dice, same = random.Random(SEED + 1), 0
    for _ in range(400):
        heap = {
            "heap_kg": dice.uniform(5, 150),
            "moisture_pct_wet": dice.uniform(0, 9),
            "clay_pct_dry": dice.uniform(0, 12),
            "dead_fines_pct_dry": dice.uniform(0, 12),
            "dead_fines_limit_pct_dry": dice.uniform(0.5, 8),
            "target_clay_pct_dry": dice.uniform(1, 12),
            "target_kg": dice.uniform(5, 150),
        }
        damp, bagged, live = dice.uniform(0, 5), dice.uniform(5, 12), dice.uniform(60, 100)
        one = {"sand_moisture_pct_wet": damp, "clay_moisture_pct_wet": bagged, "clay_activity_pct": live}
        listed = [
            {"kind": "sand", "moisture_pct_wet": damp},
            {"kind": "clay", "moisture_pct_wet": bagged, "clay_activity_pct": live},
        ]
        closed, programme = plan_of(heap | one)[0], plan_of(heap | {"materials": listed})[0]
        assert (closed is None) == (programme is None), heap
        if closed is not None:
            same += 1
            for word in ("discard_kg", "sand_kg", "clay_kg", "water_kg", "dead_fines_after_pct_dry"):
                assert programme[word] == pytest.approx(closed[word], rel=1e-7, abs=1e-6), (word, heap)
            assert programme["binding"] == closed["binding"], heap
    assert same > 100
