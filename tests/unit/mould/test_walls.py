"""The load on a wall and its deflection, by hand arithmetic."""

import pytest

from sandmix.mould import walls
from sandmix.mould.flask import Flask

SQUARE = Flask(length_mm=300, width_mm=300, drag_depth_mm=100, cope_depth_mm=100)


def test_the_pressure_of_metal_grows_with_its_depth():
    """2400 kg/m³ × 9.80665 × 0.18 m = 4.2365 kPa."""
    assert walls.metal_kpa(180, 2400) == pytest.approx(4.2365, abs=1e-4)


def test_a_wall_under_a_pressure_and_under_a_blow():
    """I = 100 × 18³ / 12 = 48 600 mm⁴, E I = 3.402e8. q = 0.0042365 × 100 N/mm: 5 q 300⁴ / 384 E I. F = 250: F 300³ / 48 E I = 0.41336."""
    assert walls.deflection_mm(300, 100, 18, kpa=4.2365) == pytest.approx(
        5 * 0.42365 * 8.1e9 / (384 * 3.402e8), rel=1e-9
    )
    assert walls.deflection_mm(300, 100, 18, blow_n=250) == pytest.approx(0.41336, abs=1e-5)


def test_the_half_that_bends_most_counts():
    """Drag: cup 30 + cope 100 + 50 = 180 mm of metal; cope: 30 + 50. A shallower cope bends more under a blow, half of 500 N on one wall."""
    load = walls.wall_load(SQUARE, 18, 2400)
    assert load.blow_n == 250
    assert load.metal_kpa == pytest.approx(4.2365, abs=1e-4)
    assert load.deflection_mm == load.blow_mm == pytest.approx(0.41336, abs=1e-5)
    shallow = Flask(length_mm=300, width_mm=300, drag_depth_mm=100, cope_depth_mm=50)
    assert walls.wall_load(shallow, 18, 2400).deflection_mm == pytest.approx(2 * 0.41336, abs=1e-4)


def test_the_highest_pressure_is_in_the_drag_even_where_the_cope_bends_more():
    """Drag: 30 + 60 + 70 = 160 mm of metal, 2400 × 9.80665 × 0.16 = 3.7658 kPa; the cope bears 60 mm, 1.4122, and bends more under a blow."""
    uneven = Flask(length_mm=450, width_mm=330, drag_depth_mm=140, cope_depth_mm=60)
    assert walls.wall_load(uneven, 18, 2400).metal_kpa == pytest.approx(1.4122, abs=1e-4)
    assert walls.highest_kpa(uneven, 2400) == pytest.approx(3.7658, abs=1e-4)


def test_an_open_flask_has_no_cup_on_it():
    """Half of 100 mm of metal: 1.1768 kPa."""
    flask = Flask(length_mm=300, width_mm=300, drag_depth_mm=100)
    assert walls.wall_load(flask, 18, 2400).metal_kpa == pytest.approx(1.1768, abs=1e-4)


def test_ties_until_each_span_is_stiff_enough():
    """18 mm, 300 mm: 0.413 is below 300 / 360 = 0.833. 9 mm is eight times as soft, 3.31; halved span 0.413 against 0.417."""
    assert walls.ties(SQUARE, 18, 2400) == 0
    assert walls.ties(SQUARE, 9, 2400) == 1
    assert walls.ties(Flask(length_mm=3000, width_mm=300, drag_depth_mm=20), 3, 7000) == walls.MOST_TIES


def test_two_clamps_up_to_25_kg_and_four_above():
    assert (walls.clamps(25), walls.clamps(25.1)) == (2, 4)


@pytest.mark.parametrize(("length", "count"), [(349, 0), (350, 0), (350.1, 1), (360, 1), (360.1, 2)])
def test_bars_are_needed_from_just_above_350_mm(length, count):
    """None up to 350 mm; above it bays of at most 180 mm, so one bar to 360 mm and two above."""
    assert walls.bars(Flask(length_mm=length, width_mm=260, drag_depth_mm=95, cope_depth_mm=90)) == count
    assert walls.bars(Flask(length_mm=260, width_mm=length, drag_depth_mm=95, cope_depth_mm=90)) == count


def test_bars_go_by_the_longer_side_and_need_a_cope():
    assert walls.bars(SQUARE) == 0
    wide = Flask(length_mm=300, width_mm=540, drag_depth_mm=100, cope_depth_mm=100)
    assert walls.bars(wide) == 2
    assert walls.bars(Flask(length_mm=300, width_mm=541, drag_depth_mm=100, cope_depth_mm=100)) == 3
    assert walls.bars(Flask(length_mm=900, width_mm=541, drag_depth_mm=100)) == 0


def test_wood():
    """Open 200 × 100 × 50 in 10 mm: round 2 × 220 + 2 × 100 = 640, × 50 × 10; board 220 × 120 × 10; 584 cm³ × 0.6 = 0.3504 kg."""
    flask = Flask(length_mm=200, width_mm=100, drag_depth_mm=50)
    assert walls.wood_kg(flask, 10) == pytest.approx(0.3504)


def test_space_for_filler():
    """300 × 300 × 200 = 18 L; kept about 100 × 50 × 40: 200 × 150 × 140 = 4.2 L."""
    assert walls.filler_room_l(SQUARE, (100, 50, 40)) == pytest.approx(13.8)
    assert walls.filler_room_l(SQUARE, (250, 250, 150)) == 0
