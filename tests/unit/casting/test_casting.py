"""The casting as data: what is read, what is refused and in which words, and what changes it."""

from __future__ import annotations

import copy
import json

import pytest

from sandmix.casting.casting import HEAP_FIGURES, begin, read
from sandmix.doors.facade import call
from sandmix.language.errors import InputError

FIGURES = {"metal": "aluminium", "box_mm": "160 x 90 x 30 mm", "heap_kg": {"value": "45", "unit": "kg"}}
WHOLE = {
    "format": "sandmix casting",
    "version": 1,
    "name": "Strap for the gate",
    "begun": "2027-03-10T09:00:00Z",
    "figures": FIGURES,
    "own": {"flask": {"rammed_density_kg_l": "1.6"}, "temper": {"sample_wet_g": "100 g"}},
    "pattern": {"name": "strap", "figures": {"casting_volume_cm3": "300 cm³"}},
    "ticks": [{"job": "pour", "text": "The way is clear."}],
    "clocks": [{"job": "burnout", "label": "open", "start": "2027-03-10T11:00:00Z", "after_s": 1200.0}],
    "recorded": [{"kind": "poured", "id": "e3", "at": "2027-03-10T11:00:00Z"}],
}


def refusal(data):
    with pytest.raises(InputError) as caught:
        read(data)
    assert all(problem.word == "casting" for problem in caught.value.problems)
    return str(caught.value)


def test_what_is_saved_reads_as_the_same_casting():
    once = read(WHOLE)
    assert read(once.to_dict()) == once
    assert once.to_dict()["figures"] == FIGURES
    assert read(begin("Ring", "2027-03-10").to_dict()) == begin("Ring", "2027-03-10")


def test_a_newer_version_says_so_and_an_older_kind_of_file_too():
    assert "a newer sandmix wrote it (format 2; this one reads up to 1)" in refusal({**WHOLE, "version": 2})
    assert "another kind of file (“sandmix book”)" in refusal({**WHOLE, "format": "sandmix book"})
    assert "this is not a casting" in refusal([1, 2])
    assert "is not a number from 1" in refusal({**WHOLE, "version": True})


def test_everything_that_is_wrong_is_said_at_once():
    said = refusal(
        {
            **WHOLE,
            "name": "x" * 61,
            "begun": "yesterday",
            "figures": {"no_such_word": 1, "heap_kg": "4" * 6000},
            "own": [],
            "ticks": [{"job": {}}],
            "clocks": "none",
            "recorded": [[1]],
        }
    )
    assert len(said.splitlines()) == 8
    assert "no word “no_such_word”" in said
    assert "the time “begun” can't be read" in said


INFINITE = json.loads("1e999")
"""Valid JSON, and no number that can be computed with or written again."""


def places(part, path=()):
    """The path to each number or text of plain data."""
    if isinstance(part, (dict, list)):
        for name, inner in part.items() if isinstance(part, dict) else enumerate(part):
            yield from places(inner, (*path, name))
    else:
        yield path


def with_infinite(data, path):
    """The same data with a number at *path* that is not finite."""
    copied = copy.deepcopy(data)
    inner = copied
    for name in path[:-1]:
        inner = inner[name]
    inner[path[-1]] = INFINITE
    return copied


@pytest.mark.parametrize(
    "path", list(places({**WHOLE, "figures": {**FIGURES, "flasks": [{"cope_depth_mm": 90}]}})), ids=repr
)
def test_a_number_that_is_not_finite_is_refused_in_words_wherever_it_stands(path):
    whole = with_infinite({**WHOLE, "figures": {**FIGURES, "flasks": [{"cope_depth_mm": 90}]}}, path)
    for job, more in (("read_casting", {}), ("again", {"at": "2027-04-01"}), ("plan", {})):
        answer = json.loads(
            call(json.dumps({"job": job, "inputs": {"casting": whole, **more}}).replace("Infinity", "1e999"))
        )
        assert not answer["ok"]
        assert "fault" not in answer
        assert all(problem["message"].startswith("The casting: ") for problem in answer["problems"])


def test_all_numbers_that_are_not_finite_are_named_at_once():
    said = refusal(
        {
            **WHOLE,
            "figures": {"heap_kg": INFINITE},
            "own": {"flask": {"flask_length_mm": {"value": INFINITE}}},
            "ticks": [{"job": "pour", "at": -INFINITE}],
        }
    )
    assert said.splitlines() == [
        "The casting: its figures have a number for “Sand in the heap” that is far too large. Correct it.",
        "The casting: its figures for “flask” have a number for “Flask length” that is far too large. Correct it.",
        "The casting: its part “ticks” has a number that is far too large. Correct it, or take its row out.",
    ]


def test_own_figures_come_before_those_of_the_pattern_and_these_before_what_is_assumed():
    casting = read({**WHOLE, "figures": {"casting_volume_cm3": "310 cm³"}})
    known = casting.known()
    assert (known["casting_volume_cm3"].given, known["casting_volume_cm3"].origin) == ("310 cm³", "yours")
    back = casting.with_figures({"casting_volume_cm3": ""}).known()["casting_volume_cm3"]
    assert (back.given, back.origin) == ("300 cm³", "from the pattern “strap”")
    assert known["flasks"].origin == "assumed"


def test_an_entry_of_the_book_takes_over_what_was_typed_of_the_heap():
    casting = read(WHOLE).with_entry({"kind": "measured", "id": "e4", "at": "2027-03-10T12:00:00Z", "heap_kg": 45})
    assert "heap_kg" not in casting.figures
    assert casting.figures["metal"] == "aluminium"
    assert casting.own == {"flask": {"rammed_density_kg_l": "1.6"}}
    assert casting.recorded[-1] == {"kind": "measured", "id": "e4", "at": "2027-03-10T12:00:00Z"}
    assert casting.ids_of("poured") == {"e3"}


def test_again_keeps_the_pattern_and_drops_what_belonged_to_the_day():
    new = read({**WHOLE, "finished": "2027-03-10T15:00:00Z"}).again()
    assert (new.finished, new.ticks, new.clocks, new.recorded) == ("", (), (), ())
    assert new.pattern_figures == {"casting_volume_cm3": "300 cm³"}
    assert not set(HEAP_FIGURES) & new.figures.keys()
    assert new.figures["box_mm"] == "160 x 90 x 30 mm"


def test_a_name_is_shown_without_characters_that_cannot_be_shown():
    assert read({**WHOLE, "name": " gate\nstrap\x07 "}).name == "gate strap"
