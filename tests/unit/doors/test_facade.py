"""The JSON door: JSON in, JSON out, for any text."""

import json
import math
import re
import time

import pytest

from sandmix.book.book import VERSION
from sandmix.doors import facade
from sandmix.jobs import JOBS
from sandmix.language import texts
from sandmix.vocabulary import WORDS

EXAMPLES = [(job.name, dict(job.example)) for job in JOBS.values()]

CHARTED = ("burnout", "heap", "tin", "dry", "forecast", "facing", "season", "readings", "fineness", "match")


def called(text, uploads=None):
    return json.loads(facade.call(text, uploads))


@pytest.fixture(params=EXAMPLES, ids=lambda example: example[0])
def example(request, ask):
    return ask(request.param[0], **request.param[1])


def test_every_example_is_answered_in_full(example):
    assert example["ok"]
    assert set(example) >= {
        "job",
        "headline",
        "result",
        "doubt",
        "remarks",
        "cautions",
        "working",
        "charts",
        "drawings",
        "todo",
        "checklist",
        "timers",
        "sources",
        "state",
        "lead",
        "shown",
        "next",
    }
    assert example["headline"].endswith(".")
    assert example["state"]["tone"] in ("go", "care", "stop", "plain")
    assert example["working"]


def check_panel(panel):
    assert {"y", "series", "limits", "band"} <= set(panel)
    assert set(panel["y"]) == {"label", "unit", "scale"}
    assert panel["y"]["scale"] in ("linear", "log")
    for line in (*panel["series"], *panel["band"]):
        assert set(line) == {"label", "points", "shape", "ends", "texts"}
        assert line["shape"] in ("line", "steps", "bars", "points", "marks")
        assert all(len(point) == 2 for point in line["points"])
        assert len(line["ends"]) in (0, len(line["points"]))
        assert len(line["texts"]) in (0, len(line["points"]))
    assert all(limit["axis"] in ("x", "y") for limit in panel["limits"])


def test_charts_lists_and_timers_are_plain_data_of_one_shape(example):
    """Empty if a job has none; otherwise each entry is complete."""
    for chart in example["charts"]:
        assert set(chart) == {"name", "title", "sentence", "x", "y", "series", "limits", "band", "below"}
        assert chart["x"]["scale"] in ("linear", "log", "time")
        assert set(chart["x"]) == {"label", "unit", "scale"}
        for panel in (chart, *chart["below"]):
            check_panel(panel)
    for check in example["checklist"]:
        assert check["tone"] in ("go", "care", "stop")
        assert check["text"].endswith(".")
    assert set(example["ways_out"]) <= set(example["remarks"])
    for row in example["todo"]:
        assert set(row) == {"text", "amount"}
        assert row["text"]
    for timer in example["timers"]:
        assert set(timer) == {"name", "label", "after_s", "text", "latest_s"}
        assert timer["after_s"] >= 0
        assert timer["latest_s"] is None or timer["after_s"] <= timer["latest_s"]
    assert all(drawing.startswith("<svg ") for drawing in example["drawings"].values())


def test_only_some_jobs_have_charts_and_timers(example):
    assert bool(example["checklist"]) is (example["job"] in ("pour", "bench"))
    assert bool(example["timers"]) is (example["job"] in ("mix", "temper", "burnout", "tin", "dry", "rebond"))
    assert bool(example["charts"]) is (example["job"] in CHARTED)
    assert bool(example["timeline"]) is (example["job"] == "heap")


def test_the_lead_is_one_of_the_answers(example):
    assert example["lead"]["word"] in example["result"]
    assert example["lead"]["text"]
    assert example["lead"]["sentence"] == example["headline"]


def test_every_answer_is_shown(example):
    assert [row["word"] for row in example["shown"]] == list(example["result"])
    assert all(row["label"] and row["text"] for row in example["shown"])


def test_a_band_contains_its_figure(example):
    for word, (low, high) in example["doubt"].items():
        assert low <= example["result"][word] + 1e-9
        assert high >= example["result"][word] - 1e-9


