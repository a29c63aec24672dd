"""The documents of a command, the heap book and the casting: read from their files, and kept in them."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from sandmix.asking.form import asks
from sandmix.book import book
from sandmix.book.events import CORRECTED, KINDS, UNDONE
from sandmix.book.heap import fold
from sandmix.casting import casting
from sandmix.casting.casting import DOCUMENTS, Casting
from sandmix.doors import document_file, facade
from sandmix.doors.document_file import BOOK, CASTING
from sandmix.doors.spelling import event_options, nearest
from sandmix.jobs.plan.form import PlanForm
from sandmix.jobs.plan.steps import NOTHING
from sandmix.language.errors import SandmixError
from sandmix.language.timestamps import seconds_of
from sandmix.language.wording import list_of, lowered, shown_given

ROOM_BESIDE = 200

Inputs = dict[str, Any]
Ask = Callable[[Inputs], str]


def with_book(inputs: Inputs) -> Inputs:
    """Return the inputs with the book read from its file, if one is named; raises SandmixError."""
    if document_file.is_typed(inputs.get("book", "")):
        return inputs
    return inputs | {"book": document_file.read(inputs["book"], BOOK)}


def of_heap(inputs: Inputs) -> Inputs:
    """Return the inputs of *heap* with the book read from its file, after an event is recorded in it if one is given; raises SandmixError."""
    words = {word: value for word, value in inputs.items() if word not in ("book", "now", "record")}
    if document_file.is_typed(inputs.get("book", "")):
        if words or "record" in inputs:
            raise SandmixError("An entry is recorded in a file. Name the file with --book FILE.")
        return inputs
    now = _now(inputs)
    if "record" in inputs:
        if (kind := inputs["record"]) not in (kinds := (*KINDS, UNDONE, CORRECTED)):
            hint = nearest(kind, kinds) or f" Use {list_of(kinds)}."
            raise SandmixError(f"--record: “{shown_given(kind)}” isn't a kind of entry.{hint} Nothing was recorded.")
        event = {"kind": inputs["record"], "at": now, **words}
        document_file.change(inputs["book"], lambda data: _with_event([] if data is None else data, event), BOOK)
    elif words:
        spelled = event_options()
        raise SandmixError(
            f"{', '.join(spelled[word][0] for word in words)}: this belongs to an entry. Name its kind with --record."
        )
    return {"book": document_file.read(inputs["book"], BOOK), "now": now}


@dataclass(slots=True)
class PlanFiles:
    """The files of one *plan*: what its inputs name, and what is written into them on the way to its answer.

    *again* is the file of an old casting that this one repeats, *record* the kind of an entry of the plan to write into the book. ``said``
    are sentences about what was written.
    """

    inputs: Inputs
    ask: Ask
    again: str | None = None
    record: str | None = None
    said: list[str] = field(init=False, default_factory=list)

    def answer(self) -> str:
        """Return the answer as text, after all that is to be written is written; raises SandmixError."""
        if self.again and not self.has_casting:
            raise SandmixError("A casting that is done again is kept in a new file. Name it with --casting FILE.")
        if self.record and not self.has_book:
            raise SandmixError("An entry is recorded in a file. Name the file with --book FILE.")
        text = self._with_figures() if self.has_casting else self.ask(self.inputs | self._documents())
        return self._recorded(text) if self.record and json.loads(text)["ok"] else text

    @property
    def casting(self) -> str:
        """The file of the casting, or the casting itself as it was typed, or nothing."""
        return str(self.inputs.get("casting", ""))

    @property
    def has_casting(self) -> bool:
        """Whether a file of a casting is named."""
        return not document_file.is_typed(self.casting)

    @property
    def has_book(self) -> bool:
        """Whether a file of a book is named."""
        return not document_file.is_typed(str(self.inputs.get("book", "")))

    def _documents(self) -> Inputs:
        """The documents but the casting, and the time now; a book that an entry will create is none yet."""
        if self.record and self.has_book and not document_file.is_there(self.inputs["book"]):
            return {"now": _now(self.inputs), "book": None}
        given = {word: value for word, value in self.inputs.items() if word in ("book", "now")}
        return with_book(given | ({"now": _now(self.inputs)} if self.has_book else {}))

    def _with_figures(self) -> str:
        """The answer of the casting in its file, which keeps the figures that are given if they can be read."""
        figures = {word: value for word, value in self.inputs.items() if word not in DOCUMENTS}
        documents = self._documents()
        if not figures and not self.again:
            return self.ask(documents | {"casting": document_file.read(self.casting, CASTING)})
        start = _begun(self.casting, self.again, _now(self.inputs))
        answers: list[str] = []

        def changed(data: Any) -> Inputs | None:
            whole = start(data).with_figures(figures).to_dict()
            answers.append(self.ask(documents | {"casting": whole}))
            return whole if _could_be_read(answers[0]) else None

        document_file.change(self.casting, changed, CASTING)
        if _could_be_read(answers[0]):
            self.said.append(f"The figures are kept in {self.casting}.")
        return answers[0]

    def _recorded(self, text: str) -> str:
        """The answer after the entry that an answer suggests is in the book, and the casting knows of it."""
        offered = {record["kind"]: record["words"] for record in json.loads(text)["records"]}
        if self.record not in offered:
            others = f"It offers {list_of(tuple(offered))}." if offered else "It offers none: see its next step."
            raise SandmixError(f"The plan has no entry “{self.record}” to record now. {others} Nothing was recorded.")
        event = {"kind": self.record, "at": _now(self.inputs), **offered[self.record]}
        written: list[Inputs] = []

        def with_entry(data: Any) -> Inputs:
            told = _with_event([] if data is None else data, event)
            written.append(told["events"][-1])
            return told

        if self.has_casting:
            document_file.check_writable(self.casting)
        document_file.change(self.inputs["book"], with_entry, BOOK)
        done, name = lowered(KINDS[written[0]["kind"]].label), written[0]["id"]
        self.said.append(f"The entry is recorded in {self.inputs['book']} as {name}: {done}.")
        if not self.has_casting:
            return self.ask(self.inputs | self._documents())
        try:
            document_file.change(self.casting, lambda data: _casting(data).with_entry(written[0]).to_dict(), CASTING)
        except SandmixError as error:
            raise SandmixError(f"The entry is in the book, but not in the casting: {error}") from None
        return self.ask(self._documents() | {"casting": document_file.read(self.casting, CASTING)})


def _begun(path: str, again: str | None, now: str) -> Callable[[Any], Casting]:
    """What gives the casting to keep at *path*, from what its file holds so far."""
    try:
        seconds_of(now)
    except SandmixError as error:
        raise SandmixError(f"--now: {error}") from None
    name = _name_of(path)
    if not again:
        return lambda data: casting.begin(name, now) if data is None else _casting(data)
    old = _casting(document_file.read(again, CASTING))

    def repeated(data: Any) -> Casting:
        if data is not None:
            raise SandmixError(f"{path} holds a casting already. Name a new file. Nothing was changed.")
        return replace(old.again(), name=name, begun=now)

    return repeated


def _casting(data: Any) -> Casting:
    """The casting that *data* holds, with no figure that the plan doesn't ask for."""
    return casting.read(data, asks(PlanForm))


