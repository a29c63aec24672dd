"""3MF packages: units, transforms, components and the build; and archives made to harm."""

import struct
import zipfile

import pytest
from shapes import ball, cube, damaged_package, model, moved, package

from sandmix.mesh import archive, mesh_file, solid, threemf
from sandmix.mesh.facets import NotAMesh


def opened(content, **more):
    return mesh_file.opened(package(content, **more))


def measured(content):
    return solid.measure(opened(content))


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
def test_a_cube_comes_out_as_it_went_in(method):
    found = solid.measure(mesh_file.opened(package(model(cube(), "inch"), method)))
    assert (found.volume, found.area, found.unit) == (1000, 600, "inch")


def test_xml_names_may_have_the_prefix_of_their_namespace():
    content = (
        model(cube()).replace(b"xmlns=", b"xmlns:m=").replace(b"<vert", b"<m:vert").replace(b"</vert", b"</m:vert")
    )
    assert measured(content).volume == 1000


def test_without_a_unit_it_is_in_millimetres():
    assert opened(model(cube()).replace(b'unit="millimeter" ', b"")).unit == "millimeter"


def test_the_items_of_the_build_are_moved_and_measured_together():
    """By hand: a cube of 10 as it is, and one doubled, 8000, a hundred away."""
    found = measured(
        model(cube(), build='<item objectid="1"/><item objectid="1" transform="2 0 0 0 2 0 0 0 2 100 0 0"/>')
    )
    assert (found.volume, found.shells, found.box) == (9000, 2, (120, 20, 20))
    assert len(found.remarks) == 1


def test_a_mirrored_item_keeps_its_outside_out():
    found = measured(model(cube(), build='<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>'))
    assert (found.volume, found.flipped, found.trust) == (1000, 0, solid.RIGHT)


def test_components_contain_each_other_with_their_transforms():
    """Object 3 holds 2 shifted by 50, and 2 holds the cube halved: 125 each, two of them."""
    parts = (
        '<object id="2"><components><component objectid="1" transform="0.5 0 0 0 0.5 0 0 0 0.5 0 0 0"/></components></object>'
        '<object id="3"><components><component objectid="2" transform="1 0 0 0 1 0 0 0 1 50 0 0"/>'
        '<component objectid="2"/></components></object>'
    )
    found = measured(model(cube(), resources=parts, build='<item objectid="3"/>'))
    assert (found.volume, found.box) == (250, (55, 5, 5))


def test_without_a_build_all_objects_are_used():
    found = opened(model(cube(), build=""))
    assert (len(found), len(found.remarks)) == (12, 1)


def test_supports_are_no_part_of_the_casting():
    support = model(ball()).partition(b"<object")[2].partition(b"</object>")[0].decode()
    support = "<object" + support.replace('id="1" type="model"', 'id="2" type="support"') + "</object>"
    both = model(cube(), resources=support, build='<item objectid="1"/><item objectid="2"/>')
    assert measured(both).volume == 1000


def test_the_model_is_found_by_the_list_of_the_package_or_by_its_ending():
    listed = (
        b'<r:Relationships xmlns:r="x"><r:Relationship Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" '
        b'Target="/3D/Other.model"/></r:Relationships>'
    )
    there = package(model(cube()), name="3D/other.model", others={"_rels/.rels": listed, "3D/odd.model": b"<a/>"})
    assert len(mesh_file.opened(there)) == 12
    elsewhere = listed.replace(b"3dmodel", b"thumbnail")
    assert len(mesh_file.opened(package(model(cube()), others={"_rels/.rels": elsewhere}))) == 12
    assert len(mesh_file.opened(package(model(cube()), name="a/b.model"))) == 12


def chain(deep, wide):
    """Objects that each hold the one before, several times."""
    rows = [
        f'<object id="{at}"><components>{f"<component objectid={chr(34)}{at - 1}{chr(34)}/>" * wide}</components></object>'
        for at in range(2, deep + 2)
    ]
    return model(cube(), resources="".join(rows), build=f'<item objectid="{deep + 1}"/>')


def test_objects_that_multiply_are_refused_before_they_cost_time():
    with pytest.raises(NotAMesh, match="too often"):
        opened(chain(9, 10))
    with pytest.raises(NotAMesh, match="too often"):
        opened(chain(9, 10).replace(b"<triangle ", b"<other "))
    with pytest.raises(NotAMesh, match="more than 16 levels"):
        opened(chain(20, 1))
    assert len(opened(chain(10, 1))) == 12


def test_an_archive_that_would_unpack_to_too_many_bytes_is_refused():
    with pytest.raises(NotAMesh, match="unpacked it would have"):
        opened(model(cube()) + b" " * 5_000_000)


@pytest.mark.parametrize("whole", [10, 3_000_000])
def test_an_archive_that_says_another_size_than_it_has_is_refused(whole):
    with pytest.raises(NotAMesh, match="a file in the archive"):
        mesh_file.opened(damaged_package(24, struct.pack("<I", whole)))


def test_an_archive_without_a_model_is_refused():
    with pytest.raises(NotAMesh, match="no model in it"):
        mesh_file.opened(package(b"words", name="letter.txt"))


def test_a_wrong_count_of_files_does_no_harm():
    """The list is read by its length, and each file in it has a checksum of its own."""
    assert len(mesh_file.opened(damaged_package(10, struct.pack("<H", 60000), of=b"PK\x05\x06"))) == 12


def test_an_archive_of_too_many_files_is_refused_before_it_is_listed(monkeypatch):
    monkeypatch.setattr(archive, "MOST_FILES", 2)
    with pytest.raises(NotAMesh, match="list of files"):
        archive.Archive(package(b"", others={"a": b"", "b": b""}))


def test_units_are_those_of_the_format():
    """By definition, in mm."""
    assert threemf.MM["inch"] == 25.4
    assert threemf.MM["foot"] == 304.8
    assert threemf.MM["micron"] * 1000 == 1


def test_a_shape_elsewhere_is_the_same_shape():
    assert measured(model(moved(cube(), (5.0, 6.0, 7.0)))).volume == 1000


def test_supports_that_repeat_each_other_are_counted_before_they_are_left_out():
    supports = "".join('<component objectid="1"/>' for _ in range(300))
    others = supports.replace('"1"', '"2"')
    content = (
        '<model unit="millimeter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
        '<object id="1" type="support"><mesh><vertices/><triangles/></mesh></object>'
        f'<object id="2"><components>{supports}</components></object>'
        f'<object id="3"><components>{others}</components></object>'
        '</resources><build><item objectid="3"/></build></model>'
    ).encode()
    with pytest.raises(NotAMesh, match="repeats its objects too often"):
        opened(content)
