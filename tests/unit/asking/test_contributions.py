"""What makes an answer uncertain and what makes it surer, by hand arithmetic."""

from dataclasses import replace

import pytest

from sandmix.asking import answer as answers
from sandmix.asking.form import fill
from sandmix.jobs import JOBS
from sandmix.language.words import Quantity
from sandmix.vocabulary import WORDS

WEIGHED = {"heap_kg": 45, "sample_wet_g": "200 ± 0.4 g", "sample_dry_g": "195 ± 0.3 g"}


def by_input(answer, word):
    return {one["input"]: one for one in answer["uncertainty"][word]}


def test_a_weighed_moisture_is_split_into_both_weighings_and_the_handful(ask):
    """0.4 and 0.3 g of 200 g are 0.20 and 0.15 points, beside 0.3 points between handfuls: 0.0400, 0.0225 and 0.0900 of 0.1525."""
    parts = by_input(ask("temper", **WEIGHED), "moisture_pct_wet")
    shares = {"between_handfuls": 0.09 / 0.1525, "sample_wet_g": 0.04 / 0.1525, "sample_dry_g": 0.0225 / 0.1525}
    assert {name: one["share"] for name, one in parts.items()} == pytest.approx(shares)
    assert parts["between_handfuls"]["half_width"] == pytest.approx([0.3, 0.3])
    assert list(parts) == ["between_handfuls", "sample_wet_g", "sample_dry_g"]


def test_the_step_that_leaves_the_least_is_named(ask):
    """A larger sample leaves 0.4 of the scale's part, a second test 0.71 of the handful's.

    With 0.25 points by the scale: √(0.3² + (0.4 · 0.25)²) = 0.3162. With 0.125 points: √(0.3²/2 + 0.125²) = 0.2462.
    """
    step = ask("temper", **WEIGHED)["surer"]["moisture_pct_wet"]
    assert step["text"] == "Dry 500 g instead of 200 g."
    assert (step["now"], step["after"]) == pytest.approx((0.1525**0.5, 0.3162), abs=5e-5)
    fine = WEIGHED | {"sample_wet_g": "200 ± 0.2 g", "sample_dry_g": "195 ± 0.15 g"}
    step = ask("temper", **fine)["surer"]["moisture_pct_wet"]
    assert step["text"] == "Mix handfuls from five places, test twice and take the mean."
    assert step["after"] == pytest.approx(0.2462, abs=5e-5)


def test_a_quantity_taken_for_granted_is_to_be_measured(ask):
    """The rammed density is taken as 1.55 ± 0.10; weighed it is ± 0.03."""
    step = ask("flask", flask_length_mm=380, flask_width_mm=260, drag_depth_mm=95, cope_depth_mm=90)["surer"][
        "rammed_kg"
    ]
    assert step["text"] == "Measure it yourself: rammed density."
    assert step["after"] < 0.5 * step["now"]


def test_nothing_is_named_where_no_step_is_worth_its_work(ask):
    sure = ask("temper", heap_kg="45 ± 0.1 kg", moisture_pct_wet="2.5 ± 0.3 %")
    assert sure["surer"] == {}


def test_the_rows_of_a_table_are_inputs_of_their_own(ask):
    lots = [{"kg": "30 ± 1 kg", "clay_pct_dry": 6}, {"kg": "10 ± 0.1 kg", "clay_pct_dry": 2}]
    listed = ask("blend", lots=lots, target_clay_pct_dry=7)["uncertainty"]["clay_kg"]
    assert {"lots[0].kg", "lots[1].clay_pct_dry"} <= {one["input"] for one in listed}
    assert any(one["label"].endswith("lot 1") for one in listed)


def test_a_range_without_a_far_end_is_open_and_says_so(ask):
    """Below 7.5 % activity the clay of 45 kg at 7.5 % would fill the mix with clay and leave no room for sand."""
    answer = ask("mix", make_kg=45, clay_pct_dry=7.5, moisture_pct_wet=3.4, clay_activity_pct="14 ± 7 %")
    assert any("is open: with live share of the clay product below" in remark for remark in answer["remarks"])
    narrower = ask("mix", make_kg=45, clay_pct_dry=7.5, moisture_pct_wet=3.4, clay_activity_pct="14 ± 6 %")
    assert answer["doubt"]["clay_kg"][1] >= narrower["doubt"]["clay_kg"][1]


KINKS = {"facing": 1e-4}
"""How far a range may shrink: the facing's water turns where the pour dries just the layer, an area between the ends that is nowhere asked."""


@pytest.mark.parametrize("name", [name for name in JOBS if name != "burnout"])
def test_widening_an_input_never_narrows_an_answer(name):
    job = JOBS[name]
    filled = job.resolve(fill(job.form, job.example))
    figures = job.run(filled.form)
    for key, ends in filled.bands.items():
        word = (
            WORDS.get(key) if isinstance(key, str) else next(part for part in WORDS[key[0]].each if part.name == key[2])
        )
        value, before, least = answers._values(filled).get(key), None, KINKS.get(name, 1e-9)
        if not isinstance(word, Quantity) or value is None:
            continue
        for factor in (1, 1.5, 3, 10):
            wider = word.band(value, factor * max(ends[1] - value, value - ends[0]))
            bands = answers._propagated(job, replace(filled, bands={**filled.bands, key: wider}), figures).bands
            for figure, (low, high) in (before or {}).items():
                assert bands[figure][0] <= low + least * abs(low), (key, figure, factor)
                assert bands[figure][1] >= high - least * abs(high), (key, figure, factor)
            before = bands
