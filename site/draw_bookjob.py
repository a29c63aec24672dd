"""What a job's page has of the heap book: which figures it takes from there, and as which events its answer is written."""

from __future__ import annotations

import json
from collections.abc import Mapping

import draw
import draw_book
from draw_tag import Markup, join, tag

MEASURED, OWN = "measured", "calibrated"
"""What is written with how far it may be off: a test, and what a person measured of their own."""
TAKEN = {
    word: word
    for word in (
        "heap_kg",
        "moisture_pct_wet",
        "clay_pct_dry",
        "dead_fines_pct_dry",
        "rammed_density_kg_l",
        "strokes_per_100ml",
    )
} | {"compactability_pct": "compactability_read_pct", "heap_gfn": "gfn"}
"""A word that a form may take from the book, and the heap's own word for it."""
TAKEN_BY = {
    "burnout": {"sand_kg": "heap_kg"},
    "diagnose": {
        word: word for word in ("compactability_read_pct", "permeability", "strength_kpa", "gfn", "dead_fines_pct_dry")
    },
    "estimate": {
        "clay_book_pct_dry": "clay_pct_dry",
        "compactability_read_pct": "compactability_read_pct",
        "strength_kpa": "strength_kpa",
    },
}
"""What one job alone calls by another name."""
WRITTEN: dict[str, dict[str, tuple[str, dict[str, str]]]] = {
    "mix": {
        "mixed": (
            "Write the new sand in the book",
            {
                word: word
                for word in (
                    "sand_kg",
                    "clay_kg",
                    "water_kg",
                    "sand_moisture_pct_wet",
                    "clay",
                    "clay_activity_pct",
                    "clay_moisture_pct_wet",
                )
            },
        )
    },
    "temper": {"tempered": ("Write the water in the book", {"water_kg": "first_water_kg"})},
    "rebond": {
        "added": (
            "Write what is added in the book",
            {"sand_kg": "sand_kg", "clay_kg": "clay_kg", "water_kg": "water_kg", "clay": "clay"},
        ),
        "discarded": ("Write what is thrown away in the book", {"discard_kg": "discard_kg"}),
    },
    "burnout": {
        draw_book.AGAIN: (
            "Write the cast in the book",
            {word: word for word in ("metal", "metal_kg", "flask_sand_kg", "modulus_mm", "pour_temp_c")},
        )
    },
    "bench": {
        MEASURED: (
            "Write it in the book",
            {
                "moisture_pct_wet": "moisture_pct_wet",
                "clay_pct_dry": "clay_pct_dry",
                "washed_pct_dry": "washed_pct_dry",
                "compactability_read_pct": "compactability_pct",
                "permeability": "permeability",
                "strength_kpa": "strength_kpa",
            },
        ),
        OWN: (
            "Write it in the book as my own",
            {"rammed_density_kg_l": "rammed_density_kg_l", "strokes_per_100ml": "strokes_per_100ml"},
        ),
    },
    "estimate": {
        MEASURED: (
            "Write it in the book",
            {"clay_pct_dry": "clay_pct_dry", "dead_fines_pct_dry": "dead_fines_pct_dry"},
        )
    },
    "fineness": {MEASURED: ("Write it in the book", {"gfn": "gfn"})},
}
"""A job's answer as an event: each word of the event, and the word of the answer or of its form that fills it."""
NOT_WITH = {
    "estimate": (
        ("clay_book_pct_dry", "dead_fines_pct_dry"),
        "With the book's own figure in it, this is not written back: the book would count itself twice. Clear that figure first.",
    )
}
"""Where an answer is no news to the book: the words that it took from there, and what to say instead of the door."""


def for_job(name: str) -> Markup:
    """For where a book is in use: to take the heap's figures, and a door for each event that an answer can be written as."""
    known = {event["kind"] for event in draw_book.events()}
    asked = {entry["word"] for entry in draw.job_named(name)["asks"]}
    taken = {word: ours for word, ours in (TAKEN | TAKEN_BY.get(name, {})).items() if word in asked}
    take = tag(
        "button", "Take the heap's figures", type="button", class_="deed quiet", data_take_heap=json.dumps(taken)
    )
    doors = [
        _door(kind, words, pairs, NOT_WITH.get(name, ((), ""))[0])
        for kind, (words, pairs) in WRITTEN.get(name, {}).items()
        if kind in known
    ]
    if name in NOT_WITH:
        doors.append(tag("p", NOT_WITH[name][1], class_="hint", data_not_written=True, hidden=True))
    when = tag("p", class_="hint", role="status", data_taken_when=True, hidden=True)
    takes = join(take, when) if taken else None
    tools = [tag("div", takes, class_="book-tools"), tag("div", *doors, class_="book-tools")]
    return tag("template", *tools, data_template="book", data_search_exclude=True)


def _door(kind: str, label: str, pairs: Mapping[str, str], not_with: tuple[str, ...]) -> Markup:
    """The way into the book for an answer; a test takes its doubt along, and so the unit of each figure."""
    words = draw.description()["words"]
    units = {ours: words[ours].get("unit", "") for ours in pairs.values()} if kind in (MEASURED, OWN) else None
    return tag(
        "a",
        label,
        href="../heap/",
        data_write=kind,
        data_words=json.dumps(pairs),
        data_not_with=" ".join(not_with) or None,
        data_doubted=json.dumps(units) if units else None,
        class_="deed quiet",
        hidden=True,
    )
