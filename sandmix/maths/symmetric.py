"""Small symmetric positive definite matrices: solve and invert by Cholesky's method. Source: any textbook of numerical analysis."""

from __future__ import annotations

import math
from collections.abc import Sequence

Vector = list[float]
Matrix = list[list[float]]


def cholesky(matrix: Sequence[Sequence[float]]) -> Matrix | None:
    """Return the lower triangle L with L Lᵀ = *matrix*, or None where the matrix is not positive definite; only its lower triangle is read.

    >>> cholesky([[4.0, 0.0], [2.0, 5.0]])
    [[2.0, 0.0], [1.0, 2.0]]
    """
    size = len(matrix)
    lower = [[0.0] * size for _ in range(size)]
    for row in range(size):
        own = lower[row]
        square = matrix[row][row]
        for column in range(row):
            other, total = lower[column], matrix[row][column]
            for at in range(column):
                total -= own[at] * other[at]
            own[column] = total / other[column]
            square -= own[column] * own[column]
        if not square > 1e-13 * abs(matrix[row][row]) or not math.isfinite(square):
            return None
        own[row] = math.sqrt(square)
    return lower


def solved(lower: Matrix, right: Sequence[float]) -> Vector:
    """Return x with L Lᵀ x = *right*."""
    size = len(lower)
    found = list(right)
    for row, own in enumerate(lower):
        total = found[row]
        for at in range(row):
            total -= own[at] * found[at]
        found[row] = total / own[row]
    for row in range(size - 1, -1, -1):
        total = found[row]
        for at in range(row + 1, size):
            total -= lower[at][row] * found[at]
        found[row] = total / lower[row][row]
    return found


def inverse(lower: Matrix) -> Matrix:
    """Return the inverse of L Lᵀ.

    >>> inverse([[2.0]])
    [[0.25]]
    """
    size = len(lower)
    return [solved(lower, [1.0 if at == row else 0.0 for at in range(size)]) for row in range(size)]
