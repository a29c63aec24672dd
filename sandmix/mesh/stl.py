"""STL, binary and text, into facets. Normals and attribute bytes are ignored: the order of the corners says which way a facet faces.

A binary file has 80 bytes of header, a count, and 50 bytes per facet. Its header may begin with "solid" like a text file, so the length decides.
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
_START = 4096
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
    """Return whether *data* is exactly as long as a binary STL of its count."""
    return len(data) >= HEAD and HEAD + EACH * _count(data) == len(data)


def is_text(data: bytes | memoryview) -> bool:
    """Return whether *data* looks like a text STL: it begins with "solid", and a facet or the end follows as text."""
    start = bytes(data[:_START]).removeprefix(_MARK).lstrip().lower()
    return start.startswith(b"solid") and (b"facet" in start or b"endsolid" in start) and b"\x00" not in start


def _count(data: bytes | memoryview) -> int:
    return int.from_bytes(data[80:HEAD], "little")


def _odd_length(data: bytes | memoryview) -> Facets:
    stated, (holds, over) = _count(data), divmod(len(data) - HEAD, EACH)
    if holds and not over:
        return _binary(
            data,
            holds,
            (f"The file says that it has {stated} facets, and by its length it has {holds}. {holds} are used.",),
        )
    if 0 < stated <= holds:
        left = len(data) - HEAD - EACH * stated
        return _binary(data, stated, (f"Bytes after the last of its {stated} facets: {left}. They are ignored.",))
    raise NotAMesh(
        f"it says that it has {stated} facets, and it has {holds}{' and a part of one' if over else ''}. It is cut short or no "
        "STL: save or send it again."
    )


def _binary(data: bytes | memoryview, count: int, remarks: tuple[str, ...]) -> Facets:
    if not count:
        raise NotAMesh("it has no facet. Save the shape again.")
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
                f"from line {line} on, after {len(facets)} facets, it is no valid STL (“{shown}”). It is cut short or damaged: save "
                "it again."
            )
        at = found.end()
    if not corners:
        raise NotAMesh("it has no facet. Save the shape again.")
    return facets