def _could_be_read(text: str) -> bool:
    """Whether an answer is one, or refuses nothing that was given but only lacks something."""
    answer = json.loads(text)
    return answer["ok"] or all(problem["given"] == NOTHING for problem in answer["problems"])


def _name_of(path: str) -> str:
    """The name of a casting by that of its file, on any system: what stands after the last slash, without its ending."""
    file = re.split(r"[\\/]", path)[-1]
    return (file.rpartition(".")[0] or file)[: casting.LONGEST_NAME]


def _now(inputs: Inputs) -> str:
    return inputs.get("now") or document_file.now_text()


def _with_event(data: Any, event: Inputs) -> Inputs:
    opened = book.read(data)
    told = book.with_event(opened, event).to_dict()
    if len(json.dumps(told, ensure_ascii=False).encode("utf-8", "replace")) + ROOM_BESIDE > facade.LONGEST_TEXT:
        raise SandmixError("The book is full, and nothing was written. Begin a new one with a test of the heap.")
    return told


def write_records(path: str, records: Sequence[Inputs]) -> None:
    """Write the entries that an answer suggests into the book of an empty heap, all of them or none; raises SandmixError."""
    if not records:
        raise SandmixError("There is nothing to write: the lots are not enough for this much sand. Ask for less.")
    at = document_file.now_text()

    def written(data: Any) -> Inputs:
        data = [] if data is None else data
        there_kg = fold(book.read(data).events).sand.wet_kg
        if there_kg > 0:
            raise SandmixError(
                f"{path} already holds {there_kg:.3g} kg of sand, but all lots are written at once into an empty heap. Name a "
                "new file, or record each missing lot with heap --record joined. Nothing was changed."
            )
        for record in records:
            data = _with_event(data, {"kind": record["kind"], "at": at, **record["words"]})
        return dict(data)

    document_file.change(path, written, BOOK)
