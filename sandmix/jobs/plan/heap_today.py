"""What the heap book says of the heap today, as inputs of the steps of a plan."""

from __future__ import annotations

from dataclasses import dataclass, field

from sandmix.book.book import Book
from sandmix.casting.casting import HEAP_WORDS
from sandmix.jobs.heap import JOB as HEAP
from sandmix.jobs.heap.telling import TEST_IT
from sandmix.jobs.plan.steps import Carried, Inputs, Step, ask_job
from sandmix.language.errors import InputError

NEVER_IN_A_MOISTURE_TEST = ("clay_pct_dry", "dead_fines_pct_dry")
"""What the last test of the heap says nothing of: these figures are from its book, whatever its age."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeapToday:
    """The figures of the heap by its book; none without a book, or while the heap is empty."""

    figures: Inputs = field(default_factory=dict)
    untested: bool = False
    """Whether the book says to test the heap."""
    dried_since: bool = False
    """Whether the last test says stop and the heap has lost water since: then the moisture to pour by is not that of the heap as it lies."""


def of_today(book: Book | None, now: str | None) -> HeapToday:
    """Return what *book* says at *now*; raises InputError where it cannot be read at that time."""
    if book is None:
        return HeapToday()
    today = ask_heap(book, now)
    if today.problems:
        raise InputError(list(today.problems))
    untested = today.state["word"] == TEST_IT
    if not today.figure("heap_kg"):
        return HeapToday(untested=untested)
    tested = from_heap(today.figure("last_test_age_days"))
    carried = today.carried_words(HEAP_WORDS) | today.carried("mould_moisture_pct_wet", "moisture_pct_wet")
    return HeapToday(
        figures={word: from_there(one, word, tested) for word, one in carried.items()},
        untested=untested,
        dried_since=today.figure("mould_moisture_pct_wet") != today.figure("moisture_pct_wet"),
    )


def from_there(carried: Carried, word: str, tested: str) -> Carried:
    """Return a figure of the heap with its origin."""
    return Carried(given=carried.given, origin="from the heap" if word in NEVER_IN_A_MOISTURE_TEST else tested)


def from_heap(age_days: object) -> str:
    """Return where a figure of the book is from, with the age of its last test."""
    if not isinstance(age_days, (int, float)) or age_days < 0:
        return "from the heap"
    days = round(age_days)
    when = "today" if days == 0 else "yesterday" if days == 1 else f"{days} days ago"
    return f"from the heap, tested {when}"


def ask_heap(book: Book, now: str | None, why: str = "") -> Step:
    """Return the step of *heap* with this book."""
    at = {} if now is None else {"now": Carried(given=now)}
    return ask_job(HEAP, {"book": Carried(given=book.to_dict()), **at}, why)
