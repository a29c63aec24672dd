"""The walls of a flask cut from the boards on hand: which piece from which board.

A board is ripped into strips as wide as a half is deep, and the strips are cut to length; each cut loses the width of the saw. The plan is greedy:
the largest piece first, each where it leaves the least, in several orders; the plan with the fewest boards wins. It is not always the
best one: `fewest` is the number of boards that any plan needs, and where both agree no plan does better.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from sandmix.mould.flask import Flask

KERF_MM = 3.0
SAME_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board on hand: its name, thickness, width and length in mm, and how many there are."""

    name: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of wall: what it is, its length, and its width, which is the depth of its half, in mm."""

    name: str
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCut:
    """A piece and the name of the board that it comes from; one of several equal boards has its number after the name."""

    board: str
    piece: Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """Which piece is cut from which board, what could not be cut, how many boards it uses, and how many any plan needs."""

    thickness_mm: float
    cuts: tuple[BoardCut, ...]
    missing: tuple[Piece, ...]
    boards: int
    fewest: int

    @property
    def length_mm(self) -> float:
        """The length of all pieces together, in mm."""
        return sum(cut.piece.length_mm for cut in self.cuts)


@dataclass(slots=True)
class _InUse:
    """A board in use: strips as [width, length used]."""

    name: str
    board: Board
    strips: list[list[float]] = field(default_factory=list)

    @property
    def width_left_mm(self) -> float:
        return self.board.width_mm - sum(strip[0] + KERF_MM for strip in self.strips)


def pieces(flask: Flask, thick_mm: float) -> tuple[Piece, ...]:
    """Return the walls of *flask* in wood *thick_mm* thick: for each half two sides that cover the ends, and two ends between them."""
    halves = [("drag", flask.drag_depth_mm), ("cope", flask.cope_depth_mm)]
    walls = (("side", flask.length_mm + 2 * thick_mm), ("end", flask.width_mm))
    return tuple(
        Piece(name=f"{half} {wall}", length_mm=length, width_mm=depth)
        for half, depth in halves
        if depth
        for wall, length in walls
        for _ in range(2)
    )


def plan(flask: Flask, boards: Sequence[Board]) -> CuttingPlan | None:
    """Return how the walls of *flask* are cut from *boards* of one thickness: the plan with least missing, then fewest boards, then the thinnest.

    None without boards.

    >>> box = Flask(length_mm=300, width_mm=200, drag_depth_mm=100)
    >>> done = plan(box, [Board(name="ply", thickness_mm=18, width_mm=100, length_mm=1100)])
    >>> done.boards, done.missing, done.length_mm
    (1, (), 1072)
    """
    plans = []
    for thick in sorted({board.thickness_mm for board in boards}):
        fitting = [board for board in boards if board.thickness_mm == thick]
        plans.append(_best(pieces(flask, thick), fitting, thick))
    return min(plans, key=_rank, default=None)


def _rank(found: CuttingPlan) -> tuple[int, int]:
    return len(found.missing), found.boards


_ORDERS: tuple[Callable[[Piece], tuple[float, float]], ...] = (
    lambda piece: (-piece.length_mm, -piece.width_mm),
    lambda piece: (-piece.width_mm, -piece.length_mm),
)
_CHOICES: tuple[Callable[[Board], float], ...] = (
    lambda board: board.width_mm * board.length_mm,
    lambda board: -board.width_mm * board.length_mm,
)


def _best(wanted: Sequence[Piece], boards: Sequence[Board], thick_mm: float) -> CuttingPlan:
    tried = [
        _greedy(sorted(wanted, key=order), sorted(boards, key=choice), thick_mm)
        for order, choice in itertools.product(_ORDERS, _CHOICES)
    ]
    return min(tried, key=_rank)


def _greedy(wanted: Sequence[Piece], boards: Sequence[Board], thick_mm: float) -> CuttingPlan:
    stock = [
        (board, f"{board.name} ({at})" if board.count > 1 else board.name)
        for board in boards
        for at in range(1, min(board.count, len(wanted)) + 1)
    ]
    in_use: list[_InUse] = []
    cuts, missing = [], []
    for piece in wanted:
        name = _in_a_strip(piece, in_use) or _in_a_new_strip(piece, in_use)
        if not name:
            at = next((at for at, (board, _) in enumerate(stock) if _fits(piece, board)), None)
            if at is None:
                missing.append(piece)
                continue
            board, name = stock.pop(at)
            in_use.append(_InUse(name=name, board=board, strips=[[piece.width_mm, piece.length_mm + KERF_MM]]))
        cuts.append(BoardCut(board=name, piece=piece))
    done = [cut.piece for cut in cuts]
    fewest = _fewest(done, boards)
    return CuttingPlan(
        thickness_mm=thick_mm, cuts=tuple(cuts), missing=tuple(missing), boards=len(in_use), fewest=fewest
    )


def _fits(piece: Piece, board: Board) -> bool:
    return piece.width_mm <= board.width_mm + SAME_MM and piece.length_mm <= board.length_mm + SAME_MM


def _in_a_strip(piece: Piece, in_use: Iterable[_InUse]) -> str:
    """Cut the piece from the strip of its width that it leaves the least of; the name of its board, or nothing."""
    open_strips = [
        (each.board.length_mm - strip[1] - piece.length_mm, each.name, strip)
        for each in in_use
        for strip in each.strips
        if abs(strip[0] - piece.width_mm) <= SAME_MM and strip[1] + piece.length_mm <= each.board.length_mm + SAME_MM
    ]
    if not open_strips:
        return ""
    _, name, strip = min(open_strips, key=lambda found: found[0])
    strip[1] += piece.length_mm + KERF_MM
    return name


def _in_a_new_strip(piece: Piece, in_use: Iterable[_InUse]) -> str:
    """Rip a strip for the piece from a board in use, the one that it leaves the least of; the name of the board, or nothing."""
    wide = [each for each in in_use if piece.width_mm <= each.width_left_mm + SAME_MM and _fits(piece, each.board)]
    if not wide:
        return ""
    board = min(wide, key=lambda each: each.width_left_mm)
    board.strips.append([piece.width_mm, piece.length_mm + KERF_MM])
    return board.name


def _fewest(done: Sequence[Piece], boards: Sequence[Board]) -> int:
    """The least number of boards by area: the largest boards first, until their area is that of the pieces."""
    area = sum(piece.length_mm * piece.width_mm for piece in done)
    largest = sorted(
        (board.length_mm * board.width_mm for board in boards for _ in range(min(board.count, len(done)))), reverse=True
    )
    held = itertools.accumulate(largest)
    return (
        next((at for at, sum_so_far in enumerate(held, start=1) if sum_so_far >= area - SAME_MM), len(largest))
        if done
        else 0
    )
