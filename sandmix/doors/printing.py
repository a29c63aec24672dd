"""An answer as the command line prints it: plain text, with no line longer than the terminal is wide."""

from __future__ import annotations

import shlex
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import asks
from sandmix.asking.job import AnyJob
from sandmix.book.events import UNDONE
from sandmix.doors.spelling import FLASKS, option, typed
from sandmix.doors.terminal import WIDTH, clean, clean_all
from sandmix.jobs import JOBS
from sandmix.language.wording import shown_given

MOST_CONTRIBUTIONS = 4
LONGEST_CELL = 44
NARROWEST_COLUMN = 24
"""A last column narrower than this is none: its text goes below."""
DEEPER = 4
"""How far a line is indented that goes on with the one above it, where there is no column for it."""


def refusal(answer: dict[str, Any], job: AnyJob, inputs: Mapping[str, object]) -> str:
    """Return what is wrong with the *inputs*, one line for each problem, which begins with its option."""
    asked = asks(job.form)
    return "\n".join(
        clean(f"{option(problem['word']) + ': ' if problem['word'] in asked else ''}{_message(problem, inputs)}")
        for problem in answer["problems"]
    )


def _message(problem: dict[str, Any], inputs: Mapping[str, object]) -> str:
    """The message of a problem; flasks that could not be read at all are asked for as the help shows them."""
    given = inputs.get("flasks")
    if problem["word"] != "flasks" or not isinstance(given, str) or given.lstrip().startswith(("[", "{")):
        return str(problem["message"])
    return f"“{shown_given(given)}” can't be read as flasks. Write them as {FLASKS}, or in JSON."


def said(sentences: Iterable[str], width: int = WIDTH) -> str:
    """Return what was written into files, a sentence a line, below an answer; a path is never broken."""
    lines = (textwrap.fill(clean(one), width, break_long_words=False, break_on_hyphens=False) for one in sentences)
    return "\n".join(("", *lines))


