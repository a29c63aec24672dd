"""3MF packages: units, transforms, components and the build; and archives made to harm."""

import struct
import zipfile

import pytest
from shapes import ball, cube, model, moved, package

from sandmix.mesh import archive, mesh_file, solid, threemf
from sandmix.mesh.facets import NotAMesh


def opened(content, **more):
    return mesh_file.opened(package(content, **more))


def measured(content):
    return solid.measure(opened(content))


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
def test_a_cube_comes_out_as_it_went_in(method):
    told = solid.measure(mesh_file.opened(package(model(cube(), "inch"), method)))
    assert (told.volume, told.area, told.unit) == (1000, 600, "inch")


def test_names_may_carry_the_prefix_of_their_space():
    content = (
        model(cube()).replace(b"xmlns=", b"xmlns:m=").replace(b"<vert", b"<m:vert").replace(b"</vert", b"</m:vert")
    )
    assert measured(content).volume == 1000


def test_a_millimetre_is_meant_where_no_unit_is_named():
    assert opened(model(cube()).replace(b'unit="millimeter" ', b"")).unit == "millimeter"


def test_the_items_of_the_build_are_moved_and_taken_together():
    """By hand: a cube of 10 as it is, and one doubled, 8000, a hundred away."""
    told = measured(
        model(cube(), build='<item objectid="1"/><item objectid="1" transform="2 0 0 0 2 0 0 0 2 100 0 0"/>')
    )
    assert (told.volume, told.shells, told.box) == (9000, 2, (120, 20, 20))
    assert told.remarks == ("The file builds 2 things. They are taken together, as one casting.",)


def test_a_mirrored_item_keeps_its_outside_out():
    told = measured(model(cube(), build='<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>'))
    assert (told.volume, told.flipped, told.trust) == (1000, 0, solid.RIGHT)


def test_components_stand_in_each_other_with_their_transforms():
    """Object 3 holds 2 shifted by 50, and 2 holds the cube halved: 125 each, two of them."""
    parts = (
        '<object id="2"><components><component objectid="1" transform="0.5 0 0 0 0.5 0 0 0 0.5 0 0 0"/></components></object>'
        '<object id="3"><components><component objectid="2" transform="1 0 0 0 1 0 0 0 1 50 0 0"/>'
        '<component objectid="2"/></components></object>'
    )
    told = measured(model(cube(), resources=parts, build='<item objectid="3"/>'))
    assert (told.volume, told.box) == (250, (55, 5, 5))


def test_without_a_build_all_objects_are_taken():
    assert opened(model(cube(), build="")).remarks == (
        "The file names nothing to build: all of its objects are taken.",
    )


def test_supports_are_no_part_of_the_casting():
    support = model(ball()).partition(b"<object")[2].partition(b"</object>")[0].decode()
    support = "<object" + support.replace('id="1" type="model"', 'id="2" type="support"') + "</object>"
    both = model(cube(), resources=support, build='<item objectid="1"/><item objectid="2"/>')
    assert measured(both).volume == 1000


def test_the_model_is_found_by_the_packages_own_list_or_by_its_ending():
    listed = (
        b'<r:Relationships xmlns:r="x"><r:Relationship Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" '
        b'Target="/3D/Other.model"/></r:Relationships>'
    )
    there = package(model(cube()), name="3D/other.model", others={"_rels/.rels": listed, "3D/odd.model": b"<a/>"})
    assert len(mesh_file.opened(there)) == 12
    elsewhere = listed.replace(b"3dmodel", b"thumbnail")
    assert len(mesh_file.opened(package(model(cube()), others={"_rels/.rels": elsewhere}))) == 12
    assert len(mesh_file.opened(package(model(cube()), name="a/b.model"))) == 12


CUT = "It is damaged: save it anew."
REFUSED = [
    (model(cube(), "furlong"), f"its unit “furlong” is none that a 3MF has. {CUT}"),
    (model(cube(), head='<!DOCTYPE m [<!ENTITY a "aaaa">]>'), "its model carries a DTD, which a 3MF never does. It is not read."),
    (model(cube())[:-9], f"its model is no XML from line 1 on. {CUT}"),
    (model(cube()).replace(b' z="0.0"', b"", 1), f"near line 1 a corner or facet lacks a number. {CUT}"),
    (model(cube()).replace(b'v1="1"', b'v1="9"', 1), f"a facet names corner 9 of 8. {CUT}"),
    (model(cube()).replace(b'v1="1"', b'v1="-1"', 1), f"near line 1 a corner or facet lacks a number. {CUT}"),
    (model(cube()).replace(b'x="0.0"', b'x="inf"', 1), "a corner stands at inf, nan, nan, which is no place. The file is damaged: save it anew."),
    (model(cube(), build='<item objectid="7"/>'), f"it builds object 7, and there is none. {CUT}"),
    (model(cube(), build='<item objectid="1" transform="1 2 3"/>'), f"near line 1 a corner or facet lacks a number. {CUT}"),
    (model(cube(), build='<item objectid="1" transform="1e99 0 0 0 1 0 0 0 1 0 0 0"/>'), f"a transform in it is without bound. {CUT}"),
    (model(cube(), build='<item objectid="1" p:path="/3D/a.model" xmlns:p="x"/>'),
     "parts of its model stand in a second model inside it. Save it as one model, or as STL."),
    (model(cube(), resources='<object id="2"><components><component objectid="2"/></components></object>', build='<item objectid="2"/>'),
     f"object 2 is a part of itself. {CUT}"),
    (model([], resources='<object id="2"/>', build='<item objectid="2"/>'), "it builds nothing: no item of it holds a facet. Save the shape anew."),
]  # fmt: skip


