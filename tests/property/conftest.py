"""What the properties share: asking a job, and inputs drawn from the words themselves."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from typing import Any

import pytest
from effort import examples
from hypothesis import settings
from hypothesis import strategies as st

from sandmix.doors.facade import call
from sandmix.materials.metals import METALS

settings.register_profile("cheap", examples(300))
settings.load_profile("cheap")
"""For a property that does not say on how many examples it is tried."""

DESCRIBED = json.loads(call('{"job": "describe"}'))

OF_THE_RANGES = ("doubt", "uncertainty", "surer")


@pytest.fixture(scope="session")
def ask() -> Callable[..., dict[str, Any]]:
    """Ask a job by name, its inputs as keywords, and return the whole answer."""

    def ask(job: str, **inputs: object) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs})))

    return ask


def _job(name: str) -> dict[str, Any]:
    return next(job for job in DESCRIBED["jobs"] if job["name"] == name)


def _usual(word: dict[str, Any]) -> st.SearchStrategy[Any]:
    if word["kind"] == "choice":
        return st.sampled_from([choice["value"] for choice in word["choices"]])
    if word["kind"] == "picks":
        return st.lists(st.sampled_from([choice["value"] for choice in word["choices"]]), min_size=1, max_size=5)
    if word["kind"] == "text":
        return st.text("abc ", max_size=3)
    if word["kind"] == "rows":
        return _rows(word, _usual)
    if word["kind"] == "sizes":
        return _sizes(word, st.floats(5, 300))
    low, high = word["usual"] or (word["low"], min(word["high"], 100))
    usual = st.integers(low, high) if word["basis"].startswith("whole ") else st.floats(low, high)
    return st.one_of(usual, st.sampled_from(word["names"])) if word.get("names") else usual


def _sizes(word: dict[str, Any], each: st.SearchStrategy[float]) -> st.SearchStrategy[Any]:
    """Sizes as a list, or as a text with the unit behind the last."""
    sizes = st.lists(each, min_size=word["count"], max_size=word["count"])
    return st.one_of(sizes, sizes.map(lambda sizes: f"{' x '.join(f'{size:.3f}' for size in sizes)} {word['unit']}"))


def _any(word: dict[str, Any]) -> st.SearchStrategy[Any]:
    if word["kind"] in ("choice", "picks", "text"):
        return _usual(word)
    if word["kind"] == "rows":
        return _rows(word, _any)
    bounds = st.floats(word["low"], word["high"]) | st.sampled_from([word["low"], word["high"]])
    return st.one_of(_usual(word), _sizes(word, bounds) if word["kind"] == "sizes" else bounds)


def _rows(word: dict[str, Any], drawn: Callable[[dict[str, Any]], st.SearchStrategy[Any]]) -> st.SearchStrategy[Any]:
    parts = {part["name"]: drawn(part) for part in word["each"]}
    needed = {name: parts.pop(name) for name in word["needed"]}
    return st.lists(st.fixed_dictionaries(needed, optional=parts), min_size=1, max_size=4)


@st.composite
def _lawful(draw: st.DrawFn, name: str) -> dict[str, Any]:
    drawn = {}
    for part in _job(name)["asks"]:
        word = DESCRIBED["words"][part["word"]]
        if word["kind"] not in ("data", "moment") and (part["required"] or draw(st.booleans())):
            drawn[part["word"]] = draw(_any(word))
    return drawn


@st.composite
def _sensible(draw: st.DrawFn, name: str) -> dict[str, Any]:
    job = _job(name)
    ways = [draw(st.sampled_from(way["options"]))["words"] for way in job["ways"]]
    said = {word for words in ways for word in words}
    left = {word for way in job["ways"] for option in way["options"] for word in option["words"]} - said
    drawn: dict[str, Any] = {}
    for only in job["only_for"]:
        drawn[only["choice"]] = draw(_usual(DESCRIBED["words"][only["choice"]]))
        meant = {word for word, values in only["words"].items() if drawn[only["choice"]] in values}
        said, left = said | meant, left | only["words"].keys() - meant
    needed = said | set(job["example"]) - left - drawn.keys()
    for part in job["asks"]:
        word = part["word"]
        kind = DESCRIBED["words"][word]["kind"]
        if kind in ("rows", "data", "moment") and word not in needed:
            continue
        if kind in ("data", "moment"):
            drawn[word] = job["example"][word]
        elif word in needed or (word not in left | drawn.keys() and (part["required"] or draw(st.booleans()))):
            drawn[word] = draw(_usual(DESCRIBED["words"][word]))
    if {"sample_wet_g", "sample_dry_g"} <= drawn.keys():
        drawn["sample_dry_g"] = drawn["sample_wet_g"] * draw(st.floats(0.9, 1))
    if {"height_before_mm", "height_after_mm"} <= drawn.keys():
        drawn["height_after_mm"] = max(1.0, drawn["height_before_mm"] * draw(st.floats(0.3, 1)))
    if {"clay_pct_wet", "sand_moisture_pct_wet"} <= drawn.keys():
        drawn["moisture_pct_wet"] = draw(st.floats(2, 6))
    return _a_casting(draw, drawn)


def _a_casting(draw: st.DrawFn, drawn: dict[str, Any]) -> dict[str, Any]:
    """The same with sizes that one body can have, and metal that is all liquid."""
    if "pour_temp_c" in drawn:
        drawn["pour_temp_c"] = METALS[drawn.get("metal", "aluminium")].liquidus_c + draw(st.floats(10, 150))
    volume_cm3 = drawn.get("casting_volume_cm3")
    if volume_cm3 is None:
        return drawn
    if "core_volume_cm3" in drawn:
        drawn["core_volume_cm3"] = volume_cm3 * draw(st.floats(0, 2))
    if "casting_area_cm2" in drawn:
        ball_cm2 = (36 * math.pi * volume_cm3**2) ** (1 / 3)
        drawn["casting_area_cm2"] = ball_cm2 * draw(st.floats(1, 5))
        drawn.pop("modulus_mm", None)
    if "box_mm" in drawn:
        cube_mm = 10 * volume_cm3 ** (1 / 3)
        drawn["box_mm"] = [min(3000, cube_mm * draw(st.floats(1, 3))) for _ in range(3)]
    return drawn


@pytest.fixture(scope="session")
def lawful() -> Callable[[str], st.SearchStrategy[dict[str, Any]]]:
    """Inputs of a job, each word anywhere within its own bounds: together they may be refused."""
    return _lawful


@pytest.fixture(scope="session")
def sensible() -> Callable[[str], st.SearchStrategy[dict[str, Any]]]:
    """Inputs of a job, each word in its usual range, one way of saying each thing, and no lists: nearly all are answered."""
    return _sensible


@pytest.fixture(scope="session")
def call_bare() -> Callable[..., dict[str, Any]]:
    """The answer of a job without likely ranges."""

    def call_bare(job: str, inputs: dict[str, object]) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs, "doubt": False})))

    return call_bare


@pytest.fixture(scope="session")
def without_ranges() -> Callable[[dict[str, Any]], dict[str, Any]]:
    """An answer without all that comes from its likely ranges."""
    return lambda answer: {name: part for name, part in answer.items() if name not in OF_THE_RANGES}
