"""Shapes for tests: facets as triples of points, and the files that hold them."""

from __future__ import annotations

import io
import itertools
import math
import struct
import zipfile

_CUBE = [(x, y, z) for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)]
_CUBE_FACETS = [
    (0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1), (2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3),
]  # fmt: skip

Triangles = list[tuple[tuple[float, float, float], ...]]


def cube(size: float = 10.0, at: tuple[float, float, float] = (0.0, 0.0, 0.0), inward: bool = False) -> Triangles:
    """The twelve facets of a cube."""
    places = [tuple(start + size * side for start, side in zip(at, place, strict=True)) for place in _CUBE]
    return [tuple(places[corner] for corner in (facet[::-1] if inward else facet)) for facet in _CUBE_FACETS]


def ring(turns: int = 9, outer: float = 8.0, inner: float = 3.0) -> Triangles:
    """A ring with a round section of few sides."""

    def at(i: int, j: int) -> tuple[float, float, float]:
        a, b = 2 * math.pi * (i % turns) / turns, 2 * math.pi * (j % 5) / 5
        r = outer + inner * math.cos(b)
        return r * math.cos(a), r * math.sin(a), inner * math.sin(b)

    found: Triangles = []
    for i in range(turns):
        for j in range(5):
            found += [(at(i, j), at(i + 1, j), at(i + 1, j + 1)), (at(i, j), at(i + 1, j + 1), at(i, j + 1))]
    return found


def binary(triangles: Triangles, header: bytes = b"") -> bytes:
    """A binary STL."""
    body = b"".join(struct.pack("<12x9f2x", *(value for corner in facet for value in corner)) for facet in triangles)
    return header.ljust(80, b" ")[:80] + struct.pack("<I", len(triangles)) + body


def text(triangles: Triangles) -> bytes:
    """A text STL."""
    lines = ["solid thing"]
    for facet in triangles:
        lines += ["facet normal 0 0 0", "outer loop", *(f"vertex {x:.6g} {y:.6g} {z:.6g}" for x, y, z in facet)]
        lines += ["endloop", "endfacet"]
    return "\n".join([*lines, "endsolid thing", ""]).encode()


def model(
    triangles: Triangles,
    unit: str = "millimeter",
    resources: str = "",
    build: str = '<item objectid="1"/>',
    head: str = "",
) -> bytes:
    """The XML of a 3MF with the object 1, after *head* and next to *resources*."""
    corners = list(dict.fromkeys(corner for facet in triangles for corner in facet))
    number = {corner: at for at, corner in enumerate(corners)}
    vertices = "".join(f'<vertex x="{x!r}" y="{y!r}" z="{z!r}"/>' for x, y, z in corners)
    facets = "".join(f'<triangle v1="{number[a]}" v2="{number[b]}" v3="{number[c]}"/>' for a, b, c in triangles)
    return (
        f'<?xml version="1.0"?>{head}<model unit="{unit}" '
        'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
        f'<object id="1" type="model"><mesh><vertices>{vertices}</vertices><triangles>{facets}</triangles></mesh></object>'
        f"{resources}</resources><build>{build}</build></model>"
    ).encode()


