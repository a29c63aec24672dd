"""STL and 3MF files in the forms that programs write them, measured against trimesh, a general-purpose library.

The files are generated here, so nothing is fetched and nothing of other people is kept. Each form repeats one that a public file had: line
ends of two systems, spaces before and after a line, numbers with many digits, a name that is not in Latin letters, a binary header that
begins with "solid", is empty or is no text, a byte too many at the end, a package with a picture and settings in it.
Computed by: trimesh, on the facets that it reads from the same bytes. Tolerance: 1e-6 of the figure, for coordinates of 32 bits.
Where trimesh takes a faulty file as it is, the expected value is hand arithmetic, and the test says so.
"""

import io
import json
import math

import numpy as np
import pytest
import trimesh
from against.published import Checks
from shapes import ball, binary, cube, extruded, lathe, model, moved, package, text, torus

from sandmix.doors.facade import call

FORM = Checks("mesh", source="trimesh", sure="library")
FAULTY = Checks("damaged_files", source="geometry", sure="derived")


def star(points=5):
    """A star with a thickness of 8 mm: corners at 20 and 8 mm by turns, and its middle."""
    corners = [
        (r * math.cos(turn), r * math.sin(turn))
        for at in range(2 * points)
        for r, turn in [((20.0, 8.0)[at % 2], math.pi * at / points)]
    ]
    return extruded(corners, [(0, at, at + 1) for at in range(1, 2 * points - 1)], 8.0)


def crescent(steps=24):
    """A moon: the outer arc of radius 20 mm, the inner one closer to its tips, 5 mm thick."""
    turns = [math.pi * (at / steps - 0.5) for at in range(steps + 1)]
    outer = [(20 * math.cos(turn), 20 * math.sin(turn)) for turn in turns]
    inner = [(8 * math.cos(turn), 20 * math.sin(turn)) for turn in reversed(turns[1:-1])]
    last = len(outer) + len(inner)
    caps = [(0, 1, last - 1), (steps - 1, steps, steps + 1)]
    for at in range(1, steps - 1):
        caps += [(at, at + 1, last - at - 1), (at, last - at - 1, last - at)]
    return extruded(outer + inner, caps, 5.0)


def spool():
    """A turned part with two flanges, a groove and a bore: 26,000 facets."""
    groove = [(14 - 3 * math.cos(turn), 20 + 6 * math.sin(turn)) for turn in np.linspace(-math.pi / 2, math.pi / 2, 60)]
    profile = [(4, 0), (22, 0), (22, 6), (14, 6), *groove, (14, 34), (22, 34), (22, 40), (4, 40), (4, 0)]
    return lathe(profile, 192)


SHAPES = {
    "cube": cube(2.0),
    "star": star(),
    "moon": crescent(),
    "ring": torus(20.0, 5.0, 32),
    "ball": ball(20, 20.0),
    "spool": spool(),
}


def precise(triangles):
    """Text with a quoted name, two spaces a level and 15 figures a number."""
    lines = ['solid "part 1"']
    for facet in triangles:
        lines += ["  facet normal 0.054300200194 -0.001230837660 0.998523890972", "    outer loop"]
        lines += [f"      vertex {x:.14e} {y:.14e} {z:.14e}" for x, y, z in facet]
        lines += ["    endloop", "  endfacet"]
    return "\n".join([*lines, 'endsolid "part 1"']).encode()


def spaced(triangles):
    """Text whose lines all begin and end with a space, with the line ends of the other system."""
    return b" " + text(triangles).replace(b"\n", b" \r\n ")


FORMS = {
    "text": text,
    "text with carriage returns": lambda shape: text(shape).replace(b"\n", b"\r\n"),
    "text with a space about each line": spaced,
    "text with a name that is not in Latin letters": lambda shape: text(shape).replace(b"thing", "月球".encode()),
    "text with many figures": precise,
    "binary": binary,
    "binary with solid in its header": lambda shape: binary(shape, b"solid part 1\0"),
    "binary with an empty header": lambda shape: binary(shape, b"\0" * 80),
    "binary with a header that is no text": lambda shape: binary(shape, b" solid part".ljust(78, b"\0") + b"\xff\xff"),
}


def answered(data):
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "m"}, "unit": "mm"}}
    return json.loads(call(json.dumps(request), {"m": data}))


LARGE_IN = ("text with many figures", "binary with solid in its header")
FILES = [(name, form) for name in SHAPES for form in FORMS if name != "spool" or form in LARGE_IN]


@pytest.mark.parametrize(("name", "form"), FILES)
def test_a_file_measures_what_the_library_computes(name, form):
    data = FORMS[form](SHAPES[name])
    shape = trimesh.load(io.BytesIO(data), file_type="stl", force="mesh")
    result = answered(data)["result"]
    assert shape.is_watertight and result["closed"] is True
    FORM.agrees(result["volume_cm3"], shape.volume / 1000, "volume of six shapes in nine kinds of file", rel=1e-6)
    FORM.agrees(result["area_cm2"], shape.area / 100, "surface of six shapes in nine kinds of file", rel=1e-6)
    box = sorted(np.ptp(shape.bounds, axis=0))
    FORM.agrees(sorted(result["box_mm"]), box, "box of six shapes in nine kinds of file", rel=1e-6)


def test_a_file_with_a_byte_too_many_is_read_as_without_it():
    answer = answered(binary(crescent(), b"solid moon") + b"\0")
    assert answer["result"] == answered(binary(crescent(), b"solid moon"))["result"]
    assert "after the last of its 188 facets: 1." in " ".join(answer["remarks"])


def test_a_shape_with_facets_the_wrong_way_round_is_turned():
    """A corner cut off a cube, three legs of 4 mm: 4³/6 = 10.667 mm³; trimesh counts the turned facets against the others."""
    o, a, b, c = (0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (0.0, 4.0, 0.0), (0.0, 0.0, 4.0)
    answer = answered(binary([(o, b, a), (o, a, c), (o, b, c), (a, b, c)]))
    assert answer["result"]["box_mm"] == pytest.approx([4, 4, 4])
    found = 1000 * answer["result"]["volume_cm3"]
    FAULTY.figure(found, "10.667", "tetrahedron of 4 mm whose facets face both ways", unit="mm³")
    assert "the other way than their neighbours" in " ".join(answer["remarks"])


def test_two_things_of_a_3mf_are_read_with_its_own_unit():
    """Two cubes of 2 mm, 5 mm apart: 16 mm³; a picture, settings and a list of kinds lie in the package as well."""
    others = {
        "Metadata/thumbnail.png": b"\x89PNG" * 99,
        "Metadata/part.config": b"height = 0.2",
        "[Content_Types].xml": b"<Types/>",
    }
    answer = answered(package(model(cube(2.0) + moved(cube(2.0), (7.0, 0.0, 0.0))), others=others))
    assert answer["result"]["closed"] is True and answer["result"]["shells"] == 2
    found = 1000 * answer["result"]["volume_cm3"]
    FORM.but(source="geometry", sure="derived").figure(
        found, "16", "two cubes of 2 mm in a 3MF file", unit="mm³", share=1e-6
    )
    assert "its unit is the millimeter" in " ".join(answer["remarks"])
