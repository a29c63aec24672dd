"""Every sentence about a pattern that is not a file: written by hand, then compared with the library's."""

import json

import pytest
from shapes import ball, binary, cube

from sandmix.doors.facade import call

TWICE = "the size is given twice, and the two may differ. Keep only one of them."
REFUSED = [
    ({},
     ("File of the shape: nothing to measure is given yet. Send the file of the shape, or enter its sizes, the water that it displaces, "
     "or its mass.")),
    ({"displaced_water_ml": 100, "pattern_mass_g": 100}, "Mass of the pattern: " + TWICE),
    ({"box_mm": [50, 50, 10], "body": "ring"}, "Bore: a ring has a hole. Enter its bore, or choose a cylinder."),
    ({"box_mm": [50, 40, 10], "body": "ring", "bore_mm": 40}, "Bore: a bore of 40 mm leaves no wall in a ring of 40 mm. Check both."),
    ({"pattern_mass_g": 100},
     "Pattern material: a mass gives no volume without it. Choose what the pattern is made of, or enter its density."),
    ({"pattern_mass_g": 100, "pattern_material": "abs"},
     "Infill of the print: a print is hollow, and the infill says how much. Enter it, or dip the pattern in water instead."),
    ({"displaced_water_ml": 100, "machining_stock_mm": 1},
     "Machining stock: stock on every face needs the surface of the shape. Send the file, enter the sizes, or leave it at 0."),
    ({"displaced_water_ml": 500, "box_mm": [50, 50, 50]},
     "Sizes: a box of 125 cm³ can't displace 500 mL of water. Check the sizes, the water and their units."),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "said"), REFUSED)
def test_impossible_inputs_are_refused_in_words(messages, inputs, said):
    assert messages("pattern", **inputs) == [said]


def test_a_file_and_sizes_are_one_too_many():
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, "box_mm": [1, 2, 3]}}
    (problem,) = json.loads(call(json.dumps(request), {"it": binary(cube())}))["problems"]
    assert problem["message"] == "Sizes: " + TWICE


REMARKS = [
    ({"box_mm": [140, 55, 12]}, "A plain shape has no bosses, fillets or draft. To include them, dip the pattern in water or send its file."),
    ({"box_mm": [1600, 20, 20]}, "The longest side is 1600 mm, which is very large for a casting. Check the unit."),
    ({"box_mm": [2, 2, 2]}, "The longest side is 2 mm, which is very small for a casting. Check the unit."),
    ({"displaced_water_ml": 90},
     "Surface and modulus are left out: this way of measuring gives only the volume. A file or sizes give them too."),
    ({"pattern_mass_g": 500, "pattern_material": "wax", "box_mm": [20, 20, 20]},
     "The volume is more than the 8 cm³ of a box of these sizes. One of the two is wrong: check both."),
    ({"pattern_mass_g": 100, "pattern_material": "pla", "infill_pct": 20},
     "A print is hollow, and how much is only an estimate. Dip it in water for a better figure."),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "said"), REMARKS)
def test_odd_inputs_are_remarked(ask, inputs, said):
    assert said in ask("pattern", **inputs)["remarks"]


def test_a_top_that_is_not_flat_is_remarked():
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}}}
    remarks = json.loads(call(json.dumps(request), {"it": binary(ball(24, 40.0))}))["remarks"]
    assert remarks == [
        "An STL has no unit, so millimetres are assumed. Check the sizes; if they are wrong, choose the unit.",
        (
            "On average its upper side is 13.4 mm below its top. Add that to the head of metal when you work out the weights for the cope. "
            "This assumes that the whole upper side is under the sand of the cope."
        ),
    ]
