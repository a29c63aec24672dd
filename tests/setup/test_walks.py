"""The two walks: each box shows what the job answers to the figures in the box, and no sand is lost from one step to the next."""

from __future__ import annotations

import json
import re
from functools import cache
from html import unescape
from itertools import accumulate
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest

import draw
import draw_handbook
import draw_season
import hooks
import menu
from sandmix.doors.facade import call

FOLDER = Path(menu.__file__).parent / "docs/handbook"
MASS = re.compile(r"^([\d.]+) (kg|g)$")
CHANGE = re.compile(r"^(?:sand grains|live clay|dead clay|other fines|organics|water) ([+−][\d.]+) kg$")


@cache
def boxes(walk: str) -> dict[str, str]:
    """Each box of a walk as it is drawn, by the name of its question."""
    page = hooks.with_drawn((FOLDER / f"{walk}.md").read_text("utf-8"))
    return {found[1]: found[0] for found in re.finditer(r'<section .*?data-walked="(\w+)".*?</section>', page)}


BOXES = [(walk, name) for walk in ("two-bags", "season") for name in boxes(walk)]


def shown_inputs(box: str) -> dict[str, str]:
    """What a box shows as typed; the entries of a book as one text."""
    found = {word: unescape(value) for word, value in re.findall(r'data-typed="(\w+)" data-value="([^"]*)"', box)}
    entries = [json.loads(unescape(entry)) for entry in re.findall(r'data-entry="([^"]*)"', box)]
    return found | ({"book": json.dumps(entries)} if entries else {})


@cache
def answered(walk: str, name: str) -> dict[str, Any]:
    """What the job of a box answers to what the box shows, and the inputs."""
    box = boxes(walk)[name]
    address = re.search(r'href="([^"]*)" data-case', box)
    assert address
    job = urlsplit(unescape(address[1])).path.strip("./").split("/")[-1]
    inputs = shown_inputs(box)
    found: dict[str, Any] = json.loads(call(json.dumps({"job": job, "inputs": inputs})))
    return found | {"inputs": inputs}


def kg(text: str) -> float:
    """A mass in kg."""
    found = MASS.match(text)
    if text == "none":
        return 0.0
    assert found, text
    return float(found[1]) / (1000 if found[2] == "g" else 1)


def masses(walk: str, name: str, *words: str) -> float:
    """The sum of some masses of an answer, as they are shown."""
    shown = {row["word"]: row["text"] for row in answered(walk, name)["shown"]}
    return sum(kg(shown[word]) for word in words)


@pytest.mark.parametrize(("walk", "name"), BOXES)
def test_a_box_shows_what_its_job_answers_to_what_the_box_shows(walk: str, name: str) -> None:
    box, answer = boxes(walk)[name], answered(walk, name)
    assert answer["ok"]
    told = re.search(r'data-headline="?[^>]*>([^<]*)</p>|data-headline>([^<]*)</p>', box)
    assert told
    assert unescape(told[1] or told[2]) == answer["headline"]
    assert f'data-slot="state">{answer["state"]["word"]}</b>' in box
    shown = {(row["text"], row.get("range", "")) for row in answer["shown"]}
    rows = re.findall(r'data-slot="text">([^<]*)</b><small data-slot="range">([^<]*)</small>', box)
    assert {(unescape(text), unescape(range_)) for text, range_ in rows} <= shown


@pytest.mark.parametrize(("walk", "name"), BOXES)
def test_the_words_of_a_box_are_what_was_typed_and_its_link_gives_the_same(walk: str, name: str) -> None:
    box, inputs = boxes(walk)[name], answered(walk, name)["inputs"]
    words = draw.description()["words"]
    for word, value, seen in re.findall(r'data-typed="(\w+)" data-value="([^"]*)"><dt>.*?</dt><dd>(.*?)</dd>', box):
        labels = {choice["value"]: choice["label"] for choice in words[word].get("choices", ())}
        assert unescape(seen) == labels.get(value, unescape(value))
    fragment = urlsplit(unescape(re.findall(r'href="([^"]*)" data-case', box)[0])).fragment
    assert dict(parse_qsl(fragment)) == ({} if "book" in inputs else inputs)


def test_the_new_sand_weighs_what_goes_into_it() -> None:
    made = kg(answered("two-bags", "bags_mix")["inputs"]["make_kg"])
    assert masses("two-bags", "bags_mix", "sand_kg", "clay_kg", "water_kg") == pytest.approx(made, abs=0.02)
    damped = masses("two-bags", "bags_mix", "sand_kg", "clay_kg", "first_water_kg")
    assert kg(answered("two-bags", "bags_temper")["inputs"]["heap_kg"]) == pytest.approx(damped, abs=0.02)
    ready = damped + masses("two-bags", "bags_temper", "first_water_kg")
    assert kg(answered("two-bags", "bags_open")["inputs"]["sand_kg"]) == pytest.approx(ready, abs=0.02)


