"""An answer as the command line prints it: plain text, with no line longer than the terminal is wide."""

from __future__ import annotations

import shlex
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import asks
from sandmix.asking.job import AnyJob
from sandmix.book.events import UNDONE
from sandmix.doors.spelling import option, typed
from sandmix.doors.terminal import WIDTH, clean, clean_all

MOST_CONTRIBUTIONS = 4
LONGEST_CELL = 44
NARROWEST_COLUMN = 24
"""A last column narrower than this is none: its text goes below."""
DEEPER = 4
"""How far a line is indented that goes on with the one above it, where there is no column for it."""


def refusal(answer: dict[str, Any], job: AnyJob) -> str:
    """Return what is wrong with the inputs, one line for each problem, which begins with its option."""
    asked = asks(job.form)
    return "\n".join(
        clean(f"{option(problem['word']) + ': ' if problem['word'] in asked else ''}{problem['message']}")
        for problem in answer["problems"]
    )


def said(sentences: Iterable[str], width: int = WIDTH) -> str:
    """Return what was written into files, a sentence a line, below an answer; a path is never broken."""
    lines = (textwrap.fill(clean(one), width, break_long_words=False, break_on_hyphens=False) for one in sentences)
    return "\n".join(("", *lines))


def table(answer: dict[str, Any], width: int = WIDTH) -> str:
    """Return the whole answer as text, wrapped to that many columns."""
    return "\n".join(_Page(answer=clean_all(answer), width=width).lines())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """The page of one answer."""

    answer: dict[str, Any]
    width: int

    def lines(self) -> Iterable[str]:
        """All lines, from the headline to the next step."""
        answer, lead = self.answer, self.answer["lead"]
        yield from self._wrapped(answer["headline"], "")
        if answer["state"]["tone"] == "stop" and answer["state"]["word"] != lead["text"]:
            yield from ("", f"  {answer['state']['word'].upper()}")
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
        if answer["next"]:
            yield from ("", "Next", *(line for link in answer["next"] for line in self._onward(link)))

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
        ahead = next((link["job"] for link in self.answer["next"] if link["foremost"]), "")
        rows = [("", "step", "state", "main figure, or what is missing")]
        rows += [
            (">" if step["job"] == ahead else "", step["label"], *_standing(step)) for step in self.answer["steps"]
        ]
        label, state = (max(len(row[column]) for row in rows) for column in (1, 2))
        for mark, name, word, text in rows:
            if self._has_room(label + state + 6):
                yield from self._hanging(f"{mark:<2}{name:<{label}}  {word:<{state}}  ", text)
            else:
                yield from self._wrapped(f"{name}: {word}. {text}", f"{mark:<1}")

    def _to_do(self) -> Iterable[str]:
        """What to do in its order, each with its amount before it."""
        todo = self.answer["todo"]
        amount = max(len(one["amount"]) for one in todo)
        for at, one in enumerate(todo, start=1):
            yield from self._wrapped(one["text"], f"  {at}. {one['amount']:>{amount}} " if amount else f"  {at}.")

    def _onward(self, link: dict[str, Any]) -> list[str]:
        """What to do next and the command for it, to be copied; without inputs where one is too long for a line."""
        lines = self._wrapped(f"{link['label']}{'' if link['label'].endswith('?') else ':'}")
        command = f"sandmix {link['job']}"
        if len(lines[-1]) + 1 + len(command) <= self.width - 2:
            lines[-1] += f" {command}"
        else:
            lines.append(f"    {command}")
        start = [*lines]
        for word, value in link["inputs"].items():
            part = f" {option(word)} {shlex.quote(typed(word, str(value)))}"
            if len(part) > self.width - 8:
                return start
            if len(lines[-1]) + len(part) > self.width - 2:
                lines[-1] += " \\"
                lines.append("   ")
            lines[-1] += part
        return lines

    def _has_room(self, start: int) -> bool:
        """Whether a last column that starts there is wide enough to be read."""
        return self.width - start >= NARROWEST_COLUMN

    def _hanging(self, start: str, text: str, indent: int | None = None) -> list[str]:
        """Text after what starts its first line; the lines after that are indented by *indent*, or as far, if that leaves room."""
        if indent is None:
            indent = len(start) if self._has_room(len(start)) else DEEPER
        lines = textwrap.wrap(start + text, self.width, subsequent_indent=" " * indent)
        return [line.rstrip() for line in lines]

    def _wrapped(self, text: str, mark: str = "  -") -> list[str]:
        """Text with a mark before it; the lines after the first are indented as far, if that leaves room."""
        return self._hanging(f"{mark} " if mark else "", text)


def _standing(step: dict[str, Any]) -> tuple[str, str]:
    """How a step stands, and its main figure with its range, or what is missing for it, and why it must wait; nothing more of a past step."""
    word = step["stands"]["word"]
    if step["past"]:
        return word, ""
    if "lead" not in step:
        return word, step["line"]
    lead = step["lead"]
    then = f", {lead['then']}" if lead["then"] else ""
    return word, f"{lead['label']}: {lead['text']}{then}" + (f". {step['locked']}" if step["locked"] else "")


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
