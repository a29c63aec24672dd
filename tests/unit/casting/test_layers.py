"""Which figure counts: own figure, then newer measurement, then carried figure, then default."""

from __future__ import annotations

from itertools import permutations

from sandmix.casting.layers import YOURS, Known, Layer, merged

ORDER = (YOURS, "from the heap, tested today", "from the flask", "assumed")


def test_the_first_layer_that_has_a_word_gives_its_figure():
    for count in range(1, 5):
        for having in permutations(ORDER, count):
            layers = [Layer(origin=origin, figures={"heap_kg": origin} if origin in having else {}) for origin in ORDER]
            first = min(having, key=ORDER.index)
            assert merged(layers) == {"heap_kg": Known(given=first, origin=first)}


def test_an_empty_box_hides_no_figure():
    for empty in ("", "  ", None, {"value": "", "unit": "kg"}, {"value": None}):
        layers = [
            Layer(origin=YOURS, figures={"heap_kg": empty}),
            Layer(origin="from the heap", figures={"heap_kg": 45}),
        ]
        assert merged(layers)["heap_kg"] == Known(given=45, origin="from the heap")


def test_zero_is_a_figure():
    layers = [Layer(origin=YOURS, figures={"frame_kg": 0}), Layer(origin="assumed", figures={"frame_kg": 3})]
    assert merged(layers)["frame_kg"].given == 0
