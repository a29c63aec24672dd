"""Which shell counts how, from crossings that are written down."""

import pytest

from sandmix.mesh import shells
from sandmix.mesh.rays import Rays
from sandmix.mesh.shells import classified


def rays_of(*written):
    return Rays(across=len(written), cell=1.0, step=1.0, bottom=0.0, crossings=list(written))


def within(outer, inner, gap=5, faces=1):
    """One ray through a shell inside another; one that faces inwards is left where it is entered."""
    return [(0, 1, outer), (gap, faces, inner), (20, 1 - faces, inner), (20 + gap, 0, outer)]


def test_a_single_shell_needs_no_rays():
    assert (classified(rays_of(), {4: 10.0}).sign, classified(rays_of(), {4: 10.0}).flipped) == ({4: 1}, 0)
    assert (classified(rays_of(), {4: -10.0}).sign, classified(rays_of(), {4: -10.0}).flipped) == ({4: -1}, 1)


def test_a_shell_that_faces_inwards_inside_another_is_a_hollow():
    found = classified(rays_of(within(0, 8, faces=0)), {0: 1000.0, 8: -64.0})
    assert (found.sign, found.hollows, found.flipped, found.seen) == ({0: 1, 8: 1}, 1, 0, {0, 8})


def test_a_family_that_is_inside_out_is_turned_and_another_one_not():
    """Shell 0 faces inwards, with 8 in it that faces outwards: both are turned. Shell 16 stands apart."""
    inside_out = [(0, 0, 0), (5, 1, 8), (20, 0, 8), (25, 1, 0)]
    found = classified(rays_of(inside_out, [(0, 1, 16), (9, 0, 16)]), {0: -1000.0, 8: 64.0, 16: 9.0})
    assert (found.sign, found.hollows, found.flipped) == ({0: -1, 8: -1, 16: 1}, 1, 2)


def test_a_core_in_a_hollow_counts_and_a_second_hollow_does_not_change_it():
    deep = [(0, 1, 0), (5, 0, 8), (9, 1, 16), (12, 0, 16), (20, 1, 8), (25, 0, 0)]
    found = classified(rays_of(deep), {0: 1000.0, 8: -64.0, 16: 8.0})
    assert (found.sign, found.hollows) == ({0: 1, 8: 1, 16: 1}, 1)


def test_a_shell_inside_another_that_faces_the_same_way_is_not_decided():
    assert "faces the same way" in classified(rays_of(within(0, 8)), {0: 1000.0, 8: 64.0}).why


@pytest.mark.parametrize(("gap", "is_same"), [(0, True), (2, True), (3, False)])
def test_surfaces_within_two_steps_touch(gap, is_same):
    """Two shells that touch everywhere are the same body twice; three steps apart, one lies inside the other."""
    found = classified(rays_of(within(0, 8, gap=gap)), {0: 1000.0, 8: 990.0})
    assert (not found.why) == is_same
    if is_same:
        assert (found.sign, found.flipped) == ({0: 1, 8: 1}, 0)


def test_shells_that_cut_into_each_other_count_if_they_face_the_same_way():
    cut = rays_of([(0, 1, 0), (5, 1, 8), (10, 0, 0), (15, 0, 8)])
    assert classified(cut, {0: 9.0, 8: 9.0}).sign == {0: 1, 8: 1}
    inwards = classified(rays_of([(0, 0, 0), (5, 0, 8), (10, 1, 0), (15, 1, 8)]), {0: -9.0, 8: -9.0})
    assert (inwards.sign, inwards.flipped) == ({0: -1, 8: -1}, 2)
    opposed = classified(rays_of([(0, 1, 0), (5, 0, 8), (10, 0, 0), (15, 1, 8)]), {0: 9.0, 8: -9.0})
    assert "cut into each other" in opposed.why


def test_one_ray_is_enough_to_show_that_a_shell_is_not_inside_another():
    """Inside it on one ray and beside it on the next: they cut into each other."""
    found = classified(rays_of(within(0, 8), [(0, 1, 8), (5, 0, 8)]), {0: 9.0, 8: 9.0})
    assert found.sign == {0: 1, 8: 1}


def test_a_shell_that_no_ray_meets_keeps_the_way_it_faces():
    found = classified(rays_of([(0, 1, 0), (9, 0, 0)]), {0: 9.0, 8: -0.1})
    assert (found.sign, found.seen) == ({0: 1, 8: -1}, {0})


@pytest.mark.parametrize(("most", "is_given_up"), [(3, False), (2, True)])
def test_more_shells_inside_each_other_than_allowed_are_given_up(monkeypatch, most, is_given_up):
    monkeypatch.setattr(shells, "MOST_NESTED", most)
    deep = [(0, 1, 0), (5, 0, 8), (9, 1, 16), (12, 0, 16), (20, 1, 8), (25, 0, 0)]
    found = classified(rays_of(deep), {0: 1000.0, 8: -64.0, 16: 8.0})
    assert ("too many" in found.why) == is_given_up
