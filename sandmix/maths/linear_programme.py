"""A small linear programme: make one amount least and then the next, within limits, or name the limits that conflict.

Solved: over x >= 0, each of the objectives c1·x, c2·x, … is made least in turn, among the x that keep the ones before it at their least.
Every row is a·x <= b or a·x = b. Method: the simplex method on a dense tableau. Every row may be violated, at its own level: the sum of the
violations of level 0 is made least first, then that of level 1, and so on, and the objectives after them. So no large number stands for
"never", and where no x meets all rows the answer is the nearest x. After an objective is at its least, columns with a reduced cost above 0 are
closed, which keeps the objective there. The column of the lowest index enters. On a tie the row with the largest pivot leaves, which rounds
least; after some hundreds of pivots the row of the lowest index leaves, which is Bland's rule and cannot cycle.
Holds for: some dozens of rows and columns; a coefficient below a billionth of the largest in its row counts as 0. Source: bland_1977.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

MOST, EXACTLY = "<=", "="
TINY = 1e-9
NOISE = 1e-6
LEAST_PART = 1e-9
TIE = 1e-11
FREE_PIVOTS = 500
MOST_PIVOTS = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One limit: the sum of ``coefficients`` times the unknowns is at most, or exactly, ``bound``.

    Where two rows conflict, the one of the higher ``level`` is violated; within a level the sum of the violations is least.
    """

    name: str
    coefficients: Sequence[float]
    bound: float
    kind: str = MOST
    level: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """The solution.

    ``values`` are the objectives. ``prices`` holds, for each objective, its change when a row's bound is raised by one; rows without effect
    are left out. ``broken`` gives by how much a violated row is above its bound, or below it as a negative number. ``at_fault`` names the rows
    that conflict. Both are empty where all rows are met.
    """

    unknowns: tuple[float, ...]
    values: tuple[float, ...]
    prices: tuple[Mapping[str, float], ...]
    broken: Mapping[str, float]
    at_fault: tuple[str, ...]


def solve(rows: Sequence[Row], objectives: Sequence[Sequence[float]]) -> Solution:
    """Return the x that makes each of *objectives* least in turn within *rows*, or the x nearest to the rows.

    Raises ValueError where an objective has no least value.

    >>> sand = solve([Row(name="mass", coefficients=(1, 1), bound=10, kind="="), Row(name="stock", coefficients=(1, 0), bound=4)], [(1, 3)])
    >>> sand.unknowns, sand.values, sand.prices[0]["stock"]
    ((4.0, 6.0), (22.0,), -2.0)
    >>> solve([Row(name="few", coefficients=(1,), bound=4), Row(name="many", coefficients=(-1,), bound=-5, level=1)], [(1,)]).broken
    {'many': 1.0}
    """
    tableau = _Tableau(rows)
    at_fault: tuple[str, ...] = ()
    all_met = True
    for level in sorted({row.level for row in rows}):
        least = tableau.minimise(tableau.violations(level))
        if least > TINY and all_met:
            all_met, at_fault = False, tuple(tableau.prices(tableau.violations(level)))
        tableau.close_dearer_columns()
        if least <= TINY:
            tableau.forbid_violations(level)
    values, prices = [], []
    for objective in objectives:
        costs = tableau.costs(objective)
        values.append(tableau.minimise(costs))
        prices.append(tableau.prices(costs))
        tableau.close_dearer_columns()
    return Solution(
        unknowns=tableau.unknowns(),
        values=tuple(values),
        prices=tuple(prices),
        broken={} if all_met else tableau.broken(),
        at_fault=at_fault,
    )


