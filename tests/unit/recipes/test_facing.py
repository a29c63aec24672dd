"""One cast with two sands by hand, mass conserved on the way, and the long run against cast after cast."""

import random
from dataclasses import replace

import pytest

from sandmix.materials.sand import PARTS, Sand
from sandmix.recipes.facing import Mould, TwoSands, cast, long_run
from sandmix.recipes.mix import BoughtMaterials


def mould(**others):
    usual = {"facing_kg": 3.0, "backing_kg": 20.0, "lost_kg": 0.0, "burnt_facing": 0.0, "burnt_backing": 0.0}
    return Mould(**(usual | {"dried_facing": 0.0, "dried_backing": 0.0} | others))


def two(materials=None, **others):
    usual = {"facing_clay": 0.08, "backing_clay": 0.07, "from_backing": 0.0, "moisture": 0.035, "make_up": True}
    return TwoSands(**(usual | others), materials=materials or BoughtMaterials())


def heap(dry_kg=40.0, clay=0.07, fines=0.0, moisture=0.035):
    masses = {"live_clay_kg": clay * dry_kg, "other_fines_kg": fines * dry_kg}
    return Sand(grain_kg=dry_kg * (1 - clay - fines), **masses).at_moisture(moisture)


def test_a_cast_by_hand():
    """Facing 3 kg: 0.24 kg live of clay at 10 % water (0.2667 kg as bought), 2.76 kg of sand; a quarter of its clay burns: 0.18 live, 0.06 dead.

    A third is thrown away: 2 kg join 40 kg with 0.12 live and 0.04 dead. Without make-up 2 of the 42 kg leave, 40/42 of all stays.
    """
    one = cast(heap(), mould(lost_kg=1.0, burnt_facing=0.25, dried_facing=0.5), two(make_up=False))
    assert one.out.to_facing.clay.wet_kg == pytest.approx(0.24 / 0.9)
    assert one.out.to_facing.sand.wet_kg == pytest.approx(2.76)
    assert one.out.facing.moisture_pct_wet == pytest.approx(3.5)
    assert one.out.joined.live_clay_kg == pytest.approx(0.12)
    assert one.out.joined.dead_clay_kg == pytest.approx(0.04)
    assert one.out.boiled_kg == pytest.approx(0.5 * 3 * 0.035 / 0.965)
    assert one.discarded.dry_kg == pytest.approx(2)
    assert one.backing.live_clay_kg == pytest.approx((2.8 + 0.12) * 40 / 42)
    assert one.backing.dead_clay_kg == pytest.approx(0.04 * 40 / 42)
    assert one.kept == pytest.approx(40 / 42)


def test_clay_for_the_backing_makes_room_for_itself():
    """3 kg with 0.24 − 0.12 live join 40 kg with 2.8: 2.92 in 43. D leaves and p comes: 43 − D + p = 40, (43 − D) 2.92/43 + p = 2.8."""
    one = cast(heap(), mould(burnt_facing=0.5), two(materials=BoughtMaterials(clay_moisture=0)))
    held = 2.92 / 43
    leaves = (2.8 - 43 * held + 3) / (1 - held)
    assert one.discarded.dry_kg == pytest.approx(leaves)
    assert one.to_backing.clay.dry_kg == pytest.approx(leaves - 3)
    assert one.backing.live_clay_kg == pytest.approx(2.8)
    assert one.backing.dry_kg == pytest.approx(40)


def test_a_backing_that_loses_more_than_it_gets_takes_new_sand():
    """Facing of backing alone, of which 2 of 3 kg are thrown away: 38 kg are left, with 38 × 0.07 live; 0.14 live and 1.86 of sand come."""
    one = cast(heap(), mould(lost_kg=2.0), two(facing_clay=0.05, from_backing=1.0))
    assert one.discarded.dry_kg == 0
    assert one.to_backing.clay.dry_kg == pytest.approx(0.14)
    assert one.to_backing.sand.dry_kg == pytest.approx(1.86)


