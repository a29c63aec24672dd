"""Walls out of boards, by hand."""

import pytest

from sandmix.mould import cutting
from sandmix.mould.cutting import Board, Piece
from sandmix.mould.flask import Flask

TWO_HALVES = Flask(length_mm=300, width_mm=200, drag_depth_mm=100, cope_depth_mm=80)


def board(width, length, count=1, thick=18.0, name="ply"):
    return Board(name=name, thickness_mm=thick, width_mm=width, length_mm=length, count=count)


def test_sides_go_over_the_ends():
    """300 + 2 × 18 = 336 long, two of each in each half."""
    assert cutting.pieces(TWO_HALVES, 18) == (
        *[Piece(name="drag side", length_mm=336, width_mm=100)] * 2,
        *[Piece(name="drag end", length_mm=200, width_mm=100)] * 2,
        *[Piece(name="cope side", length_mm=336, width_mm=80)] * 2,
        *[Piece(name="cope end", length_mm=200, width_mm=80)] * 2,
    )


def test_an_open_flask_has_four_walls():
    assert len(cutting.pieces(Flask(length_mm=300, width_mm=200, drag_depth_mm=100), 18)) == 4


def test_one_board_ripped_in_two_strips():
    """Each strip holds 336 + 336 + 200 + 200 and three cuts, 1081 mm; 100 + 3 + 80 = 183 mm wide. One sheet of 183 × 1081 is enough."""
    plan = cutting.plan(TWO_HALVES, [board(183, 1081)])
    assert (plan.boards, plan.fewest, plan.missing) == (1, 1, ())
    assert plan.length_mm == 2 * 1072
    assert {cut.board for cut in plan.cuts} == {"ply"}


@pytest.mark.parametrize("short", [board(182, 1081), board(183, 1080)])
def test_a_board_a_millimetre_too_small_is_not_enough(short):
    assert cutting.plan(TWO_HALVES, [short]).missing


def test_several_equal_boards_are_numbered():
    """One strip of 100 mm a board: 1072 + 9 fills the first, the cope goes into the second."""
    plan = cutting.plan(TWO_HALVES, [board(100, 1081, count=3)])
    assert plan.missing == ()
    assert plan.boards == 2
    assert {cut.board for cut in plan.cuts} == {"ply (1)", "ply (2)"}


def test_no_plan_uses_fewer_boards_than_their_area_allows():
    """Walls of 2 × 1072 × 90 on average = 192 960 mm²; boards of 100 × 600 = 60 000: four at least. A side and an end fill one: 336 + 3 + 200."""
    plan = cutting.plan(TWO_HALVES, [board(100, 600, count=6)])
    assert (plan.boards, plan.fewest, plan.missing) == (4, 4, ())


def test_what_can_not_be_cut_is_named():
    plan = cutting.plan(TWO_HALVES, [board(90, 2000)])
    assert {piece.name for piece in plan.missing} == {"drag side", "drag end"}
    assert {cut.piece.name for cut in plan.cuts} == {"cope side", "cope end"}
    none = cutting.plan(TWO_HALVES, [board(10, 20)])
    assert (none.boards, none.fewest, len(none.missing)) == (0, 0, 8)


def test_a_flask_has_boards_of_one_thickness_and_of_one_that_is_enough():
    plan = cutting.plan(TWO_HALVES, [board(100, 500, thick=12.0), board(200, 1300, thick=15.0, name="thick")])
    assert plan.thickness_mm == 15
    assert {cut.board for cut in plan.cuts} == {"thick"}


def test_no_boards_no_plan():
    assert cutting.plan(TWO_HALVES, []) is None


def test_a_piece_goes_where_it_leaves_least():
    """A side of 336 goes into the 339, so that the other, two ends and two cuts fill the other board: 336 + 3 + 200 + 3 + 200 = 742."""
    flask = Flask(length_mm=300, width_mm=200, drag_depth_mm=100)
    plan = cutting.plan(flask, [board(100, 742, name="long"), board(100, 339, name="short")])
    assert plan.missing == ()
    assert sorted((cut.board, cut.piece.name) for cut in plan.cuts) == [
        ("long", "drag end"),
        ("long", "drag end"),
        ("long", "drag side"),
        ("short", "drag side"),
    ]
    assert cutting.plan(flask, [board(100, 741, name="long"), board(100, 339, name="short")]).missing
