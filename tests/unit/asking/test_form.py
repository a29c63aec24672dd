"""Forms: what they ask, read, narrow, and refuse at once."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import get_args, get_type_hints

import pytest

from sandmix.asking.form import Form, as_far_as_right, ask, asks, fill, rule
from sandmix.jobs import JOBS
from sandmix.language.errors import InputError, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Heap(Form):
    """A form with three kinds of field."""

    heap_kg: float | None = ask("heap_kg", required=True, label="Heap here")
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")
    make_kg: float | None = ask("make_kg", exact=True)
    metal: str = ask("metal", required=True)

    @rule
    def the_heap_is_enough(self) -> Iterable[Problem]:
        if self.make_kg is not None and self.heap_kg is not None and self.make_kg > self.heap_kg:
            yield self.wrong("make_kg", "at most the heap", "more than there is. Ask for less.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plain(Form):
    """A form without rules between its fields."""

    recipe: str | None = ask("recipe", required=True)


def refused(**inputs):
    with pytest.raises(InputError) as error:
        fill(Heap, inputs)
    return {problem.word: problem for problem in error.value.problems}


def test_a_word_with_a_default_is_never_required():
    assert asks(Heap)["metal"].required is False
    assert asks(Heap)["heap_kg"].required is True


def test_empty_text_and_null_count_as_left_out():
    for empty in ("", "  ", None, {"value": ""}, {"value": None, "unit": "kg"}):
        filled = fill(Heap, {"heap_kg": 5, "make_kg": empty})
        assert filled.form.make_kg is None


def test_missing_inputs_are_asked_for():
    assert list(refused()) == ["heap_kg"]
    with pytest.raises(InputError, match="this is empty"):
        fill(Plain, {})


def test_all_problems_come_at_once_in_the_order_of_the_form():
    problems = refused(heap_kg="x", clay_moisture_pct_wet=99, metal="lead", more=1, still=2)
    assert list(problems) == ["more", "still", "heap_kg", "clay_moisture_pct_wet", "metal"]


def test_a_problem_has_the_label_of_the_form():
    assert refused(heap_kg="x")["heap_kg"].message.startswith("Heap here: ")


def test_a_remark_has_the_label_of_the_form():
    assert fill(Heap, {"heap_kg": 300}).remarks[0].startswith("Heap here: ")


def test_a_rule_runs_where_its_own_fields_are_right():
    """The metal is wrong, and the rule looks only at the two masses."""
    assert list(refused(heap_kg=5, make_kg=6, metal="lead")) == ["metal", "make_kg"]


def test_a_rule_does_not_run_where_one_of_its_fields_is_wrong_or_missing():
    assert list(refused(heap_kg="x", make_kg=6)) == ["heap_kg"]
    assert list(refused(make_kg=6)) == ["heap_kg"]
    assert list(refused(heap_kg=5, make_kg=-6)) == ["make_kg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack(Heap):
    """A form that replaces a rule of its base and checks pairs of fields."""

    sand_kg: float | None = ask("sand_kg")
    clay_kg: float | None = ask("clay_kg")

    @rule
    def the_heap_is_enough(self) -> Iterable[Problem]:
        for word in ("sand_kg", "clay_kg"):
            yield from as_far_as_right(self._more_than_the_heap(word))

    def _more_than_the_heap(self, word: str) -> Iterable[Problem]:
        part = getattr(self, word)
        if part is not None and part > self.heap_kg:
            yield self.wrong(word, "at most the heap", "more than there is.")


def test_a_check_of_several_groups_goes_on_after_a_wrong_one():
    with pytest.raises(InputError) as error:
        fill(Stack, {"heap_kg": 5, "make_kg": 9, "sand_kg": "lots", "clay_kg": 8})
    assert [problem.word for problem in error.value.problems] == ["sand_kg", "clay_kg"]


def test_a_form_says_which_of_its_attributes_does_not_exist():
    with pytest.raises(AttributeError, match="mass"):
        _ = Plain(recipe="7 %").mass


def test_a_problem_between_fields_names_what_was_given():
    problem = refused(heap_kg=5, make_kg=6)["make_kg"]
    assert (problem.given, problem.allowed) == ("6 kg", "at most the heap")


def test_the_nearest_word_is_suggested_for_an_unknown_one():
    assert "heap_kg" in refused(heap_kg=5, heapkg=6)["heapkg"].message


def test_a_value_gets_the_measuring_error_of_its_word():
    """± 0.05 kg and half a percent of 100 kg: 0.5025; clay assumed ± 3."""
    bands = fill(Heap, {"heap_kg": 100}).bands
    half = (0.05**2 + 0.5**2) ** 0.5
    assert bands["heap_kg"] == pytest.approx((100 - half, 100 + half))
    assert bands["clay_moisture_pct_wet"] == pytest.approx((7, 13))
    assert fill(Heap, {"heap_kg": 100, "clay_moisture_pct_wet": 10}).bands["clay_moisture_pct_wet"] == pytest.approx(
        (9, 11)
    )


def test_an_exact_word_has_only_the_plus_minus_that_is_given():
    assert "make_kg" not in fill(Heap, {"heap_kg": 100, "make_kg": 10}).bands
    assert fill(Heap, {"heap_kg": 100, "make_kg": "10 ± 2"}).bands["make_kg"] == (8, 12)


def test_a_band_is_cut_off_at_the_bounds_of_the_word():
    assert fill(Heap, {"heap_kg": 100, "clay_moisture_pct_wet": 0.2}).bands["clay_moisture_pct_wet"] == pytest.approx(
        (0, 1.2)
    )


def test_resolving_sets_values_and_drops_their_bands():
    filled = fill(Heap, {"heap_kg": 100})
    resolved = filled.resolved(
        {"heap_kg": 50.0}, without=("clay_moisture_pct_wet",), bands={"make_kg": (1.0, 2.0)}, remarks=("so",)
    )
    assert resolved.form.heap_kg == 50
    assert dict(resolved.bands) == {"make_kg": (1.0, 2.0)}
    assert resolved.remarks[-1] == "so"
    assert resolved.assumed == filled.assumed


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedHeap(Heap):
    """The same, with a mass to make that is always there."""

    make_kg: float
    dry_kg: float = 0.0


def test_a_form_resolves_into_a_subclass_that_asks_the_same_words():
    filled = fill(Heap, {"heap_kg": 100}).into(ResolvedHeap, {"make_kg": 50.0, "dry_kg": 48.0})
    assert isinstance(filled.form, ResolvedHeap)
    assert (filled.form.heap_kg, filled.form.make_kg, filled.form.dry_kg) == (100, 50, 48)
    assert asks(ResolvedHeap) == asks(Heap)


@pytest.mark.parametrize("job", JOBS.values(), ids=lambda job: job.name)
def test_a_resolved_form_has_what_its_types_promise(job):
    form = job.resolve(fill(job.form, job.example)).form
    promised = [name for name, kind in get_type_hints(type(form)).items() if type(None) not in (*get_args(kind), kind)]
    assert [name for name in promised if getattr(form, name) is None] == []


def test_a_form_may_have_no_rules_between_its_fields():
    assert list(Plain(recipe="7 %").problems()) == []
