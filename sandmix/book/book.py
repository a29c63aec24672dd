"""The book of one heap: versioned plain data, checked whole before it is believed, and how an event is written into it.

A book is ``{"format": "sandmix book", "version": 2, "name", "events"}``; a list of events alone is taken as one of version 0. Events are only ever
appended. What a page or a file holds is checked here and nowhere else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sandmix.asking.form import asks
from sandmix.book.event_effects import outcome_of
from sandmix.book.events import CORRECTED, KINDS, UNDONE, words_of
from sandmix.book.heap import Outcome, State
from sandmix.book.ledger import Ledger
from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.language.timestamps import seconds_of
from sandmix.language.wording import shown_given
from sandmix.materials.sand import PARTS
from sandmix.vocabulary import WORDS

FORMAT, VERSION = "sandmix book", 2
MOST_EVENTS = 100_000
LONGEST_NOTE = 500
LONGEST_NAME = 60
Event = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A book that was checked: its name, and its events, each with its outcome."""

    name: str
    events: tuple[Event, ...]

    def told(self) -> dict[str, Any]:
        """The book as it is saved."""
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
    """Return the book that *data* holds, its events completed where they had no outcome; raises InputError with what is wrong with it."""
    whole = _migrated(data)
    events = whole.get("events")
    if not isinstance(events, Sequence) or isinstance(events, (str, bytes)):
        raise _refused("it holds no list of events. Take the file as sandmix saved it.")
    if len(events) > MOST_EVENTS:
        raise _refused(f"it holds {len(events)} events, and at most {MOST_EVENTS} are read. Split it.")
    name = whole.get("name", "The heap")
    if not isinstance(name, str) or len(name) > LONGEST_NAME:
        raise _refused(f"its name is no text of at most {LONGEST_NAME} characters. Shorten it.")
    checked: list[Event] = []
    ledger = Ledger()
    parts = dict.fromkeys(PARTS, 0.0)
    for at, given in enumerate(events, start=1):
        event = _event(at, given, ledger)
        if "outcome" not in event:
            event = event | {"outcome": _placed(at, event, ledger)}
        checked.append(event)
        ledger.add(event)
        _add(at, event, parts)
    return Book(name=name, events=tuple(checked))


def record(book: Book, given: Mapping[str, Any]) -> Event:
    """Return the event *given*, completed by an id and its outcome, to be appended; raises InputError with all that is wrong in it."""
    ledger = Ledger(book.events)
    at = len(ledger) + 1
    event = _event(at, {word: value for word, value in given.items() if word not in ("outcome", "id")}, ledger)
    whole = event | {"outcome": _completed(at, event, ledger)}
    ledger.add(whole)
    after = ledger.state()
    short = after.short_of()
    if short is not None:
        raise _problem(
            "kind",
            event["kind"],
            f"it would leave {after.parts[short]:.3g} kg of {PARTS[short]} in the heap. Undo what came after it "
            "first, or look at the amounts.",
        )
    return whole


def _migrated(data: object) -> Mapping[str, Any]:
    if isinstance(data, list):
        data = {"events": data}
    if not isinstance(data, Mapping):
        raise _refused("this is no book. Take the file as sandmix saved it.")
    """The book as one of this version: what versions 0 and 1 hold is read as it stands, and what they lack is none."""
    if "format" not in data and "version" not in data:
        return {"name": "The heap", **data}
    if data.get("format") != FORMAT:
        raise _refused(
            f"this is a file of another kind (“{shown_given(data.get('format'))}”), and no heap book. Take the "
            "file as "
            "sandmix saved it."
        )
    version = data.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 0:
        raise _refused(
            f"its version (“{shown_given(version)}”) is no number. The file is damaged, or not of sandmix. Take an "
            "older copy of it."
        )
    if version > VERSION:
        raise _refused(
            f"it was written by a newer sandmix (format {version}, and this one reads up to {VERSION}). Nothing is "
            "changed: update, then open it again."
        )
    return data


