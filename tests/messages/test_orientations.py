"""Every sentence about the orientations of a shape from a file: written by hand, then compared with the library's."""

import json

import pytest
from shapes import binary, box, cube, extruded, moved, shifted, t_bar, torus

from sandmix.doors.facade import call


def remarks(triangles, **inputs):
    given = {"mesh": {"upload": "it"}, "unit": "mm", "shrink_pct": 1, "measured": "pattern", "ways": "yes", **inputs}
    return json.loads(call(json.dumps({"job": "pattern", "inputs": given}), {"it": binary(triangles)}))["remarks"]


def test_a_t_bar():
    """On its head in the drag, and on its side with the rib's side at the parting: 210 × 100 × 120 both, so the metal decides, at 2370 kg/m³.

    On its head 4000 mm² × 70 mm = 0.66 kg. On its side, 65 and 55 deep, 1000 mm² × (110 − 40) mm + 3000 × (110 − 25) = 0.77. On its foot
    3000 × (110 − 10) + 1000 × (110 − 40) = 0.88.
    """
    said = remarks(t_bar())
    assert said[-3] == (
        "Best orientation: z down, parted on top. Then the uplift on the cope is 0.66 kg, but 0.77 kg with y up, parted 25 mm above its "
        "underside; turned over the uplift would be 0.88 kg, not 0.66 kg."
    )
    assert said[-2] == (
        "94 cm² of its walls are vertical, within a degree, and are drawn up to 40 mm. Give them 1 to 2 mm of taper in 100 mm, or the sand "
        "tears."
    )
    assert said[-1] == (
        "The projected area and the head of metal above are for z up. For those of this orientation, choose -z under “Which way is up in "
        "the mould”."
    )


BAR = [(0.0, 0.0), (7.0, -7.0), (107.0, 93.0), (100.0, 100.0)]
FIRST = "Best orientation: "
WHY = [
    (cube(40.0), FIRST + "z up, parted on top. It is as good with x up, parted on top; turned over it is as good."),
    (box(150, 100, 40),
     FIRST + "y up, parted on top. Then it needs 6.32 kg of sand, but 6.56 kg with x up, parted on top; turned over it is as good."),
    (torus(40.0, 10.0), FIRST + "z up, parted 10 mm above its underside. Then nothing is undercut, but "),
    (extruded(BAR, [(0, 1, 2), (0, 2, 3)], 60),
     FIRST + "x up, parted on top. Then a flat parting is enough, but with z up it must follow the shape; turned over it is as good."),
    (torus(20.0, 5.0) + moved(shifted(torus(40.0, 5.0)), (0.0, 120.0, 0.0)), FIRST + "x up, parted "),
]  # fmt: skip


@pytest.mark.parametrize(("triangles", "said"), WHY)
def test_the_best_orientation_and_why(triangles, said):
    found = [remark for remark in remarks(triangles, shrink_pct=0) if remark.startswith(FIRST)]
    assert [remark[: len(said)] for remark in found] == [said]


def test_what_is_undercut_in_every_orientation():
    """Two rings, each held one way: the larger lies, and of the smaller 4 R r − π r² = 3.2 cm² hold."""
    both = torus(20.0, 5.0) + moved(shifted(torus(40.0, 5.0)), (0.0, 120.0, 0.0))
    assert (
        "In no orientation can it be drawn whole. Even in the best one 3.2 cm² is undercut, as seen from above and below. It needs a core, "
        "a loose piece, or a different shape there."
    ) in remarks(both, shrink_pct=0)


def test_a_stepped_parting():
    """A slanted bar that is slanted the other way as well: no axis parts it flat."""
    unit = [(x, y, z) for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)]
    corners = [(90 * x + 5.6 * y + 7.2 * z, 8 * y + 6.4 * z + 54 * x, 8 * z + 63 * x + 7.2 * y) for x, y, z in unit]
    where = dict(zip(unit, corners, strict=True))
    assert (
        "For a parting along its shape, cut the sand down by hand to where the shape is widest, or ram it on a follow board."
    ) in remarks([tuple(where[place] for place in facet) for facet in cube(1.0)])


def test_pieces_that_overlap():
    assert (
        "Because pieces overlap, undercut and uplift are exact only to about 1 %, and the vertical walls are an upper limit: walls inside "
        "the shape are counted too."
    ) in remarks(box(60, 60, 10) + box(20, 20, 35, (20.0, 20.0, 5.0)))


def test_where_orientations_are_not_compared(ask):
    assert remarks(cube(40.0)[2:])[-1] == (
        "The orientations are not compared, because that needs a shape with a volume."
    )
    assert (
        "Orientations are compared only for a file of the shape. For plain sizes, use the page “Choose a flask”."
        in ask("pattern", box_mm=[140, 55, 12], ways="yes")["remarks"]
    )


def test_neither_yes_nor_no(messages):
    said = messages("pattern", box_mm=[10, 10, 10], ways="both")
    assert said == ["Compare orientations: “both” isn't one of the choices. Choose yes or no."]
