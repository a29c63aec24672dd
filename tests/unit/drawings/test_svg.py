"""Shapes, measures and labels as SVG."""

import re

import pytest

from sandmix.drawings import svg


def test_labels_keep_apart_and_inside():
    assert svg.spaced([5, 6, 7], 10, 0, 100) == [5, 15, 25]
    assert svg.spaced([95, 96], 10, 0, 100) == [90, 100]
    assert svg.spaced([-5], 10, 0, 100) == [0]


def test_labels_share_a_row_only_where_none_overlap():
    far = [svg.Label(start=0, end=10, words="a"), svg.Label(start=100, end=110, words="b")]
    near = [svg.Label(start=0, end=10, words="400 mm"), svg.Label(start=12, end=20, words="500 mm")]
    assert [len(row) for row in svg.rows(far, 0, 300)] == [2]
    assert [len(row) for row in svg.rows(near, 0, 300)] == [1, 1]


def test_a_label_at_the_edge_is_moved_in():
    (label, middle), *_ = svg.rows([svg.Label(start=0, end=4, words="400 mm")], 2, 300)[0]
    assert label.middle == 2
    assert middle == pytest.approx(2 + svg.width_of("400 mm") / 2)


def test_a_long_dimension_ends_in_arrows_and_a_short_one_in_strokes():
    """An arrow is two strokes from a point, 2.5 to either side; where it is too short, one stroke across."""
    assert svg.dimension(0, 5, 40, 5).count("2.50") == 2
    assert svg.dimension(5, 0, 5, 40).count("L5.00") >= 3
    assert re.search(r"V8\.00.*V8\.00", svg.dimension(0, 5, 10, 5))
    assert re.search(r"H8\.00.*H8\.00", svg.dimension(5, 0, 5, 10))


def test_text_may_contain_any_sign():
    assert "&lt;b&gt; &amp; &quot;" in svg.text(0, 0, '<b> & "')


def test_the_legend_continues_in_the_next_row():
    _, one = svg.legend([("a", "metal")], "x", 0, 300, 0)
    drawn, two = svg.legend([("a", "metal")] * 5, "x", 0, 300, 0)
    assert two > one
    assert drawn.count("<text") == 5


def test_every_shape_has_a_colour_and_a_hatch():
    for shape in (
        svg.rect("a", "n", 1, 2, 3, 4, outline=False),
        svg.ellipse("a", "n", 1, 2, 3, 4),
        svg.path("a", "n", [(0, 0), (1, 1)]),
    ):
        assert 'class="a"' in shape
        assert 'fill="url(#n-a)"' in shape
    assert "stroke=" not in svg.rect("a", "n", 1, 2, 3, 4, outline=False)
    assert 'rx="2.00"' in svg.rect("a", "n", 1, 2, 3, 4, round_to=2)
    assert 'stroke-dasharray="2 2"' in svg.line(0, 0, 1, 1, dash="2 2")
