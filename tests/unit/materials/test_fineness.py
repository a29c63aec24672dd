"""Grain fineness, by hand arithmetic from the definitions."""

import pytest

from sandmix.materials import fineness


def test_the_series_has_eleven_sieves_and_a_pan_each_finer_than_the_last():
    openings = [sieve.opening_mm for sieve in fineness.SIEVES.values()]
    multipliers = [sieve.multiplier for sieve in fineness.SIEVES.values()]
    assert list(fineness.SIEVES) == ["6", "12", "20", "30", "40", "50", "70", "100", "140", "200", "270", "pan"]
    assert openings == sorted(openings, reverse=True)
    assert multipliers == [3, 5, 10, 20, 30, 40, 50, 70, 100, 140, 200, 300]


@pytest.mark.parametrize(("number", "multiplier"), [("6", 3), ("12", 5), ("50", 40), ("270", 200), ("pan", 300)])
def test_all_on_one_sieve_is_its_multiplier(number, multiplier):
    assert fineness.gfn({number: 7.3}) == pytest.approx(multiplier)


def test_two_parts_to_one():
    """(2 × 50 + 1 × 70) / 3 = 56.667."""
    assert fineness.gfn({"70": 2, "100": 1}) == pytest.approx(170 / 3)


def test_a_tenth_counts_as_a_screen_and_less_does_not():
    assert fineness.screens({"50": 10, "70": 80.1, "100": 9.9}) == ["50", "70"]


def test_a_tenth_despite_rounding_counts_as_a_screen():
    assert 0.7 / (0.7 + 5.6 + 0.7) < 0.1
    assert fineness.screens({"50": 0.7, "70": 5.6, "100": 0.7}) == ["50", "70", "100"]


def test_the_pan_is_not_a_screen():
    assert fineness.screens({"50": 50, "pan": 50}) == ["50"]


def test_gaps_are_the_other_sieves_between_the_screens():
    assert fineness.gaps({"40": 40, "50": 5, "100": 55}) == ["50", "70"]


def test_without_a_screen_there_is_no_gap():
    assert fineness.screens({"pan": 1}) == []
    assert fineness.gaps({"pan": 1}) == []
    assert fineness.passing_pct({"pan": 1}) == {}


def test_what_passes_includes_the_pan_and_the_sieves_between():
    """Of 10: 6 on No. 50, so 4 pass it; none on 70 and 100, 3 on 140, 1 in the pan."""
    assert fineness.passing_pct({"50": 6, "140": 3, "pan": 1}) == pytest.approx(
        {"50": 40, "70": 40, "100": 40, "140": 10}
    )
    assert fineness.missing({"50": 6, "140": 3, "pan": 1}) == ["70", "100"]


def test_the_middle_of_a_fraction():
    assert fineness.middle_mm("70") == pytest.approx((0.300 + 0.212) / 2)
    assert fineness.middle_mm("6") == pytest.approx((4.75 + 3.35) / 2)
    assert fineness.middle_mm("pan") == 0.0265


def test_surface_by_hand():
    """60000 / 2650 = 22.6415; over 0.256 it is 88.443, over 0.181 it is 125.091; the mean is 106.767."""
    assert fineness.surface_cm2_g({"70": 1, "100": 1}) == pytest.approx(106.767, abs=0.001)


def test_a_blend_is_weighted_by_its_grain_and_not_by_the_samples():
    """3 kg of a sand all on 50, of which 20 g were sieved, and 1 kg all on 100, of which 100 g were: 75 and 25 %."""
    assert fineness.blended([({"50": 20}, 3), ({"100": 100}, 1)]) == pytest.approx({"50": 75, "100": 25})


def test_a_lot_without_grain_does_not_count():
    assert fineness.blended([({"50": 20}, 3), ({"100": 100}, 0)]) == {"50": 100}
