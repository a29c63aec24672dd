"""A walk through several jobs: what was typed into each, what it answered, and the link that opens it with these figures."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

import draw
import draw_answer
from draw_tag import Markup, symbol, tag
from handbook_answers import address, answer, asked, entries, figure_of, typed

PLAIN = {
    "poured": ("pattern", "metal", "metal_kg"),
    "discarded": ("discard_kg", "discarded_as"),
    "tempered": ("water_kg",),
    "measured": ("heap_kg",),
}
"""By the kind of an entry, the words that need no label, in the order in which they are read."""


def walked(name: str, *words: str) -> Markup:
    """One step of a walk; the words are the figures that it shows."""
    job, found = draw.job_named(asked(name).job), answer(name)
    lead = tag("p", draw_answer.badge(found["state"]), class_="walked-state", data_tone=found["state"]["tone"])
    rows = (draw_answer.row(shown) for word in words for shown in found["shown"] if shown["word"] == word)
    figures = tag("table", tag("tbody", *rows), class_="rows") if words else None
    for word in words:
        figure_of(name, word)
    return tag(
        "section",
        tag("p", "Typed into ", tag("b", job["short"]), class_="walked-head"),
        _typed(name, job),
        lead,
        tag("p", found["headline"], class_="walked-told", data_ask=name, data_headline=True),
        figures,
        tag("p", tag("a", _words(job, name), symbol("on"), class_="deed quiet", href=address(name), data_case=name)),
        class_="walked card",
        data_walked=name,
        aria_label=f"{job['short']}: {asked(name).story}",
    )


def _words(job: Mapping[str, Any], name: str) -> str:
    return f"Open “{job['short']}”" if "book" in typed(name) else f"Open “{job['short']}” with these figures"


def _typed(name: str, job: Mapping[str, Any]) -> Markup:
    """What was typed; of a book its entries, one below the other."""
    if "book" in typed(name):
        events = (
            tag("li", *entry_in_words(one), data_entry=json.dumps(one, ensure_ascii=False)) for one in entries(name)
        )
        now = typed(name)["now"]
        asked_on = tag("li", "Asked on ", tag("b", day(now)), ".", data_typed="now", data_value=now)
        return tag("ul", *events, asked_on, class_="walked-book")
    pairs = zip(typed(name).items(), draw.in_words(job, typed(name)), strict=True)
    return tag(
        "dl",
        *(
            tag("div", tag("dt", label), tag("dd", words), data_typed=word, data_value=value)
            for (word, value), (label, words) in pairs
        ),
        class_="given",
    )


def entry_in_words(entry: Mapping[str, str]) -> Iterator[object]:
    """An entry of a book in words: its date, its kind, and what was typed, under its label where the words do not say what it is."""
    kind = next(event for event in draw.description()["events"] if event["kind"] == entry["kind"])
    labels = {each["word"]: each["label"] for each in kind["asks"]}
    plain = PLAIN.get(entry["kind"], ())
    given = [
        _choice(word, entry[word])
        if word in plain
        else f"{labels[word][0].lower()}{labels[word][1:]} {_choice(word, entry[word])}"
        for word in (*plain, *(word for word in entry if word not in plain))
        if word in entry and word not in ("kind", "at")
    ]
    yield tag("b", day(entry["at"]))
    yield f" {kind['label']}: {', '.join(given)}."


def _choice(name: str, value: str) -> str:
    """A value in words; of a choice what stands before the first comma or colon of its label."""
    choices = draw.description()["words"][name].get("choices", ())
    label = next((choice["label"] for choice in choices if choice["value"] == value), value)
    return str(label).partition(":")[0].partition(",")[0]


def day(at: str) -> str:
    """A date in words, without its year."""
    found = date.fromisoformat(at[:10])
    return f"{found.day} {found:%B}"
