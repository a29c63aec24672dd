"""Whether a shape is closed, of how many shells it is, where its holes are; and mending what can be mended without guessing.

Each facet runs around three edges. On a closed shape every edge is run along as often one way as the other. That is told without keeping an
edge: each corner gets a large number r of its own, and (ra - rb)(rb - rc)(rc - ra) summed over the facets is a sum over edges of something that
changes its sign with the direction, so it is 0 where all are paired. Otherwise it is not, but for a chance below 1 in 10^17.
Source: schwartz_zippel.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from dataclasses import dataclass, replace

from sandmix.mesh.facets import Facets

_STEP, _SHIFT, _MASK = 6364136223846793005, 1442695040888963407, (1 << 64) - 1
_EDGES_AT_ONCE = 600_000
MOST_TO_TURN = 400_000
JOINED_AT = (1e-7, 1e-6, 1e-5, 1e-4)
MOST_TO_JOIN = 300_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole: how many open edges run around it, and the two ends of its box."""

    edges: int
    low: tuple[float, float, float]
    high: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seams:
    """What was found: whether it is closed, the shell of each corner (its first corner), and where it is open.

    ``joined`` is how far apart corners lay that were taken as one, ``turned`` how many facets were turned over.
    ``twisted`` counts edges that two facets run along the same way, ``crowded`` those where more than two facets meet and don't pair.
    """

    facets: Facets
    closed: bool
    shell_of: array[int]
    holes: tuple[Hole, ...] = ()
    twisted: int = 0
    crowded: int = 0
    joined: float = 0.0
    turned: int = 0


def look(facets: Facets) -> Seams:
    """Return the seams of *facets*, mended where that needs no guessing: corners a hair apart joined, facets turned to their neighbours."""
    found = _looked(facets)
    if found.closed:
        return found
    reach = max(max(values) - min(values) for values in (facets.xs, facets.ys, facets.zs))
    open_edges = _unpaired(facets)
    for share in JOINED_AT:
        ends = {corner for edge, count in open_edges.items() if count % 2 for corner in _ends(edge)}
        if not 0 < len(ends) <= MOST_TO_JOIN:
            break
        moved = _joined(facets, sorted(ends), share * reach)
        if moved is None:
            continue
        looked = _looked(moved)
        if looked.closed:
            return replace(looked, joined=share * reach)
        after = _unpaired(moved)
        if not any(count % 2 for count in after.values()) and (turned := _turned(moved)):
            return replace(turned, joined=share * reach)
    if not any(count % 2 for count in open_edges.values()) and (turned := _turned(facets)):
        return turned
    return _opened(found, open_edges)


def numbers(count: int) -> array[int]:
    """Return *count* large numbers without any order that a shape could have, always the same.

    >>> len(set(numbers(1000)))
    1000
    """
    state, made = 88172645463325252, array("q")
    for _ in range(count):
        state = (state * _STEP + _SHIFT) & _MASK
        made.append((state ^ state >> 33) * 0xFF51AFD7ED558CCD >> 5 & 0x0FFFFFFFFFFFFFFF)
    return made


def thirds(corners: array[int]) -> Iterator[tuple[int, int, int]]:
    """Yield the three corners of each facet."""
    one = iter(corners)
    return zip(one, one, one, strict=True)


def _looked(facets: Facets) -> Seams:
    count = len(facets.xs)
    large, parent = numbers(count), array("I", range(count))
    total = 0
    for a, b, c in thirds(facets.corners):
        ra = large[a]
        rb = large[b]
        rc = large[c]
        total += (ra - rb) * (rb - rc) * (rc - ra)
        pa = parent[a]
        pb = parent[b]
        if pa != pb or pb != parent[c]:
            _unite(parent, a, b, c)
    for corner in range(count):
        parent[corner] = parent[parent[corner]]
    return Seams(facets=facets, closed=total == 0, shell_of=parent)


def _unite(parent: array[int], a: int, b: int, c: int) -> None:
    """Make the three of one shell: every corner's parent is a smaller number, or itself."""
    roots = []
    for corner in (a, b, c):
        root = corner
        while parent[root] != root:
            root = parent[root]
        roots.append(root)
    least = min(roots)
    for corner, root in zip((a, b, c), roots, strict=True):
        parent[root] = least
        while parent[corner] != least:
            parent[corner], corner = least, parent[corner]


def _unpaired(facets: Facets) -> dict[int, int]:
    """The edges that are not run along as often one way as the other, and by how much.

    Looked through in parts, so that no more than a part of them is kept at a time.
    """
    parts = 1 + len(facets.corners) // _EDGES_AT_ONCE
    found: dict[int, int] = {}
    for part in range(parts):
        balance: dict[int, int] = {}
        for a, b, c in thirds(facets.corners):
            for one, other in ((a, b), (b, c), (c, a)):
                if (one + other) % parts == part and one != other:
                    key, step = (one << 32 | other, 1) if one < other else (other << 32 | one, -1)
                    now = balance.get(key, 0) + step
                    if now:
                        balance[key] = now
                    else:
                        del balance[key]
        found |= balance
    return found


def _ends(edge: int) -> tuple[int, int]:
    return edge >> 32, edge & 0xFFFFFFFF


