"""Any book teaches figures within their bounds, whatever its entries say, and the season of any book can be drawn."""

import itertools
import json
import math

import hypothesis.strategies as st
from hypothesis import given, settings

from sandmix.doors.facade import call
from sandmix.vocabulary import quantity
from sandmix.vocabulary.learned_words import FIGURES, TAUGHT

DAYS = st.sampled_from([f"2027-03-{day:02}" for day in range(1, 29)])
FIRST = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}


def entry(kind, **words):
    return st.fixed_dictionaries({"kind": st.just(kind), "at": DAYS, **words})


ENTRIES = st.one_of(
    entry("poured", metal_kg=st.floats(0.01, 5), flask_sand_kg=st.floats(1, 40), sand_lost_kg=st.floats(0, 3)),
    entry("added", clay_kg=st.floats(0.01, 3), clay=st.just("clay_granules")),
    entry("added", sand_kg=st.floats(0.1, 20)),
    entry("measured", clay_pct_dry=st.floats(0, 40)),
    entry("measured", dead_fines_pct_dry=st.floats(0, 40)),
    entry("measured", moisture_pct_wet=st.floats(0, 12), compactability_read_pct=st.floats(5, 75)),
    entry("discarded", discard_kg=st.floats(0, 10)),
    entry("calibrated", rammed_density_kg_l=st.floats(0.8, 2.4)),
    entry("calibrated", loss_a_cast_pct=st.floats(0, 100)),
    entry("calibrated", clay_activity_pct=st.floats(1, 100)),
    entry("calibrated", dead_fines_a_cast_pct_dry=st.floats(-50, 50)),
    entry("forgotten", learned_figure=st.sampled_from(sorted(FIGURES))),
    entry("undone", of=st.sampled_from([f"e{at}" for at in range(2, 9)])),
)
BOOKS = st.lists(ENTRIES, max_size=12).map(lambda more: [FIRST, *more])


def answered(job, **inputs):
    return json.loads(call(json.dumps({"job": job, "inputs": inputs})))


@settings(max_examples=100, deadline=None)
@given(BOOKS)
def test_every_figure_is_within_its_range_and_its_bounds(events):
    answer = answered("learned", book=events)
    if not answer["ok"]:
        assert not answer.get("fault")
        return
    for word in TAUGHT:
        value, (low, high), declared = answer["result"][word], answer["doubt"][word], quantity(word)
        assert math.isfinite(value)
        assert declared.low <= low <= value <= high <= declared.high
    for card in answer["cards"]:
        assert 0 <= card["share_pct"] <= 100


@settings(max_examples=100, deadline=None)
@given(BOOKS)
def test_the_season_goes_forward_in_time_and_each_figure_is_within_its_band(events):
    answer = answered("heap", book=events, now="2027-04-10")
    for chart in answer.get("charts", ()):
        for panel in (chart, *chart["below"]):
            steps, (low, high) = panel["series"][0]["points"], panel["band"]
            assert all(one[0] <= other[0] for one, other in itertools.pairwise(steps))
            for (_, value), (_, least), (_, most) in zip(steps, low["points"], high["points"], strict=True):
                assert least <= value * (1 + 1e-3) + 1e-9
                assert value <= most * (1 + 1e-3) + 1e-9
