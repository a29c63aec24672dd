"""The feel of a handful: what the usual words mean, what own pairs change, and when they may dose."""

import math
import random
from dataclasses import replace

import pytest

from sandmix.bench import feel, feel_check
from sandmix.bench.feel import CUTS_PCT, ORDER, Known, Pair, judge, of_band, own_words, prior, quantile, usual_words
from sandmix.bench.feel_check import Check, check
from sandmix.maths.ordered_regression import OrderedFit

WORD = {word: at for at, word in enumerate(ORDER)}


def pairs_of(*given):
    return [Pair(feel=WORD[word], moisture_pct_wet=moisture, sd_pct=0.18) for word, moisture in given]


SKILLED = pairs_of(
    ("crumbles", 1.9), ("crumbles", 2.1), ("weak", 2.5), ("weak", 2.7), ("weak", 2.8), ("prints", 3.2),
    ("prints", 3.5), ("prints", 3.9), ("shiny", 4.4), ("shiny", 4.8), ("crumbles", 2.2), ("prints", 3.7),
)  # fmt: skip
BLIND = pairs_of(
    ("shiny", 2.0), ("crumbles", 4.2), ("prints", 2.2), ("weak", 4.0), ("weak", 2.1), ("shiny", 3.9),
    ("crumbles", 2.4), ("prints", 4.1), ("prints", 2.3), ("shiny", 2.2), ("weak", 3.9), ("crumbles", 4.3),
)  # fmt: skip


def test_the_usual_borders_are_those_of_the_note():
    """Drawn from the prior: each border has the mean of the note and a variance of 0.6² + 0.5², and two of them share 0.5²."""
    mean, precision = prior().mean, prior().precision
    slope = mean[0]
    assert [3.5 + cut / slope for cut in mean[1:]] == pytest.approx(list(CUTS_PCT))
    # with the slope held at its mean, the covariance of the borders in points is the inverse of the cut points' precision / slope²
    shared, own = 0.5**2, 0.5**2 + 0.6**2
    covariance = [[own if one == two else shared for two in range(4)] for one in range(4)]
    for one in range(4):
        for two in range(4):
            product = sum(precision[one + 1][at + 1] * slope**2 * covariance[at][two] for at in range(4))
            assert product == pytest.approx(1.0 if one == two else 0.0, abs=1e-9)


def test_a_sharper_person_has_the_same_usual_borders():
    """The precision ties cut points to slope × (usual border − 3.5): there the quadratic form is that of the slope alone."""
    for slope in (2.0, 5.0, 9.0):
        off = [slope - 5.0, *((slope - 5.0) * (cut - 3.5) for cut in CUTS_PCT)]
        rows = zip(off, prior().precision, strict=True)
        form = sum(one * sum(part * other for part, other in zip(row, off, strict=True)) for one, row in rows)
        assert form == pytest.approx(((slope - 5.0) / 2.0) ** 2, abs=1e-6)


def test_without_own_pairs_the_words_keep_their_order_and_are_wide():
    found = [judge(usual_words(), at) for at in range(5)]
    middles = [one.moisture_pct_wet for one in found]
    assert middles == sorted(middles)
    assert all(one.high_pct - one.low_pct > 2.5 for one in found), "wide until earned"
    assert 3.0 < middles[WORD["prints"]] < 4.2


def test_own_pairs_move_the_words():
    """A person whose hand is dry: every word comes one point wetter; the prior holds back a part of it."""
    moved = [Pair(feel=pair.feel, moisture_pct_wet=pair.moisture_pct_wet + 1.0, sd_pct=0.18) for pair in SKILLED]
    usual, own = judge(own_words(SKILLED), WORD["weak"]), judge(own_words(moved), WORD["weak"])
    assert own.moisture_pct_wet - usual.moisture_pct_wet == pytest.approx(0.8, abs=0.35)


def test_a_word_and_the_book_together_are_surer_than_either():
    known = of_band(3.0, 0.8)
    found = judge(own_words(SKILLED), WORD["crumbles"], known)
    assert found.moisture_pct_wet < 3.0
    assert found.high_pct - found.low_pct < 1.6
    assert not found.contradicts


def test_a_word_that_cannot_be_contradicts():
    found = judge(own_words(SKILLED), WORD["leaves_water"], of_band(2.2, 0.3))
    assert found.contradicts
    assert not judge(own_words(SKILLED), WORD["crumbles"], of_band(2.2, 0.3)).contradicts