def _event(at: int, given: object, names: Ledger) -> Event:
    """One event with its kind, moment, note and id checked; its words are checked when it is completed."""
    if not isinstance(given, Mapping):
        raise _refused(f"event {at} is no object. The file is damaged. Take an older copy of it.")
    kind = given.get("kind")
    if not isinstance(kind, str) or (kind not in KINDS and kind not in (UNDONE, CORRECTED)):
        raise _problem(
            "kind",
            kind,
            f"event {at}: “{shown_given(kind)}” is no kind of event. Use {', '.join([*KINDS, UNDONE, CORRECTED])}.",
        )
    moment = given.get("at")
    try:
        seconds_of(moment if isinstance(moment, str) else "")
    except SandmixError as error:
        raise _problem("at", moment, f"event {at}: {error}") from None
    note = given.get("note", "")
    if not isinstance(note, str) or len(note) > LONGEST_NOTE:
        raise _problem(
            "note", note, f"event {at}: its note is no text of at most {LONGEST_NOTE} characters. Shorten it."
        )
    name = given.get("id", _free(at, names))
    if not isinstance(name, str) or not 0 < len(name) <= LONGEST_NAME or name in names:
        raise _refused(
            f"event {at} has an id that is missing, too long or there twice. The file is damaged. Take an older "
            "copy of it."
        )
    event: Event = {"id": name, "kind": kind, "at": moment, **words_of(given)}
    if note:
        event["note"] = note
    if kind in (UNDONE, CORRECTED):
        if not isinstance(given.get("of"), str) or given["of"] not in names:
            raise _problem(
                "of",
                given.get("of"),
                f"event {at}: there is no earlier event “{shown_given(given.get('of'))}”. Name one by its id.",
            )
        event["of"] = given["of"]
    if "outcome" in given:
        event["outcome"] = _outcome(at, given["outcome"])
    return event


def _free(at: int, names: Ledger) -> str:
    while f"e{at}" in names:
        at += 1
    return f"e{at}"


def _outcome(at: int, stored: object) -> dict[str, Any]:
    if not isinstance(stored, Mapping):
        raise _refused(f"event {at}: its outcome is no object. The file is damaged. Take an older copy of it.")
    try:
        return Outcome.heard(stored).told()
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError):
        raise _refused(
            f"event {at}: its outcome holds what is no mass of a part of sand. The file is damaged. Take an older "
            "copy of it."
        ) from None


def _placed(at: int, event: Event, before: Ledger) -> dict[str, Any]:
    """The outcome of an event of a whole book; what is wrong in its words is said with its place."""
    try:
        return _completed(at, event, before)
    except InputError as error:
        place = f"event {at}: "
        raise InputError(
            problem if place in problem.message else replace(problem, message=f"The book, {place}{problem.message}")
            for problem in error.problems
        ) from None


def _completed(at: int, event: Event, before: Ledger) -> dict[str, Any]:
    """The outcome of an event that has none yet, by the heap as it stood."""
    kind = event["kind"]
    if kind not in (UNDONE, CORRECTED):
        return _worked_out(at, kind, words_of(event), before.state()).told()
    name = event["of"]
    of = before.find(name)
    if before.is_undone(name):
        raise _problem("of", name, f"event {at}: “{name}” is undone already. Name one that stands.")
    if of["kind"] in (UNDONE, CORRECTED):
        raise _problem("of", name, f"event {at}: what was undone or corrected is not undone itself. Record it anew.")
    outcome = before.standing(name).turned()
    if kind == CORRECTED:
        anew = _worked_out(at, of["kind"], before.words(name) | words_of(event), before.stood(name))
        outcome = outcome.with_more(anew, "corrected")
    return replace(outcome, crust=_crust_of(outcome, name, before)).told()


def _crust_of(outcome: Outcome, name: str, before: Ledger) -> Mapping[str, float]:
    """What undoing or correcting does to the crust: nothing where the heap was mixed since, and never below none."""
    there = before.state().crust
    if before.mixed_since(name):
        return {}
    return {part: max(amount, -there[part]) for part, amount in outcome.crust.items()}


def _worked_out(at: int, kind: str, words: Mapping[str, Any], state: State) -> Outcome:
    known = asks(KINDS[kind].form)
    uncounted = [word for word in words if word not in known and word in WORDS]
    try:
        outcome = outcome_of(kind, {word: value for word, value in words.items() if word not in uncounted}, state)
        said = (
            (f"kept beside it, not counted: {', '.join(WORDS[word].label.lower() for word in uncounted)}",)
            if uncounted
            else ()
        )
        return replace(outcome, said=(*outcome.said, *said))
    except OverflowError:
        raise _refused(f"event {at}: its amounts are beyond all numbers.") from None


def _add(at: int, event: Event, parts: dict[str, float]) -> None:
    """Keep the sum, and refuse a book that goes below nothing."""
    for part, kg in event["outcome"]["change"].items():
        parts[part] += kg
        if parts[part] < -1e-3:
            raise _refused(
                f"event {at} would leave {parts[part]:.3g} kg of {PARTS[part]} in the heap. The file is damaged, "
                "or was changed by hand. Take an older copy of it."
            )


def _refused(what_to_do: str) -> InputError:
    return _problem("book", "a file", what_to_do)


def _problem(word: str, given: object, what_to_do: str) -> InputError:
    label = WORDS[word].label if word in WORDS else "The event"
    return InputError([Problem(word=word, given=shown_given(given), allowed="", message=f"{label}: {what_to_do}")])