def test_a_next_step_is_a_job_that_accepts_its_inputs(example, ask):
    for link in example["next"]:
        answer = ask(link["job"], **link["inputs"])
        assert answer["ok"] or not {problem["word"] for problem in answer["problems"]} & link["inputs"].keys()


def test_no_text_promises_that_something_is_harmless(example):
    assert not re.search(r"\bsafe(ly)?\b", json.dumps(example), re.IGNORECASE)


@pytest.mark.parametrize(("job", "inputs"), EXAMPLES)
def test_leaving_out_the_ranges_changes_nothing_else(job, inputs):
    told = called(json.dumps({"job": job, "inputs": inputs}))
    bare = called(json.dumps({"job": job, "inputs": inputs, "doubt": False}))
    for part in ("doubt", "uncertainty", "surer"):
        told.pop(part)
    assert bare == told


NOT_REQUESTS = [
    "",
    "{",
    "nonsense",
    "[]",
    "7",
    "null",
    '"temper"',
    '{"a": NaN}',
    '{"a": Infinity}',
    "[" * 100_000,
    "{" * 100_000,
    '{"a":' * 50_000,
    "1" * 5000,
    "\x00",
    "\ud800",
]


@pytest.mark.parametrize("text", NOT_REQUESTS, ids=range(len(NOT_REQUESTS)))
def test_anything_but_a_request_is_refused_in_words(text):
    answer = called(text)
    assert answer["ok"] is False
    assert "fault" not in answer
    assert answer["problems"][0]["message"].startswith("Request: ")


WRONG = [
    ({}, ["job"]),
    ({"job": None}, ["job"]),
    ({"job": 7}, ["job"]),
    ({"job": ["temper"]}, ["job"]),
    ({"job": "temper", "inputs": []}, ["inputs"]),
    ({"job": "none", "inputs": 7}, ["job", "inputs"]),
]


@pytest.mark.parametrize(("request_", "words"), WRONG)
def test_a_wrong_request_names_what_is_wrong(request_, words):
    answer = called(json.dumps(request_))
    assert [problem["word"] for problem in answer["problems"]] == words
    assert all(set(problem) == {"word", "given", "allowed", "message"} for problem in answer["problems"])


def test_more_than_8_mb_of_text_is_refused():
    assert "longer than" in called(" " * 8_000_001)["problems"][0]["message"]


class Heavy(bytes):
    """Bytes that claim to be many more than they are."""

    def __len__(self) -> int:
        return 256_000_001


def test_more_than_256_mb_of_uploads_is_refused():
    assert "larger than" in called('{"job": "describe"}', {"mesh": Heavy()})["problems"][0]["message"]
    assert called('{"job": "describe"}', {"mesh": b"few"})["ok"]


def test_a_fault_of_the_program_is_reported_as_such(monkeypatch):
    def broken(_):
        raise ZeroDivisionError

    monkeypatch.setattr(facade, "_answer", broken)
    answer = called('{"job": "describe"}')
    assert answer["ok"] is False
    assert answer["fault"]


def test_a_lack_of_memory_is_not_reported_as_a_fault(monkeypatch):
    def full(*_):
        raise MemoryError

    monkeypatch.setattr(facade, "_answer", full)
    answer = called('{"job": "describe"}')
    assert answer["problems"][0]["message"] == (
        "Request: it needs more memory than there is. Send a file with fewer facets."
    )
    assert "fault" not in answer


def test_only_false_leaves_the_ranges_out():
    ask = {"job": "temper", "inputs": {"moisture_pct_wet": 3}}
    assert "doubt" not in called(json.dumps(ask | {"doubt": False}))
    assert "doubt" in called(json.dumps(ask | {"doubt": None}))


CONVERTED = [
    ("heap_kg", {"value": "25", "unit": "kg"}, "lb", "55.1156"),
    ("heap_kg", "55 lb", "kg", "24.9476"),
    ("heap_kg", {"value": "2,5", "unit": "kg"}, "g", "2500"),
    ("heap_kg", {"value": "2000", "unit": "kg"}, "g", "2000000"),
    ("flask_length_mm", "12 in", "mm", "304.8"),
    ("pattern_volume_cm3", "600", "in3", "36.6142"),
]


