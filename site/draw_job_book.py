"""How a job's page works with the heap book: which figures it takes from there, and as which events its answer is recorded."""

from __future__ import annotations

import json
from collections.abc import Mapping

import draw
import draw_book
import draw_record
from draw_tag import Markup, join, tag

MEASURED, OWN = "measured", "calibrated"
"""The kinds of event that are recorded with their ±: a test, and a person's own figures."""
TAKEN = {
    word: word
    for word in (
        "heap_kg",
        "moisture_pct_wet",
        "clay_pct_dry",
        "dead_fines_pct_dry",
        "rammed_density_kg_l",
        "strokes_per_100ml",
        "rammer_kg",
        "rammer_fall_mm",
        "tin_diameter_mm",
    )
} | {"compactability_pct": "compactability_read_pct", "heap_gfn": "gfn"}
"""Words that a form may have from the book, each with the heap's own word for it."""
TAKEN_BY = {
    "burnout": {"sand_kg": "heap_kg"},
    "pour": {"moisture_pct_wet": "mould_moisture_pct_wet"},
    "diagnose": {
        word: word for word in ("compactability_read_pct", "permeability", "strength_kpa", "gfn", "dead_fines_pct_dry")
    },
    "estimate": {
        "clay_book_pct_dry": "clay_pct_dry",
        "compactability_read_pct": "compactability_read_pct",
        "strength_kpa": "strength_kpa",
    },
}
"""Words that only one job takes, or for which it has another name."""
CARRIED = (
    "temper",
    "tin",
    "dry",
    "plan",
    "fit",
    "flask",
    "pour",
    "burnout",
    "rebond",
    "forecast",
    "facing",
    "season",
    "carbon",
)
"""Jobs whose forms open with the heap's figures of today."""
ON_DEMAND = ("estimate", "diagnose")
"""Jobs that take them only when a person wants them: the book's own figures are no new evidence."""
WRITTEN: dict[str, dict[str, tuple[str, dict[str, str]]]] = {
    "rebond": {
        "added": (
            "Record what is added in the book",
            {"sand_kg": "sand_kg", "clay_kg": "clay_kg", "water_kg": "water_kg", "clay": "clay"},
        ),
        "discarded": ("Record what is thrown away in the book", {"discard_kg": "discard_kg"}),
    },
    "burnout": {
        draw_book.AGAIN: (
            "Record the cast in the book",
            {word: word for word in ("metal", "metal_kg", "flask_sand_kg", "modulus_mm", "pour_temp_c")},
        )
    },
    "bench": {
        MEASURED: (
            "Record it in the book",
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
            "Record it as my own figure",
            {"rammed_density_kg_l": "rammed_density_kg_l", "strokes_per_100ml": "strokes_per_100ml"},
        ),
    },
    "estimate": {
        MEASURED: (
            "Record it in the book",
            {"clay_pct_dry": "clay_pct_dry", "dead_fines_pct_dry": "dead_fines_pct_dry"},
        )
    },
    "fineness": {MEASURED: ("Record it in the book", {"gfn": "gfn"})},
}
"""A job's answer as an event: each word of the event, and the word of the answer or of the form that fills it."""
BEGINS = ("mix",)
"""Jobs whose entry begins the book where there is none."""
NOT_WITH = {
    "estimate": (
        ("clay_book_pct_dry", "dead_fines_pct_dry"),
        "This answer uses the book's own figure, so it cannot be recorded: the book would count itself twice. Clear that figure first.",
    )
}
"""Jobs whose answer must not go back into the book if it used these of the book's words, and what to show instead."""


TESTED_HERE = {"temper": ("sample_wet_g", "sample_dry_g", "moisture_pct_wet")}
"""Own figures of a job that are the heap's once its test is recorded; so are all figures that the form has from the heap."""
OWN_FIGURE = (
    "The moisture here is the book's own, so there is no test to record. Dry a sample, and enter the two weights."
)


def for_job(name: str) -> Markup:
    """The heap's figures, carried in or taken with a button, and each entry that the answer can be recorded as in one tap."""
    known = {event["kind"] for event in draw_book.events()}
    asked = {entry["word"] for entry in draw.job_named(name)["asks"]}
    taken = {word: ours for word, ours in (TAKEN | TAKEN_BY.get(name, {})).items() if word in asked}
    carried = json.dumps(taken) if name in CARRIED else None
    take = tag("button", "Use the heap's figures", type="button", class_="deed quiet", data_take_heap=json.dumps(taken))
    when = tag("p", class_="hint", role="status", data_taken_when=True, hidden=True)
    takes = join(take, when) if name in ON_DEMAND else None
    not_with, instead = NOT_WITH.get(name, ((), OWN_FIGURE))
    entries = [
        _entry(kind, words, pairs, not_with) for kind, (words, pairs) in WRITTEN.get(name, {}).items() if kind in known
    ]
    tools = [
        tag("div", takes, class_="book-tools", data_heap_words=carried),
        tag(
            "div",
            tag("div", data_record_rows=True),
            tag("p", instead, class_="hint", data_not_written=True, hidden=True),
            class_="book-tools",
            data_entries=json.dumps(entries, ensure_ascii=False),
            data_begins=name in BEGINS or None,
            data_tested_here=json.dumps(TESTED_HERE.get(name, ())),
        ),
    ]
    return join(tag("template", *tools, data_template="book", data_search_exclude=True), draw_record.template())


def _entry(kind: str, label: str, pairs: Mapping[str, str], not_with: tuple[str, ...]) -> dict[str, object]:
    """One entry as the page takes it; a test takes its ± along, and so needs the unit of each figure."""
    words = draw.description()["words"]
    units = {ours: words[ours].get("unit", "") for ours in pairs.values()} if kind in (MEASURED, OWN) else None
    return {"kind": kind, "label": label, "words": pairs, "units": units, "not_with": not_with}
