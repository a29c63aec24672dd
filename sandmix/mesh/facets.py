"""The facets of a file, with each corner that several of them share stored once.

Corners are kept as offsets from the first one, so that a part far from the origin loses no digits; a facet is three corner numbers.
"""

from __future__ import annotations

import struct
from array import array
from collections.abc import Iterator
from dataclasses import dataclass, field

from sandmix.language.errors import SandmixError

FURTHEST = 1e9
SAVE_AGAIN = "The file is damaged: save it again."
_THREE = struct.Struct("<3d")
_THREE_SHORT = struct.Struct("<3f")


class NotAMesh(SandmixError):
    """Why the bytes are no shape that can be measured, and what to do, in words."""


@dataclass(slots=True, kw_only=True)
class Facets:
    """Corners ``xs``, ``ys``, ``zs`` in the file's unit, as offsets from ``origin``; three of ``corners`` a facet; the unit that the file names."""

    xs: array[float] = field(default_factory=lambda: array("d"))
    ys: array[float] = field(default_factory=lambda: array("d"))
    zs: array[float] = field(default_factory=lambda: array("d"))
    corners: array[int] = field(default_factory=lambda: array("I"))
    origin: tuple[float, float, float] = (0.0, 0.0, 0.0)
    unit: str = ""
    remarks: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.corners) // 3

    def triples(self) -> Iterator[tuple[int, int, int]]:
        """Yield the three corner numbers of each facet."""
        one = iter(self.corners)
        return zip(one, one, one, strict=True)

    @property
    def box(self) -> tuple[float, float, float]:
        """The three sides of its box."""
        x, y, z = (max(values) - min(values) for values in (self.xs, self.ys, self.zs))
        return x, y, z

    def along(self, axis: str) -> array[float]:
        """Return the coordinate of each corner along ``x``, ``y`` or ``z``."""
        return {"x": self.xs, "y": self.ys, "z": self.zs}[axis]


class Corners(dict[bytes, int]):
    """Numbers corners by the bytes of their coordinates: each new place gets the next number."""

    __slots__ = ("facets",)

    def __init__(self, facets: Facets) -> None:
        super().__init__()
        self.facets = facets

    def at(self, x: float, y: float, z: float) -> int:
        """Return the number of the corner at that place; raises NotAMesh where a coordinate is not finite, or absurdly far out.

        >>> corners = Corners(Facets())
        >>> corners.at(1.0, 0.0, 2.0), corners.at(3.0, 0.0, 2.0), corners.at(1.0, -0.0, 2.0)
        (0, 1, 0)
        """
        return self[_THREE.pack(x + 0.0, y + 0.0, z + 0.0)]

    def _place(self, key: bytes) -> tuple[float, float, float]:
        x, y, z = _THREE.unpack(key)
        return x, y, z

    def __missing__(self, key: bytes) -> int:
        x, y, z = self._place(key)
        facets = self.facets
        if not (abs(x) <= FURTHEST and abs(y) <= FURTHEST and abs(z) <= FURTHEST):
            raise NotAMesh(
                f"a corner is at {x:g}, {y:g}, {z:g}; coordinates must be finite and at most {FURTHEST:.0f}. {SAVE_AGAIN}"
            )
        number = len(facets.xs)
        if not number:
            facets.origin = (x, y, z)
        facets.xs.append(x - facets.origin[0])
        facets.ys.append(y - facets.origin[1])
        facets.zs.append(z - facets.origin[2])
        self[key] = number
        return number


class ShortCorners(Corners):
    """The same by the twelve bytes of three short floats, as a binary STL has them; 0 and -0 are one place."""

    __slots__ = ()

    def _place(self, key: bytes) -> tuple[float, float, float]:
        x, y, z = _THREE_SHORT.unpack(key)
        return x, y, z

    def __missing__(self, key: bytes) -> int:
        x, y, z = _THREE_SHORT.unpack(key)
        if not (x and y and z) and x == x and y == y and z == z:
            plain = _THREE_SHORT.pack(x + 0.0, y + 0.0, z + 0.0)
            if plain != key:
                self[key] = number = self[plain]
                return number
        return super().__missing__(key)


class SpelledCorners(Corners):
    """The same by three numbers as text; one place may be written in several ways."""

    __slots__ = ("places",)

    def __init__(self, facets: Facets) -> None:
        super().__init__(facets)
        self.places = Corners(facets)

    def __missing__(self, key: bytes) -> int:
        try:
            x, y, z = (float(part) for part in key.split())
        except ValueError:
            given = key[:60].decode("utf-8", "replace")
            raise NotAMesh(f"“{given}” should be three numbers. {SAVE_AGAIN}") from None
        self[key] = number = self.places.at(x, y, z)
        return number