class _Tableau:
    """The tableau: columns of the unknowns, then two for each row, below its bound and above it; the right-hand side is last in a line.

    Unknowns are scaled so that their largest coefficient is 1, and then rows likewise. Being below an "at most" bound costs nothing; everything
    else is a violation.
    """

    def __init__(self, rows: Sequence[Row]) -> None:
        self.rows = rows
        self.count = len(rows[0].coefficients)
        self.units = [_size(row.coefficients[at] for row in rows) for at in range(self.count)]
        self.sizes = [
            _size(part / unit for part, unit in zip(row.coefficients, self.units, strict=True)) for row in rows
        ]
        self.width = self.count + 2 * len(rows)
        self.lines: list[list[float]] = []
        self.basis: list[int] = []
        self.closed: set[int] = set()
        self.reduced: list[float] = []
        for at, row in enumerate(rows):
            line = [part / unit / self.sizes[at] for part, unit in zip(row.coefficients, self.units, strict=True)]
            line = [part if abs(part) > LEAST_PART else 0.0 for part in line]
            line += [0.0] * (2 * len(rows)) + [row.bound / self.sizes[at]]
            line[self.slack(at)], line[self.excess(at)] = 1.0, -1.0
            negative = row.bound < 0
            self.lines.append([-part for part in line] if negative else line)
            self.basis.append(self.excess(at) if negative else self.slack(at))

    def slack(self, at: int) -> int:
        """The column of how far row *at* is below its bound."""
        return self.count + 2 * at

    def excess(self, at: int) -> int:
        """The column of how far row *at* is above its bound."""
        return self.count + 2 * at + 1

    def violations(self, level: int) -> list[float]:
        """The costs that add up the violations of the rows of *level*, in the rows' own units."""
        costs = [0.0] * self.width
        for at, row in enumerate(self.rows):
            if row.level == level:
                for column in self._violation_columns(at):
                    costs[column] = self.sizes[at]
        return costs

    def costs(self, objective: Sequence[float]) -> list[float]:
        """The costs of *objective*, in the tableau's units."""
        return [cost / unit for cost, unit in zip(objective, self.units, strict=True)] + [0.0] * (2 * len(self.rows))

    def minimise(self, costs: Sequence[float]) -> float:
        """Pivot until *costs* are at their least, and return that least."""
        reduced = [*costs, 0.0]
        for line, column in zip(self.lines, self.basis, strict=True):
            if costs[column]:
                reduced = [cost - costs[column] * part for cost, part in zip(reduced, line, strict=True)]
        self.reduced = reduced
        enough = TINY * max(map(abs, costs), default=0.0)
        for pivots in range(MOST_PIVOTS):
            entering = next(
                (at for at in range(self.width) if self.reduced[at] < -enough and at not in self.closed), None
            )
            if entering is None:
                return sum(costs[column] * line[-1] for line, column in zip(self.lines, self.basis, strict=True))
            leaving = self._leaving_row(entering, pivots > FREE_PIVOTS)
            if leaving is not None:
                self._pivot(leaving, entering)
            elif self.reduced[entering] < -NOISE * max(map(abs, costs)):
                raise ValueError("an objective has no least value")
            else:
                self.closed.add(entering)
        raise ArithmeticError("the simplex method does not end")

    def close_dearer_columns(self) -> None:
        """Close every column that would raise the costs just minimised."""
        enough = TINY * max(map(abs, self.reduced[:-1]), default=0.0)
        basis = set(self.basis)
        self.closed |= {at for at in range(self.width) if self.reduced[at] > enough and at not in basis}

    def forbid_violations(self, level: int) -> None:
        """Close the violations of *level*, which are all 0, for good."""
        columns = {
            column for at, row in enumerate(self.rows) if row.level == level for column in self._violation_columns(at)
        }
        self.closed |= columns
        for at, column in enumerate(self.basis):
            if column in columns:
                line = self.lines[at]
                line[-1] = 0.0
                free = max(
                    set(range(self.width)) - self.closed, key=lambda part: (abs(line[part]), -part), default=column
                )
                if free != column and abs(line[free]) > TINY:
                    self._pivot(at, free)

    def prices(self, costs: Sequence[float]) -> dict[str, float]:
        """The change of the minimised *costs* for each unit of a row's bound."""
        enough = TINY * max(map(abs, costs), default=0.0)
        found = {}
        for at, row in enumerate(self.rows):
            price = costs[self.slack(at)] - self.reduced[self.slack(at)]
            if abs(price) > enough:
                found[row.name] = price / self.sizes[at]
        return found

    def unknowns(self) -> tuple[float, ...]:
        """The unknowns, in their own units."""
        found = [0.0] * self.width
        for line, column in zip(self.lines, self.basis, strict=True):
            found[column] = max(0.0, line[-1])
        return tuple(value / unit for value, unit in zip(found, self.units, strict=False))

    def broken(self) -> dict[str, float]:
        """By how much each violated row is above its bound, or below it as a negative number."""
        found = {}
        for line, column in zip(self.lines, self.basis, strict=True):
            at, side = divmod(column - self.count, 2)
            if column >= self.count and column in self._violation_columns(at) and line[-1] > TINY:
                found[at] = line[-1] * self.sizes[at] * (1 if side else -1)
        return {self.rows[at].name: found[at] for at in sorted(found)}

    def _violation_columns(self, at: int) -> tuple[int, ...]:
        return (self.excess(at),) if self.rows[at].kind == MOST else (self.slack(at), self.excess(at))

    def _leaving_row(self, entering: int, strictly: bool) -> int | None:
        """The row that reaches 0 first; on a tie the one with the largest pivot, or *strictly* the one of the lowest column."""
        step = min((line[-1] / line[entering] for line in self.lines if line[entering] > TINY), default=0.0)
        most = step + TIE * max(1.0, step)
        first = [
            at for at, line in enumerate(self.lines) if line[entering] > TINY and line[-1] <= most * line[entering]
        ]
        if strictly:
            return min(first, key=lambda at: self.basis[at], default=None)
        return max(first, key=lambda at: self.lines[at][entering], default=None)

    def _pivot(self, leaving: int, entering: int) -> None:
        pivot = self.lines[leaving][entering]
        scaled = [part / pivot for part in self.lines[leaving]]
        for at, line in enumerate(self.lines):
            factor = line[entering]
            if at != leaving and factor:
                self.lines[at] = [part - factor * other for part, other in zip(line, scaled, strict=True)]
                self.lines[at][entering] = 0.0
        factor = self.reduced[entering]
        self.reduced = [cost - factor * other for cost, other in zip(self.reduced, scaled, strict=True)]
        self.reduced[entering] = 0.0
        self.lines[leaving] = scaled
        self.basis[leaving] = entering


def _size(parts: Iterable[float]) -> float:
    return max(map(abs, parts), default=0.0) or 1.0