def _joined(facets: Facets, ends: list[int], reach: float) -> Facets | None:
    """The same with corners among *ends* that lie within *reach* of each other made one; None where there are none."""
    xs, ys, zs = facets.xs, facets.ys, facets.zs
    cell = 2 * reach
    if not cell > 0:
        return None
    held: dict[tuple[int, int, int], list[int]] = {}
    became: dict[int, int] = {}
    for corner in ends:
        x, y, z = xs[corner], ys[corner], zs[corner]
        here = [(int(value // cell), 1 if value % cell >= reach else -1) for value in (x, y, z)]
        near = [
            (i, j, k)
            for i in (here[0][0], here[0][0] + here[0][1])
            for j in (here[1][0], here[1][0] + here[1][1])
            for k in (here[2][0], here[2][0] + here[2][1])
        ]
        for other in (other for place in near for other in held.get(place, ())):
            if abs(xs[other] - x) <= reach and abs(ys[other] - y) <= reach and abs(zs[other] - z) <= reach:
                became[corner] = other
                break
        else:
            held.setdefault(near[0], []).append(corner)
    if not became:
        return None
    corners = array("I", (became.get(corner, corner) for corner in facets.corners))
    return replace(facets, corners=corners)


def _turned(facets: Facets) -> Seams | None:
    """The same with facets turned so that neighbours agree; None where it is too large, more than two meet, or it is one-sided."""
    count = len(facets)
    if count > MOST_TO_TURN:
        return None
    parent, unlike = array("I", range(count)), bytearray(count)
    first: dict[int, tuple[int, int]] = {}
    done = set[int]()
    for facet, (a, b, c) in enumerate(thirds(facets.corners)):
        if a == b or b == c or c == a:
            continue
        for one, other in ((a, b), (b, c), (c, a)):
            way = one < other
            key = one << 32 | other if way else other << 32 | one
            if key in done:
                return None
            if key not in first:
                first[key] = (facet, way)
                continue
            done.add(key)
            neighbour, its_way = first.pop(key)
            if not _agree(parent, unlike, facet, neighbour, way == its_way):
                return None
    flips = bytearray(_root(parent, unlike, facet)[1] for facet in range(count))
    votes: dict[int, list[int]] = {}
    for facet in range(count):
        vote = votes.setdefault(_root(parent, unlike, facet)[0], [0, 0])
        vote[flips[facet]] += 1
    corners, turned = array("I"), 0
    for facet, (a, b, c) in enumerate(thirds(facets.corners)):
        kept, flipped = votes[_root(parent, unlike, facet)[0]]
        if flips[facet] != (flipped > kept):
            turned += 1
            corners.extend((a, c, b))
        else:
            corners.extend((a, b, c))
    looked = _looked(replace(facets, corners=corners))
    return replace(looked, turned=turned) if looked.closed else None


def _root(parent: array[int], unlike: bytearray, facet: int) -> tuple[int, int]:
    """The facet that stands for all that hang together with this one, and whether this one faces unlike it."""
    path = []
    while parent[facet] != facet:
        path.append(facet)
        facet = parent[facet]
    odd = 0
    for step in reversed(path):
        odd ^= unlike[step]
        parent[step], unlike[step] = facet, odd
    return facet, odd


def _agree(parent: array[int], unlike: bytearray, one: int, other: int, differ: bool) -> bool:
    """Note that two neighbours face alike or not; False where that contradicts what is known."""
    (root, odd), (its_root, its_odd) = _root(parent, unlike, one), _root(parent, unlike, other)
    if root == its_root:
        return odd ^ its_odd == differ
    parent[root], unlike[root] = its_root, odd ^ its_odd ^ differ
    return True


def _opened(found: Seams, open_edges: dict[int, int]) -> Seams:
    """The same with its holes: open edges that hang together."""
    facets = found.facets
    above: dict[int, int] = {}

    def root(corner: int) -> int:
        while above.setdefault(corner, corner) != corner:
            above[corner] = above[above[corner]]
            corner = above[corner]
        return corner

    borders = [_ends(edge) for edge, count in open_edges.items() if count % 2]
    for one, other in borders:
        above[root(one)] = root(other)
    around: dict[int, list[tuple[int, int]]] = {}
    for border in borders:
        around.setdefault(root(border[0]), []).append(border)
    holes = [_hole(facets, edges) for edges in around.values()]
    return replace(
        found,
        holes=tuple(sorted(holes, key=lambda hole: (-hole.edges, hole.low))),
        twisted=sum(1 for count in open_edges.values() if abs(count) == 2),
        crowded=sum(1 for count in open_edges.values() if abs(count) > 2),
    )


def _hole(facets: Facets, edges: list[tuple[int, int]]) -> Hole:
    corners = {corner for edge in edges for corner in edge}
    sides = [
        [values[corner] + start for corner in corners]
        for values, start in zip((facets.xs, facets.ys, facets.zs), facets.origin, strict=True)
    ]
    low = (min(sides[0]), min(sides[1]), min(sides[2]))
    return Hole(edges=len(edges), low=low, high=(max(sides[0]), max(sides[1]), max(sides[2])))
