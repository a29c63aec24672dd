"""A file with a shape, in one of the formats that can be read: its first bytes tell which, not its name."""

from __future__ import annotations

from sandmix.mesh import stl, threemf
from sandmix.mesh.facets import Facets, NotAMesh

ENDINGS = (".stl", ".3mf")
_ZIP = b"PK\x03\x04"
_OTHER_FORMATS = {
    b"ply": "PLY",
    b"ISO-10303": "STEP",
    b"glTF": "glTF",
    b"# ": "OBJ",
    b"v ": "OBJ",
    b"%PDF": "PDF",
    b"\x89PNG": "picture",
    b"\xff\xd8\xff": "picture",
    b"PK\x05\x06": "empty archive",
}


def opened(data: bytes | memoryview) -> Facets:
    """Return the facets of an STL or 3MF file; raises NotAMesh in words."""
    start = bytes(data[:10])
    if start.startswith(_ZIP):
        return threemf.read(data)
    for first, kind in _OTHER_FORMATS.items():
        if start.startswith(first) and not stl.has_its_length(data):
            raise NotAMesh(f"this is a {kind} file. Save the shape as STL or 3MF.")
    return stl.read(data)
