"""Word for word what is said to the ways up of a shape from a file: written by hand, then compared with the library's."""

import json

from shapes import binary, cube, t_bar

from sandmix.doors.facade import call

STL_UNIT = "An STL holds no unit: it is taken in millimetres. Look at the sizes; if they are wrong, give the unit."


def remarks(triangles, **inputs):
    request = {
        "job": "pattern",
        "inputs": {
            "mesh": {"upload": "it"},
            "unit": "mm",
            "shrink_pct": 1,
            "measured": "pattern",
            "ways": "yes",
            **inputs,
        },
    }
    return json.loads(call(json.dumps(request), {"it": binary(triangles)}))["remarks"]


def test_neither_yes_nor_no(messages):
    said = messages("pattern", box_mm=[10, 10, 10], ways="both")
    assert said == ["Compare orientations: “both” isn't one of the choices. Choose yes or no."]


def test_a_t_bar():
    """On its head in the drag, and on its side with the rib's side at the parting: 210 × 100 × 120 both, so the metal decides, at 2370 kg/m3.

    On its head 4000 mm2 × 70 mm = 0.66 kg. On its side, 65 and 55 deep, 1000 mm2 × (110 − 40) mm + 3000 × (110 − 25) = 0.77. On its foot
    3000 × (110 − 10) + 1000 × (110 − 40) = 0.88.
    """
    said = remarks(t_bar())
    assert said[-3] == (
        "Lay it with z down, parted on top. The metal lifts the cope with 0.66 kg then, and with 0.77 kg where it lies with y up, "
        "parted 25 mm above its underside; turned over the metal would lift the cope with 0.88 kg, not 0.66 kg."
    )
    assert said[-2] == (
        "94 cm2 of its walls stand straight, within a degree, and are drawn up to 40 mm. Give them 1 to 2 mm of taper in "
        "100 mm, or the sand tears."
    )
    assert said[-1] == "Outline and head of metal above are for z up. Set the way up to -z for those of this way."


def test_a_cube_lies_as_it_will():
    assert (
        remarks(cube(40.0))[0]
        == "Lay it with z up, parted on top. It does as well with x up, parted on top; turned over it does as well."
    )


def test_a_shape_that_is_open_and_no_file_at_all(ask):
    assert remarks(cube(40.0)[2:])[-1] == "The ways up are not compared: that takes a shape whose volume can be told."
    assert (
        "The ways up are compared for a file of the shape. For plain sizes, the page for choosing a flask does it."
        in ask("pattern", box_mm=[90, 60, 20], ways="yes")["remarks"]
    )
