"""Closed or open, shells, holes and repairs, on shapes so small that every edge can be counted by hand."""

import random
from array import array
from itertools import combinations, product

import pytest
from shapes import ball, cube, inward, moved

from sandmix.mesh import topology
from sandmix.mesh.facets import Corners, Facets, NotAMesh
from sandmix.mesh.topology import JOINED_AT, topology_of


def facets_of(triangles):
    """The facets at full precision, as no file has rounded them."""
    facets = Facets()
    corners = Corners(facets)
    for facet in triangles:
        facets.corners.extend(corners.at(*place) for place in facet)
    return facets


def numbered(*triples, count=None):
    """Facets by their corner numbers alone, all corners at different places."""
    corners = array("I", (corner for triple in triples for corner in triple))
    count = 1 + max(corners) if count is None else count
    places = array("d", (float(at * at) for at in range(count)))
    return Facets(xs=places, ys=array("d", range(count)), zs=places, corners=corners)


def edge(one, other):
    return one << 32 | other


def test_the_edges_of_one_facet_are_all_open():
    """0 → 1 → 2 → 0: twice from the smaller number to the larger, once back."""
    assert topology._unpaired(numbered((0, 1, 2))) == {edge(0, 1): 1, edge(1, 2): 1, edge(0, 2): -1}
    assert topology._ends(edge(70_000, 3_000_000_000)) == (70_000, 3_000_000_000)


def test_an_edge_that_two_facets_pass_both_ways_is_paired():
    found = topology._unpaired(numbered((0, 1, 2), (1, 0, 3)))
    assert found == {edge(1, 2): 1, edge(0, 2): -1, edge(0, 3): 1, edge(1, 3): -1}
    assert topology._unpaired(numbered((0, 1, 2), (0, 1, 3)))[edge(0, 1)] == 2
    assert topology._unpaired(numbered((0, 0, 1))) == {}, "a needle passes its edge both ways"


@pytest.mark.parametrize("at_once", [1, 2, 3, 7])
def test_the_edges_are_the_same_in_any_number_of_parts(monkeypatch, at_once):
    shape = facets_of(ball()[7:40])
    whole = topology._unpaired(shape)
    monkeypatch.setattr(topology, "_EDGES_AT_ONCE", at_once)
    assert topology._unpaired(shape) == whole


def test_a_cloud_of_loose_facets_is_refused(monkeypatch):
    """One facet has 3 open edges. Ten loose ones have 30, more than a tenth of their 30."""
    monkeypatch.setattr(topology, "OPEN_ALWAYS_ALLOWED", 3)
    assert len(topology._unpaired(numbered((0, 1, 2)))) == 3
    monkeypatch.setattr(topology, "OPEN_ALWAYS_ALLOWED", 2)
    with pytest.raises(NotAMesh, match="more than 2 open edges"):
        topology._unpaired(numbered((0, 1, 2)))
    with pytest.raises(NotAMesh, match="more than 3 open edges"):
        topology._unpaired(numbered(*((at, at + 1, at + 2) for at in range(0, 30, 3))))


def test_a_tenth_of_all_edges_may_be_open(monkeypatch):
    """A ball of 224 facets less some that share no edge: 20 leave 60 open of 612, 21 leave 63 of 609."""
    monkeypatch.setattr(topology, "OPEN_ALWAYS_ALLOWED", 0)
    shape, taken, edges = ball(), [], set()
    for at, facet in enumerate(shape):
        own = {frozenset(pair) for pair in combinations(facet, 2)}
        if not own & edges:
            taken.append(at)
            edges |= own
    for count, is_refused in ((20, False), (21, True)):
        less = facets_of([facet for at, facet in enumerate(shape) if at not in taken[:count]])
        if is_refused:
            with pytest.raises(NotAMesh):
                topology._unpaired(less)
        else:
            assert len(topology._unpaired(less)) == 60


