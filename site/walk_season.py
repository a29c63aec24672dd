"""The questions of the walk through a season: the book of one heap over a dozen casts, and what is asked of it on the way."""

from __future__ import annotations

from collections.abc import Mapping

from handbook_question import Ask, Book, Entry, From


def _cast(at: str, metal: str, kg: str, pattern: str) -> Entry:
    return {"kind": "poured", "at": at, "metal": metal, "metal_kg": kg, "pattern": pattern}


def _crust(at: str, kg: str) -> Entry:
    return {"kind": "discarded", "at": at, "discard_kg": kg, "discarded_as": "crust"}


def _tested(at: str, kg: str, moisture: str, **more: str) -> Entry:
    return {"kind": "measured", "at": at, "heap_kg": kg, "moisture_pct_wet": moisture, **more}


def _watered(at: str, kg: str) -> Entry:
    return {"kind": "tempered", "at": at, "water_kg": kg}


def _put_back(at: str, ask: str) -> Entry:
    """What an answer says to add."""
    words = ("sand_kg", "clay_kg", "water_kg")
    return {"kind": "added", "at": at, **{word: From(ask=ask, word=word) for word in words}}


HOOKS, PULL, BAR = "coat hooks", "door pull", "grate bar"
SPRING: tuple[Entry, ...] = (
    {"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
    _cast("2027-03-13", "aluminium", "1.5 kg", HOOKS),
    _cast("2027-03-20", "tin_bronze", "2.1 kg", PULL),
    _tested("2027-03-21", "43.6 kg", "2.5 %"),
    _watered("2027-03-21", "400 g"),
    _cast("2027-04-03", "aluminium", "1.6 kg", HOOKS),
    _cast("2027-04-17", "grey_iron", "2.4 kg", BAR),
    _crust("2027-04-17", "600 g"),
    _tested("2027-04-18", "41.9 kg", "2.1 %"),
    _watered("2027-04-18", "500 g"),
    _cast("2027-05-08", "aluminium", "1.5 kg", HOOKS),
    _cast("2027-05-22", "tin_bronze", "2.0 kg", PULL),
    _tested("2027-05-23", "41.1 kg", "2.3 %", washed_pct_dry="9.4 %", clay_pct_dry="6.8 %"),
)
"""From the first mix to the sixth cast."""
SUMMER: tuple[Entry, ...] = (
    *SPRING,
    _put_back("2027-05-23", "season_restore"),
    _cast("2027-06-12", "aluminium", "1.6 kg", HOOKS),
    _cast("2027-06-26", "grey_iron", "2.3 kg", BAR),
    _crust("2027-06-26", "500 g"),
    _tested("2027-06-27", "43.1 kg", "2.4 %"),
    _watered("2027-06-27", "450 g"),
    {
        "kind": "joined",
        "at": "2027-07-03",
        "joined_kg": "5 kg",
        "moisture_pct_wet": "1 %",
        "clay_pct_dry": "4 %",
        "dead_fines_pct_dry": "25 %",
    },
    _cast("2027-07-17", "aluminium", "1.5 kg", HOOKS),
    _cast("2027-08-07", "tin_bronze", "2.1 kg", PULL),
    _tested("2027-08-08", "46.9 kg", "2.2 %"),
    _watered("2027-08-08", "600 g"),
    _cast("2027-09-04", "grey_iron", "2.4 kg", BAR),
    _crust("2027-09-04", "550 g"),
    _cast("2027-09-18", "aluminium", "1.5 kg", HOOKS),
    _tested("2027-09-19", "45.4 kg", "2.2 %", washed_pct_dry="12.1 %", clay_pct_dry="6.9 %"),
)
"""From the sixth cast to the twelfth."""
AUTUMN: tuple[Entry, ...] = (
    *SUMMER,
    {
        "kind": "discarded",
        "at": "2027-09-19",
        "discard_kg": From(ask="season_dilute", word="discard_kg"),
        "discarded_as": "as_it_lies",
    },
    _put_back("2027-09-19", "season_dilute"),
)
"""With the dilution before the winter."""


def _state(ask: str) -> dict[str, From]:
    """The heap as an answer of its book shows it."""
    words = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")
    return {word: From(ask=ask, word=word) for word in words}


PRICES = {"sand_bag_kg": "25 kg", "sand_bag_price": "7.20", "clay_bag_kg": "10 kg", "clay_bag_price": "16"}
TARGETS = {"target_clay_pct_dry": "7.5 %", "target_kg": "45 kg"}
HABIT = {"clay_burnt_share": "0.02", "new_sand_share": "0.02", "casts": "24"}

ASKS: Mapping[str, Ask] = {
    "season_spring": Ask(
        job="heap",
        inputs={"book": Book(entries=SPRING), "now": "2027-05-23T18:00Z"},
        story="The heap after six casts, with the wash and the clay test of May.",
    ),
    "season_restore": Ask(
        job="rebond",
        inputs={**_state("season_spring"), **TARGETS},
        story="What the heap needs after six casts.",
    ),
    "season_summer": Ask(
        job="heap",
        inputs={"book": Book(entries=SUMMER), "now": "2027-09-19T18:00Z"},
        story="The heap after twelve casts, with the wash and the clay test of September.",
    ),
    "season_ahead": Ask(
        job="forecast",
        inputs={
            "clay_pct_dry": "7.5 %",
            **HABIT,
            "make_up": "yes",
            "dead_clay_pct_dry": From(ask="season_summer", word="dead_clay_pct_dry"),
            "heap_kg": "45 kg",
        },
        story="Another two dozen casts like these.",
    ),
    "season_ways": Ask(
        job="season",
        inputs={
            "heap_kg": From(ask="season_summer", word="heap_kg"),
            "clay_pct_dry": "7.5 %",
            **HABIT,
            "dead_fines_pct_dry": From(ask="season_summer", word="dead_fines_pct_dry"),
            **PRICES,
        },
        story="Dump, dilute or keep: the next two dozen casts.",
    ),
    "season_dilute": Ask(
        job="rebond",
        inputs={**_state("season_summer"), **TARGETS, "dead_fines_limit_pct_dry": "3.5 %", **PRICES},
        story="The hall dilutes before the winter, down to 3.5 % of dead fines.",
    ),
    "season_autumn": Ask(
        job="heap",
        inputs={"book": Book(entries=AUTUMN), "now": "2027-09-20T09:00Z"},
        story="The heap as it goes into the winter.",
    ),
}