def test_bayes_on_the_grid_is_bayes_by_hand():
    """Two moistures only matter where the grid is coarse: the median of weights 1, 2, 1 is the middle, and each weight spreads about its point."""
    assert quantile([0.0, 1.0, 2.0], [1.0, 2.0, 1.0], 0.5) == 1.0
    assert quantile([0.0, 1.0, 2.0], [1.0, 2.0, 1.0], 0.25) == pytest.approx(0.5)
    assert quantile([0.0, 1.0, 2.0], [0.0, 0.0, 1.0], 0.5) == pytest.approx(2.0)
    assert quantile([0.0, 1.0], [1.0, 0.0], 0.999) <= 1.0


def test_a_flat_word_leaves_what_was_known():
    """With no slope every moisture has the same chance: the answer is the normal distribution that was known, 3 ± 1.96 × 0.5."""
    words = usual_words()
    blind = type(words)(slopes=(0.0,), cuts=words.cuts, log_likelihood=0.0, covariance=[[0.0] * 5] * 5)
    found = judge(blind, 2, Known(mean_pct=3.0, sd_pct=0.5))
    assert [found.low_pct, found.moisture_pct_wet, found.high_pct] == pytest.approx([2.02, 3.0, 3.98], abs=0.02)


def test_less_certain_borders_widen_the_range():
    known = of_band(3.5, 2.0)
    narrow, wide = (judge(own_words(SKILLED), WORD["weak"], known, shift) for shift in (0.0, 1.0))
    assert wide.high_pct - wide.low_pct > narrow.high_pct - narrow.low_pct


def test_a_book_is_never_taken_as_surer_than_a_tenth():
    assert of_band(3.0, 0.0).sd_pct == 0.1


def test_skilled_words_may_dose_and_blind_ones_never():
    assert check(SKILLED).may_dose
    found = check(BLIND)
    assert found.has_enough
    assert not found.tells
    assert not found.may_dose


def test_seven_pairs_or_two_words_are_too_few():
    assert not check(SKILLED[:7]).may_dose
    two = pairs_of(
        *[("crumbles", 1.8 + 0.05 * at) for at in range(6)], *[("prints", 3.3 + 0.1 * at) for at in range(6)]
    )
    assert check(two).words == 2
    assert not check(two).may_dose


def summed(words, pair):
    """The density at the tested moisture and the chance of a lower test, after a word: 2000 moistures from 0 to 12 %, 4 ± 1.5 % without the word."""
    moistures = [0.006 * at for at in range(2001)]
    usual = [math.exp(-(((at - 4) / 1.5) ** 2) / 2) for at in moistures]
    after = [one * two for one, two in zip(usual, feel.chances(words, pair.feel, moistures), strict=True)]
    offs = [(pair.moisture_pct_wet - at) / pair.sd_pct for at in moistures]
    density = sum(one * math.exp(-off * off / 2) for one, off in zip(after, offs, strict=True)) / sum(after)
    below = sum(one * (1 + math.erf(off / math.sqrt(2))) / 2 for one, off in zip(after, offs, strict=True)) / sum(after)
    return math.log(density / pair.sd_pct / math.sqrt(2 * math.pi)), below


def test_the_check_is_what_a_fine_sum_gives_also_at_both_ends():
    """Each pair left out and fitted again. Tests of ± 1 %, three times the usual, at 0.2 and 10.5 % reach beyond the moistures that count."""
    pairs = [Pair(feel=pair.feel, moisture_pct_wet=pair.moisture_pct_wet, sd_pct=0.5) for pair in SKILLED]
    pairs += [Pair(feel=0, moisture_pct_wet=0.2, sd_pct=0.5), Pair(feel=4, moisture_pct_wet=10.5, sd_pct=0.5)]
    found = check(pairs)
    own = [summed(own_words([*pairs[:at], *pairs[at + 1 :]]), pair) for at, pair in enumerate(pairs)]
    usual = [summed(usual_words(), pair)[0] for pair in pairs]
    nothing = [
        -math.log(1.5**2 + 0.5**2) / 2 - math.log(2 * math.pi) / 2 - (pair.moisture_pct_wet - 4) ** 2 / 2 / 2.5
        for pair in pairs
    ]
    score = sum(one for one, _ in own)
    assert found.gain == pytest.approx((score - sum(usual)) / len(pairs), abs=0.02)
    assert found.told == pytest.approx((score - sum(nothing)) / len(pairs), abs=0.02)
    assert found.inside == sum(0.025 <= below <= 0.975 for _, below in own) / len(pairs)


