"""Ask every job and verb of the JSON door with random inputs drawn from its own description: valid, nearly valid and hostile ones.

python tests/bench/fuzz_jobs.py --minutes 20 --seed 1

A fault is an answer that is no answer: a fault of the program, a figure that is not finite, or an answer that is too big or too slow. Each is printed
with the request that brings it back. Also prints the slowest and the biggest answers. The exit status is 1 if there was a fault.
"""

from __future__ import annotations

import argparse
import copy
import json
import random
import sys
import time
from collections import Counter
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parent))

import reading

from sandmix.asking.form import asks
from sandmix.book import book
from sandmix.book.events import KINDS
from sandmix.doors.facade import VERBS, call
from sandmix.jobs import JOBS
from sandmix.language.tables import Picks, Rows, Table
from sandmix.language.words import Choice, Quantity

SLOW_S, BIG_BYTES = 5.0, 400_000
SHOWN_BYTES = 3000
HOSTILE: tuple[Any, ...] = (
    *(
        None,
        True,
        False,
        0,
        -1,
        1e308,
        -1e-308,
        10**400,
        "",
        " ",
        "NaN",
        "-0",
        "1e999",
        "1 kg",
        "5 %",
        "± 3",
        "3 ± ",
        "2.5 ± 0.3 %",
    ),
    *(
        [],
        {},
        [[]],
        [None],
        {"value": 1},
        {"value": "x", "unit": 7},
        {"value": 2, "unit": "lb"},
        {"value": 1, "doubt": -3},
        {"upload": "no"},
    ),
    *(
        "\x1b[31m",
        "\ud800",
        "٣",
        "１２",
        "½",
        "1,000.5",
        "1.000,5",
        "a" * 5000,
        "{" * 100,
        '{"a":1,"a":2}',
        "<script>",
        "2026-02-30",
        "−4",
    ),
)
EVENT_KEYS = ("id", "kind", "at", "note", "outcome", "of")
Inputs = dict[str, Any]


