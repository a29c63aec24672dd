"""Tests of the sand: each figure by hand arithmetic, its error, and the least work that makes it exact enough."""

import math

import pytest

from sandmix.bench import measurements


def test_moisture_is_the_loss_over_the_wet_mass():
    assert measurements.moisture_pct_wet(200, 190) == pytest.approx(5.0)


def test_the_errors_of_handful_and_scale_add_as_squares():
    assert measurements.moisture_error_pct(0.4) == pytest.approx(0.5)


def test_the_sample_for_a_target_error():
    """0.5 points in all leave 0.4 for the scale: 80.02 / 0.4 = 200 g on a 1 g scale."""
    sample = measurements.sample_for_error_g(0.5, 1)
    assert sample == pytest.approx(100 * math.sqrt(2) * 1.96 / math.sqrt(12) / 0.4)


def test_no_sample_is_more_exact_than_handfuls_allow():
    assert measurements.sample_for_error_g(0.3, 1) is None


def test_a_share_and_a_loss():
    assert measurements.share_pct(200, 21) == pytest.approx(10.5)
    assert measurements.lost_pct(160, 120) == pytest.approx(25)


def test_grain_of_20_um_sinks_about_as_fast_as_the_wash_allows():
    """9.80665 · (20e-6)² · (2650 - 998) / (18 · 0.001) = 3.600e-4 m/s, times 60 000 = 21.60 mm a minute; four times that at twice the size."""
    assert measurements.sinking_mm_min(20) == pytest.approx(21.60, abs=0.01)
    assert measurements.sinking_mm_min(40) == pytest.approx(4 * measurements.sinking_mm_min(20))


def test_twice_the_dye_is_twice_the_clay():
    """0.4 g of known clay took 32 mL: 0.0125 g a mL. 20 mL on 4 g are 0.25 g, 6.25 %."""
    assert measurements.blue_clay_pct_dry(4, 20, 32, 0.4) == pytest.approx(6.25)
    assert measurements.blue_clay_pct_dry(4, 40, 32, 0.4) == pytest.approx(12.5)


def test_permeability_of_the_two_specimens():
    """2000 · 5.08 / (20.268 · 5 · 0.5) = 200.5; 2000 · 5 / (19.635 · 5 · 0.5) = 203.7."""
    assert measurements.permeability(5, 30) == pytest.approx(200.5, abs=0.1)
    assert measurements.permeability(5, 30, "metric") == pytest.approx(203.7, abs=0.1)


def test_a_metric_specimen_of_50_by_50_mm_holds_98_17_cm3():
    """π/4 · 5² · 5 = 98.175."""
    assert measurements.SPECIMENS["metric"].volume_cm3 == pytest.approx(98.175, abs=0.001)


def test_water_sensitivity_is_moisture_for_ten_points():
    """1.2 points of moisture changed it by 16: 10 · 1.2 / 16 = 0.75, in either order."""
    assert measurements.water_sensitivity((4.2, 3.0), (54, 38)) == pytest.approx(0.75)
    assert measurements.water_sensitivity((3.0, 4.2), (38, 54)) == pytest.approx(0.75)


@pytest.mark.parametrize(("first", "second"), [(40.0, 40.05), (40.05, 40.0), (40.0, 40.0)])
def test_compactabilities_closer_than_a_tenth_count_as_a_tenth_apart(first, second):
    """10 · 1 / 0.1 = 100, with the sign of what was read."""
    assert abs(measurements.water_sensitivity((4, 3), (first, second))) == pytest.approx(100)


def test_the_known_order_of_the_compactabilities_is_kept():
    """Read 41 and 40, moved to 38 and 40: they count as a tenth of a point apart, 10 · 1 / 0.1 = 100, not 10 · 1 / -2."""
    assert measurements.water_sensitivity((4, 3), (38, 40), 1.0) == pytest.approx(100)
    assert measurements.water_sensitivity((3, 4), (40, 38), -1.0) == pytest.approx(100)


def test_strength_is_load_over_the_end_of_the_specimen():
    """98.0665 N on π/4 · 5² = 19.635 cm²: 4.9945 N/cm², 49.945 kPa."""
    assert measurements.strength_kpa(98.0665, "metric") == pytest.approx(49.945, abs=0.001)


def test_a_round_tin_of_100_by_100_mm_holds_785_ml():
    assert measurements.round_tin_ml(100, 100) == pytest.approx(785.398, abs=0.001)


def test_fifty_strokes_for_sixty_grams_are_83_for_a_tenth_of_a_litre():
    assert measurements.strokes_per_100ml(50, 60) == pytest.approx(83.333, abs=0.001)


class TestPlans:
    """An error of ± 0.8 from 100 g on a 1 g scale, and a scatter of 0.3."""

    def plans(self, **others):
        usual = {"reading_error": 0.8, "scatter": 0.3, "sample_g": 100.0, "step_g": 1.0}
        return measurements.plans("moisture", **(usual | others))

    def test_errors_and_work_by_hand(self):
        """200 g halve the error: √(0.4² + 0.3²) = 0.5. Two tests 0.5/√2. Work 6 + 2 · 1 min each. A 0.1 g scale leaves √(0.04² + 0.3²)."""
        plans = {(plan.repeats, plan.sample_g, plan.step_g): plan for plan in self.plans()}
        assert plans[1, 200, 1].error == pytest.approx(0.5)
        assert plans[2, 200, 1].error == pytest.approx(0.5 / math.sqrt(2))
        assert plans[1, 200, 1].work_min == pytest.approx(8)
        assert plans[2, 200, 1].work_min == pytest.approx(16)
        assert plans[1, 200, 0.1].error == pytest.approx(math.hypot(0.04, 0.3))
        assert plans[1, 200, 0.1].work_min == pytest.approx(18)

    def test_the_work_of_a_larger_sample(self):
        """The wash: 25 min, and 4 for each 100 g. Twice 50 g on the scale of 1 g, and on a finer one, which is 10 min once."""
        usual = {"reading_error": 0.8, "scatter": 0.3, "sample_g": 50.0, "step_g": 1.0}
        plans = {(plan.repeats, plan.sample_g, plan.step_g): plan for plan in measurements.plans("wash", **usual)}
        assert plans[2, 50, 1].work_min == pytest.approx(2 * (25 + 2))
        assert plans[2, 50, 0.1].work_min == pytest.approx(2 * (25 + 2) + 10)

    @pytest.mark.parametrize("wanted", [0.9, 0.6, 0.5, 0.35, 0.31, 0.25, 0.2, 0.15])
    def test_no_other_plan_reaches_it_with_less_work(self, wanted):
        best = measurements.least_work(self.plans(), wanted)
        assert best is not None
        assert best.error <= wanted
        assert [plan for plan in self.plans() if plan.error <= wanted and plan.work_min < best.work_min] == []

    def test_an_error_below_that_of_handfuls_is_out_of_reach(self):
        """Five tests leave 0.3/√5 = 0.134, however fine the scale."""
        assert measurements.least_work(self.plans(), 0.13) is None

    def test_no_finer_scale_is_proposed_for_a_fine_one(self):
        assert {plan.step_g for plan in self.plans(step_g=0.01)} == {0.01}

    def test_a_test_without_weighing_is_only_repeated(self):
        """Rammed columns: 4 min each; four of them halve ± 2."""
        plans = measurements.plans("compactability", reading_error=0.0, scatter=2.0, sample_g=None, step_g=1.0)
        assert [(plan.repeats, plan.sample_g, plan.work_min) for plan in plans] == [
            (n, None, 4 * n) for n in range(1, 6)
        ]
        assert plans[3].error == pytest.approx(1.0)
