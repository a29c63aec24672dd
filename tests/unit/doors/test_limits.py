"""What the JSON door does with far too much, and with what is given twice: a bounded answer in words."""

import json
import struct

import pytest

from sandmix.doors import facade
from sandmix.doors.facade import MOST_PROBLEMS, call
from sandmix.language.texts import is_deeper
from sandmix.mesh import topology


def ask(job, inputs, uploads=None):
    return json.loads(call(json.dumps({"job": job, "inputs": inputs}), uploads))


def test_at_most_fifty_problems_are_listed_and_one_more_counts_the_rest():
    found = ask("temper", {f"word{at}": 1 for at in range(300)})["problems"]
    assert len(found) == MOST_PROBLEMS + 1
    assert "more problems" in found[-1]["message"]
    listed = len(found) - 1
    assert f"there are {300 + 1 - listed} more" in found[-1]["message"]


def test_fifty_problems_are_all_listed():
    found = ask("temper", {"heap_kg": 25, "moisture_pct_wet": 3} | {f"word{at}": 1 for at in range(50)})["problems"]
    assert [problem["word"] for problem in found] == [f"word{at}" for at in range(50)]


def test_thousands_of_unknown_inputs_make_no_large_answer():
    assert len(call(json.dumps({"job": "temper", "inputs": {f"word{at}": 1 for at in range(20_000)}}))) < 40_000


def test_thousands_of_unknown_signs_make_no_large_answer():
    assert len(call(json.dumps({"job": "diagnose", "inputs": {"symptoms": "x," * 9000}}))) < 5000


@pytest.mark.parametrize(
    "text",
    [
        '{"job": "temper", "job": "mix", "inputs": {}}',
        '{"job": "temper", "inputs": {"heap_kg": 25, "heap_kg": 52, "moisture_pct_wet": 3}}',
    ],
)
def test_a_key_that_is_given_twice_is_refused_in_words(text):
    found = json.loads(call(text))
    assert not found["ok"]
    assert "twice" in found["problems"][0]["message"]


def test_a_key_that_is_twice_in_a_document_is_refused_in_words():
    found = ask("heap", {"book": '{"events": [], "events": []}'})
    assert "“events” twice" in found["problems"][0]["message"]


def test_a_table_of_thousands_of_openings_is_refused_in_words():
    retained = {f"{at / 10000} mm": 1 for at in range(1000, 7000)}
    found = ask("fineness", {"retained": retained})["problems"]
    assert len(found) == 1
    assert "at most 100" in found[0]["message"]


def test_what_was_typed_cannot_move_a_terminals_cursor_in_a_message():
    answer = call(json.dumps({"job": "temper", "inputs": {"heap_kg": "\x9b2J5", "a\x1b[31m": 1}}))
    assert not [part for part in ("\x1b", "\x9b", "\\u001b") if part in answer]


def test_loose_facets_are_refused_in_words_before_all_their_edges_are_stored(monkeypatch):
    monkeypatch.setattr(topology, "OPEN_ALWAYS_ALLOWED", 100)
    facets = [struct.pack("<12fH", *[0.0] * 3, at, 0, 0, at + 0.5, 0, 0, at, 0.5, 0, 0) for at in range(200)]
    stl = b" " * 80 + struct.pack("<I", len(facets)) + b"".join(facets)
    found = ask("pattern", {"mesh": {"upload": "soup"}}, {"soup": stl})
    assert not found["ok"]
    assert "loose facets" in found["problems"][0]["message"]


@pytest.mark.parametrize(
    ("text", "deeper"),
    [
        ("[" * 33 + "]" * 33, True),
        ("[" * 32 + "]" * 32, False),
        ('{"a": "' + "[" * 40 + '"}', False),
        ('"\\"' + "[" * 40 + '"', False),
        ('"\\\\"' + "[" * 33, True),
        ("[]" * 1000, False),
        ("]" * 40 + "[" * 40, False),
        ('{"a":[' * 17 + "]}" * 17, True),
    ],
)
def test_brackets_in_texts_do_not_nest(text, deeper):
    assert is_deeper(text) == deeper


def test_the_most_problems_are_those_that_the_door_promises():
    assert facade.MOST_PROBLEMS == 50
