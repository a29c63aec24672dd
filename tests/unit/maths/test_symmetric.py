"""Symmetric systems by hand: L of three rows, L Lᵀ, one right side, and an inverse by its determinant."""

import pytest

from sandmix.maths.symmetric import cholesky, inverse, solved

LOWER = [[2.0, 0.0, 0.0], [1.0, 2.0, 0.0], [0.0, 1.0, 1.0]]
MATRIX = [[4.0, 2.0, 0.0], [2.0, 5.0, 2.0], [0.0, 2.0, 2.0]]


def test_the_triangle_of_three_rows():
    assert cholesky(MATRIX) == LOWER


def test_a_system_of_three_rows():
    """For x = 1, 2, 3: 4 + 4 = 8, 2 + 10 + 6 = 18, 4 + 6 = 10."""
    assert solved(LOWER, [8.0, 18.0, 10.0]) == pytest.approx([1.0, 2.0, 3.0])


def test_an_inverse_of_two_rows():
    """[[4, 2], [2, 5]] has the determinant 16: 1/16 [[5, -2], [-2, 4]]."""
    first, second = inverse([[2.0, 0.0], [1.0, 2.0]])
    assert first == pytest.approx([5 / 16, -2 / 16])
    assert second == pytest.approx([-2 / 16, 4 / 16])


def test_a_matrix_that_is_not_positive_definite_has_none():
    assert cholesky([[1.0, 0.0], [2.0, 4.0]]) is None
