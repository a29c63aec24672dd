"""Rules that several forms share: what each calls wrong, and which word it names."""

from dataclasses import dataclass

import pytest

from sandmix.asking import rules
from sandmix.asking.form import Form, ask


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit(Form):
    casts: float = ask("casts")
    clay_pct_dry: float | None = ask("clay_pct_dry")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")
    book: object = ask("book")


def habit(**given):
    return Habit(**{"casts": 3.0, "clay_pct_dry": None, "dead_fines_pct_dry": None, "book": None, **given})


def problem_of(found):
    (problem,) = found
    return problem.word, problem.allowed


def test_a_part_of_a_cast_is_wrong():
    assert not [*rules.whole_number(habit(casts=3.0), "casts", "casts")]
    (problem,) = rules.whole_number(habit(casts=2.5), "casts", "casts")
    assert "2.5 isn't a whole number" in problem.message


@pytest.mark.parametrize("given", [{"clay_pct_dry": 7.0}, {"book": {}}])
def test_a_figure_or_a_book_is_enough(given):
    assert not [*rules.is_in_form_or_book(habit(**given), "clay_pct_dry", "the live clay")]


def test_without_figure_and_book_the_figure_is_named():
    assert problem_of(rules.is_in_form_or_book(habit(), "clay_pct_dry", "the live clay"))[0] == "clay_pct_dry"


@pytest.mark.parametrize(("clay", "dead"), [(60.0, 40.0), (100.0, None), (None, 100.0), (None, None)])
def test_clay_and_fines_may_be_all_of_the_sand(clay, dead):
    assert not [*rules.clay_and_fines_fit(habit(), clay, dead)]


def test_more_clay_and_fines_than_sand_names_the_word_and_what_it_may_be():
    form = habit(clay_pct_dry=70.0, dead_fines_pct_dry=40.0)
    assert problem_of(rules.clay_and_fines_fit(form, 70.0, 40.0)) == ("dead_fines_pct_dry", "at most 30 %")
    assert problem_of(rules.clay_and_fines_fit(form, 70.0, 40.0, wrong="clay_pct_dry")) == (
        "clay_pct_dry",
        "at most 60 %",
    )