def test_one_pair_and_none_have_no_check():
    assert check([]) == Check(pairs=0, words=0)
    assert check(SKILLED[:1]) == Check(pairs=1, words=1)


def test_only_the_last_forty_pairs_count():
    assert check(BLIND * 4 + SKILLED * 4).pairs == 40


def test_a_test_far_outside_is_a_miss():
    odd = [*SKILLED, *pairs_of(("crumbles", 8.5), ("weak", 9.0), ("crumbles", 8.8))]
    found = check(odd)
    assert found.inside < check(SKILLED).inside
    assert math.isfinite(found.gain)


def test_the_range_holds_the_truth_19_times_in_20():
    """600 people drawn as the prior says, with their own offset, borders and scatter: 95 % ± 2 standard deviations of the count, 1.8 points."""
    dice = random.Random(11)
    held = 0
    for _ in range(600):
        while True:
            offset = dice.gauss(0, feel.OFFSET_SD)
            borders = [cut + offset + dice.gauss(0, feel.CUT_SD) for cut in CUTS_PCT]
            sharp = dice.gauss(feel.STEEP, feel.STEEP_SD)
            if borders == sorted(borders) and sharp > 0.3:
                break

        def felt(moisture, borders=borders, sharp=sharp):
            u = dice.uniform(1e-9, 1 - 1e-9)
            return sum(moisture + math.log(u / (1 - u)) / sharp > border for border in borders)

        own = []
        for _ in range(6):
            moisture = max(0.5, dice.gauss(3.3, 0.9))
            own.append(Pair(feel=felt(moisture), moisture_pct_wet=moisture + dice.gauss(0, 0.18), sd_pct=0.18))
        moisture = max(0.3, dice.gauss(3.3, 0.9))
        found = judge(own_words(own), felt(moisture), of_band(max(0.2, moisture + dice.gauss(0, 0.5)), 0.98))
        held += found.low_pct <= moisture <= found.high_pct
    assert held / 600 == pytest.approx(0.95, abs=0.02)


PLAIN = OrderedFit(slopes=(2.0,), cuts=(-1.0, 0.0, 1.0, 2.0), log_likelihood=0.0, covariance=[[0.0] * 5] * 5)
"""Words without any doubt: at 3.5 % the chance of a word up to the first, second … is F(−1), F(0), F(1), F(2)."""


def logistic(u):
    return 1 / (1 + math.exp(-u))


def test_the_chance_of_a_word_is_98_hundredths_of_the_curve_and_a_fifth_of_the_rest():
    """At 3.5 % F(−1) = 0.26894 and F(0) = 0.5; at 4 %, one logit further, F(−2) = 0.11920 and F(−1)."""
    assert feel.chances(PLAIN, 0, [3.5, 4.0]) == pytest.approx(
        [0.98 * 0.26894 + 0.004, 0.98 * 0.11920 + 0.004], abs=1e-5
    )
    assert feel.chances(PLAIN, 1, [3.5, 4.0]) == pytest.approx(
        [0.98 * 0.23106 + 0.004, 0.98 * 0.14974 + 0.004], abs=1e-5
    )
    for moisture in (0.0, 2.5, 3.5, 9.0):
        assert sum(feel.chances(PLAIN, at, [moisture])[0] for at in range(5)) == pytest.approx(1)


def test_a_further_doubt_of_the_borders_flattens_the_curve():
    """1.5 points are 3 logits, a variance of 9: F(u/√(1 + π/8 · 9))."""
    flat = math.sqrt(1 + math.pi / 8 * 9)
    found = feel.chances(PLAIN, 0, [3.5, 4.0], 1.5)
    assert found == pytest.approx([0.98 * logistic(-1 / flat) + 0.004, 0.98 * logistic(-2 / flat) + 0.004])


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        pytest.param(0, logistic(-1), id="the driest: itself"),
        pytest.param(1, 0.5, id="up to the second F(0), from it on 1 − F(−1)"),
        pytest.param(2, 0.5, id="up to the third F(1), from it on 1 − F(0)"),
        pytest.param(3, 1 - logistic(1), id="up to the fourth F(2), from it on 1 − F(1)"),
        pytest.param(4, 1 - logistic(2), id="the wettest: itself"),
    ],
)
def test_how_often_to_expect_such_a_word_or_one_further_out(word, expected):
    """Words that have nothing to do with the moisture come as often at each."""
    blind = replace(PLAIN, slopes=(0.0,))
    assert judge(blind, word, Known(mean_pct=3.0, sd_pct=0.5)).expected == pytest.approx(expected)


