"""What the properties share: asking a job, and inputs drawn from the words themselves."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import strategies as st

from sandmix.facade import call

DESCRIBED = json.loads(call('{"job": "describe"}'))


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
    return st.floats(*(word["usual"] or (word["low"], min(word["high"], 100))))


def _any(word: dict[str, Any]) -> st.SearchStrategy[Any]:
    if word["kind"] == "choice":
        return _usual(word)
    return st.one_of(_usual(word), st.floats(word["low"], word["high"]), st.sampled_from([word["low"], word["high"]]))


@st.composite
def _lawful(draw: st.DrawFn, name: str) -> dict[str, Any]:
    drawn = {}
    for part in _job(name)["asks"]:
        if part["required"] or draw(st.booleans()):
            drawn[part["word"]] = draw(_any(DESCRIBED["words"][part["word"]]))
    return drawn


@st.composite
def _sensible(draw: st.DrawFn, name: str) -> dict[str, Any]:
    job = _job(name)
    ways = [draw(st.sampled_from(way["options"]))["words"] for way in job["ways"]]
    said = {word for words in ways for word in words}
    left = {word for way in job["ways"] for option in way["options"] for word in option["words"]} - said
    needed = said | set(job["example"]) - left
    drawn = {}
    for part in job["asks"]:
        word = part["word"]
        if word in needed or (word not in left and (part["required"] or draw(st.booleans()))):
            drawn[word] = draw(_usual(DESCRIBED["words"][word]))
    if {"sample_wet_g", "sample_dry_g"} <= drawn.keys():
        drawn["sample_dry_g"] = drawn["sample_wet_g"] * draw(st.floats(0.9, 1))
    if {"clay_pct_wet", "sand_moisture_pct_wet"} <= drawn.keys():
        drawn["moisture_pct_wet"] = draw(st.floats(2, 6))
    return drawn


@pytest.fixture(scope="session")
def lawful() -> Callable[[str], st.SearchStrategy[dict[str, Any]]]:
    """Inputs of a job, each word anywhere within its own bounds: together they may be refused."""
    return _lawful


@pytest.fixture(scope="session")
def sensible() -> Callable[[str], st.SearchStrategy[dict[str, Any]]]:
    """Inputs of a job, each word in its usual range, one way of saying each thing: nearly all are answered."""
    return _sensible


@pytest.fixture(scope="session")
def call_bare() -> Callable[..., dict[str, Any]]:
    """Ask a job without doubt."""

    def call_bare(job: str, inputs: dict[str, object]) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs, "doubt": False})))

    return call_bare
