"""Whole bags and what is left of them."""

import pytest

from sandmix.recipes import shopping


@pytest.mark.parametrize(
    ("needed", "bag", "usable", "count"),
    [
        (53.6, 20, 1, 3),
        (53.6, 20, 0.7, 4),
        (60, 20, 1, 3),
        (0.3, 0.1, 1, 3),
        (14, 20, 0.7, 1),
        (42, 20, 0.7, 3),
        (60.001, 20, 1, 4),
        (0, 20, 1, 0),
    ],
)
def test_bags_are_whole_and_an_exact_multiple_adds_none(needed, bag, usable, count):
    assert shopping.bags(needed, bag, usable) == count


def test_what_is_left_is_screened_sand():
    assert shopping.left_kg(53.6, 20, 4, 0.7) == pytest.approx(56 - 53.6)


def test_what_is_left_is_never_negative():
    assert shopping.left_kg(0.1 + 0.2, 0.1, 3) == 0


def test_a_whole_bag_is_usable_where_nothing_is_screened_out():
    assert [shopping.bags(needed, 10) for needed in (20, 20.5, 21)] == [2, 3, 3]
    assert shopping.left_kg(15, 10, 2) == 5
