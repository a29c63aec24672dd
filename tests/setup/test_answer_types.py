"""The types of the library's answers: they follow from what it answers, and a broken promise stops the check."""

from __future__ import annotations

from typing import Any

import pytest

import answer_types
from answer_types import DOCUMENTED, NoType, Types, check_promises


def promised(**changed: Any) -> dict[str, Any]:
    whole: dict[str, Any] = dict.fromkeys(DOCUMENTED, "") | {"job": "temper", "state": {"word": "go", "tone": "go"}}
    return whole | changed


def test_the_types_name_every_job_and_every_promised_part_of_an_answer() -> None:
    text = answer_types.types()
    jobs = [job["name"] for job in answer_types.ask("describe", {})["jobs"]]
    assert all(f'"{job}"' in text for job in jobs)
    answer = next(line for line in text.splitlines() if line.startswith("export type Answer ="))
    assert all(f'"{part}"' in answer for part in DOCUMENTED)
    assert '"doubt"?:' in answer, "an answer without its ranges has no doubt"


def test_an_answer_that_lacks_what_the_door_promises_is_named() -> None:
    broken = promised()
    del broken["headline"]
    with pytest.raises(NoType, match="temper lacks headline"):
        check_promises([promised(), broken])


def test_a_tone_that_no_page_knows_is_named() -> None:
    with pytest.raises(NoType, match="blue"):
        check_promises([promised(state={"word": "go", "tone": "blue"})])


def test_what_only_some_samples_have_may_be_missing() -> None:
    assert Types().of([{"a": 1, "b": "x"}, {"a": None}], "", inside="") == '{ "a": number | null; "b"?: string; }'


def test_pairs_of_numbers_are_pairs_and_other_lists_are_lists() -> None:
    assert Types().of([[1, 2.5], [3, 4]], "", inside="") == "[number, number]"
    assert Types().of([[1, 2, 3], [1, 2]], "", inside="") == "number[]"
    assert Types().of([["a", 1]], "", inside="") == "(string | number)[]"


def test_objects_whose_keys_are_data_take_any_key() -> None:
    assert Types().of([{"heap_kg": 1, "verdict": "go"}], "result", inside="") == "Record<string, number | string>"


def test_a_part_that_no_answer_fills_is_named() -> None:
    with pytest.raises(NoType, match="timers"):
        Types().of([[]], "timers", inside="Answer")
