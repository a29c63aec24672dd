"""Conduction through cells, by hand arithmetic: single steps in fractions, the straight pieces, and the conservation of heat."""

import math

import pytest

from sandmix.maths import conduction
from sandmix.maths.conduction import Cells, march


def cells(h, conductance, *, volume=None, slope=0.5, outside_c=0.0, melts=None):
    """Cells with T = slope · H, or with a change of state at 0 °C that takes *melts*."""
    count = len(h)
    far = 1e12 if melts is None else 0.0
    return Cells(
        volume=volume or [2.0] * count,
        conductance=conductance,
        h=list(h),
        h_low=[far] * count,
        t_low=[slope * far] * count,
        h_high=[far + (melts or 0.0)] * count,
        t_high=[slope * far] * count,
        before=[slope] * count,
        during=[0.0] * count,
        after=[slope] * count,
        outside_c=outside_c,
    )


def marched(
    row, *, steps=None, first_step_s=1.0, growth=1.0, reached=None, start_c=0.0, longest_s=math.inf, may_s=math.inf
):
    moments = []

    def after_step(moment):
        moments.append(moment)
        return 0.0 if steps is not None and len(moments) >= steps else may_s

    march(
        row,
        first_step_s=first_step_s,
        growth=growth,
        reached=len(row.h) if reached is None else reached,
        start_c=start_c,
        longest_s=longest_s,
        after_step=after_step,
    )
    return moments


def test_the_first_step_balances_heat_over_the_whole_step():
    """2 (H - 8) / 1 = 1 (0 - H/2): H = 16 / 2.5 = 6.4; T = 3.2, and 3.2 J are gone."""
    row = cells([8.0], [1.0])
    (moment,) = marched(row, steps=1)
    assert row.h == [pytest.approx(6.4)]
    assert moment.temperatures_c == [pytest.approx(3.2)]
    assert moment.gone_j == pytest.approx(3.2)
    assert moment.time_s == 1


def test_the_second_step_uses_the_two_steps_before():
    """2 (1.5 H - 2 · 6.4 + 0.5 · 8) = -H/2: H = 17.6 / 3.5; what is gone is 2 (8 - H)."""
    row = cells([8.0], [1.0])
    moments = marched(row, steps=2)
    assert row.h == [pytest.approx(17.6 / 3.5)]
    assert moments[1].gone_j == pytest.approx(2 * (8 - 17.6 / 3.5))


def test_a_longer_second_step_has_other_weights():
    """Step 2 after 1: (5 H - 9 · 6.4 + 4 · 8) / 3, 2 of that is -2 H/2: 10 H/3 + H = 2 · 25.6/3; H = 51.2 / 13."""
    row = cells([8.0], [1.0])
    marched(row, steps=2, growth=2.0)
    assert row.h == [pytest.approx(51.2 / 13)]


def test_fine_steps_converge_to_the_exponential():
    """G · slope / V = 1 / 4: after 4 s 1/e."""
    row = cells([8.0], [1.0])
    marched(row, first_step_s=1 / 128, longest_s=4.0)
    assert row.h[0] == pytest.approx(8 / math.e, rel=1e-3)


def test_two_insulated_cells_reach_the_same_temperature():
    """Volumes 1 and 3 with 8 and 0: 2 in each, and 8 in all at every step."""
    row = cells([8.0, 0.0], [1.0, 0.0], volume=[1.0, 3.0])
    moments = marched(row, steps=60, growth=1.2)
    assert row.h == [pytest.approx(2.0), pytest.approx(2.0)]
    assert row.heat_j(0, 2) == pytest.approx(8.0, rel=1e-12)
    assert row.heat_j(1, 2) == pytest.approx(6.0)
    assert moments[-1].gone_j == 0


def test_heat_lost_and_heat_left_add_up_to_the_start():
    row = cells([8.0, 5.0, 1.0], [1.0, 0.5, 0.25])
    moments = marched(row, steps=40, growth=1.3)
    assert row.heat_j(0, 3) + moments[-1].gone_j == pytest.approx(28.0, rel=1e-12)