def table(answer: dict[str, Any], width: int = WIDTH, files: Mapping[str, str] | None = None) -> str:
    """Return the whole answer as text, wrapped to that many columns.

    *files* are what was given for its documents, by word: the commands of the next steps name them again, if a terminal can show them.
    """
    shown = {word: file for word, file in (files or {}).items() if clean(file) == file}
    return "\n".join(_Page(answer=clean_all(answer), width=width, files=shown).lines())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """The page of one answer."""

    answer: dict[str, Any]
    width: int
    files: Mapping[str, str]

    def lines(self) -> Iterable[str]:
        """All lines, from the headline to the next step."""
        answer, lead = self.answer, self.answer["lead"]
        yield from self._wrapped(self._headline(), "")
        state = answer["state"]
        if answer["steps"] or (state["tone"] == "stop" and state["word"] != lead["text"]):
            yield from ("", f"  {state['word'].upper()}")
        then = f"   {lead['then']}" if lead["then"] else ""
        yield from ("", *self._hanging(f"  {lead['label'].upper()}  ", f"{lead['text']}{then}"), "")
        if answer["steps"]:
            yield from ("The day, step by step", *self._day(), "")
        if answer["todo"]:
            yield from ("What to do", *self._to_do(), "")
        yield from self._figures()
        if first := answer["first"]:
            yield from ("", "First", *self._wrapped(first["text"]))
            for text in first["not_before"]:
                yield from self._wrapped(f"Until then, do not: {text}")
        for card in answer["cards"]:
            yield from ("", *self._wrapped(f"{card['title']}: {card['text']}", ""))
            for point in card["points"]:
                yield from self._wrapped(f"{point['name']}: {'; '.join(point['texts'])}")
        lists = (
            ("Last entry in the book", _last_event(answer["timeline"])),
            ("Checklist", [check["text"] for check in answer["checklist"]]),
            (f"What makes “{lead['label'].lower()}” uncertain", _uncertain(answer)),
            ("Remarks", answer["remarks"]),
            ("Cautions", answer["cautions"]),
        )
        for title, entries in lists:
            if told := [line for entry in entries for line in self._wrapped(entry)]:
                yield from ("", *self._wrapped(title, ""), *told)
        onward = [*self._day_onward()] if answer["steps"] else [self._onward(link) for link in answer["next"]]
        if onward:
            yield from ("", "Next", *(line for lines in onward for line in lines))

    def _figures(self) -> Iterable[str]:
        """The figures as a table; one with a cell that is too long for its column is written as a sentence."""
        rows = [(row["label"], row["text"], row["range"], row["basis"]) for row in self.answer["shown"]]
        label, text, band = (
            max((len(row[at]) for row in rows if len(row[at]) <= LONGEST_CELL), default=0) for at in (0, 1, 2)
        )
        whole = label + text + band + 6
        for row in rows:
            start = f"  {row[0]:<{label}}  {row[1]:>{text}}  {row[2]:<{band}}"
            if len(start) > whole or whole > self.width:
                yield from self._hanging("  ", f"{row[0]}: {', '.join(filter(None, row[1:]))}", DEEPER)
            elif row[3] and not self._has_room(whole + 2):
                yield from (start.rstrip(), *self._hanging(" " * DEEPER, row[3], DEEPER))
            else:
                yield from self._hanging(f"{start}  ", row[3])

    def _day(self) -> Iterable[str]:
        """The steps of a day as a table: each step, its state, and its main figure or what is missing for it. The mark > is at the next one."""
        rows = [("", "step", "state", "main figure, or what is missing")]
        rows += [(">" if step["next"] else "", step["label"], *self._standing(step)) for step in self.answer["steps"]]
        label, state = (max(len(row[column]) for row in rows) for column in (1, 2))
        for mark, name, word, text in rows:
            if self._has_room(label + state + 6):
                yield from self._hanging(f"{mark:<2}{name:<{label}}  {word:<{state}}  ", text)
            else:
                yield from self._wrapped(f"{name}: {word}. {text}", f"{mark:<1}")

    def _standing(self, step: dict[str, Any]) -> tuple[str, str]:
        """How a step stands, and its main figure with its range, or what is missing for it, and why it must wait; nothing more of a past step."""
        word = step["stands"]["word"]
        if step["past"]:
            return word, ""
        if "lead" not in step:
            return word, self._line(step)
        lead = step["lead"]
        then = f", {lead['then']}" if lead["then"] else ""
        return word, f"{lead['label']}: {lead['text']}{then}" + (f". {step['locked']}" if step["locked"] else "")

    def _to_do(self) -> Iterable[str]:
        """What to do in its order, each with its amount before it."""
        todo = self.answer["todo"]
        amount = max(len(one["amount"]) for one in todo)
        for at, one in enumerate(todo, start=1):
            yield from self._wrapped(one["text"], f"  {at}. {one['amount']:>{amount}} " if amount else f"  {at}.")

    def _day_onward(self) -> Iterable[list[str]]:
        """The step that is next, marked, with its command or what is missing for it; then the commands of the steps after it that have an answer.

        Nothing comes after a stop, and no step whose command would not give the answer of the day.
        """
        steps = [*zip(self.answer["steps"], self.answer["next"], strict=True)]
        while not steps[0][0]["next"]:
            del steps[0]
        (ahead, link), *others = steps
        text = link["label"] if "lead" in ahead else f"{link['label']} {self._line(ahead)}"
        yield self._command(ahead, link, "  >") or self._wrapped(text, "  >")
        if ahead["state"]["tone"] != "stop":
            for step, link in others:
                if not step["locked"] and (lines := self._command(step, link, "  -")):
                    yield lines

    def _command(self, step: dict[str, Any], link: dict[str, Any], mark: str) -> list[str]:
        """The command of a step of the day, which answers it as the day does; none where that can't be."""
        is_there = "lead" in step and ("book" not in step["inputs"] or "book" in self.files)
        return self._onward(link, mark, or_none=True) if is_there else []

    def _onward(self, link: dict[str, Any], mark: str = "  -", *, or_none: bool = False) -> list[str]:
        """What to do next and the command for it, to be copied; where an input is too long for a line, without inputs *or none* at all."""
        lines = self._wrapped(f"{link['label']}{'' if link['label'].endswith('?') else ':'}", mark)
        command = f"sandmix {link['job']}"
        if len(lines[-1]) + 1 + len(command) <= self.width - 2:
            lines[-1] += f" {command}"
        else:
            lines.append(f"    {command}")
        start = [*lines]
        asked = asks(JOBS[link["job"]].form) if self.files else {}
        for word, value in [
            *link["inputs"].items(),
            *((word, self.files[word]) for word in self.files if word in asked),
        ]:
            given = shlex.quote(typed(word, str(value)))
            part = f" {option(word)}{'=' if given.startswith('-') else ' '}{given}"
            if len(part) > self.width - 8:
                return [] if or_none else start
            if len(lines[-1]) + len(part) > self.width - 2:
                lines[-1] += " \\"
                lines.append("   ")
            lines[-1] += part
        return lines

    def _line(self, step: dict[str, Any]) -> str:
        """What a step says, with the options for what is missing for it."""
        asked = asks(JOBS[self.answer["job"]].form)
        options = ", ".join(option(word) for word in step["needs"] if word in asked)
        return f"{step['line'].removesuffix('.')} ({options})." if options else str(step["line"])

    def _headline(self) -> str:
        """The headline, with the options for what is missing for the next step."""
        said = str(self.answer["headline"])
        for step in self.answer["steps"]:
            if step["next"] and said.endswith(step["line"]):
                return said.removesuffix(step["line"]) + self._line(step)
        return said

    def _has_room(self, start: int) -> bool:
        """Whether a last column that starts there is wide enough to be read."""
        return self.width - start >= NARROWEST_COLUMN

    def _hanging(self, start: str, text: str, indent: int | None = None) -> list[str]:
        """Text after what starts its first line; the lines after that are indented by *indent*, or as far, if that leaves room.

        No option is broken at one of its dashes.
        """
        if indent is None:
            indent = len(start) if self._has_room(len(start)) else DEEPER
        lines = textwrap.wrap(start + text, self.width, subsequent_indent=" " * indent, break_on_hyphens=False)
        return [line.rstrip() for line in lines]

    def _wrapped(self, text: str, mark: str = "  -") -> list[str]:
        """Text with a mark before it; the lines after the first are indented as far, if that leaves room."""
        return self._hanging(f"{mark} " if mark else "", text)


def _uncertain(answer: dict[str, Any]) -> Iterable[str]:
    """The shares of the ± of the main figure, the largest first, and how to make it smaller."""
    word = answer["lead"]["word"]
    for one in answer.get("uncertainty", {}).get(word, ())[:MOST_CONTRIBUTIONS]:
        yield f"{one['text']}: {one['label']}"
    if step := answer.get("surer", {}).get(word):
        yield step["sentence"]


def _last_event(timeline: Sequence[dict[str, Any]]) -> Iterable[str]:
    """What the last entry of a book did, and how to undo it."""
    if timeline:
        last = timeline[-1]
        yield f"{last['id']}, {last['at']}: {last['label'].lower()}{': ' + last['text'] if last['text'] else ''}"
        yield from last["lines"]
        if last["can_undo"]:
            yield f"A mistake? --record {UNDONE} --of {last['id']} undoes it."
