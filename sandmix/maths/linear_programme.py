"""A small linear programme: the least of one amount and then of the next, within limits, or what stands in the way.

Solved: over x >= 0, the objectives c1·x, c2·x, … each least in turn among what leaves the ones before it at their least, where every row
is a·x <= b or a·x = b. Method: the simplex method on a dense tableau. Every row may give way, at its own level: the sum of what the
rows of level 0 give way by is made least first, then that of level 1, and so on, and the objectives after them. So no large number
stands for "never", and where no x meets all rows the answer is the nearest x. After an objective is at its least, columns whose reduced
cost is above 0 stay out, which keeps it there. The lowest index comes in; on a tie what rounds least goes out, and after some hundreds of
turns the lowest index, which is Bland's rule and can't go in circles.
Holds for: some dozens of rows and columns; a part below a billionth of the largest in its row counts as none. Source: bland_1977.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

MOST, EXACTLY = "<=", "="
TINY = 1e-9
NOISE = 1e-6
LEAST_PART = 1e-9
TIE = 1e-11
FREE_TURNS = 500
MOST_TURNS = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One limit: the sum of ``parts`` times the unknowns is at most, or exactly, ``bound``.

    Of two rows that can't both be met the one of the higher ``level`` gives way; within a level the least sum of what rows give way by.
    """

    name: str
    parts: Sequence[float]
    bound: float
    kind: str = MOST
    level: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """What was found.

    ``values`` are the objectives; ``prices`` holds, for each of them, by what it changes where a row's bound is raised by one (rows that do not
    count are left out). ``broken`` says by how much a row is passed (above 0) or missed (below 0) and is empty where all are met; then
    ``at_fault`` is empty too, and else names the rows that can't be met together.
    """

    unknowns: tuple[float, ...]
    values: tuple[float, ...]
    prices: tuple[Mapping[str, float], ...]
    broken: Mapping[str, float]
    at_fault: tuple[str, ...]


def solve(rows: Sequence[Row], objectives: Sequence[Sequence[float]]) -> Solution:
    """Return the x that makes each of *objectives* least in turn within *rows*, or the nearest to them.

    Raises ValueError where an objective has no least.

    >>> sand = solve([Row(name="mass", parts=(1, 1), bound=10, kind="="), Row(name="stock", parts=(1, 0), bound=4)], [(1, 3)])
    >>> sand.unknowns, sand.values, sand.prices[0]["stock"]
    ((4.0, 6.0), (22.0,), -2.0)
    >>> solve([Row(name="few", parts=(1,), bound=4), Row(name="many", parts=(-1,), bound=-5, level=1)], [(1,)]).broken
    {'many': 1.0}
    """
    tableau = _Tableau(rows)
    broken_level = None
    at_fault: tuple[str, ...] = ()
    for level in sorted({row.level for row in rows}):
        least = tableau.lower(tableau.giving_way(level))
        if least > TINY:
            if broken_level is None:
                broken_level, at_fault = level, tuple(tableau.prices(tableau.giving_way(level)))
            tableau.keep()
        else:
            tableau.keep()
            tableau.hold(level)
    values, prices = [], []
    for objective in objectives:
        costs = tableau.costs(objective)
        values.append(tableau.lower(costs))
        prices.append(tableau.prices(costs))
        tableau.keep()
    return Solution(
        unknowns=tableau.unknowns(),
        values=tuple(values),
        prices=tuple(prices),
        broken=tableau.broken() if broken_level is not None else {},
        at_fault=at_fault,
    )


