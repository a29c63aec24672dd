"""Measure the heap book: how long summing it up takes, whether random books account for every gram, and what a kill leaves of a file.

python tests/bench/books.py --books 100000 --kills 1000 --seed 1

Prints figures. The exit status is 1 if the mass of a book is wrong, or if a file is not the whole book that was confirmed.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.book import book
from sandmix.book.heap import fold
from sandmix.doors.facade import call
from sandmix.materials.sand import PARTS

ROOT = Path(__file__).resolve().parents[2]
AT = "2027-03-06T10:00Z"
FIRST = {"kind": "mixed", "at": AT, "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
CLOSE_KG = 1e-9
EVENTS_A_FILE = 100
POURS_IN_100 = 4
Event = dict[str, Any]
Heap = dict[str, float]


def time_folds() -> None:
    """Print the time to sum up a book, to read a stored one and to give the whole answer, by the number of events."""
    print(f"{'events':>8} {'fold ms':>9} {'µs each':>8} {'read ms':>9} {'answer ms':>10} {'µs each':>8}")
    for count in (100, 1000, 10_000):
        events: list[Event] = [book.record(book.read([]), FIRST)]
        more = book.record(book.Book(name="", events=tuple(events)), {"kind": "tempered", "at": AT, "water_kg": 0.001})
        events += [more | {"id": f"e{at}"} for at in range(2, count + 1)]
        request = json.dumps({"job": "heap", "inputs": {"book": events, "now": AT}})
        folded = _best_ms(lambda events=events: fold(events))
        read = _best_ms(lambda events=events: book.read(events))
        answered = _best_ms(lambda request=request: call(request))
        each = (1000 * folded / count, 1000 * answered / count)
        print(f"{count:>8} {folded:>9.3f} {each[0]:>8.2f} {read:>9.2f} {answered:>10.1f} {each[1]:>8.1f}")


def _best_ms(work: Callable[[], object]) -> float:
    times = []
    for _ in range(5):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return 1000 * min(times)


def random_event(dice: random.Random, heap: Heap) -> Event:
    """A random event of a heap, sometimes a cast."""
    wet = sum(heap.values())
    some = dice.uniform(0.001, 0.6) * wet
    shares = {"moisture_pct_wet": dice.uniform(0, 12), "clay_pct_dry": dice.uniform(0, 20)}
    fines = {"dead_fines_pct_dry": dice.uniform(0, 12)} if dice.random() < 0.5 else {}
    pour = {"metal_kg": dice.uniform(0.05, 3), "modulus_mm": dice.choice((4, 8, 12))}
    drawn = [
        ("mixed", {"make_kg": dice.uniform(0.05, 60), **shares, **fines}),
        ("joined", {"joined_kg": dice.uniform(0.05, 60), **shares, **fines}),
        ("added", {"sand_kg": dice.uniform(0, 9), "clay_kg": dice.uniform(0, 2), "water_kg": dice.uniform(0.01, 1)}),
        ("tempered", {"water_kg": dice.uniform(0, 2)}),
        ("rained_on", {"water_kg": dice.uniform(0, 2)}),
        ("dried", {"water_kg": dice.uniform(0, 2)}),
        ("bought", {"sand_kg": 25}),
        ("metal_changed", {"metal": dice.choice(("aluminium", "tin_bronze"))}),
        ("discarded", {"discard_kg": some}),
        ("riddled", {"lost_kg": max(0.001, some)}),
        ("spilled", {"lost_kg": max(0.001, some)}),
        ("split", {"split_kg": max(0.001, some)}),
        ("measured", {"heap_kg": max(0.05, wet * dice.uniform(0.8, 1.2))} | (shares if dice.random() < 0.5 else {})),
    ]
    kind, words = dice.choice(drawn[:8] if wet < 0.1 else drawn)
    if wet > 1 and dice.random() < POURS_IN_100 / 100:
        kind, words = "poured", pour | ({"sand_lost_kg": min(some, wet / 4)} if dice.random() < 0.5 else {})
    return {"kind": kind, "at": AT, **words}


def off_kg(event: Event, before: Heap, after: Heap) -> float:
    """How far the change by an event differs from its own words, in kg; for a cast and a test, from the possible range."""
    words, kind = event, event["kind"]
    change = {part: after[part] - before[part] for part in PARTS}
    wet, then = sum(before.values()), sum(after.values())
    if kind in ("mixed", "joined"):
        return abs(then - wet - words.get("make_kg", words.get("joined_kg", 0.0)))
    if kind == "added":
        return abs(then - wet - words["sand_kg"] - words["clay_kg"] - words["water_kg"])
    if kind in ("tempered", "rained_on", "dried"):
        moved = -min(words["water_kg"], before["water_kg"]) if kind == "dried" else words["water_kg"]
        return max(abs(then - wet - moved), abs(change["water_kg"] - moved))
    if kind in ("bought", "metal_changed"):
        return abs(then - wet)
    if kind in ("discarded", "riddled", "spilled", "split"):
        taken = words.get("discard_kg", words.get("lost_kg", words.get("split_kg", 0.0)))
        return max(abs(wet - then - taken), *(abs(before[part] * (1 - taken / wet) - after[part]) for part in PARTS))
    if kind == "poured":
        return _off_in_a_cast(before, after, words.get("sand_lost_kg"))
    low, high = sorted((wet, words["heap_kg"]))
    dry = _dry(before) / wet * then if wet else 0.0
    moved = 0.0 if "moisture_pct_wet" in words or not _dry(before) else abs(_dry(after) - dry)
    return max(moved, *((0.0,) if "moisture_pct_wet" in words else (low - then, then - high)))


def _off_in_a_cast(before: Heap, after: Heap, lost_kg: float | None) -> float:
    """Grain and fines keep the same share, live clay stays clay, water is only lost, and the loss is what was weighed."""
    if not _dry(before):
        return max(abs(after[part] - before[part]) for part in PARTS)
    kept = _dry(after) / _dry(before)
    clay = [heap["live_clay_kg"] + heap["dead_clay_kg"] for heap in (before, after)]
    driven = before["water_kg"] - after["water_kg"] / kept
    went = sum(before.values()) - driven - sum(after.values())
    return max(
        abs(went - lost_kg) if lost_kg is not None else 0.0,
        abs(after["grain_kg"] - kept * before["grain_kg"]),
        abs(after["other_fines_kg"] - kept * before["other_fines_kg"]),
        abs(clay[1] - kept * clay[0]),
        after["water_kg"] - kept * before["water_kg"],
        after["live_clay_kg"] - kept * before["live_clay_kg"],
        0.0,
    )


def _dry(heap: Heap) -> float:
    return sum(kg for part, kg in heap.items() if part != "water_kg")


def random_books(count: int, dice: random.Random) -> int:
    """Write *count* books of one to ten events, the last one sometimes undone; return how many have a wrong mass."""
    started, events_in_all, worst, wrong, refused = time.perf_counter(), 0, 0.0, 0, 0
    for _ in range(count):
        off, events, unlawful = _one_book(dice)
        events_in_all += events
        refused += unlawful
        worst = max(worst, off)
        wrong += off > CLOSE_KG
    took = time.perf_counter() - started
    print(
        f"{count} random books of {events_in_all} events in {took:.0f} s: {wrong} with mass not accounted for, "
        f"at most {worst:.1e} kg off; {refused} events refused with a message"
    )
    return wrong


def _one_book(dice: random.Random) -> tuple[float, int, int]:
    opened, off, refused = book.read([]), 0.0, 0
    heap = dict.fromkeys(PARTS, 0.0)
    for _ in range(dice.randint(1, 10)):
        try:
            event = book.record(opened, random_event(dice, heap))
        except book.InputError:
            refused += 1
            continue
        opened = book.Book(name=opened.name, events=(*opened.events, event))
        then = fold(opened.events).total.by_part()
        off = max(off, off_kg(event, heap, then), -min(then.values()) - 1e-9)
        if dice.random() < 0.1:
            opened = book.with_event(opened, {"kind": "undone", "at": AT, "of": event["id"]})
            undone = fold(opened.events).total.by_part()
            off = max(off, *(abs(undone[part] - heap[part]) for part in PARTS))
            then = undone
        heap = then
    again = fold(book.read(json.loads(json.dumps(opened.to_dict()))).events).total.by_part()
    return max(off, *(abs(again[part] - heap[part]) for part in PARTS)), len(opened.events), refused


def killed(count: int, dice: random.Random, folder: Path) -> int:
    """Kill *count* writers of a book at random moments; return how many did not leave a whole book with everything confirmed."""
    started, wrong, died, lost, unacknowledged = time.perf_counter(), 0, 0, 0, 0
    takes_s = _takes_s(folder)
    path, known = folder / "heap-0.json", [""]
    for at in range(count):
        if at % EVENTS_A_FILE == 0:
            path, known = folder / f"heap-{at}.json", []
        note = f"n{at}"
        delay_s = takes_s * (dice.uniform(0, 1.1) if dice.random() < 0.3 else dice.uniform(0.6, 1.05))
        began = time.perf_counter()
        status = _append(path, note, delay_s)
        died += status != 0
        if status == 0 or delay_s > takes_s:
            takes_s += 0.2 * ((time.perf_counter() - began) * (1.0 if status == 0 else 1.1) - takes_s)
        there = _notes(path)
        if there == [*known, note]:
            unacknowledged += status != 0
        elif there != known or status == 0:
            lost += status == 0
            wrong += 1
        known = there if there is not None else []
    took = time.perf_counter() - started
    print(
        f"{count} appends in {took:.0f} s, {died} of them killed (SIGKILL), {unacknowledged} of those after the event was "
        f"in place: {wrong} files not whole, {lost} acknowledged events lost"
    )
    return wrong


def _takes_s(folder: Path) -> float:
    """How long an undisturbed append takes: the median of five."""
    times = []
    for _ in range(5):
        started = time.perf_counter()
        if _append(folder / "alone.json", "n", 60.0):
            raise SystemExit("An append that nobody killed has failed.")
        times.append(time.perf_counter() - started)
    return sorted(times)[2]


def _append(path: Path, note: str, delay_s: float) -> int:
    """Append an event and kill the process after *delay_s* if it still runs; return its exit status."""
    words = ["--record", "rained_on", "--at", AT, "--water-kg", "0.01", "--note", note]
    command = [sys.executable, "-m", "sandmix", "heap", "--book", str(path), *words]
    around = {"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT)}
    with subprocess.Popen(command, env=around, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
        try:
            return running.wait(delay_s)
        except subprocess.TimeoutExpired:
            running.kill()
            return running.wait()


def _notes(path: Path) -> list[str] | None:
    """The notes of the events of a book, in order; None if the file is not a whole book."""
    if not path.exists():
        return []
    try:
        return [event["note"] for event in book.read(json.loads(path.read_text("utf-8"))).events]
    except (ValueError, KeyError, book.InputError):
        return None


def main() -> int:
    """Print what the options ask for and return the exit status."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--books", type=int, default=0, metavar="N", help="write N random books")
    parser.add_argument("--kills", type=int, default=0, metavar="N", help="kill N writers")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--no-folds", action="store_true", help="leave the times of folds out")
    options = parser.parse_args()
    if not options.no_folds:
        time_folds()
    dice, wrong = random.Random(options.seed), 0
    if options.books:
        wrong += random_books(options.books, dice)
    if options.kills:
        with tempfile.TemporaryDirectory(prefix="sandmix-books-") as folder:
            wrong += killed(options.kills, dice, Path(folder))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
