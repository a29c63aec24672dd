"""Every sentence about a file that can't be read, or that was repaired: written by hand, then compared with the library's."""

import json
import math
import struct

import pytest
from shapes import ball, binary, cube, damaged_package, inward, model, moved, package, text

from sandmix.doors.facade import call
from sandmix.mesh import mesh_file
from sandmix.mesh.facets import NotAMesh

AGAIN = "The file is damaged: save it again."
CUT_SHORT = "It is cut short or no STL: save or send it again."
FAR = "coordinates must be finite and at most 1000000000. " + AGAIN
STL = [
    (b"", "0 bytes are too few for a shape. Send the whole file, as STL or 3MF."),
    (binary(cube())[:-1], "it says that it has 12 facets, and it has 11 and a part of one. " + CUT_SHORT),
    (b"\0" * 84, "it has no facet. Save the shape again."),
    (b"\0" * 100, "it says that it has 0 facets, and it has 0 and a part of one. " + CUT_SHORT),
    (b"x" * 80 + b"\xff\xff\xff\xff" + b"0" * 51, "it says that it has 4294967295 facets, and it has 1 and a part of one. " + CUT_SHORT),
    (b"solid\nendsolid\n", "it has no facet. Save the shape again."),
    (text(cube())[:-60],
     "from line 79 on, after 11 facets, it is no valid STL (“facet normal 0 0 0”). It is cut short or damaged: save it again."),
    (text(cube()).replace(b"vertex 10", b"vertex ten", 1), "“ten 0 0” should be three numbers. " + AGAIN),
    (binary(cube()).replace(struct.pack("<f", 10.0), struct.pack("<f", float("inf")), 1), "a corner is at 0, 0, inf; " + FAR),
    (text(cube()).replace(b"vertex 10", b"vertex nan", 1), "a corner is at nan, 0, 0; " + FAR),
    (b"ply\nformat ascii 1.0\n" + b" " * 99, "this is a PLY file. Save the shape as STL or 3MF."),
    (b"\x89PNG" + b"\0" * 99, "this is a picture file. Save the shape as STL or 3MF."),
]  # fmt: skip
NO_NUMBER = "near line 1 of its model a number is missing. " + AGAIN
MODELS = [
    (model(cube(), "furlong"), "its unit “furlong” is not one of the units of a 3MF. " + AGAIN),
    (model(cube(), head='<!DOCTYPE m [<!ENTITY a "aaaa">]>'),
     "its model has a DTD, which a 3MF must not have. Save it again from another program, or as STL."),
    (model(cube())[:-9], "from line 1 on its model is no valid XML. " + AGAIN),
    (model(cube()).replace(b' z="0.0"', b"", 1), NO_NUMBER),
    (model(cube()).replace(b'v1="1"', b'v1="9"', 1), "a facet uses corner 9, and there are 8, counted from 0. " + AGAIN),
    (model(cube()).replace(b'v1="1"', b'v1="-1"', 1), NO_NUMBER),
    (model(cube()).replace(b'x="0.0"', b'x="inf"', 1), "a corner is at inf, nan, nan; " + FAR),
    (model(cube(), build='<item objectid="7"/>'), "its build names object 7, which is missing. " + AGAIN),
    (model(cube(), build='<item objectid="1" transform="1 2 3"/>'), NO_NUMBER),
    (model(cube(), build='<item objectid="1" transform="1e99 0 0 0 1 0 0 0 1 0 0 0"/>'),
     "a number of one of its transforms is too large. " + AGAIN),
    (model(cube(), build='<item objectid="1" p:path="/3D/a.model" xmlns:p="x"/>'),
     "parts of its model are in a second model file. Save it as one model, or as STL."),
    (model(cube(), resources='<object id="2"><components><component objectid="2"/></components></object>', build='<item objectid="2"/>'),
     "its object 2 is a part of itself. " + AGAIN),
    (model([], resources='<object id="2"/>', build='<item objectid="2"/>'), "no item of its build has a facet. Save the shape again."),
]  # fmt: skip
ARCHIVES = [
    (package(model(cube()))[:-30], "the end of the archive is missing. Save or send it again."),
    (b"PK\x03\x04PK\x05\x06", "the archive's list of files can't be read. " + AGAIN),
    (damaged_package(0, b"XX"), "the archive's list of files can't be read. " + AGAIN),
    (damaged_package(8, b"\x01"), "the archive is locked with a password. Save it without one."),
    (damaged_package(10, b"\x09"), "it is compressed in a way that can't be read here. Save it as a plain 3MF, or as STL."),
    (damaged_package(42, b"\xff\xff"), "a file in the archive is not where the list says. " + AGAIN),
    (damaged_package(60, b"\xff" * 40, of=b"PK\x03\x04"), "a file in the archive can't be unpacked. " + AGAIN),
    (damaged_package(16, b"\x00\x00"), "a file in the archive can't be unpacked. " + AGAIN),
    (damaged_package(24, struct.pack("<I", 3_000_000)), "a file in the archive does not have the 3000000 bytes that the list says. " + AGAIN),
    (damaged_package(24, struct.pack("<I", 5_000_000)),
     "unpacked it would have 5000000 bytes, and at most 4000000 are read. Save it with fewer facets."),
    (package(b"words", name="letter.txt"), "this archive has no model in it, so it is no 3MF. Send the STL or the 3MF itself."),
]  # fmt: skip


