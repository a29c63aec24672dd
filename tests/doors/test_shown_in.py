"""A request that says in which units its texts are written: the figures stay, and no text of the answer has another unit."""

import json
import re

import pytest

from sandmix.doors import cli
from sandmix.doors.facade import call
from sandmix.jobs import JOBS
from sandmix.language.shown_units import wish_of

INCH = wish_of("inch")
METRIC = re.compile(r"\d (?:kg|g|mm|cm|cm²|cm³|°C)(?![\w/²³])(?!(?: of [a-z ]+)? per )")
FIGURES = ("result", "doubt", "working", "drawings", "charts")
SAID = ("headline", "lead", "todo", "remarks", "cautions", "checklist", "ways_out")


def asked(job, inputs, **more):
    return json.loads(call(json.dumps({"job": job, "inputs": inputs} | more)))


def texts(part):
    if isinstance(part, str):
        return [part]
    parts = part.values() if isinstance(part, dict) else part if isinstance(part, list) else ()
    return [text for each in parts for text in texts(each)]


@pytest.mark.parametrize("job", JOBS)
def test_the_figures_stay_and_every_sentence_has_the_units_that_were_wished_for(job):
    plain = asked(job, JOBS[job].example)
    inch = asked(job, JOBS[job].example, shown_in=INCH)
    assert {part: inch.get(part) for part in FIGURES} == {part: plain.get(part) for part in FIGURES}
    assert [step["inputs"] for step in inch["next"]] == [step["inputs"] for step in plain["next"]]
    left = [text for part in SAID for text in texts(inch[part]) if METRIC.search(text)]
    assert [text for text in left if "loses" not in text and "per 100" not in text] == []
    assert asked(job, JOBS[job].example) == plain


def test_headline_main_figure_range_and_what_to_do_have_one_unit():
    answer = asked(
        "temper", {"heap_kg": 45, "sample_wet_g": 400, "sample_dry_g": 391}, shown_in={"kg": "lb", "g": "oz"}
    )
    row = next(row for row in answer["shown"] if row["word"] == answer["lead"]["word"])
    amount = answer["todo"][0]["amount"]
    assert answer["lead"]["text"] == row["text"] == amount
    assert {text.split()[-1] for text in (row["text"], row["range"], amount)} == {"oz"}


def test_a_refusal_names_its_limits_in_the_units_that_were_wished_for():
    refused = asked("temper", {"heap_kg": "9000 kg", "moisture_pct_wet": 3}, shown_in={"kg": "lb"})
    assert [problem["message"] for problem in refused["problems"]] == [
        "Sand in the heap: 19842 lb is too much. Enter 0.11 to 11023 lb. Check the number and its unit."
    ]


def test_a_recorded_entry_is_confirmed_in_the_units_that_were_wished_for_and_kept_in_kilograms():
    poured = {"kind": "poured", "at": "2027-03-13", "metal": "aluminium", "metal_kg": "1.5 kg"}
    inputs = {"book": json.loads(str(JOBS["heap"].example["book"])), "event": poured}
    plain, inch = asked("record", inputs), asked("record", inputs, shown_in=INCH)
    assert plain["event"] == inch["event"]
    assert METRIC.search(" ".join(plain["remarks"])) and not METRIC.search(" ".join(inch["remarks"]))


def test_units_that_cant_be_shown_are_refused_before_the_question():
    refused = asked("temper", {"heap_kg": 45, "moisture_pct_wet": 3}, shown_in={"kg": "litre"})
    assert [(problem["word"], problem["given"]) for problem in refused["problems"]] == [("shown_in", "litre")]


def test_the_command_line_takes_a_system_or_pairs(capsys):
    words = [
        "flask",
        "--flask-length",
        "380",
        "--flask-width",
        "260",
        "--drag-depth",
        "95",
        "--cope-depth",
        "90",
        "--heap",
        "45",
    ]
    assert cli.main([*words, "--shown-in", "inch"]) == 0
    assert "SAND LEFT OVER  21 lb" in capsys.readouterr().out
    assert cli.main([*words, "--shown-in", "kg=lb"]) == 0
    assert cli.main([*words, "--shown-in", "kg=miles"]) == 2
    assert "“miles” can't stand for kg" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("word", "given", "to", "text"),
    [
        ("heap_kg", {"value": "45 ± 0.5", "unit": "kg"}, "lb", "99.2 ± 1.1"),
        ("pour_temp_c", {"value": "700 ± 10", "unit": "°C"}, "°F", "1292 ± 18"),
    ],
)
def test_an_amount_that_is_converted_keeps_its_uncertainty(word, given, to, text):
    assert asked("convert", {"word": word, "given": given, "to": to})["text"] == text
