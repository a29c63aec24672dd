"""STL, binary and text, into facets. Normals and attribute bytes are passed over: the order of the corners says which way a facet faces.

A binary file has 80 bytes of header, a count, and 50 bytes a facet. Its header may begin with "solid", as a text file does, so the length decides.
Source: stl_format.
"""

from __future__ import annotations

import re
import struct
from itertools import chain

from sandmix.mesh.facets import Facets, NotAMesh, ShortCorners, SpelledCorners

HEAD = 84
EACH = 50
_CORNERS = struct.Struct("<12x12s12s12s2x")
_NUMBER = rb"[^\s]{1,60}+"
_CORNER = rb"vertex\s++(" + rb"\s++".join([_NUMBER] * 3) + rb")\s++"
_FACET = re.compile(
    rb"\s*+facet\s++normal\s++" + rb"\s++".join([_NUMBER] * 3) + rb"\s++outer\s++loop\s++" + _CORNER * 3
    + rb"endloop\s++endfacet(?=\s|$)",
    re.IGNORECASE,
)  # fmt: skip
_BETWEEN = re.compile(rb"\s*+(?:end\s?solid|solid)(?=\s|$)[^\r\n]*+", re.IGNORECASE)
_BLANK = re.compile(rb"[\s\x00\x1a]*+")
_LOOKED_AT = 4096
_MARK = b"\xef\xbb\xbf"


def read(data: bytes | memoryview) -> Facets:
    """Return the facets of an STL file; raises NotAMesh in words."""
    if has_its_length(data):
        return _binary(data, _count(data), ())
    if is_text(data):
        return _text(bytes(data))
    if len(data) < HEAD:
        raise NotAMesh(f"{len(data)} bytes are too few for a shape. Send the whole file, as STL or 3MF.")
    return _odd_length(data)


def has_its_length(data: bytes | memoryview) -> bool:
    """Return whether *data* is as long as a binary STL of its count is."""
    return len(data) >= HEAD and HEAD + EACH * _count(data) == len(data)


def is_text(data: bytes | memoryview) -> bool:
    """Return whether *data* looks like a text STL: it begins with "solid", and a facet or the end follows as text."""
    start = bytes(data[:_LOOKED_AT]).removeprefix(_MARK).lstrip().lower()
    return start.startswith(b"solid") and (b"facet" in start or b"endsolid" in start) and b"\x00" not in start


def _count(data: bytes | memoryview) -> int:
    return int.from_bytes(data[80:HEAD], "little")


def _odd_length(data: bytes | memoryview) -> Facets:
    said, (holds, over) = _count(data), divmod(len(data) - HEAD, EACH)
    if holds and not over:
        return _binary(data, holds, (f"Its count says {said} facets, its length {holds}. The length is taken.",))
    if 0 < said <= holds:
        left = len(data) - HEAD - EACH * said
        return _binary(data, said, (f"{left} bytes stand after the last of its {said} facets. They are passed over.",))
    raise NotAMesh(
        f"its count says {said} facets and it holds {holds}{' and a part of one' if over else ''}. It is cut short or no STL: "
        "save or send it anew."
    )


def _binary(data: bytes | memoryview, count: int, remarks: tuple[str, ...]) -> Facets:
    if not count:
        raise NotAMesh("it holds no facet. Save the shape anew.")
    facets = Facets(remarks=remarks)
    number = ShortCorners(facets).__getitem__
    body = memoryview(data)[HEAD : HEAD + EACH * count]
    facets.corners.extend(map(number, chain.from_iterable(_CORNERS.iter_unpack(body))))
    return facets


def _text(data: bytes) -> Facets:
    facets = Facets()
    number, corners = SpelledCorners(facets), facets.corners
    at = len(_MARK) if data.startswith(_MARK) else 0
    end = len(data)
    while at < end:
        found = _FACET.match(data, at)
        if found:
            first, second, third = found.groups()
            corners.append(number[first])
            corners.append(number[second])
            corners.append(number[third])
        elif not (found := _BETWEEN.match(data, at)):
            if _BLANK.fullmatch(data, at):
                break
            at += len(data) - at - len(data[at:].lstrip())
            line = data.count(b"\n", 0, at) + 1
            shown = data[at : at + 40].partition(b"\n")[0].strip().decode("utf-8", "replace")
            raise NotAMesh(
                f"from line {line} on it is no STL any more (“{shown}”), {len(facets)} facets before that. It is cut short or damaged: "
                "save it anew."
            )
        at = found.end()
    if not corners:
        raise NotAMesh("it holds no facet. Save the shape anew.")
    return facets