def test_a_cell_that_changes_state_keeps_its_temperature():
    """It melts at 0 °C by 10 per m³: fed 1 W/K from 4 °C outside, 4 J and 2 per m³ a step at first."""
    row = cells([0.0], [1.0], outside_c=4.0, melts=10.0)
    moments = marched(row, steps=3)
    assert [moment.temperatures_c for moment in moments] == [[0.0], [0.0], [0.0]]
    assert row.h == [pytest.approx(6.0)]


def test_a_melted_cell_gets_warmer():
    """2 (H - 9) = 8 - (H - 10)/2: 2.5 H = 31, H = 12.4: 1.2 °C."""
    row = cells([9.0], [1.0], outside_c=8.0, melts=10.0)
    (moment,) = marched(row, steps=1)
    assert row.h == [pytest.approx(12.4)]
    assert moment.temperatures_c == [pytest.approx(1.2)]


def test_each_cell_uses_its_own_piece():
    """T = H/2 up to 0, nothing to 10, (H - 10)/2 above: intercepts 0, 0, -5; both ends belong to the change."""
    row = cells([-3.0, 0.0, 4.0, 10.0, 13.0], [0.0] * 5, melts=10.0)
    assert (row.slope, row.intercept) == ([0.5, 0.0, 0.0, 0.0, 0.5], [0.0, 0.0, 0.0, 0.0, -5.0])


def test_only_a_cell_that_left_its_piece_chooses_again():
    """From 4 of 10 to 12 the second cell has melted; the third, from 13 to 11, has not frozen; the last is not looked at."""
    row = cells([-3.0, 4.0, 13.0, 4.0], [0.0] * 4, melts=10.0)
    assert row.choose_again([-1.0, 12.0, 11.0])
    assert (row.slope, row.intercept) == ([0.5, 0.5, 0.5, 0.0], [0.0, -5.0, -5.0, 0.0])
    assert not row.choose_again([-1.0, 12.0, 11.0])


def test_the_last_pass_counts_where_the_pieces_keep_changing(monkeypatch):
    """One pass on the piece it stood on: 2 (H - 9) = 8, H = 13, though it has melted at 10."""
    monkeypatch.setattr(conduction, "MOST_PASSES", 1)
    row = cells([9.0], [1.0], outside_c=8.0, melts=10.0)
    marched(row, steps=1)
    assert row.h == [pytest.approx(13.0)]


def test_steps_grow_by_a_factor_up_to_what_is_allowed():
    """1, 2, 4: ends at 1, 3, 7. Allowed 0.5: 1, 1.5, 2."""
    assert [moment.time_s for moment in marched(cells([8.0], [1.0]), steps=3, growth=2.0)] == [1, 3, 7]
    assert [moment.time_s for moment in marched(cells([8.0], [1.0]), steps=3, may_s=0.5)] == [1, 1.5, 2]


def test_it_ends_after_the_longest_time():
    assert [moment.time_s for moment in marched(cells([8.0], [1.0]), longest_s=2.5)] == [1, 2, 3]


def test_a_cell_joins_when_its_neighbour_has_warmed():
    """Warm metal and the first cell of sand are computed; the next joins cold once that has warmed, the outside last."""
    row = cells([8.0, 0.0, 0.0, 0.0], [1.0, 1.0, 1.0, 1.0])
    moments = marched(row, steps=3, reached=2)
    assert [len(moment.temperatures_c) for moment in moments] == [3, 4, 4]
    assert moments[0].temperatures_c[-1] == 0
    assert row.h[3] > 0
    assert row.heat_j(0, 4) + moments[-1].gone_j == pytest.approx(16.0)


def test_no_cell_joins_where_nothing_warms():
    moments = marched(cells([0.0, 0.0, 0.0], [1.0, 1.0, 1.0]), steps=2, reached=1)
    assert [moment.temperatures_c for moment in moments] == [[0.0], [0.0]]