@pytest.mark.parametrize(("word", "given", "to", "text"), CONVERTED)
def test_switching_units_converts_the_number_in_the_box(ask, word, given, to, text):
    """By hand: 25 / 0.45359237 = 55.11557; 55 * 0.45359237 = 24.94758; 600 / 16.387064 = 36.61424."""
    assert ask("convert", word=word, given=given, to=to) == {"ok": True, "job": "convert", "text": text}


def test_converting_there_and_back_gives_the_same_number(ask):
    for number in ("25", "0.5", "17.3", "249"):
        pounds = ask("convert", word="heap_kg", given={"value": number, "unit": "kg"}, to="lb")["text"]
        assert float(
            ask("convert", word="heap_kg", given={"value": pounds, "unit": "lb"}, to="kg")["text"]
        ) == pytest.approx(float(number), rel=2e-6)


@pytest.mark.parametrize(
    "inputs",
    [
        {},
        {"word": "metal"},
        {"word": ["x"]},
        {"word": "heap_kg"},
        {"word": "heap_kg", "given": 5, "to": "mm"},
        {"word": "heap_kg", "given": 5, "to": ["g"]},
        {"word": "heap_kg", "given": "x", "to": "g"},
        {"word": "heap_kg", "given": None, "to": "g"},
    ],
)
def test_anything_that_cant_be_converted_is_refused_in_words(ask, inputs):
    answer = ask("convert", **inputs)
    assert answer["ok"] is False
    assert "fault" not in answer


def test_all_numbers_are_finite(example):
    numbers = [value for value in example["result"].values() if isinstance(value, float)] + [
        end for band in example["doubt"].values() for end in band
    ]
    assert all(math.isfinite(number) for number in numbers)


def test_many_shallow_brackets_are_not_nested_deeply():
    answer = json.loads(facade.call(json.dumps({"job": "temper", "inputs": {"heap_kg": [[]] * 40}})))
    assert [problem["word"] for problem in answer["problems"]][:1] == ["heap_kg"]


