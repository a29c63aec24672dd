"""The list of quantities, the list of sources and the links of the home page, drawn from the library's description."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import check_list
import draw
import draw_checks
from draw_fields import figure, with_unit
from draw_tag import Markup, join, symbol, tag


def quantities() -> Markup:
    """Every word, chapter by chapter, in the library's order."""
    words, chapters = draw.description()["words"], draw.description()["chapters"]
    return join(*(_chapter(title, [words[name] for name in names]) for title, names in chapters.items()))


def _chapter(title: str, words: list[Mapping[str, Any]]) -> Markup:
    return join(tag("h2", title), *(_entry(word) for word in words))


def bibliography() -> Markup:
    """Every source under its key, with how many checks compare with it; then those that only the tests use."""
    sources = draw.description()["sources"]
    of_tests = check_list.own_sources()
    return join(
        _sources({key: source["citation"] for key, source in sources.items()}),
        tag("h2", "Sources of checks alone"),
        _sources({key: source.citation for key, source in of_tests.items()}),
    )


def first_jobs() -> Markup:
    """The links of the home page for a person without a heap."""
    return tag("ul", *(_link(draw.job_named(job)) for job in FIRST), class_="doors first")


def tools() -> Markup:
    """All jobs on the home page, group by group as in the menu."""
    return join(*(_group(group["group"], group["label"]) for group in draw.description()["groups"]))


def _group(group: str, label: str) -> Markup:
    drawn = []
    for job in (job for job in draw.description()["jobs"] if job["group"] == group):
        drawn.append(_link(job))
        if job["name"] == RIDDLED_AFTER:
            drawn.append(_riddle())
    return join(tag("h2", label), tag("ul", *drawn, class_="doors tools", data_group=group))


FIRST = ("mix", "shopping")
RIDDLED_AFTER = "burnout"
TONES = {"pour": "stop"}


def _riddle() -> Markup:
    """The one step of the day that needs no calculation."""
    caution = "Keep the sand damp, never sweep dry, and wear a respirator that fits: the dust is silica."
    words = tag("span", tag("b", "Riddle"), tag("small", symbol("care"), " ", caution), class_="door-words")
    return tag("li", tag("div", words, class_="door still", data_step="Riddle"))


def _link(job: Mapping[str, Any]) -> Markup:
    """The link to a job: its name, its question, its caution, and its last answer."""
    name = job["name"]
    state = tag("span", class_="door-state", data_door_state=name, hidden=True)
    caution = (
        tag("small", symbol(TONES.get(name, "care")), " ", job["mind"], class_="door-caution") if job["mind"] else None
    )
    words = tag("span", tag("b", job["short"]), tag("small", job["title"]), caution, state, class_="door-words")
    return tag("li", tag("a", words, symbol("on"), class_="door", href=f"{job['page']}/", data_door=name))


def heap_figures() -> Markup:
    """The figures of the heap in use on the home page, each with its basis and how well it is measured."""
    return tag(
        "dl", *(_heap_figure(name) for name in ("heap_kg", "moisture_pct_wet", "clay_pct_dry")), class_="heap-figures"
    )


def _heap_figure(name: str) -> Markup:
    word = draw.description()["words"][name]
    title = tag("dt", word["label"], " ", tag("small", word["basis"]))
    value = tag("dd", tag("b", "not known", data_slot="text"), tag("small", data_slot="range"))
    return tag("div", title, value, data_figure=name, data_error=word.get("error"))


def _entry(word: Mapping[str, Any]) -> Markup:
    facts = [tag("div", tag("dt", name), tag("dd", value)) for name, value in _facts(word) if value]
    title = tag("h3", word["label"], " ", tag("code", word["name"]), id=word["name"])
    return tag("section", title, tag("p", word["help"]), tag("dl", *facts, class_="facts"), class_="entry")


def _facts(word: Mapping[str, Any]) -> list[tuple[str, object]]:
    source = word.get("source")
    where: object = (
        tag("a", source, href=f"../sources/#{source}") if source in draw.description()["sources"] else source
    )
    if word["kind"] == "choice":
        values = join(*(join(tag("code", c["value"]), " ", c["label"], "; ") for c in word["choices"]))
        return [("Choices", values), ("Used if left empty", word.get("default")), ("Source", where)]
    if word["kind"] == "picks":
        values = join(*(join(tag("code", c["value"]), " ", c["label"], "; ") for c in word["choices"]))
        return [("Choices (one or more)", values), ("Source", where)]
    if word["kind"] not in ("quantity", "count"):
        return [("Kind", word["kind"]), ("Source", where)]
    span, low, high, default = word.get("usual"), word.get("low"), word.get("high"), word.get("default")
    return [
        ("Unit", ", ".join(unit for unit in word.get("units") or [word.get("unit")] if unit)),
        ("Basis", word.get("basis")),
        ("Allowed", _between(low, high, word)),
        ("Usual", _between(span[0], span[1], word) if span else ""),
        ("Used if left empty", with_unit(figure(default), word.get("unit", "")) if default is not None else ""),
        ("Usual error", word.get("error")),
        ("Source", where),
    ]


def _between(low: float | None, high: float | None, word: Mapping[str, Any]) -> str:
    if low is None or high is None:
        return ""
    return f"{figure(low)} to {with_unit(figure(high), word.get('unit', ''))}"


def _sources(citations: Mapping[str, str]) -> Markup:
    return tag("dl", *(_source(key, citations[key]) for key in sorted(citations)), class_="bibliography")


def _source(key: str, citation: str) -> Markup:
    return join(
        tag("dt", tag("code", key), id=key),
        tag("dd", citation, " ", draw_checks.of_source_links(key)),
    )