def drawn(rng):
    """A random mould, two random sands and a heap."""
    facing = rng.uniform(0.5, 10)
    flask = rng.uniform(0, 60)
    share = rng.choice([0.0, 0.0, rng.random() * 0.7])
    return (
        mould(
            facing_kg=facing,
            backing_kg=flask,
            lost_kg=rng.choice([0.0, rng.random() * facing]),
            burnt_facing=rng.random(),
            burnt_backing=rng.random() * 0.1,
            dried_facing=rng.random(),
            dried_backing=rng.random() * 0.3,
        ),
        two(
            facing_clay=rng.uniform(0.0, 0.15),
            backing_clay=rng.uniform(0.0, 0.12),
            from_backing=share,
            moisture=rng.uniform(0.0, 0.06),
            make_up=rng.random() < 0.6,
            materials=BoughtMaterials(
                sand_moisture=rng.uniform(0, 0.04),
                clay_moisture=rng.uniform(0, 0.15),
                clay_activity=rng.uniform(0.5, 1),
            ),
        ),
        flask + facing + rng.uniform(0, 200),
    )


def test_every_gram_of_every_part_is_accounted_for():
    """What was there and what came in is what left and what is there, part by part; burnt clay only changes its name."""
    rng = random.Random(14)
    for _ in range(300):
        one_mould, both, dry_kg = drawn(rng)
        before = heap(dry_kg, clay=rng.uniform(0, 0.12), fines=rng.uniform(0, 0.1), moisture=both.moisture)
        one = cast(before, one_mould, both)
        came = before + one.out.to_facing.bought + one.to_backing.bought
        left = one.out.lost + one.discarded + one.backing
        water = one.out.to_facing.water_kg + one.to_backing.water_kg - one.out.boiled_kg
        for part in PARTS:
            if "clay" not in part and part != "water_kg":
                assert getattr(left, part) == pytest.approx(getattr(came, part), abs=1e-9)
        assert left.live_clay_kg + left.dead_clay_kg == pytest.approx(came.live_clay_kg + came.dead_clay_kg, abs=1e-9)
        assert left.water_kg == pytest.approx(came.water_kg + water, abs=1e-9)
        assert one.backing.dry_kg == pytest.approx(dry_kg, abs=1e-9)


def test_one_more_cast_leaves_the_long_run_as_it_is():
    rng = random.Random(15)
    met = 0
    for _ in range(300):
        one_mould, both, dry_kg = drawn(rng)
        ends = long_run(one_mould, both, dry_kg)
        if ends is None:
            continue
        met += 1
        after = cast(ends, one_mould, both).backing
        assert after.live_clay_kg == pytest.approx(ends.live_clay_kg, abs=1e-9)
        assert after.dead_fines_pct_dry == pytest.approx(ends.dead_fines_pct_dry, abs=1e-9)
        assert after.grain_kg == pytest.approx(ends.grain_kg, abs=1e-9)
    assert met > 200


def test_a_backing_that_nothing_leaves_has_no_end_of_its_own():
    """All facing is thrown away and no clay comes: what burns in the backing stays, whatever there was before."""
    assert long_run(mould(lost_kg=3.0, burnt_backing=0.1), two(make_up=False), 40.0) is None


def test_the_end_does_not_depend_on_where_the_backing_begins():
    one_mould, both = mould(lost_kg=0.5, burnt_facing=0.3), two(from_backing=0.4)
    ends = long_run(one_mould, both, 40.0)
    for sand in (heap(fines=0.1), heap(clay=0.12)):
        for _ in range(2000):
            sand = cast(sand, one_mould, both).backing
        assert sand.dead_fines_pct_dry == pytest.approx(ends.dead_fines_pct_dry, abs=1e-6)
        assert sand.clay_pct_dry == pytest.approx(7.0)


def test_a_hundredth_of_everything_ends_as_a_hundredth():
    """40 kg of backing and 0.4 kg, with moulds to match, are the same sand in the long run."""
    whole = mould(lost_kg=0.5, burnt_facing=0.3, burnt_backing=0.01)
    part = replace(
        whole, facing_kg=whole.facing_kg / 100, backing_kg=whole.backing_kg / 100, lost_kg=whole.lost_kg / 100
    )
    large, small = long_run(whole, two(from_backing=0.4), 40.0), long_run(part, two(from_backing=0.4), 0.4)
    for name in PARTS:
        assert getattr(small, name) == pytest.approx(getattr(large, name) / 100, abs=1e-12)