def test_what_is_known_on_its_grid():
    """3 ± 0.5: 101 moistures from 0.75 to 5.25. 1 ± 1: from 0, and not from −3.5."""
    grid = Known(mean_pct=3.0, sd_pct=0.5).grid
    assert len(grid) == 101
    assert (grid[0], grid[1], grid[50], grid[100]) == pytest.approx((0.75, 0.795, 3.0, 5.25))
    assert (Known(mean_pct=1.0, sd_pct=1.0).grid[0], Known(mean_pct=1.0, sd_pct=1.0).grid[100]) == (0, 5.5)
    known = Known(mean_pct=3.0, sd_pct=0.5)
    assert [known.density(at) for at in (3.0, 3.5, 2.0)] == pytest.approx([1, math.exp(-0.5), math.exp(-2)])
    assert (of_band(3.0, 0.98).mean_pct, of_band(3.0, 0.98).sd_pct) == pytest.approx((3.0, 0.5))


ENOUGH = Check(pairs=8, words=3, inside=0.85, gain=0.001, told=0.2)


def test_the_words_may_dose_at_just_these_figures():
    assert ENOUGH.may_dose
    assert ENOUGH.has_enough
    assert ENOUGH.is_honest
    assert ENOUGH.is_better
    assert ENOUGH.tells


@pytest.mark.parametrize(
    "less", [{"pairs": 7}, {"words": 2}, {"inside": 0.849}, {"inside": None}, {"gain": 0.0}, {"gain": None}, {"told": 0.199}, {"told": None}]
)  # fmt: skip
def test_the_words_may_not_dose_where_one_figure_is_less(less):
    found = replace(ENOUGH, **less)
    assert not found.may_dose
    assert [found.has_enough, found.is_honest, found.is_better, found.tells].count(False) == 1


def test_the_density_and_the_place_of_a_test_by_hand():
    """Half of the weight lies one standard deviation below the test, a quarter far below it and a quarter far above: Φ(1) = 0.84134.

    The standard deviation is that of the test and half a step of the grid, √(0.2² + 0.1075²) = 0.22706; the steps are 10.75/50.
    """
    weights = [0.0] * 51
    weights[2], weights[20], weights[45] = 0.25, 0.5, 0.25
    pair = Pair(feel=0, moisture_pct_wet=20 * 0.215 + 0.22706, sd_pct=0.2)
    score, place = feel_check._predicted(weights, pair)
    assert place == pytest.approx(0.25 + 0.5 * 0.84134, abs=1e-5)
    assert score == pytest.approx(math.log(0.5 * math.exp(-0.5) / (0.22706 * math.sqrt(2 * math.pi))), abs=1e-4)


@pytest.mark.parametrize(("moisture", "place"), [(-40.0, 0.0), (60.0, 1.0)])
def test_a_test_far_beyond_the_grid_is_below_or_above_all_of_it(moisture, place):
    found = feel_check._predicted([1 / 51] * 51, Pair(feel=0, moisture_pct_wet=moisture, sd_pct=0.2))
    assert found == (
        pytest.approx(math.log(1e-300 / (0.22706 * math.sqrt(2 * math.pi))), abs=1e-3),
        pytest.approx(place),
    )


def test_the_score_of_no_word_is_that_of_a_heap_of_which_nothing_is_known():
    """4 ± 1.5 with a test of ± 2 is a normal curve of 2.5: at 6.5 one standard deviation away."""
    found = feel_check._score_of_nothing(Pair(feel=0, moisture_pct_wet=6.5, sd_pct=2.0))
    assert found == pytest.approx(-0.5 - math.log(2.5 * math.sqrt(2 * math.pi)))


def test_the_gap_weight_hardly_moves_the_usual_borders():
    """It only keeps them in order: by less than a twentieth of a point."""
    words = usual_words()
    assert [3.5 + cut / words.slopes[0] for cut in words.cuts] == pytest.approx(list(CUTS_PCT), abs=0.05)