def test_shells_are_the_connected_facets_and_bear_their_first_corner():
    """Against spreading from corner to corner until nothing changes."""
    rng = random.Random(5)
    for count in (3, 8, 20, 60):
        for _ in range(20):
            triples = [tuple(rng.randrange(count) for _ in range(3)) for _ in range(rng.randrange(1, count // 2 + 1))]
            found = topology_of_shells(triples, count)
            expected = list(range(count))
            for _ in range(count):
                for triple in triples:
                    least = min(expected[corner] for corner in triple)
                    for corner in triple:
                        expected[corner] = least
            assert found == expected


def topology_of_shells(triples, count):
    return list(topology._examined(numbered(*triples, count=count)).shell_of)


def test_only_a_shape_whose_edges_all_pair_is_closed():
    for shape in (cube(), inward(cube()), ball(), cube() + moved(cube(), (20.0, 0.0, 0.0))):
        assert topology._examined(facets_of(shape)).closed
    for at in range(12):
        missing, reversed_one = cube(), cube()
        del missing[at]
        reversed_one[at] = reversed_one[at][::-1]
        assert not topology._examined(facets_of(missing)).closed
        assert not topology._examined(facets_of(reversed_one)).closed


def test_a_hole_is_where_the_file_has_it_and_equal_holes_are_listed_from_the_left():
    """A cube from (7, −3, 20) to (17, 7, 30) without its sides at x = 7 and 17."""
    shape = moved(cube(), (7.0, -3.0, 20.0))
    found = topology_of(facets_of(shape[4:]))
    assert [(hole.edges, hole.low, hole.high) for hole in found.holes] == [
        (4, (7, -3, 20), (7, 7, 30)),
        (4, (17, -3, 20), (17, 7, 30)),
    ]


def test_edges_that_two_facets_pass_the_same_way_and_that_more_facets_pass_are_counted():
    """0 → 1 is passed twice, 4 → 5 four times, 8 → 9 once, 12 → 13 three times; all other edges once."""
    triples = [
        (0, 1, 2), (0, 1, 3),
        (4, 5, 6), (4, 5, 7), (4, 5, 20), (4, 5, 21),
        (8, 9, 10),
        (12, 13, 14), (12, 13, 15), (12, 13, 16),
    ]  # fmt: skip
    found = topology_of(numbered(*triples))
    assert (found.twisted, found.crowded) == (1, 2)
    assert sum(hole.edges for hole in found.holes) == 2 * len(triples) + 2, "two of each facet, 8 → 9 and 12 → 13"


@pytest.mark.parametrize("turned", [*combinations(range(12), 1), *combinations(range(12), 2), (0, 1, 2, 3, 4, 5, 6)])
def test_facets_are_turned_like_the_most_of_their_neighbours(turned):
    shape = cube()
    for at in turned:
        shape[at] = shape[at][::-1]
    found = topology_of(facets_of(shape))
    assert (found.closed, found.turned) == (True, min(len(turned), 12 - len(turned)))
    expected = cube() if len(turned) < 6 else inward(cube())
    x0, y0, z0 = found.facets.origin
    xyz = [(x0 + x, y0 + y, z0 + z) for x, y, z in zip(found.facets.xs, found.facets.ys, found.facets.zs, strict=True)]
    for facet, wanted in zip(found.facets.triples(), expected, strict=True):
        places = [xyz[corner] for corner in facet]
        assert wanted in [tuple(places[at:] + places[:at]) for at in range(3)]


def test_facets_of_a_ball_turned_at_random_are_all_turned_back():
    rng = random.Random(3)
    for _ in range(10):
        shape = ball()
        which = [rng.random() < 0.4 for _ in shape]
        mixed = [facet[::-1] if turn else facet for facet, turn in zip(shape, which, strict=True)]
        both = mixed + moved(mixed[::-1], (9.0, 0.0, 0.0))
        found = topology_of(facets_of(both))
        assert (found.closed, found.turned) == (True, 2 * min(sum(which), len(which) - sum(which)))


def test_needles_are_turned_with_no_one():
    shape = cube()
    a, b, _ = shape[0]
    shape[3] = shape[3][::-1]
    for needle in ((a, a, b), (a, b, b), (a, b, a)):
        assert topology_of(facets_of([*shape, needle])).turned == 1


REACH = 0.25


def joined(one, other, reach=REACH):
    """Whether two corners at these places are joined."""
    xs, ys, zs = (array("d", pair) for pair in zip(one, other, strict=True))
    facets = Facets(xs=xs, ys=ys, zs=zs, corners=array("I", (0, 1, 0, 1, 0, 1)))
    found = topology._joined(facets, [0, 1], reach)
    assert found is None or list(found.corners) == [0] * 6
    return found is not None


def test_corners_are_joined_within_reach_wherever_they_lie():
    """In all directions along each axis and aslant, across every border of a grid."""
    for at in range(-12, 13):
        start = tuple(0.087 * at + shift for shift in (0.0, 0.31, -0.17))
        for way in product((-1, 0, 1), repeat=3):
            near, far = (
                tuple(place + share * REACH * step for place, step in zip(start, way, strict=True))
                for share in (0.96, 1.04)
            )
            assert joined(start, near)
            assert joined(start, far) == (way == (0, 0, 0))


def test_a_reach_of_nothing_joins_nothing():
    assert not joined((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), reach=0.0)


def loose(by):
    """A cube of 10 with the corners of one facet moved."""
    shape = cube()
    shape[3] = tuple((x + by, y - by, z + by) for x, y, z in shape[3])
    return facets_of(shape)


@pytest.mark.parametrize("share", JOINED_AT)
def test_loose_corners_are_joined_at_the_shortest_distance_that_closes_the_shape(share):
    for by in (0.15, 0.95):
        found = topology_of(loose(by * share * 10))
        assert (found.closed, found.joined) == (True, pytest.approx(share * 10, rel=1e-3))


def test_corners_further_apart_than_a_ten_thousandth_of_the_size_stay_open():
    assert not topology_of(loose(1.5e-3)).closed


@pytest.mark.parametrize(("most", "closes"), [(6, True), (5, False)])
def test_corners_are_not_joined_where_very_many_are_loose(monkeypatch, most, closes):
    """Three corners of the loose facet, and three of the gap that it leaves."""
    monkeypatch.setattr(topology, "MOST_TO_JOIN", most)
    assert topology_of(loose(1e-5)).closed == closes


@pytest.mark.parametrize(("most", "closes"), [(12, True), (11, False)])
def test_a_shape_of_very_many_facets_is_not_turned(monkeypatch, most, closes):
    monkeypatch.setattr(topology, "MOST_TO_TURN", most)
    shape = cube()
    shape[3] = shape[3][::-1]
    assert topology_of(facets_of(shape)).closed == closes
