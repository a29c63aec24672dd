"""Comparing with a figure from outside: what passes, and what is written down."""

from __future__ import annotations

from pathlib import Path

import pytest
from against import published
from against.published import Checks

from check_list import Check

MARKS = Checks("permeability", source="permeability_lecture", sure="read")


@pytest.fixture(autouse=True)
def apart(monkeypatch):
    """Record these comparisons apart from the list, as a usual run does."""
    monkeypatch.setattr(published, "RECORDED", {})
    monkeypatch.delenv("SANDMIX_LONG", raising=False)


def recorded():
    [one] = published.recorded()
    return one


def test_half_of_the_last_digit_is_allowed_and_no_more():
    MARKS.figure(87.049, "87.0", "a")
    with pytest.raises(AssertionError, match=r"sandmix gives \[87.051\]"):
        MARKS.figure(87.051, "87.0", "b")
    assert (recorded().gives, recorded().within, recorded().claimed) == ("87.05", "0.05", "digit")


def test_what_is_listed_as_different_may_not_agree():
    MARKS.figure(88, "87.0", "a", differs="the page adds wrongly")
    with pytest.raises(AssertionError, match="agrees now"):
        MARKS.figure(87, "87.0", "b", differs="the page adds wrongly")
    assert recorded().differs == "the page adds wrongly"


def test_several_figures_count_as_one_check():
    MARKS.figure([1.01, 2.02], "1.0, 2.0", "a")
    with pytest.raises(AssertionError, match="2 figures, but 1 are printed"):
        MARKS.figure([1, 2], "1.0", "b")
    assert recorded().gives == "1.01, 2.02"


def test_the_furthest_of_the_same_figure_is_kept():
    for got in (87.0, 86.96, 87.02):
        MARKS.figure(got, "87.0", "a")
    assert (recorded().gives, recorded().cases) == ("86.96", 3)


def test_a_range_includes_its_ends():
    MARKS.between(0.25, "0.25", "0.40", "a")
    with pytest.raises(AssertionError, match=r"0\.41"):
        MARKS.between(0.41, "0.25", "0.40", "a")
    assert recorded().figure == "0.25 to 0.40"


def test_figures_of_another_program_keep_the_largest_difference_as_a_step():
    for off in (0.0, 0.0015, 0.0003):
        MARKS.agrees(1 + off, 1.0, "a", within=0.01)
    with pytest.raises(AssertionError):
        MARKS.agrees(1.02, 1.0, "a", within=0.01)
    assert (recorded().gives, recorded().cases) == ("at most 20 % of what is allowed", 3)


def test_a_false_statement_fails():
    with pytest.raises(AssertionError, match="a: not so"):
        MARKS.holds([] == [1], "a")


def test_what_varies_with_the_effort_is_only_recorded_in_a_long_run():
    MARKS.between(0.97, "0.95", "", "a", varies=True)
    assert published.recorded() == []


def test_a_run_replaces_the_rows_of_its_own_files_and_keeps_the_others():
    MARKS.figure(87.0, "87.0", "a")
    now = recorded()
    listed = [
        Check(**{name: getattr(now, name) for name in now.__slots__} | change)
        for change in ({"what": "gone"}, {"what": "long", "run": "long"}, {"what": "other", "test": "test_other"})
    ]
    kept = published.after(listed, [now], {Path(__file__).stem}, long=False)
    assert [check.what for check in kept] == ["long", "other", "a"]
    assert [check.what for check in published.after(listed, [now], {now.test}, long=True)] == ["other", "a"]
