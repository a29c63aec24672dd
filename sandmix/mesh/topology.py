"""The topology of a shape: is it closed, what are its shells and holes; and repair of what can be repaired without guessing.

Each facet passes along three edges. On a closed shape every edge is passed as often one way as the other. This is checked without storing the
edges: each corner gets a large number r of its own, and (ra - rb)(rb - rc)(rc - ra) summed over the facets is a sum over the edges of a term that
changes its sign with the direction. So it is 0 where all edges are paired; otherwise the chance that it is 0 is below 1 in 10^17.
Source: schwartz_zippel.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass, replace

from sandmix.mesh.facets import Facets, NotAMesh

_STEP, _SHIFT, _MASK = 6364136223846793005, 1442695040888963407, (1 << 64) - 1
_EDGES_AT_ONCE = 600_000
MOST_TO_TURN = 400_000
OPEN_ALWAYS_ALLOWED = 300_000
"""A shape with more open edges than this, and more than a tenth of all its edges, is not repaired or measured."""
JOINED_AT = (1e-7, 1e-6, 1e-5, 1e-4)
MOST_TO_JOIN = 300_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole: how many open edges surround it, and two opposite corners of its box."""

    edges: int
    low: tuple[float, float, float]
    high: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Topology:
    """Whether a shape is closed, the shell of each corner (named by its first corner), and where it is open.

    ``joined`` is the distance within which corners were joined, ``turned`` how many facets were turned over. ``twisted`` counts edges that two
    facets pass the same way, ``crowded`` edges of more than two facets that don't pair.
    """

    facets: Facets
    closed: bool
    shell_of: array[int]
    holes: tuple[Hole, ...] = ()
    twisted: int = 0
    crowded: int = 0
    joined: float = 0.0
    turned: int = 0


def topology_of(facets: Facets) -> Topology:
    """Return the topology of *facets*, repaired where that needs no guessing: close corners joined, facets turned like their neighbours."""
    found = _examined(facets)
    if found.closed:
        return found
    size = max(facets.box)
    open_edges = _unpaired(facets)
    for share in JOINED_AT:
        ends = {corner for edge, count in open_edges.items() if count % 2 for corner in _ends(edge)}
        if not 0 < len(ends) <= MOST_TO_JOIN:
            break
        moved = _joined(facets, sorted(ends), share * size)
        if moved is None:
            continue
        examined = _examined(moved)
        if examined.closed:
            return replace(examined, joined=share * size)
        after = _unpaired(moved)
        if not any(count % 2 for count in after.values()) and (turned := _turned(moved)):
            return replace(turned, joined=share * size)
    if not any(count % 2 for count in open_edges.values()) and (turned := _turned(facets)):
        return turned
    return _with_holes(found, open_edges)


def pseudo_random(count: int) -> array[int]:
    """Return *count* large pseudo-random numbers, always the same ones.

    >>> len(set(pseudo_random(1000)))
    1000
    """
    state, made = 88172645463325252, array("q")
    for _ in range(count):
        state = (state * _STEP + _SHIFT) & _MASK
        made.append((state ^ state >> 33) * 0xFF51AFD7ED558CCD >> 5 & 0x0FFFFFFFFFFFFFFF)
    return made


def _examined(facets: Facets) -> Topology:
    """The shells, and whether every edge is paired."""
    count = len(facets.xs)
    large, parent = pseudo_random(count), array("I", range(count))
    total = 0
    for a, b, c in facets.triples():
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
    return Topology(facets=facets, closed=total == 0, shell_of=parent)


def _unite(parent: array[int], a: int, b: int, c: int) -> None:
    """Put the three corners into one shell: the parent of every corner is a smaller number, or itself."""
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
    """The edges that are not passed as often one way as the other, and the difference.

    This is done in several parts, so that only a part of the edges is in memory at a time.
    """
    parts = 1 + len(facets.corners) // _EDGES_AT_ONCE
    found: dict[int, int] = {}
    allowed = max(OPEN_ALWAYS_ALLOWED, len(facets.corners) // 10)
    for part in range(parts):
        balance: dict[int, int] = {}
        for a, b, c in facets.triples():
            for one, other in ((a, b), (b, c), (c, a)):
                if (one + other) % parts == part and one != other:
                    key, step = (one << 32 | other, 1) if one < other else (other << 32 | one, -1)
                    now = balance.get(key, 0) + step
                    if now:
                        balance[key] = now
                    else:
                        del balance[key]
        found |= balance
        if len(found) > allowed:
            raise NotAMesh(
                f"it has more than {allowed} open edges, so it is a cloud of loose facets and no body. Save the shape again as one solid."
            )
    return found


def _ends(edge: int) -> tuple[int, int]:
    return edge >> 32, edge & 0xFFFFFFFF


def _joined(facets: Facets, ends: list[int], reach: float) -> Facets | None:
    """The same with corners among *ends* joined that lie within *reach* of each other; None where there are none."""
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


def _turned(facets: Facets) -> Topology | None:
    """The same with facets turned so that neighbours agree; None where it is too large, an edge has more than two facets, or it is one-sided."""
    count = len(facets)
    if count > MOST_TO_TURN:
        return None
    parent, opposite = array("I", range(count)), bytearray(count)
    first: dict[int, tuple[int, int]] = {}
    done = set[int]()
    for facet, (a, b, c) in enumerate(facets.triples()):
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
            if not _agree(parent, opposite, facet, neighbour, way == its_way):
                return None
    flips = bytearray(_root(parent, opposite, facet)[1] for facet in range(count))
    votes: dict[int, list[int]] = {}
    for facet in range(count):
        vote = votes.setdefault(_root(parent, opposite, facet)[0], [0, 0])
        vote[flips[facet]] += 1
    corners, turned = array("I"), 0
    for facet, (a, b, c) in enumerate(facets.triples()):
        kept, flipped = votes[_root(parent, opposite, facet)[0]]
        if flips[facet] != (flipped > kept):
            turned += 1
            corners.extend((a, c, b))
        else:
            corners.extend((a, b, c))
    examined = _examined(replace(facets, corners=corners))
    return replace(examined, turned=turned) if examined.closed else None


def _root(parent: array[int], opposite: bytearray, facet: int) -> tuple[int, int]:
    """The facet that represents all that are connected to this one, and whether this one faces the other way."""
    path = []
    while parent[facet] != facet:
        path.append(facet)
        facet = parent[facet]
    odd = 0
    for step in reversed(path):
        odd ^= opposite[step]
        parent[step], opposite[step] = facet, odd
    return facet, odd


def _agree(parent: array[int], opposite: bytearray, one: int, other: int, differ: bool) -> bool:
    """Note whether two neighbours face different ways; False where that contradicts what is known."""
    (root, odd), (its_root, its_odd) = _root(parent, opposite, one), _root(parent, opposite, other)
    if root == its_root:
        return odd ^ its_odd == differ
    parent[root], opposite[root] = its_root, odd ^ its_odd ^ differ
    return True


def _with_holes(found: Topology, open_edges: dict[int, int]) -> Topology:
    """The same with its holes: each is a set of connected open edges."""
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
