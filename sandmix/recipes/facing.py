"""Facing and backing: two sands in one mould, how they flow into each other, and where both end if each cast is alike.

One cast. Facing of f kg is mixed from new sand, new clay and the share y of backing. It lies against the pattern, backing fills the rest of the
flask. The pour burns a share of the live clay in each and drives off water. L kg of the facing is thrown away with the crust, as it is on average,
and the other e = f − L kg joins the backing. The backing is then brought back to its mass B, its level of live clay and its moisture: D kg of it
leaves, or new sand comes in. All of f, L, e, D and B are dry masses.

In the long run the backing's dead fines d no longer change. With c, d as shares of the dry mass, p the clay product added to facing (F) or
backing (B), i the share of it that is not live, u the backing's mass after the facing has joined it, K = u − D and S the burnt clay of the facing:

    d (B u / K − B + y (f − e)) = i p_B u / K + burnt backing + e/f (i p_F + S)

Live clay has the same form. It is at its level where clay is added, and above it where the facing brings more than burns and is lost.
Source: mass_balance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from sandmix.materials.sand import Sand
from sandmix.maths.statistics import without_noise
from sandmix.recipes.mix import BoughtMaterials

LEAST_EXCHANGE = 1e-12
"""A smaller share of the backing that leaves it at each cast is only rounding: then nothing leaves it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mould:
    """What one cast does to the two sands in its mould.

    Dry masses in kg: facing, backing in the flask, and facing thrown away. As fractions: the live clay that burns and the water that boils off,
    each of the facing and of the backing in the flask.
    """

    facing_kg: float
    backing_kg: float
    lost_kg: float
    burnt_facing: float
    burnt_backing: float
    dried_facing: float
    dried_backing: float

    @property
    def joins_kg(self) -> float:
        """The dry facing that ends in the backing, in kg."""
        return self.facing_kg - self.lost_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoSands:
    """How both sands are kept, as fractions.

    Live clay of the dry mass in new facing and in the backing, the share of the facing that is taken from the backing, the moisture of both, and
    whether clay is added to the backing.
    """

    facing_clay: float
    backing_clay: float
    from_backing: float
    moisture: float
    make_up: bool
    materials: BoughtMaterials


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """What one of the two sands gets for one cast: sand and clay as bought, and water in kg (below 0: to dry off)."""

    sand: Sand
    clay: Sand
    water_kg: float

    @property
    def bought(self) -> Sand:
        """Sand and clay together."""
        return self.sand + self.clay


@dataclass(frozen=True, slots=True, kw_only=True)
class Shakeout:
    """Both sands up to the shake-out, each on its way.

    ``facing`` is as it is rammed, ``taken`` what of it came from the backing, ``joined`` what of it ends in the backing, ``lost`` what is thrown
    away, ``boiled_kg`` the water that the pour drives off, ``mixed`` the backing with what has joined it.
    """

    facing: Sand
    to_facing: Added
    taken: Sand
    joined: Sand
    lost: Sand
    boiled_kg: float
    mixed: Sand


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoSandCast:
    """One cast: both sands up to the shake-out, and how the backing is then restored.

    ``discarded`` is the backing that leaves, ``backing`` the backing for the next cast, ``kept`` the share of its old grain that stays.
    """

    out: Shakeout
    discarded: Sand
    to_backing: Added
    backing: Sand
    kept: float


def shake_out(backing: Sand, mould: Mould, two: TwoSands) -> Shakeout:
    """Return both sands at the shake-out of one cast with the sand *backing*, which holds at least what the flask and the facing take of it."""
    taken = backing.scaled(two.from_backing * mould.facing_kg / backing.dry_kg)
    facing, to_facing = _restored(
        taken, dry_kg=mould.facing_kg, clay=two.facing_clay, moisture=two.moisture, materials=two.materials
    )
    left = backing.less(taken) if two.from_backing else backing
    after_facing = _poured(facing, mould.burnt_facing, mould.dried_facing)
    boiled_kg, after_backing = facing.water_kg - after_facing.water_kg, left
    if mould.burnt_backing or mould.dried_backing:
        in_flask = left.scaled(min(1.0, mould.backing_kg / left.dry_kg))
        hot = _poured(in_flask, mould.burnt_backing, mould.dried_backing)
        boiled_kg += in_flask.water_kg - hot.water_kg
        after_backing = left.less(in_flask) + hot
    lost_share = mould.lost_kg / mould.facing_kg if mould.facing_kg else 0.0
    joined = after_facing.scaled(1 - lost_share)
    return Shakeout(
        facing=facing,
        to_facing=to_facing,
        taken=taken,
        joined=joined,
        lost=after_facing.scaled(lost_share),
        boiled_kg=boiled_kg,
        mixed=after_backing + joined,
    )


def cast(backing: Sand, mould: Mould, two: TwoSands) -> TwoSandCast:
    """Return one cast with the sand *backing*, which holds at least what the flask and the facing take of it.

    >>> one = cast(Sand(grain_kg=37), Mould(facing_kg=3, backing_kg=20, lost_kg=0, burnt_facing=0, burnt_backing=0, dried_facing=0,
    ...     dried_backing=0), TwoSands(facing_clay=0, backing_clay=0, from_backing=0, moisture=0, make_up=False, materials=BoughtMaterials()))
    >>> one.discarded.dry_kg, one.backing.dry_kg, one.kept
    (3.0, 37.0, 0.925)
    """
    out = shake_out(backing, mould, two)
    level, mixed_kg = two.backing_clay if two.make_up else 0.0, out.mixed.dry_kg
    leaves = discarded_kg(out.mixed, backing.dry_kg, level, two.materials) / mixed_kg
    restored, to_backing = _restored(
        out.mixed.scaled(1 - leaves),
        dry_kg=backing.dry_kg,
        clay=level,
        moisture=two.moisture,
        materials=two.materials,
    )
    took = out.taken.dry_kg / backing.dry_kg
    lost_share = mould.lost_kg / mould.facing_kg if mould.facing_kg else 0.0
    return TwoSandCast(
        out=out,
        discarded=out.mixed.scaled(leaves),
        to_backing=to_backing,
        backing=restored,
        kept=(1 - took * lost_share) * (1 - leaves),
    )