class _Tableau:
    """The tableau: unknowns first, then for each row what is short of its bound and what is beyond it; the right side stands last in a line.

    Unknowns are counted in units in which their largest part is 1, and then rows likewise. A row that says "at most" may fall short for
    nothing; all else is giving way.
    """

    def __init__(self, rows: Sequence[Row]) -> None:
        self.rows = rows
        self.count = len(rows[0].parts)
        self.units = [_size(row.parts[at] for row in rows) for at in range(self.count)]
        self.sizes = [_size(part / unit for part, unit in zip(row.parts, self.units, strict=True)) for row in rows]
        self.width = self.count + 2 * len(rows)
        self.lines: list[list[float]] = []
        self.basis: list[int] = []
        self.shut: set[int] = set()
        self.reduced: list[float] = []
        for at, row in enumerate(rows):
            line = [part / unit / self.sizes[at] for part, unit in zip(row.parts, self.units, strict=True)]
            line = [part if abs(part) > LEAST_PART else 0.0 for part in line]
            line += [0.0] * (2 * len(rows)) + [row.bound / self.sizes[at]]
            line[self.short(at)], line[self.beyond(at)] = 1.0, -1.0
            negative = row.bound < 0
            self.lines.append([-part for part in line] if negative else line)
            self.basis.append(self.beyond(at) if negative else self.short(at))

    def short(self, at: int) -> int:
        """The column of what row *at* falls short by."""
        return self.count + 2 * at

    def beyond(self, at: int) -> int:
        """The column of what row *at* is passed by."""
        return self.count + 2 * at + 1

    def giving_way(self, level: int) -> list[float]:
        """The costs that add up what the rows of *level* give way by, in the rows' own units."""
        costs = [0.0] * self.width
        for at, row in enumerate(self.rows):
            if row.level == level:
                for column in self._ways(at):
                    costs[column] = self.sizes[at]
        return costs

    def costs(self, objective: Sequence[float]) -> list[float]:
        """The costs of *objective*, in the tableau's units."""
        return [cost / unit for cost, unit in zip(objective, self.units, strict=True)] + [0.0] * (2 * len(self.rows))

    def lower(self, costs: Sequence[float]) -> float:
        """Turn until *costs* are at their least, and return what they come to."""
        reduced = [*costs, 0.0]
        for line, column in zip(self.lines, self.basis, strict=True):
            if costs[column]:
                reduced = [cost - costs[column] * part for cost, part in zip(reduced, line, strict=True)]
        self.reduced = reduced
        enough = TINY * max(map(abs, costs), default=0.0)
        for turn in range(MOST_TURNS):
            entering = next(
                (at for at in range(self.width) if self.reduced[at] < -enough and at not in self.shut), None
            )
            if entering is None:
                return sum(costs[column] * line[-1] for line, column in zip(self.lines, self.basis, strict=True))
            leaving = self._leaving(entering, turn > FREE_TURNS)
            if leaving is not None:
                self._turn(leaving, entering)
            elif self.reduced[entering] < -NOISE * max(map(abs, costs)):
                raise ValueError("an objective has no least")
            else:
                self.shut.add(entering)
        raise ArithmeticError("the simplex method goes in circles")

    def keep(self) -> None:
        """Shut out every column that would raise what was just lowered."""
        enough = TINY * max(map(abs, self.reduced[:-1]), default=0.0)
        basis = set(self.basis)
        self.shut |= {at for at in range(self.width) if self.reduced[at] > enough and at not in basis}

    def hold(self, level: int) -> None:
        """Shut out all giving way of *level*, which is 0, for good."""
        ways = {column for at, row in enumerate(self.rows) if row.level == level for column in self._ways(at)}
        self.shut |= ways
        for at, column in enumerate(self.basis):
            if column in ways:
                line = self.lines[at]
                line[-1] = 0.0
                free = max(
                    set(range(self.width)) - self.shut, key=lambda part: (abs(line[part]), -part), default=column
                )
                if free != column and abs(line[free]) > TINY:
                    self._turn(at, free)

    def prices(self, costs: Sequence[float]) -> dict[str, float]:
        """By what the sum of *costs*, just lowered, changes with each row's bound."""
        enough = TINY * max(map(abs, costs), default=0.0)
        found = {}
        for at, row in enumerate(self.rows):
            price = costs[self.short(at)] - self.reduced[self.short(at)]
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
        """By how much each row is passed or missed."""
        found = {}
        for line, column in zip(self.lines, self.basis, strict=True):
            at, side = divmod(column - self.count, 2)
            if column >= self.count and column in self._ways(at) and line[-1] > TINY:
                found[at] = line[-1] * self.sizes[at] * (1 if side else -1)
        return {self.rows[at].name: found[at] for at in sorted(found)}

    def _ways(self, at: int) -> tuple[int, ...]:
        return (self.beyond(at),) if self.rows[at].kind == MOST else (self.short(at), self.beyond(at))

    def _leaving(self, entering: int, strictly: bool) -> int | None:
        """The line that runs out first; on a tie that of the largest part, which rounds least, or *strictly* that of the lowest column."""
        room = min((line[-1] / line[entering] for line in self.lines if line[entering] > TINY), default=0.0)
        most = room + TIE * max(1.0, room)
        first = [
            at for at, line in enumerate(self.lines) if line[entering] > TINY and line[-1] <= most * line[entering]
        ]
        if strictly:
            return min(first, key=lambda at: self.basis[at], default=None)
        return max(first, key=lambda at: self.lines[at][entering], default=None)

    def _turn(self, leaving: int, entering: int) -> None:
        pivot = self.lines[leaving][entering]
        turned = [part / pivot for part in self.lines[leaving]]
        for at, line in enumerate(self.lines):
            factor = line[entering]
            if at != leaving and factor:
                self.lines[at] = [part - factor * other for part, other in zip(line, turned, strict=True)]
                self.lines[at][entering] = 0.0
        factor = self.reduced[entering]
        self.reduced = [cost - factor * other for cost, other in zip(self.reduced, turned, strict=True)]
        self.reduced[entering] = 0.0
        self.lines[leaving] = turned
        self.basis[leaving] = entering


def _size(parts: Iterable[float]) -> float:
    return max(map(abs, parts), default=0.0) or 1.0
