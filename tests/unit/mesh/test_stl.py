"""STL files into facets: binary, text, with the wrong header, cut short, damaged."""

import struct

import pytest
from shapes import ball, binary, cube, text

from sandmix.mesh import mesh_file, stl
from sandmix.mesh.facets import FURTHEST, NotAMesh


def corners(facets):
    """The places of each facet, as a file has them."""
    x, y, z = facets.origin
    places = list(zip(facets.xs, facets.ys, facets.zs, strict=True))
    return [
        tuple((places[at][0] + x, places[at][1] + y, places[at][2] + z) for at in facets.corners[start : start + 3])
        for start in range(0, len(facets.corners), 3)
    ]


@pytest.mark.parametrize("write", [binary, text])
def test_a_file_read_back_has_the_facets_that_went_in(write):
    facets = stl.read(write(cube()))
    assert corners(facets) == cube()
    assert len(facets) == 12
    assert len(facets.xs) == 8, "a cube has eight corners"


def test_a_binary_file_whose_header_begins_with_solid_is_binary():
    assert len(stl.read(binary(cube(), b"solid and endsolid and facet"))) == 12


def test_attribute_bytes_and_normals_are_ignored():
    data = bytearray(binary(cube()))
    for facet in range(12):
        data[84 + 50 * facet : 96 + 50 * facet] = struct.pack("<3f", 9.0, float("nan"), -1.0)
        data[132 + 50 * facet : 134 + 50 * facet] = b"\xff\x7f"
    assert corners(stl.read(bytes(data))) == cube()


def test_zero_and_minus_zero_are_one_place():
    signed = [tuple(tuple(value or -0.0 for value in place) for place in facet) for facet in cube()[::2]]
    assert len(stl.read(binary(signed + cube()[1::2])).xs) == 8


def test_a_corner_far_from_the_origin_keeps_its_place():
    facets = stl.read(binary(cube(at=(65536.0, 0.0, 0.0))))
    assert facets.origin[0] == 65536
    assert max(facets.xs) == 10


def test_text_is_read_in_any_case_with_any_spaces_and_a_byte_order_mark():
    said = text(cube()).upper().replace(b"\n", b"\r\n\t ").replace(b"ENDSOLID THING", b"")
    assert len(stl.read(b"\xef\xbb\xbf" + said)) == 12
    assert len(stl.read(text(cube()) + text(ball()) + b"\x00\x1a")) == 12 + len(ball()), "several solids in one file"


def test_a_text_may_end_without_a_line_end():
    assert len(stl.read(text(cube()).rstrip())) == 12


def test_one_place_written_in_two_ways_is_one_place():
    said = text(cube()).replace(b"vertex 0 0 0", b"vertex 0.0 -0 0e3", 2)
    assert len(stl.read(said).xs) == 8


def test_where_count_and_length_differ_the_length_is_used_with_a_remark():
    """By hand: 84 bytes and 50 a facet; 11 of 12 facets are 634 bytes."""
    short = binary(cube())[:-50]
    assert len(short) == 634
    facets = stl.read(short)
    assert (len(facets), len(facets.remarks)) == (11, 1)


def test_bytes_after_the_last_facet_are_ignored_with_a_remark():
    facets = stl.read(binary(cube()) + b"trailer")
    assert len(facets) == 12
    assert len(facets.remarks) == 1


def test_a_binary_file_that_begins_like_another_kind_is_still_read():
    assert len(mesh_file.opened(binary(cube(), b"# exported"))) == 12


def test_a_coordinate_far_beyond_any_casting_is_refused():
    assert len(stl.read(text([((0.0, 0.0, 0.0), (FURTHEST, 0.0, 0.0), (0.0, 1.0, 0.0))]))) == 1
    with pytest.raises(NotAMesh):
        stl.read(text([((0.0, 0.0, 0.0), (1.001 * FURTHEST, 0.0, 0.0), (0.0, 1.0, 0.0))]))
