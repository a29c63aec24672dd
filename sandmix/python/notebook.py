"""An answer as a notebook shows it: short HTML without scripts and without styles of its own, so that it follows the notebook's look."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any


def html(answer: dict[str, Any]) -> str:
    """Return the answer as HTML: headline, main figure, what to do, a table of the figures, remarks and cautions. All texts are escaped.

    The steps of a day and the cards of a diagnosis are lists before the table.
    """
    return "\n".join(_lines(answer))


def _lines(answer: dict[str, Any]) -> Iterable[str]:
    lead = answer["lead"]
    then = f", {escape(lead['then'])}" if lead["then"] else ""
    yield f"<p><strong>{escape(answer['headline'])}</strong></p>"
    yield f"<p>{escape(lead['label'])}: <strong>{escape(lead['text'])}</strong>{then}</p>"
    if first := answer["first"]:
        yield from _list("First", [first["text"], *(f"Until then, do not: {text}" for text in first["not_before"])])
    yield from _list("The day, step by step", [f"{step['label']}: {step['state']['word']}" for step in answer["steps"]])
    yield from _list(answer["cards_titles"][0], [f"{card['title']}: {card['text']}" for card in answer["cards"]])
    yield from _list("What to do", [" – ".join(filter(None, (one["amount"], one["text"]))) for one in answer["todo"]])
    if rows := answer["shown"]:
        heads = "".join(f'<th scope="col">{head}</th>' for head in ("Figure", "Value", "Likely range", "Basis"))
        yield f"<table><caption>Likely ranges hold the true value 19 times in 20.</caption><thead><tr>{heads}</tr></thead><tbody>"
        for row in rows:
            cells = "".join(f"<td>{escape(row[part])}</td>" for part in ("text", "range", "basis"))
            yield f'<tr><th scope="row">{escape(row["label"])}</th>{cells}</tr>'
        yield "</tbody></table>"
    yield from _list("Checklist", [check["text"] for check in answer["checklist"]])
    yield from _list("Remarks", answer["remarks"])
    yield from _list("Cautions", answer["cautions"])


def _list(title: str, texts: Iterable[str]) -> Iterable[str]:
    """A heading and a list below it; nothing if the list is empty."""
    if entries := "".join(f"<li>{escape(text)}</li>" for text in texts):
        yield f"<p><strong>{escape(title)}</strong></p><ul>{entries}</ul>"
