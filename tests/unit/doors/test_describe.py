"""The description: where the buttons − and + of a number start."""

import pytest

from sandmix.doors.describe import start
from sandmix.language.words import Quantity
from sandmix.vocabulary import WORDS

STARTS = [
    # the usual range, the default, where − and + start: √(40 × 300) = 109.5, √(80 × 800) = 253, 300 / 3, √(0.3 × 1.2) = 0.6
    ((40, 300), None, 110),
    ((80, 800), None, 255),
    ((0, 300), 0.0, 100),
    ((0, 300), None, 100),
    ((0.3, 1.2), None, 0.6),
    ((40, 300), 45.0, 45),
    (None, 0.0, 0),
    (None, 25.0, 25),
    (None, None, 5),
]


@pytest.mark.parametrize(("usual", "default", "expected"), STARTS)
def test_buttons_start_from_a_usual_value_and_not_from_the_lowest(usual, default, expected):
    word = Quantity(name="x_mm", label="Thing", unit="mm", low=1, high=3000, usual=usual, step=5)
    assert start(word, default) == pytest.approx(expected)


def test_a_flask_stepped_from_empty_boxes_is_a_usual_one():
    """With the lowest usual values, 80 × 80 × 40 mm and no cope, any heap was enough. A cope of 40 mm or more is not shallow."""
    flask = {
        name: start(WORDS[name], WORDS[name].default) for name in ("flask_length_mm", "flask_width_mm", "drag_depth_mm")
    }
    assert min(flask.values()) >= 100
    assert start(WORDS["cope_depth_mm"], 0.0) >= 40
    assert start(WORDS["pattern_volume_cm3"], 0.0) == WORDS["pattern_volume_cm3"].typical == 400