MIXED = {"kind": "mixed", "at": "2026-05-02", "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}


def recorded(**inputs):
    return called(json.dumps({"job": "record", "inputs": inputs}))


def test_an_event_is_recorded_with_an_id_its_outcome_and_a_sentence():
    answer = recorded(event=MIXED)
    assert answer["ok"]
    assert answer["event"]["id"] == "e1"
    assert answer["event"]["outcome"]["change"]["water_kg"] == pytest.approx(1.05)
    assert answer["headline"] == "In the book: new sand was mixed in."
    assert answer["remarks"] == answer["event"]["outcome"]["said"]


def test_recorded_events_make_the_heap(ask):
    book = []
    for event in (MIXED, {"kind": "tempered", "at": "2026-05-03", "water_kg": 1}):
        book.append(recorded(book=book, event=event)["event"])
    assert ask("heap", book=book)["result"]["heap_kg"] == pytest.approx(31)
    book.append(recorded(book=book, event={"kind": "undone", "at": "2026-05-04", "of": "e2"})["event"])
    assert ask("heap", book=book)["result"]["heap_kg"] == pytest.approx(30)


@pytest.mark.parametrize("event", [None, [], "mixed", 5, {}, {"kind": "mixed"}, {**MIXED, "kind": []}])
def test_anything_but_an_event_is_refused_in_words(event):
    answer = recorded(event=event)
    assert not answer["ok"]
    assert "fault" not in answer
    assert all(problem["message"] for problem in answer["problems"])


def test_problems_of_an_event_come_with_its_words():
    answer = recorded(event={"kind": "joined", "at": "2026-05-02", "joined_kg": "a cup"})
    assert [problem["word"] for problem in answer["problems"]] == ["joined_kg", "moisture_pct_wet", "clay_pct_dry"]


def test_an_event_names_what_is_wrong_between_two_fields_beside_a_wrong_third():
    event = {"kind": "measured", "at": "2026-05-02", "heap_kg": "lots", "sample_wet_g": 500, "sample_dry_g": 520}
    assert [problem["word"] for problem in recorded(event=event)["problems"]] == ["heap_kg", "sample_dry_g"]


def test_nothing_is_recorded_without_a_book():
    assert not recorded(book={"format": "sandmix book", "version": VERSION + 1, "events": []}, event=MIXED)["ok"]
    assert not recorded(book="nonsense", event=MIXED)["ok"]


def test_a_text_with_unclosed_quotes_is_refused_quickly():
    """A third of a megabyte. A search that started again at each quote would take minutes."""
    started = time.perf_counter()
    answer = called("{}" * 33 + '"' + '\\"' * 160_000)
    assert not answer["ok"]
    assert time.perf_counter() - started < 10


@pytest.mark.parametrize(("depth", "deep"), [(32, False), (33, True)])
def test_only_brackets_outside_of_texts_are_counted(depth, deep):
    brackets = "[" * depth
    assert texts.is_deeper(brackets + "]" * depth) is deep
    assert not texts.is_deeper(json.dumps([brackets * 9, '\\"' + brackets, "]"]))


def test_a_book_of_any_version_is_read_in_this_version(ask):
    answer = ask("read_book", book=[MIXED])
    assert (answer["ok"], answer["job"], answer["book"]["version"], answer["book"]["name"]) == (
        True,
        "read_book",
        VERSION,
        "The heap",
    )
    assert answer["book"]["events"][0]["outcome"]["change"]["water_kg"] == pytest.approx(1.05)
    assert ask("read_book", book=answer["book"])["book"] == answer["book"]


@pytest.mark.parametrize("given", [{}, {"book": 5}, {"book": [{"kind": "melted"}]}, {"book": "[]"}])
def test_anything_but_a_book_is_refused(ask, given):
    assert not ask("read_book", **given)["ok"]


@pytest.mark.parametrize("text", [None, 5, b"{}", [], {}])
def test_a_request_that_is_no_text_is_refused_in_words(text):
    answer = called(text)
    assert not answer["ok"]
    assert "isn't text" in answer["problems"][0]["message"]
    assert "fault" not in answer


@pytest.mark.parametrize("uploads", [5, {"shape": 5}, [b"solid"]])
def test_uploads_that_are_not_files_are_refused_in_words(uploads):
    answer = called("{}", uploads)
    assert answer["problems"][0]["message"].startswith("Request: they aren't names with their bytes")


LOTS = [{"kg": 20, "moisture_pct_wet": 3, "clay_pct_dry": 6}]
WIDE = [
    *(
        (job, inputs | {"clay_activity_pct": activity})
        for job, inputs in (
            ("blend", {"lots": LOTS, "target_clay_pct_dry": 7}),
            ("rebond", {"heap_kg": 40, "moisture_pct_wet": 3, "clay_pct_dry": 5, "target_clay_pct_dry": 7}),
            ("mix", {"make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.4}),
        )
        for activity in ("12", "30 ± 25 %", "50 ± 45 %")
    ),
    (
        "burnout",
        {"modulus_mm": 5, "casting_volume_cm3": 380, "sand_kg": "28 ± 28 kg", "clay_pct_dry": 7, "moisture_pct_wet": 3},
    ),
    ("mix", {"clay_on_hand_kg": 5, "clay_pct_dry": "4 ± 4", "moisture_pct_wet": 3.4}),
    ("bench", {"test": "spray", "strokes": "157 ± 157", "sprayed_g": 100}),
]


@pytest.mark.parametrize(("job", "inputs"), WIDE)
def test_a_range_that_reaches_where_there_is_no_answer_is_no_fault(ask, job, inputs):
    answer = ask(job, **inputs)
    assert "fault" not in answer
    assert answer["ok"]


@pytest.mark.parametrize("word", ["mean_um", "surface_cm2_g"])
def test_a_word_with_a_unit_of_its_own_converts_to_that_alone(word):
    unit = WORDS[word].unit
    request = {"job": "convert", "inputs": {"word": word, "given": f"50 {unit}", "to": unit}}
    assert called(json.dumps(request)) == {"ok": True, "job": "convert", "text": "50"}
    request["inputs"]["to"] = "mm"
    assert called(json.dumps(request))["problems"][0]["allowed"] == unit