def package(
    content: bytes,
    method: int = zipfile.ZIP_DEFLATED,
    name: str = "3D/3dmodel.model",
    others: dict[str, bytes] | None = None,
) -> bytes:
    """A 3MF package around a model; *others* are more files by name."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", method) as archive:
        for other, inside in (others or {}).items():
            archive.writestr(other, inside)
        archive.writestr(name, content)
    return held.getvalue()


def damaged_package(at: int, piece: bytes, of: bytes = b"PK\x01\x02") -> bytes:
    """A 3MF package of a cube with *piece* written over its bytes, *at* after the last record that begins with *of*."""
    data = bytearray(package(model(cube())))
    start = data.rfind(of) + at
    data[start : start + len(piece)] = piece
    return bytes(data)


def moved(triangles: Triangles, by: tuple[float, float, float]) -> Triangles:
    """The same shape, moved."""
    return [
        tuple(tuple(value + step for value, step in zip(place, by, strict=True)) for place in facet)
        for facet in triangles
    ]


def inward(triangles: Triangles) -> Triangles:
    """The same shape with its facets reversed."""
    return [facet[::-1] for facet in triangles]


def ball(rings: int = 8, radius: float = 1.0) -> Triangles:
    """A ball of rings of latitude."""
    around = 2 * rings

    def at(ring: int, place: int) -> tuple[float, float, float]:
        tilt, turn = math.pi * ring / rings, 2 * math.pi * (place % around) / around
        flat = 0.0 if ring in (0, rings) else radius * math.sin(tilt)
        return flat * math.cos(turn), flat * math.sin(turn), radius * math.cos(tilt)

    found: Triangles = []
    for ring_at in range(rings):
        for place in range(around):
            a, b, c, d = at(ring_at, place), at(ring_at, place + 1), at(ring_at + 1, place), at(ring_at + 1, place + 1)
            found += [(a, c, b)] if ring_at else []
            found += [(b, c, d)] if ring_at < rings - 1 else []
    return found


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Triangles:
    """The twelve facets of a box."""
    sides = (x, y, z)
    return moved(
        [tuple(tuple(s * v for s, v in zip(sides, place, strict=True)) for place in facet) for facet in cube(1.0)], at
    )


def lathe(profile: list[tuple[float, float]], around: int = 48) -> Triangles:
    """A profile of (radius, height) rotated about z, from the bottom on the outside to the top; closed if it ends where it began."""

    def at(point: tuple[float, float], turn: int) -> tuple[float, float, float]:
        a = 2 * math.pi * (turn % around) / around
        return point[0] * math.cos(a), point[0] * math.sin(a), point[1]

    found: Triangles = []
    for first, last in itertools.pairwise(profile):
        for turn in range(around):
            a, b, c, d = at(first, turn), at(first, turn + 1), at(last, turn + 1), at(last, turn)
            found += [(a, b, c)] if first[0] else []
            found += [(a, c, d)] if last[0] else []
    return found


def torus(big: float, small: float, around: int = 64) -> Triangles:
    """A ring of round section, lying flat."""
    turns = [2 * math.pi * (at % around) / around for at in range(around + 1)]
    return lathe([(big + small * math.cos(a), small * math.sin(a)) for a in turns], around)


def extruded(polygon: list[tuple[float, float]], caps: list[tuple[int, int, int]], length: float) -> Triangles:
    """A bar along x whose section in y and z is *polygon*, anticlockwise, with the triangles *caps*."""
    near, far = ([(x, y, z) for y, z in polygon] for x in (0.0, length))
    found: Triangles = [(near[c], near[b], near[a]) for a, b, c in caps] + [
        (far[a], far[b], far[c]) for a, b, c in caps
    ]
    for at in range(len(polygon)):
        on = (at + 1) % len(polygon)
        found += [(near[at], near[on], far[on]), (near[at], far[on], far[at])]
    return found


T_SECTION = [(0.0, 0.0), (40.0, 0.0), (40.0, 10.0), (25.0, 10.0), (25.0, 40.0), (15.0, 40.0), (15.0, 10.0), (0.0, 10.0)]
T_CAPS = [(0, 1, 2), (0, 2, 3), (0, 3, 6), (0, 6, 7), (3, 4, 5), (3, 5, 6)]


def t_bar(length: float = 100.0) -> Triangles:
    """An upside-down T: a flange 40 wide and 10 high with a rib 10 wide and 30 high on it."""
    return extruded(T_SECTION, T_CAPS, length)


def shifted(triangles: Triangles, times: int = 1) -> Triangles:
    """The same shape with its axes exchanged: z becomes x, x becomes y, y becomes z."""
    for _ in range(times % 3):
        triangles = [tuple((z, x, y) for x, y, z in facet) for facet in triangles]
    return triangles


def headlong(triangles: Triangles) -> Triangles:
    """The same shape upside down, rotated about x."""
    return [tuple((x, -y, -z) for x, y, z in facet) for facet in triangles]


def _turns(o: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def caps_of(polygon: list[tuple[float, float]]) -> list[tuple[int, int, int]]:
    """Triangles that fill a polygon, anticlockwise: ears are cut off until three corners are left."""
    left, caps = list(range(len(polygon))), []
    while len(left) > 3:
        for at in range(len(left)):
            ear = left[at - 1], left[at], left[(at + 1) % len(left)]
            one, two, three = (polygon[corner] for corner in ear)
            others = [polygon[corner] for corner in left if corner not in ear]
            covers = any(
                all(_turns(p, q, other) >= 0 for p, q in ((one, two), (two, three), (three, one))) for other in others
            )
            if _turns(one, two, three) > 0 and not covers:
                caps.append(ear)
                del left[at]
                break
        else:
            raise ValueError("this polygon has no ear")
    return [*caps, (left[0], left[1], left[2])]


def bar(polygon: list[tuple[float, float]], length: float) -> Triangles:
    """A bar along x of any section, anticlockwise."""
    return extruded(polygon, caps_of(polygon), length)


def l_section(t: float, leg: float) -> list[tuple[float, float]]:
    """Two walls of *t*, joined at a sharp corner."""
    return [(0.0, 0.0), (leg, 0.0), (leg, t), (t, t), (t, leg), (0.0, leg)]


def plus_section(t: float, leg: float) -> list[tuple[float, float]]:
    """Two walls of *t* that cross."""
    h = t / 2
    quarter = [(h, -h), (leg, -h), (leg, h)]
    return [turn(place) for turn in _QUARTERS for place in quarter]


_QUARTERS = (lambda p: p, lambda p: (-p[1], p[0]), lambda p: (-p[0], -p[1]), lambda p: (p[1], -p[0]))


def y_section(t: float, leg: float) -> list[tuple[float, float]]:
    """Three walls of *t* at 120 degrees."""
    h, found = t / 2, []
    for turn in range(3):
        c, s = math.cos(2 * math.pi * turn / 3), math.sin(2 * math.pi * turn / 3)
        found += [(c * x - s * y, s * x + c * y) for x, y in ((h / math.sqrt(3), -h), (leg, -h), (leg, h))]
    return found


def ribbed_section(t: float, b: float, places: tuple[float, ...], high: float = 40.0) -> list[tuple[float, float]]:
    """A plate of *t*, 120 wide, with ribs of width *b* at *places*."""
    found = [(0.0, 0.0), (120.0, 0.0), (120.0, t)]
    for middle in sorted(places, reverse=True):
        right, left = middle + b / 2, middle - b / 2
        found += [(right, t), (right, high), (left, high), (left, t)]
    return [*found, (0.0, t)]


def dumbbell() -> Triangles:
    """Two round blocks of 40 × 40 and 28 × 30 mm on a rod of 12 mm, 150 mm long."""
    return lathe([(0, 0), (20, 0), (20, 40), (6, 40), (6, 120), (14, 120), (14, 150), (0, 150)], 64)
