"""A change of a sand: signed masses and variances."""

import pytest

from sandmix.materials.delta import Delta, figures_of

CAST = Delta(live_clay_kg=-0.02, dead_clay_kg=0.02, water_kg=-0.1, variances={"water_kg": 0.01})


def test_masses_below_zero_are_a_change():
    assert CAST.wet_kg == pytest.approx(-0.1)
    assert CAST.dry_kg == 0


def test_changes_add_up_part_by_part():
    both = CAST.plus(Delta(water_kg=0.3, variances={"water_kg": -0.004, "dry_kg": 1.0}))
    assert both.by_part() == pytest.approx(CAST.by_part() | {"water_kg": 0.2})
    assert (both.variance("water_kg"), both.variance("dry_kg"), both.variance("live_clay_kg")) == (
        pytest.approx(0.006),
        1,
        0,
    )


def test_a_reversed_change_takes_the_change_back():
    nothing = CAST.plus(CAST.reversed())
    assert set(nothing.by_part().values()) | set(nothing.variances.values()) == {0.0}


def test_a_change_is_stored_without_zeros_and_read_back():
    stored = CAST.to_dict()
    assert stored == {
        "change": {"live_clay_kg": -0.02, "dead_clay_kg": 0.02, "water_kg": -0.1},
        "variance": {"water_kg": 0.01},
    }
    assert Delta.from_dict(stored) == CAST
    assert Delta.from_dict({}) == Delta()


@pytest.mark.parametrize("figure", [True, "1", None, float("nan"), float("inf"), 1.1e9, 10**400])
def test_a_stored_figure_is_a_number_of_at_most_a_milliard(figure):
    with pytest.raises(ValueError, match="water_kg"):
        figures_of({"water_kg": figure}, ("water_kg",))


def test_a_stored_figure_has_a_known_name():
    with pytest.raises(KeyError):
        figures_of({"gold_kg": 1}, ("water_kg",))
