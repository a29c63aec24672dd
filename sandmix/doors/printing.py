"""An answer as the command line prints it: plain text, wrapped to the width of a page."""

from __future__ import annotations

import shlex
import textwrap
from collections.abc import Iterable, Sequence
from typing import Any

from sandmix.asking.form import asks
from sandmix.asking.job import AnyJob
from sandmix.book.events import UNDONE
from sandmix.doors.options import option, typed

WIDTH = 96
MOST_CONTRIBUTIONS = 4
LONGEST_CELL = 44


def refusal(answer: dict[str, Any], job: AnyJob) -> str:
    """Return what is wrong with the inputs, one line for each problem, which begins with its option."""
    asked = asks(job.form)
    return "\n".join(
        f"{option(problem['word']) + ': ' if problem['word'] in asked else ''}{problem['message']}"
        for problem in answer["problems"]
    )


def table(answer: dict[str, Any]) -> str:
    """Return the whole answer as text."""
    lead = answer["lead"]
    lines = [
        answer["headline"],
        "",
        f"  {lead['label'].upper()}  {lead['text']}" + (f"   {lead['then']}" if lead["then"] else ""),
        "",
    ]
    if answer["state"]["tone"] == "stop" and answer["state"]["word"] != lead["text"]:
        lines[1:1] = ["", f"  {answer['state']['word'].upper()}"]
    if answer["steps"]:
        lines += ["The day, step by step", *_day(answer), ""]
    if answer["todo"]:
        lines += ["What to do", *_numbered(answer["todo"]), ""]
    rows = [(row["label"], row["text"], row["range"], row["basis"]) for row in answer["shown"]]
    widths = [
        max((len(row[column]) for row in rows if len(row[column]) <= LONGEST_CELL), default=0) for column in (0, 1, 2)
    ]
    lines += [
        "  " + f"{label:<{widths[0]}}  {text:>{widths[1]}}  {band:<{widths[2]}}  {basis}".rstrip()
        for label, text, band, basis in rows
    ]
    if first := answer["first"]:
        lines += ["", "First"]
        lines += [
            line
            for text in (first["text"], *(f"Until then, do not: {text}" for text in first["not_before"]))
            for line in _wrapped(text)
        ]
    for card in answer["cards"]:
        lines += ["", f"{card['title']}: {card['text']}"]
        for point in card["points"]:
            lines += _wrapped(f"{point['name']}: {'; '.join(point['texts'])}")
    ticks = [check["text"] for check in answer["checklist"]]
    lists = (
        ("Last entry in the book", list(_last_event(answer["timeline"]))),
        ("Checklist", ticks),
        (f"What makes “{lead['label'].lower()}” uncertain", list(_uncertain(answer))),
        ("Remarks", answer["remarks"]),
        ("Cautions", answer["cautions"]),
    )
    for title, entries in lists:
        if entries:
            lines += ["", title]
            for entry in entries:
                lines += _wrapped(entry)
    if answer["next"]:
        lines += ["", "Next", *(line for link in answer["next"] for line in _onward(link))]
    return "\n".join(lines)


def _day(answer: dict[str, Any]) -> Iterable[str]:
    """The steps of a day as a table: each step, its state, and its main figure or what is missing for it. The mark > is at the next one."""
    ahead = next((link["job"] for link in answer["next"] if link["foremost"]), "")
    rows = [("", "step", "state", "main figure, or what is missing")]
    rows += [
        (">" if step["job"] == ahead else "", step["label"], step["state"]["word"], _main_figure(step))
        for step in answer["steps"]
    ]
    label, state = (max(len(row[column]) for row in rows) for column in (1, 2))
    start = label + state + 6
    for mark, name, word, text in rows:
        first, *more = textwrap.wrap(text, WIDTH - start)
        yield f"{mark:<2}{name:<{label}}  {word:<{state}}  {first}"
        yield from (" " * start + line for line in more)


def _main_figure(step: dict[str, Any]) -> str:
    """The main figure of a step with its range, or what is missing for it, and why it must wait."""
    if "lead" not in step:
        return str(step["line"])
    lead = step["lead"]
    then = f", {lead['then']}" if lead["then"] else ""
    return f"{lead['label']}: {lead['text']}{then}" + (f". {step['locked']}" if step.get("locked") else "")


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


def _onward(link: dict[str, Any]) -> list[str]:
    """What to do next and the command for it, to be copied; without inputs where one is too long for a line."""
    start = f"  - {link['label']}{'' if link['label'].endswith('?') else ':'} sandmix {link['job']}"
    lines = [start]
    for word, value in link["inputs"].items():
        part = f" {option(word)} {shlex.quote(typed(word, str(value)))}"
        if len(part) > WIDTH - 8:
            return [start]
        if len(lines[-1]) + len(part) > WIDTH - 2:
            lines[-1] += " \\"
            lines.append("   ")
        lines[-1] += part
    return lines


def _numbered(todo: Sequence[dict[str, str]]) -> Iterable[str]:
    """What to do in its order, each with its amount before it."""
    width = max(len(one["amount"]) for one in todo)
    for at, one in enumerate(todo, start=1):
        yield from _wrapped(one["text"], f"  {at}. {one['amount']:>{width}} " if width else f"  {at}.")


def _wrapped(text: str, mark: str = "  -") -> list[str]:
    first, later = f"{mark} ", " " * (len(mark) + 1)
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_long_words=False)