def test_the_bags_hold_what_is_weighed_in_and_what_is_left() -> None:
    answer = answered("two-bags", "bags_shopping")
    for stuff in ("sand", "clay"):
        bags = answer["result"][f"{stuff}_bags"] * kg(answer["inputs"][f"{stuff}_bag_kg"])
        left = masses("two-bags", "bags_shopping", f"{stuff}_left_kg")
        assert masses("two-bags", "bags_mix", f"{stuff}_kg") + left == pytest.approx(bags, abs=0.05)


def test_the_book_of_the_first_cast_has_what_went_in_less_what_went_out() -> None:
    answer = answered("two-bags", "bags_heap")
    mixed, watered, poured, discarded = json.loads(answer["inputs"]["book"])
    went_in = sum(kg(mixed[word]) for word in ("sand_kg", "clay_kg", "water_kg")) + kg(watered["water_kg"])
    went_out = kg(poured["water_driven_kg"]) + kg(discarded["discard_kg"])
    assert masses("two-bags", "bags_heap", "heap_kg") == pytest.approx(went_in - went_out, abs=0.01)


@pytest.mark.parametrize(
    ("walk", "name"), [("two-bags", "bags_rebond"), ("season", "season_restore"), ("season", "season_dilute")]
)
def test_a_restored_heap_weighs_what_it_was_and_what_was_added_less_what_was_thrown_away(walk: str, name: str) -> None:
    answer = answered(walk, name)
    result, before = answer["result"], kg(answer["inputs"]["heap_kg"])
    added = sum(result[word] for word in ("sand_kg", "clay_kg", "water_kg"))
    assert before + added - result["discard_kg"] == pytest.approx(result["heap_after_kg"], abs=1e-6)


@pytest.mark.parametrize("name", ["season_restore", "season_dilute"])
def test_what_an_answer_says_to_add_is_what_the_book_of_the_season_adds(name: str) -> None:
    shown = {row["word"]: row["text"] for row in answered("season", name)["shown"]}
    said = {word: shown[word] for word in ("sand_kg", "clay_kg", "water_kg")}
    added = [entry for entry in season_entries() if entry["kind"] == "added"]
    assert said in [{word: entry[word] for word in said} for entry in added]


def season_entries() -> list[dict[str, str]]:
    """The entries in the table of the season."""
    table = draw_season.season_table("season_autumn")
    return [json.loads(unescape(entry)) for entry in re.findall(r'data-entry="([^"]*)"', table)]


def test_each_row_of_the_season_has_the_mass_that_its_entries_add_up_to() -> None:
    """Between two tests the job counts a little water as dried off under the lid; the next test settles it."""
    table = draw_season.season_table("season_autumn")
    rows = re.findall(r"</th></tr><tr><td>([\d.]+)</td><td>([\d.]+)</td><td>([\d.]+)</td>", table)
    inputs = {"book": json.dumps(season_entries()), "now": "2027-09-20T09:00Z"}
    timeline = json.loads(call(json.dumps({"job": "heap", "inputs": inputs})))["timeline"]
    changes = [
        sum(float(found[1].replace("−", "-")) for text in entry["lines"] if (found := CHANGE.match(text)))
        for entry in timeline
    ]
    assert len(rows) == len(timeline)
    for (mass, _, _), total, entry in zip(rows, accumulate(changes), timeline, strict=True):
        dried_since_the_last_test = 0.0 if entry["kind"] in ("mixed", "measured", "tempered", "added") else 0.15
        assert total - dried_since_the_last_test - 0.06 <= float(mass) <= total + 0.06


def test_the_gift_of_july_brings_more_dead_fines_than_all_casts_together() -> None:
    inputs = {"book": json.dumps(season_entries()), "now": "2027-09-20T09:00Z"}
    timeline = json.loads(call(json.dumps({"job": "heap", "inputs": inputs})))["timeline"]

    def dead(kind: str) -> float:
        lines = [line for entry in timeline if entry["kind"] == kind for line in entry["lines"]]
        found = (re.match(r"^(?:dead clay|other fines) \+([\d.]+) kg$", line) for line in lines)
        return sum(float(each[1]) for each in found if each)

    assert dead("joined") > dead("poured") > 0


def test_the_file_of_the_season_is_a_book_that_the_library_reads() -> None:
    whole = json.loads(draw_handbook.book())
    inputs = {"book": draw_handbook.book(), "now": "2027-09-20T09:00Z"}
    read = json.loads(call(json.dumps({"job": "heap", "inputs": inputs})))
    assert read["ok"]
    assert len(read["timeline"]) == len(whole["events"]) == len(season_entries())