def discarded_kg(mixed: Sand, dry_kg: float, clay: float, materials: BoughtMaterials) -> float:
    """Return how much of *mixed*, as dry mass in kg, leaves so that the rest and the clay it needs come to *dry_kg* with *clay* of live clay."""
    surplus = mixed.dry_kg - dry_kg
    held = mixed.live_clay_kg / mixed.dry_kg
    if clay <= held:
        return max(0.0, surplus)
    leaves = (clay * dry_kg - mixed.dry_kg * held + materials.clay_activity * surplus) / (
        materials.clay_activity - held
    )
    return without_noise(max(0.0, leaves), dry_kg)


def long_run(mould: Mould, two: TwoSands, backing_dry_kg: float) -> Sand | None:
    """Return the backing that one more cast no longer changes, or None where nothing leaves it, or so little that dead fines would fill it.

    The backing has *backing_dry_kg* of dry mass. Its live clay is the level that is kept, or what the facing alone keeps up where that is more or
    where no clay is added.
    """
    live = _live_of_its_own(mould, two, backing_dry_kg)
    if two.make_up and (live is None or live < two.backing_clay):
        return _with_live(two.backing_clay, mould, two, backing_dry_kg)
    return None if live is None else _with_live(live, mould, replace(two, make_up=False), backing_dry_kg)


def _live_of_its_own(mould: Mould, two: TwoSands, dry_kg: float) -> float | None:
    """Live clay in the long run, as a fraction, of a backing that gets only what the facing brings."""
    takes, joins = two.from_backing * mould.facing_kg, mould.joins_kg
    mixed_kg = dry_kg - takes + joins
    stays = min(1.0, dry_kg / mixed_kg)
    burns = mould.backing_kg * mould.burnt_backing
    alive = 1 - mould.burnt_facing
    leaves = dry_kg - stays * (dry_kg - takes - burns)
    if leaves <= LEAST_EXCHANGE * dry_kg:
        return None
    return stays * joins * two.facing_clay * alive / leaves


def _with_live(live: float, mould: Mould, two: TwoSands, dry_kg: float) -> Sand | None:
    """The backing whose live clay is the fraction *live* and whose dead fines no cast changes; None where nothing leaves it, or too little."""
    level = Sand(grain_kg=(1 - live) * dry_kg, live_clay_kg=live * dry_kg).at_moisture(two.moisture)
    one = cast(level, mould, two)
    mixed_kg = dry_kg - one.out.taken.dry_kg + mould.joins_kg
    share = mixed_kg / (mixed_kg - one.discarded.dry_kg)
    leaves = dry_kg * share - dry_kg + two.from_backing * mould.lost_kg
    idle = 1 - two.materials.clay_activity
    joined = mould.joins_kg / mould.facing_kg if mould.facing_kg else 0.0
    product = one.out.to_facing.clay.dry_kg
    burnt = mould.burnt_facing * one.out.facing.live_clay_kg
    comes = idle * one.to_backing.clay.dry_kg * share + mould.backing_kg * mould.burnt_backing * live
    comes += joined * (idle * product + burnt)
    dead = comes / leaves if leaves > LEAST_EXCHANGE * dry_kg else math.inf
    if dead + live > 1:
        return None
    fines = dead * dry_kg
    return Sand(
        grain_kg=max(0.0, level.grain_kg - fines), live_clay_kg=live * dry_kg, other_fines_kg=fines
    ).at_moisture(two.moisture)


def _restored(
    sand: Sand, *, dry_kg: float, clay: float, moisture: float, materials: BoughtMaterials
) -> tuple[Sand, Added]:
    """*sand* with the clay and the new sand that bring it to *dry_kg* with *clay* of live clay, at *moisture*; no clay where it has enough."""
    missing = without_noise(max(0.0, clay * dry_kg - sand.live_clay_kg), sand.live_clay_kg)
    room = max(0.0, dry_kg - sand.dry_kg)
    product_kg = min(room, missing / materials.clay_activity)
    clay_in, sand_in = materials.clay(product_kg), materials.sand(without_noise(room - product_kg, dry_kg))
    damp = sand + clay_in + sand_in
    water_kg = without_noise(damp.water_at(moisture) - damp.water_kg, damp.water_kg)
    return damp.wet(water_kg), Added(sand=sand_in, clay=clay_in, water_kg=water_kg)


def _poured(sand: Sand, burnt: float, dried: float) -> Sand:
    """*sand* after the pour: the share *burnt* of its live clay is dead, the share *dried* of its water is gone."""
    dies = burnt * sand.live_clay_kg
    return Sand(
        grain_kg=sand.grain_kg,
        live_clay_kg=sand.live_clay_kg - dies,
        dead_clay_kg=sand.dead_clay_kg + dies,
        other_fines_kg=sand.other_fines_kg,
        organics_kg=sand.organics_kg,
        water_kg=sand.water_kg * (1 - dried),
    )
