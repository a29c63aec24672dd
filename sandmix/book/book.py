"""The book of one heap: plain data with a version, checked as a whole before it is used, and how an event is recorded in it.

A book is ``{"format": "sandmix book", "version": 4, "name", "events"}``; a list of events alone is read as version 0. Events are only ever
appended. Books from a page or a file are checked here and nowhere else.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from sandmix.asking.form import asks
from sandmix.book.event_effects import outcome_of
from sandmix.book.events import CORRECTED, KINDS, UNDONE, words_of
from sandmix.book.heap import NO_BURNT_SAND, BurntSand, HeapState, Outcome
from sandmix.book.ledger import Ledger
from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.language.texts import is_finite
from sandmix.language.timestamps import seconds_of
from sandmix.language.wording import shown_given
from sandmix.materials.sand import PARTS
from sandmix.vocabulary import WORDS

FORMAT, VERSION = "sandmix book", 4
MOST_EVENTS = 100_000
KEPT = 4
"""So many books are kept: one answer may read a book as it was given, with its outcomes, and after one more cast."""
LONGEST_NOTE = 500
LONGEST_NAME = 60
FROM_SANDMIX = "Use a file that sandmix saved."
OLDER_COPY = "Use an older copy."
DAMAGED = f"The file is damaged. {OLDER_COPY}"
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
Event = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A checked book: its name, and its events, each with its outcome."""

    name: str
    events: tuple[Event, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the book as it is saved."""
        return {"format": FORMAT, "version": VERSION, "name": self.name, "events": list(self.events)}

    @property
    def resting(self) -> bool:
        """Whether the heap was put away, and nothing has happened to it since."""
        undone = self.undone()
        last = next(
            (event for event in reversed(self.events) if event["kind"] in KINDS and event["id"] not in undone), None
        )
        return last is not None and last["kind"] == "put_away"

    def undone(self) -> set[str]:
        """The ids of events that were undone."""
        return {event["of"] for event in self.events if event["kind"] == UNDONE}


def read(data: object) -> Book:
    """Return the book that *data* holds, with the outcomes that its events lack worked out; raises InputError with what is wrong with it.

    The last books are kept, since each answer while a person types reads the same one again: nobody may change the events of a book.
    """
    return _read(_Given(text=repr(data), data=data))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Given:
    """What was given as a book, known by its text, which keeps true, 1 and 1.0 apart."""

    text: str
    data: object = field(compare=False)


@lru_cache(maxsize=KEPT)
def _read(given: _Given) -> Book:
    whole = _checked(given.data)
    events = whole.get("events")
    if not isinstance(events, Sequence) or isinstance(events, (str, bytes)):
        raise _refused(f"it has no list of entries. {FROM_SANDMIX}")
    if len(events) > MOST_EVENTS:
        raise _refused(f"it has {len(events)} entries; at most {MOST_EVENTS} can be read. Split it.")
    name = whole.get("name", "The heap")
    if not isinstance(name, str) or not name.strip() or len(name) > LONGEST_NAME:
        raise _refused(f"its name must be a text of 1 to {LONGEST_NAME} characters. Give it another one.")
    if _CONTROL.search(name):
        raise _refused(f"its name (“{shown_given(name)}”) holds characters that can't be shown. Give it another one.")
    read_events: list[Event] = []
    ledger = Ledger()
    for at, given in enumerate(events, start=1):
        event = _event(at, given, ledger)
        if "outcome" not in event:
            event = event | {"outcome": _located(at, event, ledger)}
        read_events.append(event)
        ledger.add(event)
        _not_below_zero(at, event, ledger)
    return Book(name=name, events=tuple(read_events))


def record(book: Book, given: Mapping[str, Any]) -> Event:
    """Return the event *given*, completed with an id and its outcome, to be appended; raises InputError with all that is wrong in it."""
    ledger = Ledger(book.events)
    at = len(ledger) + 1
    event = _event(at, {word: value for word, value in given.items() if word not in ("outcome", "id")}, ledger)
    whole = event | {"outcome": _outcome(at, event, ledger)}
    ledger.add(whole)
    after = ledger.state()
    if part := after.missing_part():
        what_to_do = f"it would leave {ledger.kg(part):.3g} kg of {PARTS[part]} in the heap. Undo later entries first, or check the amounts."
        raise _wrong_entry(at, "kind", event["kind"], what_to_do)
    return whole


def with_event(book: Book, given: Mapping[str, Any]) -> Book:
    """Return the book with the event *given* recorded in it; raises InputError with all that is wrong in it."""
    return replace(book, events=(*book.events, record(book, given)))


def _checked(data: object) -> Mapping[str, Any]:
    """The book as an object of a version that can be read. Older versions are read as they are: what they lack is none."""
    if isinstance(data, list):
        data = {"events": data}
    if not isinstance(data, Mapping):
        raise _refused(f"this is not a book. {FROM_SANDMIX}")
    if "format" not in data and "version" not in data:
        return {"name": "The heap", **data}
    if data.get("format") != FORMAT:
        raise _refused(
            f"this is another kind of file (“{shown_given(data.get('format'))}”), not a heap book. {FROM_SANDMIX}"
        )
    version = data.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 0:
        raise _refused(
            f"its version (“{shown_given(version)}”) is not a number. The file is damaged, or not from sandmix. {OLDER_COPY}"
        )
    if version > VERSION:
        raise _refused(
            f"a newer sandmix wrote it (format {version}; this one reads up to {VERSION}). Nothing was changed. Update "
            "sandmix, then open the book again."
        )
    return data


def _event(at: int, given: object, names: Ledger) -> Event:
    """One event with its kind, time, note and id checked; its words are checked when its outcome is worked out."""
    if not isinstance(given, Mapping):
        raise _refused(f"entry {at} is not an object. {DAMAGED}")
    kind = given.get("kind")
    if not isinstance(kind, str) or (kind not in KINDS and kind not in (UNDONE, CORRECTED)):
        raise _wrong_entry(
            at,
            "kind",
            kind,
            f"“{shown_given(kind)}” isn't a kind of entry. Use {', '.join([*KINDS, UNDONE, CORRECTED])}.",
        )
    moment = given.get("at")
    try:
        seconds_of(moment if isinstance(moment, str) else "")
    except SandmixError as error:
        raise _wrong_entry(at, "at", moment, str(error)) from None
    note = given.get("note", "")
    if not isinstance(note, str) or len(note) > LONGEST_NOTE:
        raise _wrong_entry(
            at, "note", note, f"its note must be a text of at most {LONGEST_NOTE} characters. Shorten it."
        )
    name = given["id"] if "id" in given else _free(at, names)
    if not isinstance(name, str) or not 0 < len(name) <= LONGEST_NAME or name in names:
        raise _refused(f"entry {at} has an id that is missing, too long or used twice. {DAMAGED}")
    words = words_of(given)
    if too_large := [word for word, value in words.items() if not is_finite(value)]:
        label = WORDS[too_large[0]].label if too_large[0] in WORDS else shown_given(too_large[0])
        what_to_do = f"“{label}” has a number that is far too large. Correct it."
        raise _wrong_entry(at, too_large[0], words[too_large[0]], what_to_do)
    event: Event = {"id": name, "kind": kind, "at": moment, **words}
    if note:
        event["note"] = note
    if kind in (UNDONE, CORRECTED):
        if not isinstance(given.get("of"), str) or given["of"] not in names:
            raise _wrong_entry(
                at,
                "of",
                given.get("of"),
                f"there is no earlier entry “{shown_given(given.get('of'))}”. Enter the id of an earlier one.",
            )
        event["of"] = given["of"]
    if "outcome" in given:
        event["outcome"] = _stored_outcome(at, given["outcome"])
    return event


def _free(at: int, names: Ledger) -> str:
    while f"e{at}" in names:
        at += 1
    return f"e{at}"


def _stored_outcome(at: int, stored: object) -> dict[str, Any]:
    if not isinstance(stored, Mapping):
        raise _refused(f"entry {at}: its outcome is not an object. {DAMAGED}")
    try:
        return Outcome.checked(stored)
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError):
        raise _refused(f"entry {at}: its outcome has something other than masses of sand. {DAMAGED}") from None


def _located(at: int, event: Event, before: Ledger) -> dict[str, Any]:
    """The outcome of an event of a whole book; a problem in its words names the event."""
    try:
        return _outcome(at, event, before)
    except InputError as error:
        own = (f"Entry {at}: ", "The book: ")
        raise InputError(
            problem
            if problem.message.startswith(own)
            else replace(problem, message=f"The book, entry {at}: {problem.message}")
            for problem in error.problems
        ) from None


def _outcome(at: int, event: Event, before: Ledger) -> dict[str, Any]:
    """The outcome of an event that has none yet, from the heap as it was."""
    kind = event["kind"]
    if kind not in (UNDONE, CORRECTED):
        return _worked_out(kind, words_of(event), before.state().at(seconds_of(event["at"]))).to_dict()
    name = event["of"]
    of = before.find(name)
    if before.is_undone(name):
        raise _wrong_entry(at, "of", name, f"“{name}” is already undone. Choose one that still counts.")
    if of["kind"] in (UNDONE, CORRECTED):
        raise _wrong_entry(at, "of", name, "an undoing or a correction cannot be undone. Record the entry again.")
    outcome = before.standing(name).reversed()
    if kind == CORRECTED:
        again = _worked_out(
            of["kind"], before.words(name) | words_of(event), before.state_before(name).at(seconds_of(of["at"]))
        )
        outcome = outcome.plus(again, "corrected")
    return replace(outcome, burnt=_burnt_of(outcome, name, before)).to_dict()


def _burnt_of(outcome: Outcome, name: str, before: Ledger) -> BurntSand:
    """What undoing or correcting does to the burnt sand: nothing where the heap was mixed since, and never more than is there."""
    return NO_BURNT_SAND if before.mixed_since(name) else outcome.burnt.at_least(before.state().burnt.reversed())


def _worked_out(kind: str, words: Mapping[str, Any], state: HeapState) -> Outcome:
    known = asks(KINDS[kind].form)
    uncounted = [word for word in words if word not in known and word in WORDS]
    outcome = outcome_of(kind, {word: value for word, value in words.items() if word not in uncounted}, state)
    if not uncounted:
        return outcome
    line = f"stored, but not counted: {', '.join(WORDS[word].label.lower() for word in uncounted)}"
    return replace(outcome, lines=(*outcome.lines, line))


def _not_below_zero(at: int, event: Event, ledger: Ledger) -> None:
    for part in event["outcome"]["change"]:
        if ledger.kg(part) < -1e-3:
            raise _refused(
                f"entry {at} would leave {ledger.kg(part):.3g} kg of {PARTS[part]} in the heap. The file is damaged, or was "
                f"edited by hand. {OLDER_COPY}"
            )


def _refused(what_to_do: str) -> InputError:
    return InputError([Problem(word="book", given="a file", allowed="", message=f"The book: {what_to_do}")])


def _wrong_entry(at: int, word: str, given: object, what_to_do: str) -> InputError:
    return InputError([Problem(word=word, given=shown_given(given), allowed="", message=f"Entry {at}: {what_to_do}")])
