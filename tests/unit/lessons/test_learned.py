"""Each learned figure: at first, now, and the share that is still general."""

import math

import pytest

from sandmix.book import book
from sandmix.lessons import learned
from sandmix.vocabulary import quantity
from sandmix.vocabulary.learned_words import FIGURES, TAUGHT

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7.5, "moisture_pct_wet": "3.5 %"}


def of(*events):
    """The figures of a book by their words."""
    return {figure.word: figure for figure in learned.learned(book.read(list(events)).events)}


def own(day, **words):
    return {"kind": "calibrated", "at": f"2027-03-{day:02}", **words}


def test_without_a_reading_every_figure_is_the_general_one():
    figures = of(MIXED)
    assert tuple(figures) == TAUGHT
    for figure in figures.values():
        assert (figure.readings, figure.prior_share, figure.from_where) == (0, 1.0, "a general figure")
        assert figure.now == pytest.approx(figure.first)
        assert figure.band == pytest.approx(figure.first_band, rel=1e-4, abs=1e-9)


def test_the_first_figures_are_those_of_the_method_page():
    figures = of(MIXED)
    wanted = {
        "rammed_density_kg_l": (1.55, 1.45, 1.65),
        "loss_a_cast_pct": (2, 1, 4),
        "lid_loss_pct_day": (0.02, 0.02 - 1.96 * 0.04, 0.02 + 1.96 * 0.04),
        "open_loss_pct_day": (0.2, 0.2 - 1.96 * 0.2, 0.2 + 1.96 * 0.2),
        "clay_activity_pct": (67.5, 50, 85),
        "compactability_slope": (math.sqrt(450), 10, 45),
        "dead_fines_a_cast_pct_dry": (0.15, 0, 0.3),
    }
    for word, (first, low, high) in wanted.items():
        assert (figures[word].first, *figures[word].first_band) == pytest.approx((first, low, high))


def test_a_reading_of_the_rammed_density_moves_it_by_the_errors_of_both():
    """1.55 ± 0.10 and 1.65 ± 0.03: K = 0.01/(0.01 + 0.0009) = 0.917431; 1.55 + 0.0917431 = 1.641743 ± 0.1 √(1 − K) = 0.028735."""
    figure = of(MIXED, own(2, rammed_density_kg_l="1.65 ± 0.03"))["rammed_density_kg_l"]
    assert figure.now == pytest.approx(1.641743, abs=1e-6)
    assert figure.band == pytest.approx((1.613008, 1.670478), abs=1e-6)
    assert figure.prior_share == pytest.approx(1 - 0.917431, abs=1e-6)
    assert (figure.from_where, figure.own_text) == ("your own, 1 reading", "92 % your own")


def test_setting_back_counts_only_the_readings_after_it_also_on_the_same_day():
    back = {"kind": "forgotten", "at": "2027-03-03", "learned_figure": "rammed_density_kg_l"}
    first, last = own(2, rammed_density_kg_l="1.65 ± 0.03"), own(3, rammed_density_kg_l="1.50 ± 0.03")
    assert of(MIXED, first, back)["rammed_density_kg_l"].readings == 0
    assert of(MIXED, first, back, last) == of(MIXED, last)
    assert of(MIXED, first, last, back)["rammed_density_kg_l"].readings == 0
    undone = {"kind": "undone", "at": "2027-03-04", "of": "e3"}
    assert of(MIXED, first, back, undone) == of(MIXED, first)


def test_setting_back_the_slope_forgets_the_tin_tests_before_it():
    pairs = [
        {"kind": "measured", "at": f"2027-03-{day:02}", "moisture_pct_wet": f"{moisture} ± 0.2 %", "compactability_read_pct": pct}
        for day, moisture, pct in ((2, 2.6, 30), (9, 3.4, 45), (16, 3.0, 38))
    ]  # fmt: skip
    back = {"kind": "forgotten", "at": "2027-03-20", "learned_figure": "compactability_slope"}
    learnt = of(MIXED, *pairs)["compactability_slope"]
    assert (learnt.readings, learnt.prior_share < 1) == (3, True)
    assert of(MIXED, *pairs, back)["compactability_slope"] == of(MIXED)["compactability_slope"]


def test_the_loss_of_a_cast_is_that_of_the_book_in_percent():
    """See test_sand_loss: 3, 4 and 5 % teach 3.703 %, with a standard deviation of the logarithm of 0.10170."""
    casts = [
        {"kind": "poured", "at": f"2027-03-0{day}", "metal_kg": 1, "flask_sand_kg": "20 kg", "sand_lost_kg": kg}
        for day, kg in ((2, "0.6 kg"), (3, "0.8 kg"), (4, "1 kg"))
    ]
    figure = of(MIXED, *casts)["loss_a_cast_pct"]
    assert figure.now == pytest.approx(3.703, abs=1e-3)
    assert figure.band == pytest.approx([3.703 * math.exp(sign * 1.96 * 0.10170) for sign in (-1, 1)], rel=1e-3)
    assert figure.prior_share == pytest.approx((0.10170 / 0.35365) ** 2, rel=1e-3)


def test_every_figure_that_can_be_set_back_is_a_word():
    assert all(quantity(word).name == word for word in FIGURES)


def test_a_figure_stays_within_the_bounds_of_its_word():
    far = of(MIXED, *[own(2, clay_activity_pct="100 ± 0.5 %")] * 3)["clay_activity_pct"]
    assert far.now <= 100
    assert far.band[1] <= 100


def moisture_tests(*read):
    """Tests of the moisture a week apart."""
    return [
        {"kind": "measured", "at": f"2027-03-{1 + 7 * at:02}", "moisture_pct_wet": f"{pct} ± 0.1 %"} for at, pct in enumerate(read)
    ]  # fmt: skip


def test_moisture_lost_a_day_is_what_the_heap_book_counts_from_three_changes_on():
    """0.7 points a week are 0.1 a day; the first figure is 0.02 ± 0.08 a day."""
    two, three = of(MIXED, *moisture_tests(3.5, 2.8, 2.1)), of(MIXED, *moisture_tests(3.5, 2.8, 2.1, 1.4))
    assert two["lid_loss_pct_day"].now == pytest.approx(0.02)
    assert two["lid_loss_pct_day"].prior_share == 1
    learnt = three["lid_loss_pct_day"]
    assert learnt.readings == 3
    assert 0.06 < learnt.now <= 0.1
    assert learnt.prior_share < 0.5
    assert three["open_loss_pct_day"].readings == 0


def test_moisture_lost_under_a_lid_can_be_set_back_and_the_heap_goes_by_its_own_rule_again():
    back = {"kind": "forgotten", "at": "2027-03-23", "learned_figure": "lid_loss_pct_day"}
    tests = moisture_tests(3.5, 2.8, 2.1, 1.4)
    assert of(MIXED, *tests, back)["lid_loss_pct_day"] == of(MIXED)["lid_loss_pct_day"]
    undone = {"kind": "undone", "at": "2027-03-24", "of": "e6"}
    assert of(MIXED, *tests, back, undone) == of(MIXED, *tests)
