"""The casting as data: what is read, what is refused and in which words, and what changes it."""

from __future__ import annotations

import copy
import json

import pytest

from sandmix.asking.form import asks
from sandmix.casting.casting import HEAP_FIGURES, STEPS, begin, read
from sandmix.doors.facade import call
from sandmix.jobs import JOBS
from sandmix.jobs.plan.day import TAKES
from sandmix.language.errors import InputError
from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.vocabulary import WORDS

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


WET = {"kind": "joined", "at": "2027-03-01", "joined_kg": 45, "moisture_pct_wet": 8, "clay_pct_dry": 7}
GOOD = {**WET, "moisture_pct_wet": 3.5}


@pytest.mark.parametrize("place", ["figures", "own", "pattern"])
@pytest.mark.parametrize(("word", "label"), [("book", "The book"), ("now", "Now"), ("casting", "The casting")])
def test_a_document_in_a_casting_is_refused_since_it_would_take_the_place_of_the_real_one(place, word, label):
    """The sand of the real book is too wet to pour on; an imported casting with another book must not hide that."""
    held = {"book": [GOOD], "now": "2027-03-02", "casting": {}}[word]
    part = {
        "figures": {"figures": {**FIGURES, word: held}},
        "own": {"own": {"temper": {word: held}}},
        "pattern": {"pattern": {"name": "strap", "figures": {word: held}}},
    }[place]
    figures = {name: given for name, given in FIGURES.items() if name != "heap_kg"}
    whole = {"format": "sandmix casting", "version": 1, "figures": figures, **part}
    for job in ("read_casting", "plan"):
        inputs = {"casting": whole, "book": [WET], "now": "2027-03-10"}
        answer = json.loads(call(json.dumps({"job": job, "inputs": inputs})))
        assert not answer["ok"]
        [problem] = answer["problems"]
        assert f" hold “{label}”, which is given with a casting and not in it. Take it out." in problem["message"]


def test_own_figures_of_what_is_no_step_are_named():
    said = refusal({**WHOLE, "own": {"fitt": {"heap_kg": 45}, "flask": {"heap_kg": 45}}})
    assert said == (
        "The casting: it has own figures for “fitt”, which isn't a step whose figures can be changed. Take them out, or use the "
        "sandmix that wrote the file."
    )


def test_the_steps_that_can_be_changed_are_those_that_the_plan_hands_figures_to():
    assert set(STEPS) == set(TAKES)
    assert set(STEPS) < set(JOBS)


@pytest.mark.parametrize("job", ["read_casting", "plan", "again"])
@pytest.mark.parametrize("part", ["figures", "pattern"])
def test_a_word_that_the_plan_does_not_ask_for_is_named_when_the_casting_is_read(job, part):
    figures = {"rammed_density_kg_l": "1.6"}
    held = (
        {"pattern": {"name": "strap", "figures": figures}} if part == "pattern" else {"figures": {**FIGURES, **figures}}
    )
    inputs = {"casting": {**WHOLE, **held}, **({"at": "2027-04-01"} if job == "again" else {})}
    answer = json.loads(call(json.dumps({"job": job, "inputs": inputs})))
    [problem] = answer["problems"]
    where = {"figures": "its figures", "pattern": "the figures of its pattern"}[part]
    label = WORDS["rammed_density_kg_l"].label
    assert problem["message"] == (
        f"The casting: {where} have “{label}”, which the plan doesn't ask for. Take it out, or move it to “own”, under the job that "
        "asks for it."
    )


def test_every_figure_that_the_plan_asks_for_may_stand_in_a_casting():
    """All that a person can type in its form; its documents are given with the casting."""
    form = asks(JOBS["plan"].form)
    words = [word for word in form if word not in ("casting", "book", "now")]
    whole = read({**WHOLE, "figures": dict.fromkeys(words, "1")}, form)
    assert sorted(whole.figures) == sorted(words)


@pytest.mark.parametrize(
    ("job", "word"),
    [
        ("plan", "flasks"),
        *((job, word) for job in STEPS for word, part in asks(JOBS[job].form).items() if isinstance(part.word, Rows)),
    ],
)
def test_a_list_may_be_as_long_as_its_word_allows_with_every_box_filled(job, word):
    """A number as it is typed has at most 60 characters, and a text of a row as many as its word says."""
    rows = WORDS[word]
    row = {
        part.name: "x" * part.longest if isinstance(part, Text) else {"value": "1" * 60, "unit": "mm"}
        for part in rows.each
    }
    held = {"figures": {word: [row] * rows.most}} if job == "plan" else {"own": {job: {word: [row] * rows.most}}}
    read({**WHOLE, **held})
    longer = {"figures": {word: [{**row, rows.each[0].name: "x" * 1_000_000}]}}
    assert f"a value for “{rows.label}” that is too long" in refusal({**WHOLE, **longer})


def test_a_plan_is_answered_with_as_many_flasks_as_fit_may_get():
    flask = {"flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 90}
    flasks = [{"name": f"the flask with the number {at:02}", **flask} for at in range(WORDS["flasks"].most)]
    whole = {**WHOLE, "own": {}, "figures": {**FIGURES, "flasks": flasks}}
    answer = json.loads(call(json.dumps({"job": "plan", "inputs": {"casting": whole}})))
    assert answer["ok"]
    assert answer["steps"][0]["inputs"]["flasks"] == flasks


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


def test_figures_of_the_new_sand_are_those_of_the_mix_that_is_in_the_book():
    """What is still missing is mixed by what the plan says then, and not by the bags that are used up."""
    own = {"mix": {"sand_on_hand_kg": "25 kg", "clay_on_hand_kg": "5 kg"}, "flask": {"rammed_density_kg_l": "1.6"}}
    mixed = read(WHOLE | {"own": own}).with_entry({"kind": "mixed", "id": "e1", "at": "2027-03-10"})
    assert set(mixed.own) == {"flask"}
    poured = read(WHOLE | {"own": own}).with_entry({"kind": "poured", "id": "e2", "at": "2027-03-10"})
    assert set(poured.own) == {"mix", "flask"}
