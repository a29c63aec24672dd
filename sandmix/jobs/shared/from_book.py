"""What a heap book says to a job: the heap as it is now, what its casts burnt, and the figures that a form lacks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Form, band_about
from sandmix.book.book import read
from sandmix.book.heap import HeapFold, HeapState, fold
from sandmix.language.errors import InputError
from sandmix.language.timestamps import seconds_of
from sandmix.maths.uncertainty import Band

BURNT = "clay_burnt_share"


def heap_at(events: Iterable[Mapping[str, Any]], now: str | None) -> HeapState:
    """Return the heap that *events* add up to at a time, with the water gone that has probably dried off; without a time, at the last entry."""
    return fold(events).at(None if now is None else seconds_of(now)).settled()


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What was taken from a book for a form: values by word, and their bands."""

    values: Mapping[str, float]
    bands: Mapping[str, Band]


def taken(form: Form, book: object, words: Iterable[str], needed: Iterable[str]) -> Taken:
    """Return the heap's *words* from a book, and the share of its live clay that a cast burnt where the form has none.

    A value is the middle of its band. From a book without sand nothing is taken. Raises InputError where the form then lacks one of the *needed*
    words, and for a book without a cast where one is needed.
    """
    state, burnt = past(book)
    heap = state.bands()
    if not heap:
        if all(getattr(form, word) is not None for word in needed):
            return Taken(values={}, bands={})
        what_to_do = "there is no sand in it yet. Record what is in the heap first."
        raise InputError([form.wrong("book", "a book with sand in it", what_to_do)])
    bands = {word: heap[word] for word in words}
    values = {word: (low + high) / 2 for word, (low, high) in bands.items()}
    if getattr(form, BURNT) is None:
        if burnt is None:
            what_to_do = "the book has no cast yet. Enter the share that a cast burns, or record a cast."
            raise InputError([form.wrong(BURNT, "a share", what_to_do)])
        values[BURNT], bands[BURNT] = burnt, band_about(BURNT, burnt, burnt / 2)
    return Taken(values=values, bands=bands)


def past(book: object) -> tuple[HeapState, float | None]:
    """Return the heap at the last entry of a book, and the mean share of its live clay that its casts burnt; None without a cast."""
    heap, shares = HeapFold(), []
    for event in read(book).events:
        live_kg = heap.kg("live_clay_kg") if event["kind"] == "poured" else 0.0
        if live_kg > 0:
            shares.append(max(0.0, event["outcome"]["change"].get("dead_clay_kg", 0.0)) / live_kg)
        heap.add(event)
    return heap.state().at().settled(), sum(shares) / len(shares) if shares else None
