"""The kinds of event, each a form."""

import pytest

from sandmix.asking.form import asks, fill
from sandmix.book.events import CORRECTED, KINDS, NOT_WORDS, UNDONE, words_of
from sandmix.language.errors import InputError

LEAST = {
    "poured": {"metal_kg": 1},
    "tempered": {"water_kg": 0.2},
    "measured": {"heap_kg": 20},
    "added": {"clay_kg": 1},
    "mixed": {"make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3},
    "discarded": {"discard_kg": 1},
    "riddled": {"lost_kg": 1},
    "spilled": {"lost_kg": 1},
    "dried": {"moisture_pct_wet": 1},
    "rained_on": {},
    "opened": {},
    "split": {"split_kg": 5},
    "joined": {"joined_kg": 5, "clay_pct_dry": 7, "moisture_pct_wet": 3},
    "bought": {},
    "metal_changed": {},
    "put_away": {},
    "calibrated": {"strokes_per_100ml": 80},
    "forgotten": {},
}


def test_every_kind_is_listed():
    assert set(LEAST) == set(KINDS)
    assert not {UNDONE, CORRECTED} & set(KINDS)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_a_kind_has_a_label_and_its_own_words(kind):
    assert kind.label
    assert kind.help.endswith(".")
    assert not set(asks(kind.form)) & set(NOT_WORDS)


@pytest.mark.parametrize("kind", LEAST)
def test_a_kind_accepts_its_least_inputs(kind):
    assert fill(KINDS[kind].form, LEAST[kind]).form is not None


@pytest.mark.parametrize(("kind", "word"), [(kind, word) for kind, words in LEAST.items() for word in words])
def test_a_kind_refuses_less_than_its_least_inputs(kind, word):
    less = {name: value for name, value in LEAST[kind].items() if name != word}
    with pytest.raises(InputError):
        fill(KINDS[kind].form, less)


WRONG = [
    ("mixed", {"make_kg": 30, "clay_pct_dry": 60, "dead_fines_pct_dry": 41, "moisture_pct_wet": 3}, "clay_pct_dry"),
    ("joined", {"joined_kg": 5, "clay_pct_dry": 60, "dead_fines_pct_dry": 41, "moisture_pct_wet": 3}, "clay_pct_dry"),
    ("measured", {"clay_pct_dry": 60, "dead_fines_pct_dry": 41}, "clay_pct_dry"),
    ("measured", {"heap_kg": 20, "sample_wet_g": 100}, "sample_dry_g"),
    ("measured", {"heap_kg": 20, "sample_dry_g": 100}, "sample_wet_g"),
    ("measured", {"sample_wet_g": 97, "sample_dry_g": 100}, "sample_dry_g"),
    ("measured", {"sample_wet_g": 100, "sample_dry_g": 70}, "sample_dry_g"),
    ("measured", {"scale_step_g": 1}, "heap_kg"),
    ("measured", {"moisture_pct_wet": 3, "water_added_kg": 1, "water_dried_kg": 1}, "water_dried_kg"),
    ("measured", {"water_added_kg": 1}, "heap_kg"),
    ("tempered", {"water_kg": 1, "moisture_pct_wet": 3}, "water_kg"),
    ("added", {"sand_kg": 0, "clay_kg": 0, "water_kg": 0}, "sand_kg"),
    ("calibrated", {"rammed_density_kg_l": ""}, "rammed_density_kg_l"),
    ("poured", {"metal_kg": 1, "metal": "aluminium", "pour_temp_c": 600}, "pour_temp_c"),
]


@pytest.mark.parametrize(("kind", "words", "named"), WRONG)
def test_a_problem_between_words_names_one_of_them(kind, words, named):
    with pytest.raises(InputError) as refused:
        fill(KINDS[kind].form, words)
    assert [problem.word for problem in refused.value.problems] == [named]


def test_a_dried_sample_counts_before_a_typed_moisture():
    """(200 − 194) / 200 = 3 %."""
    form = fill(KINDS["measured"].form, {"sample_wet_g": 200, "sample_dry_g": 194, "moisture_pct_wet": 9}).form
    assert form.moisture_read_pct == pytest.approx(3)


def test_the_words_of_an_event_leave_out_the_keys_of_every_event():
    event = dict.fromkeys(NOT_WORDS, "x") | {"metal_kg": 1}
    assert words_of(event) == {"metal_kg": 1}