class Fuzz:
    """One seeded source of requests."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        kinds = [*reading.KINDS]
        self.books = [book.read(reading.bare(kind, 24, seed + at)).to_dict() for at, kind in enumerate(kinds)]

    def request(self) -> str:
        """Return a random request as text."""
        dice = self.dice
        name = dice.choice([*JOBS, *JOBS, *VERBS])
        inputs = self._of_verb(name) if name in VERBS else self._of_job(name)
        if dice.random() < 0.05:
            inputs[dice.choice(("unknown", "", "heap_kg", "a\x1b[2J"))] = dice.choice(HOSTILE)
        request: Inputs = {"job": name, "inputs": inputs}
        if dice.random() < 0.1:
            request["doubt"] = dice.choice((False, *HOSTILE))
        return json.dumps(request)

    def _of_verb(self, name: str) -> Inputs:
        dice = self.dice
        if name == "convert":
            return {
                "word": self._word_name(),
                "given": self._hostile(5),
                "to": dice.choice(("lb", "in", "%", "mm", *HOSTILE)),
            }
        if name in ("read_book", "record"):
            event = {"event": self._event()} if name == "record" else {}
            return {"book": self._book(), **event}
        figures = {self._word_name(): self._hostile(20) for _ in range(dice.randint(0, 4))}
        casting = {"format": "sandmix casting", "version": 1, "name": "x", "begun": "2026-05-01", "figures": figures}
        return {"casting": self._mutated(casting), "at": dice.choice(("2026-05-02", *HOSTILE))}

    def _word_name(self) -> str:
        return self.dice.choice([*asks(self.dice.choice([*JOBS.values()]).form)])

    def _of_job(self, name: str) -> Inputs:
        """The example of a job with some of its words changed, or values for its whole form."""
        form = JOBS[name].form
        if self.dice.random() < 0.3:
            return self._of_form(form)
        inputs, words = dict(JOBS[name].example), asks(form)
        if "book" in words and self.dice.random() < 0.7:
            inputs["book"] = self._book()
        for word in self.dice.sample([*words], min(len(words), self.dice.choice((1, 1, 2, 4)))):
            inputs[word] = self._value(words[word].word)
        return inputs

    def _of_form(self, form: Any) -> Inputs:
        """Values for a form: mostly the required and first words, then some of the others, each now and then hostile."""
        dice, inputs = self.dice, {}
        share = dice.choice((0.1, 0.4, 0.9))
        for name, part in asks(form).items():
            if dice.random() < (0.95 if part.required or part.first else share):
                inputs[name] = self._value(part.word)
        return inputs

    def _hostile(self, one_in: int) -> Any:
        dice = self.dice
        return (
            dice.choice(HOSTILE)
            if dice.randrange(one_in) == 0
            else round(10 ** dice.uniform(-3, 4), dice.randint(0, 4))
        )

    def _value(self, word: Any) -> Any:
        dice = self.dice
        if dice.random() < 0.03:
            return dice.choice(HOSTILE)
        if word.name == "book":
            return self._book()
        if isinstance(word, Quantity):
            return self._quantity(word)
        if isinstance(word, Choice):
            return dice.choice([*word.choices])
        if isinstance(word, Picks):
            return dice.sample([*word.choices], min(len(word.choices), dice.randint(0, 5)))
        if isinstance(word, Table):
            return {
                key: self._quantity(word.each) for key in dice.sample([*word.keys], dice.randint(1, len(word.keys)))
            }
        if isinstance(word, Rows):
            return [
                {part.name: self._value(part) for part in word.each if part.name in word.needed or dice.random() < 0.5}
                for _ in range(dice.randint(0, dice.choice((3, 12))))
            ]
        return dice.choice(("2026-06-01T10:00Z", "200 x 100 x 20 mm", "a name", [200, 100, 20], 3, *HOSTILE))

    def _quantity(self, word: Quantity) -> Any:
        dice = self.dice
        low, high = word.usual or (word.low, word.high)
        drawn = dice.random()
        value = dice.uniform(low, high)
        if drawn < 0.06:
            value = dice.choice((word.low, word.high, low, high, word.low - 1e-9, word.high * 1.0001))
        elif drawn < 0.12:
            value = word.low + (word.high - word.low) * dice.random() ** 4
        value = float(f"{value:.{dice.randint(1, 6)}g}")
        if dice.random() < 0.2:
            return {
                "value": value,
                "unit": dice.choice((word.unit, *word.units)),
                "doubt": abs(value) * dice.choice((0, 0.1, 2)),
            }
        return f"{value} ± {abs(value) / 10:.3g} {word.unit}" if dice.random() < 0.1 else value

    def _event(self) -> Inputs:
        dice = self.dice
        kind = dice.choice([*KINDS, "undone", "corrected"])
        at = f"2026-{dice.randint(1, 12):02}-{dice.randint(1, 28):02}T10:00Z"
        words = self._of_form(KINDS[kind].form) if kind in KINDS else {"of": f"e{dice.randint(1, 30)}"}
        return {"kind": kind, "at": at, **{word: value for word, value in words.items() if word not in EVENT_KEYS}}

    def _book(self) -> Any:
        """A valid book, sometimes with further events without outcomes, sometimes with something in it changed."""
        dice = self.dice
        whole = json.loads(json.dumps(dice.choice(self.books)))
        if dice.random() < 0.3:
            whole["events"] += [self._event() for _ in range(dice.randint(1, 3))]
        return self._mutated(whole) if dice.random() < 0.4 else whole

    def _mutated(self, whole: Any) -> Any:
        """Something somewhere in it left out, doubled, or put in the place of something else."""
        dice, held = self.dice, whole
        while True:
            if not isinstance(held, (dict, list)) or not held:
                return whole
            key = dice.choice([*held]) if isinstance(held, dict) else dice.randrange(len(held))
            if isinstance(held[key], (dict, list)) and held[key] and dice.random() < 0.85:
                held = held[key]
                continue
            drawn = dice.random()
            if drawn < 0.3:
                del held[key]
            elif drawn < 0.4 and isinstance(held, list):
                held.append(copy.deepcopy(held[key]))
            elif isinstance(held[key], (int, float)) and abs(held[key]) < 1e300 and drawn < 0.7:
                held[key] = held[key] * dice.choice((-1, 0, 2, 1e6, 1e-6))
            else:
                held[key] = copy.deepcopy(dice.choice(HOSTILE))
            return whole


def fault_of(answer: str) -> str:
    """Return what is wrong with an answer; empty where nothing is."""
    not_finite: list[str] = []
    found = json.loads(answer, parse_constant=not_finite.append)
    if "fault" in found:
        return str(found["fault"])
    if not found.get("ok"):
        return (
            ""
            if found.get("problems") and all(problem["message"] for problem in found["problems"])
            else "a refusal without words"
        )
    for word, value in found.get("result", {}).items():
        if isinstance(value, float) and word.endswith("_kg") and value < 0 and word != "surplus_kg":
            return f"{word} is {value}"
    if not_finite:
        return "a figure that is not finite"
    return "a character that moves a terminal's cursor" if any(character in answer for character in "\x1b\x9b") else ""


def main() -> int:
    """Run for some minutes of processor time and print what was found."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, default=20.0)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    fuzz, until = Fuzz(options.seed), time.process_time() + 60 * options.minutes
    counts, faults, slow, big = Counter[str](), Counter[str](), list[tuple[float, str]](), list[tuple[int, str]]()
    while time.process_time() < until:
        request = fuzz.request()
        started = time.process_time()
        answer = call(request)
        took_s = time.process_time() - started
        job = json.loads(request)["job"]
        counts[f"{job} {'answered' if json.loads(answer)['ok'] else 'refused'}"] += 1
        slow = sorted([*slow, (took_s, request)], reverse=True)[:5]
        big = sorted([*big, (len(answer), request)], reverse=True)[:5]
        fault = fault_of(answer) or (took_s > SLOW_S and "slow") or (len(answer) > BIG_BYTES and "big") or ""
        if fault and faults[f"{job}: {fault[:60]}"] < 1:
            print(f"FAULT {job}: {fault}\n{request[:SHOWN_BYTES]}", flush=True)
        if fault:
            faults[f"{job}: {fault[:60]}"] += 1
    print(f"{counts.total()} requests: " + ", ".join(f"{name} {count}" for name, count in sorted(counts.items())))
    for took_s, request in slow:
        print(f"{took_s:.2f} s of processor time: {request[:300]}")
    for size, request in big:
        print(f"{size} characters: {request[:300]}")
    print(f"{faults.total()} faults: " + "; ".join(f"{name} × {count}" for name, count in faults.items()))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
