"""How often the printed 95 % range of the moisture behind a handful holds the truth, how often a word may dose, and what an answer costs.

People are drawn with their own borders between the words, offset and scatter; some otherwise than the prior has them.
Run: python3 tests/bench/feel.py
"""

from __future__ import annotations

import json
import math
import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from sandmix.bench.feel import CUTS_PCT, MISJUDGED, NOTHING_KNOWN, ORDER, Pair, judge, of_band, own_words
from sandmix.bench.feel_check import check
from sandmix.doors.facade import call
from sandmix.recipes import temper

PEOPLE, TARGET, RED, TEST_SD = 1000, 3.5, 6.0, 0.18
CASES: dict[str, dict[str, float]] = {
    "as the prior has them": {},
    "offsets of 0.8 points": {"offset": 0.8},
    "half as sharp": {"sharp": 2.5, "sharp_sd": 0.5},
    "one in ten misjudged": {"misjudged": 0.1},
    "the book off by 0.5 points": {"bias": 0.5},
    "words move by 0.5 points meanwhile": {"moves": 0.5},
    "words by chance": {"misjudged": 1.0},
}


class Person:
    """A person with their own borders and scatter."""

    def __init__(self, dice: random.Random, case: dict[str, float]) -> None:
        self.dice, self.misjudged = dice, case.get("misjudged", MISJUDGED)
        while True:
            offset = dice.gauss(0, case.get("offset", 0.5))
            self.borders = [cut + offset + dice.gauss(0, 0.6) for cut in CUTS_PCT]
            self.sharp = dice.gauss(case.get("sharp", 5.0), case.get("sharp_sd", 2.0))
            if sorted(self.borders) == self.borders and self.sharp > 0.3:
                return

    def feels(self, moisture: float, moved: float = 0.0) -> int:
        """The word for a moisture, as its place in the order."""
        if self.dice.random() < self.misjudged:
            return self.dice.randrange(len(ORDER))
        # a logistic variable is ln(u/(1 − u))
        u = self.dice.uniform(1e-12, 1 - 1e-12)
        felt = moisture + math.log(u / (1 - u)) / self.sharp - moved
        return sum(felt > border for border in self.borders)


def simulated(name: str, case: dict[str, float], pairs: int, *, with_book: bool) -> str:
    """One line: how many of the people's ranges held the truth, and the doses."""
    dice = random.Random(f"{name} {pairs} {with_book}")
    held = told = earned = doses = late = 0
    widths = 0.0
    for _ in range(PEOPLE):
        person, moves, own = Person(dice, case), case.get("moves", 0.0), []
        for at in range(pairs):
            moisture = min(9.0, max(0.5, dice.gauss(3.3, 0.9)))
            feel = person.feels(moisture, moves * at / pairs)
            own.append(Pair(feel=feel, moisture_pct_wet=moisture + dice.gauss(0, TEST_SD), sd_pct=TEST_SD))
        words, known = own_words(own), NOTHING_KNOWN
        moisture = max(0.2, dice.gauss(4.0, 1.5))
        if with_book:
            moisture = min(9.0, max(0.3, dice.gauss(3.3, 0.9)))
            known = of_band(max(0.2, moisture + dice.gauss(case.get("bias", 0.0), 1 / 1.96)), 1.0)
        found = judge(words, person.feels(moisture, moves), known)
        if with_book and found.contradicts:
            continue
        told += 1
        held += found.low_pct <= moisture <= found.high_pct
        widths += (found.high_pct - found.low_pct) / 2
        may = check(own, words).may_dose
        earned += may
        if may and temper.verdicts_within(found.low_pct, found.high_pct, TARGET, RED) == ("temper",):
            doses += 1
            late += moisture > TARGET
    return (
        f"{name}, {pairs} pairs, {'book ± 1' if with_book else 'no book'}: held {100 * held / told:.1f} %, contradicted "
        f"{PEOPLE - told}, ± {widths / told:.2f}, earned {100 * earned / told:.0f} %, doses {doses}, of these too late {late}"
    )


def cost_ms(pairs: int) -> float:
    """The milliseconds of one answer of *feel* with a recorded book of so many pairs, as processor time."""
    events = [{"kind": "mixed", "at": "2027-03-06", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}]
    for at in range(pairs):
        word = {0: "crumbles", 1: "weak", 2: "prints"}[at % 3]
        day = f"2027-{4 + at // 28:02d}-{1 + at % 28:02d}"
        events.append({"kind": "measured", "at": day, "feel": word, "moisture_pct_wet": 2.0 + 0.6 * (at % 3)})
    book: dict[str, object] = {"format": "sandmix book", "version": 3, "name": "The hall", "events": []}
    for event in events:
        recorded = json.loads(call(json.dumps({"job": "record", "inputs": {"book": book, "event": event}})))
        book["events"] = [*book["events"], recorded["event"]]  # type: ignore[misc]
    request = json.dumps({"job": "feel", "inputs": {"feel": "weak", "book": book, "now": "2027-06-01"}})
    call(request)
    spent = []
    for _ in range(100):
        begin = time.process_time()
        call(request)
        spent.append(time.process_time() - begin)
    return 1000 * sorted(spent)[len(spent) // 2]


if __name__ == "__main__":
    print(f"one answer with 20 pairs: {cost_ms(20):.1f} ms")
    for with_book in (False, True):
        for pairs in (0, 8, 20):
            print(simulated("as the prior has them", {}, pairs, with_book=with_book), flush=True)
    for name, case in CASES.items():
        if case:
            print(simulated(name, case, 20, with_book=True), flush=True)