@pytest.mark.parametrize(("content", "said"), REFUSED)
def test_a_model_that_can_not_be_built_is_refused_in_words(content, said):
    with pytest.raises(NotAMesh) as refused:
        opened(content)
    assert str(refused.value) == said


def chain(deep, wide):
    """Objects that each hold the one before, several times."""
    rows = [
        f'<object id="{at}"><components>{f"<component objectid={chr(34)}{at - 1}{chr(34)}/>" * wide}</components></object>'
        for at in range(2, deep + 2)
    ]
    return model(cube(), resources="".join(rows), build=f'<item objectid="{deep + 1}"/>')


def test_objects_that_multiply_are_refused_before_they_cost_time():
    with pytest.raises(NotAMesh, match="so often"):
        opened(chain(9, 10))
    with pytest.raises(NotAMesh, match="so often"):
        opened(chain(9, 10).replace(b"<triangle ", b"<other "))
    with pytest.raises(NotAMesh, match="more than 16 deep"):
        opened(chain(20, 1))
    assert len(opened(chain(10, 1))) == 12


def test_an_archive_that_swells_is_refused_by_what_it_says_of_itself():
    with pytest.raises(NotAMesh, match="unpacked it would be"):
        opened(model(cube()) + b" " * 5_000_000)


def lied(whole):
    """A package whose list says another size than there is."""
    data = bytearray(package(model(cube())))
    listed = data.rfind(b"PK\x01\x02")
    data[listed + 24 : listed + 28] = struct.pack("<I", whole)
    return bytes(data)


@pytest.mark.parametrize("whole", [10, 3_000_000])
def test_an_archive_that_says_another_size_than_it_has_is_refused(whole):
    with pytest.raises(NotAMesh, match="damaged"):
        mesh_file.opened(lied(whole))


def hurt(at, piece, of="PK\x01\x02", method=zipfile.ZIP_DEFLATED):
    data = bytearray(package(model(cube()), method))
    start = data.rfind(of.encode("latin-1")) + at
    data[start : start + len(piece)] = piece
    return bytes(data)


BROKEN = [
    (package(model(cube()))[:-30], "the archive has no end: it is cut short."),
    (hurt(0, b"XX"), "the archive's list of files is damaged."),
    (hurt(8, b"\x01"), "it is locked with a password."),
    (hurt(10, b"\x09"), "it is packed in a way that is not known here."),
    (hurt(42, b"\xff\xff"), "a file in the archive is not where its list says."),
    (hurt(60, b"\xff" * 40, of="PK\x03\x04"), "a file in the archive is damaged."),
    (hurt(16, b"\x00\x00"), "a file in the archive is damaged."),
]  # fmt: skip


@pytest.mark.parametrize(("data", "said"), BROKEN)
def test_a_broken_archive_is_refused_in_words(data, said):
    with pytest.raises(NotAMesh) as refused:
        mesh_file.opened(data)
    assert str(refused.value) == f"{said} {CUT}"


def test_an_archive_without_a_model_is_told_so():
    with pytest.raises(NotAMesh, match="no model is in it"):
        mesh_file.opened(package(b"words", name="letter.txt"))


def test_a_wrong_count_of_files_does_no_harm():
    """The list is read by its length, and each file in it has a checksum of its own."""
    assert len(mesh_file.opened(hurt(10, struct.pack("<H", 60000), of="PK\x05\x06"))) == 12


def test_an_archive_of_too_many_files_is_refused_before_it_is_listed(monkeypatch):
    monkeypatch.setattr(archive, "MOST_FILES", 2)
    with pytest.raises(archive.NotAnArchive, match="list of files"):
        archive.Archive(package(b"", others={"a": b"", "b": b""}))


def test_units_are_those_of_the_format():
    """By definition, in mm."""
    assert threemf.MM["inch"] == 25.4
    assert threemf.MM["foot"] == 304.8
    assert threemf.MM["micron"] * 1000 == 1


def test_a_shape_elsewhere_is_the_same_shape():
    assert measured(model(moved(cube(), (5.0, 6.0, 7.0)))).volume == 1000