@pytest.mark.parametrize(("data", "said"), [*STL, *[(package(content), said) for content, said in MODELS], *ARCHIVES])
def test_a_file_that_can_not_be_read_is_refused_in_words(data, said):
    with pytest.raises(NotAMesh) as refused:
        mesh_file.opened(data)
    assert str(refused.value) == said


def answered(triangles, **inputs):
    data = triangles if isinstance(triangles, bytes) else binary(triangles)
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, "unit": "mm", **inputs}}
    return json.loads(call(json.dumps(request), {"it": data}))


def test_a_refusal_begins_with_the_label_of_the_file():
    (problem,) = answered(b"")["problems"]
    assert problem["message"] == "File of the shape: " + STL[0][1]


FIN = ((0.0, 0.0, 0.0), (0.0, 0.0, 40.0), (-5.0, 5.0, 5.0))
LOOSE = [*cube(40.0)[1:], tuple(tuple(x + 1e-5 for x in place) for place in cube(40.0)[0])]
TURNED = [facet[::-1] if at == 7 else facet for at, facet in enumerate(ball(radius=40.0))]
BUILT_TWICE = '<item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 50 0 0"/>'
REPAIR = "Repair it in the program that drew it, and save it again."
REMARKS = [
    (binary(cube(40.0))[:-50] + binary(cube(40.0))[-50:] + b"trailer", "Bytes after the last of its 12 facets: 7. They are ignored."),
    (binary([*cube(40.0), FIN])[:-50], "The file says that it has 13 facets, and by its length it has 12. 12 are used."),
    (package(model(cube(40.0), build="")), "The file has no list of things to build, so all of its objects are used."),
    (package(model(cube(40.0), build=BUILT_TWICE)), "The file builds 2 things. They are measured together, as one casting."),
    (package(model(cube(40.0))), "The 3MF says that its unit is the millimeter. The unit that you chose is not used."),
    (TURNED, "Facets that faced the other way than their neighbours: 1. They were turned over."),
    (inward(cube(40.0)), "The whole shape faced inwards. It was turned."),
    (cube(40.0) + inward(moved(cube(40.0), (90.0, 0.0, 0.0))), "Shells that faced inwards without being inside another: 1. They were turned."),
    ([*cube(40.0), ((1.0, 1.0, 1.0),) * 3], "Facets without area: 1. They are ignored."),
    (LOOSE, "Corners up to 0.00004 mm apart were joined, because the file rounds them. The ± of the volume includes this."),
    (cube(40.0)[:2] + cube(40.0)[4:], "The shape has 1 hole: at x / y / z 40 / 20 / 20 mm, 40 mm across, with 4 edges. " + REPAIR),
    ([*cube(40.0), FIN, FIN, FIN], "At 3 edges more than two facets meet and can't be paired."),
    (cube(40.0) + moved(cube(8.0), (9.0,) * 3),
     "The volume is not calculated: a shell lies inside another and faces the same way, so it may be a hollow, or be there twice. " + REPAIR),
    (cube(40.0) + inward(moved(cube(8.0), (9.0,) * 3)),
     "Closed hollows inside: 1. Sand can't get in or out. They are counted as empty, which needs a core with an opening."),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "said"), REMARKS)
def test_what_was_repaired_or_has_to_be_is_remarked(shape, said):
    assert said in answered(shape)["remarks"], answered(shape)["remarks"]


def test_a_shape_with_many_holes_names_the_first_three():
    sieve = [facet for at, facet in enumerate(ball(radius=40.0)) if at not in (0, 60, 100, 150, 200)]
    (said,) = [
        remark for remark in answered(sieve)["remarks"] if remark.startswith("The shape has 5 holes: at x / y / z ")
    ]
    assert said.count("; at") == 2
    assert said.endswith("; and others. " + REPAIR)


def test_facets_that_disagree_are_remarked():
    both = cube(40.0) + moved(cube(40.0), (40.0, 40.0, 0.0))
    at = next(at for at, facet in enumerate(both) if sum(place[:2] == (40.0, 40.0) for place in facet) == 2)
    both[at] = both[at][::-1]
    said = "At 3 edges two facets face opposite ways, and it is not clear which one is right."
    assert said in answered(both)["remarks"], answered(both)["remarks"]


def test_pieces_that_overlap_are_remarked_with_their_share():
    """Two cubes of 64 cm³ that share 10 × 20 × 20 mm: 4 of 128 cm³ is 3.1 %, within what the rays see."""
    said = answered(cube(40.0) + moved(cube(40.0), (30.0, 20.0, 20.0)))["remarks"]
    (share,) = [remark for remark in said if remark.startswith("Pieces of it overlap: ")]
    assert share.endswith(
        " % of the volume in the file was there more than once, and is counted once. For an exact figure, join the pieces in the program that "
        "drew them."
    )
    assert math.isclose(float(share.split(" ")[4]), 3.125, rel_tol=0.1)
    assert "Surface and modulus are left out: where pieces overlap, the file has more surface than the casting." in said


@pytest.mark.parametrize(
    ("shape", "why", "side"),
    [
        (cube(40.0)[1:], "the shape is not closed", 40),
        (cube(40.0) + inward(cube(40.0)), "the shape has no inside", 40),
        (cube(40.0) + inward(moved(cube(40.0), (9.0,) * 3)),
         "shells that face inwards and shells that face outwards cut into each other", 49),
    ],
)  # fmt: skip
def test_without_a_volume_the_headline_says_why(shape, why, side):
    said = f"The volume can't be calculated: {why}. The box is {side} × {side} × {side} mm."
    assert answered(shape)["headline"] == said
