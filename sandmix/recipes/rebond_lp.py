"""Restoring used sand with the materials on hand: several sands, clays, mixes and additives, each with stock and price.

A linear programme in these unknowns, dry and as shares of the target dry mass D: k share of the heap that stays, M the mass made, x_j each
material. mass: M = 1, and heap and materials sum to M. live clay: k H c + sum c_j x_j = c_t M. dead fines: k H d + sum d_j x_j <= d_limit M.
fineness: the grain's mean number is in its window, sum g_j (n_j - n_limit) x_j <= 0. bin: what is in it, including water that must still dry off, is
at most what it can hold. stock: x_j is at most what there is. The cost is minimised first, then the discard, then the mass of the materials. Water
costs nothing: missing water is added, and excess water dries off. A share of a hundred-millionth counts as none. Source: mass_balance.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sandmix.materials.sand import Sand, water_at
from sandmix.maths.linear_programme import EXACTLY, MOST, Row, Solution, solve
from sandmix.maths.statistics import without_noise
from sandmix.recipes.rebond import DEAD_FINES, LIVE_CLAY, MASS, NOTHING, RestoringPlan, Target

BIN, STOCK, FINE, COARSE, ADDITIVE, COST, HEAP, BALANCE = (
    "bin",
    "stock",
    "too_fine",
    "too_coarse",
    "additive",
    "cost",
    "heap",
    "balance",
)
NOISE = 1e-9
LEAST_SCALE = 0.005
LEAST_SHARE = 1e-8


@dataclass(frozen=True, slots=True, kw_only=True)
class StockMaterial:
    """One material as bought: water a fraction of wet; grain, live clay, dead fines of dry, the rest burns; stock in kg; price a kg, if known."""

    name: str
    kind: str
    water: float
    grain: float
    live: float
    dead: float
    stock_kg: float = math.inf
    price: float | None = None
    gfn: float | None = None

    def bought_kg(self, dry_kg: float) -> float:
        """Return the mass as bought of *dry_kg*."""
        return dry_kg / (1 - self.water)

    def sand(self, dry_kg: float) -> Sand:
        """Return *dry_kg* of the material, with its water, as a sand."""
        return Sand(
            grain_kg=dry_kg * self.grain,
            live_clay_kg=dry_kg * self.live,
            other_fines_kg=dry_kg * self.dead,
            organics_kg=dry_kg * max(0.0, 1 - self.grain - self.live - self.dead),
            water_kg=max(0.0, self.bought_kg(dry_kg) - dry_kg),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits(Target):
    """A target with more limits: new additive as a fraction of dry, what the bin can hold in kg, and the window of the grain's fineness number."""

    additive: float = 0.0
    bin_kg: float | None = None
    gfn_low: float | None = None
    gfn_high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastCostPlan(RestoringPlan):
    """The plan with a list of materials: each material with its mass in kg as bought, in the order of the list.

    ``forced_kg`` of the discard must go at any price; the rest goes because keeping it would cost more. ``binding`` is what forces the larger
    part, ``scarce`` the material whose stock that is. ``worth`` gives, for each limit that makes the plan more expensive, what one unit more of
    it saves: a point of dead fines, a kg of the bin, a kg of a material, by its name.
    """

    used: tuple[tuple[StockMaterial, float], ...]
    gfn: float | None
    forced_kg: float = 0.0
    scarce: str = ""
    worth: tuple[tuple[str, str, float], ...] = ()

    @property
    def put_in(self) -> tuple[tuple[StockMaterial, float], ...]:
        """The materials that go in, with their masses."""
        return tuple((material, kg) for material, kg in self.used if kg > 0)

    @property
    def added_kg(self) -> float:
        """The mass of all materials that go in, as bought."""
        return sum((kg for _, kg in self.put_in), 0.0)

    @property
    def cost(self) -> float | None:
        """The cost of the materials that go in; None if one of them has no price."""
        total = 0.0
        for material, kg in self.put_in:
            if material.price is None:
                return None
            total += kg * material.price
        return total


@dataclass(frozen=True, slots=True, kw_only=True)
class Infeasible:
    """No plan meets all limits.

    ``relaxed`` are the limits that need the smallest change, relative to their own size: the mass, or some of the others; ``nearest`` is the plan
    with that change. ``most`` is the plan for the most sand within all other limits, where less mass is another way out. ``at_fault`` are the
    limits that conflict, each with the material whose stock it is.
    """

    relaxed: tuple[str, ...]
    nearest: LeastCostPlan
    most: LeastCostPlan | None
    at_fault: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RebondProblem:
    """A heap, the limits for the restored sand, and the materials on hand. A fineness window needs the heap's own ``gfn``.

    With ``keeps_first`` the plan keeps the most of the heap, whatever that costs.
    """

    heap: Sand
    limits: Limits
    materials: Sequence[StockMaterial]
    gfn: float | None = None
    keeps_first: bool = False

    def plan(self) -> LeastCostPlan | Infeasible:
        """Return the plan of least cost, with the least discard among equals; or why there is none."""
        found = self._solved(mass_level=0, share_level=0)
        if found.broken:
            whole, part = self._solved(mass_level=1, share_level=2), self._solved(mass_level=2, share_level=1)
            if whole.broken and part.broken:
                return self._nearest(whole, part)
            found = part if whole.broken else whole
        return self._bound(self._weigh(found), found)

    def grown_kg(self) -> tuple[float, ...]:
        """Return the masses, in kg, of the whole heap once only what its live clay and its additive need is added, within the stock.

        First at the least cost, then at the least mass; none where that cannot be.
        """
        rows = [Row(name=HEAP, coefficients=self._unit(0), bound=1, kind=EXACTLY), *self._stock(), *self._needed(0)]
        found = [solve(rows, order) for order in ([self._costs(), self._unit(1)], [self._unit(1)])]
        return () if found[0].broken else tuple(self.limits.wet_kg * each.unknowns[1] for each in found)

    def dilute(self) -> LeastCostPlan | None:
        """Return what is needed to discard nothing and dilute the whole heap, however large it becomes: least mass, then least cost.

        Stock and bin are ignored. None where no amount brings the heap within the limits.
        """
        rows = [
            *self._shares(0),
            Row(name=HEAP, coefficients=self._unit(0), bound=1, kind=EXACTLY),
            self._at_least_all(),
        ]
        return self._way(solve(rows, [self._unit(1), self._costs()]))

    def dump(self) -> LeastCostPlan | None:
        """Return what is needed to throw out the whole heap and mix the same mass new, at least cost; stock and bin are ignored."""
        rows = [*self._shares(0), Row(name=HEAP, coefficients=self._unit(0), bound=0), self._mass(0)]
        return self._way(solve(rows, [self._costs(), self._carried()]))

    def _solved(self, *, mass_level: int, share_level: int) -> Solution:
        rows = self._rows(mass_level=mass_level, share_level=share_level)
        first = [self._kept(), self._costs()] if self.keeps_first else [self._costs(), self._kept()]
        return solve(rows, [*first, self._carried()])

    def _nearest(self, whole: Solution, part: Solution) -> Infeasible:
        made = part.unknowns[1] if set(part.broken) <= {MASS} else 0.0
        by_mass = made > NOISE and (MASS in whole.broken or 1 - made <= sum(map(abs, whole.broken.values())))
        fault = (part if MASS in whole.broken else whole).at_fault
        return Infeasible(
            relaxed=(MASS,) if by_mass else tuple(whole.broken),
            nearest=self._weigh(part if by_mass else whole),
            most=self._weigh(part) if made > NOISE and not by_mass else None,
            at_fault=tuple(self._named(name) for name in fault if name != BALANCE),
        )

    def _rows(self, *, mass_level: int, share_level: int) -> list[Row]:
        return [*self._firm(), self._mass(mass_level), *self._shares(share_level)]

    def _firm(self) -> list[Row]:
        """The limits that are never relaxed: the heap, each stock, and the bin."""
        rows = [Row(name=HEAP, coefficients=self._unit(0), bound=1), *self._stock()]
        if self.limits.bin_kg is not None:
            bought = (material.bought_kg(self.limits.dry_kg) for material in self.materials)
            into = [self.heap.wet_kg, 0.0, *bought]
            out_of = self._unit(1, self.limits.wet_kg)
            rows += [
                Row(name=f"{BIN} {at}", coefficients=[part / self.limits.bin_kg for part in parts], bound=1)
                for at, parts in enumerate((into, out_of))
            ]
        return rows

    def _stock(self) -> list[Row]:
        return [
            Row(
                name=f"{STOCK} {at}",
                coefficients=self._unit(2 + at),
                bound=material.stock_kg * (1 - material.water) / self.limits.dry_kg,
            )
            for at, material in enumerate(self.materials)
            if math.isfinite(material.stock_kg)
        ]

    def _mass(self, level: int) -> Row:
        return Row(name=MASS, coefficients=self._unit(1), bound=1, kind=EXACTLY, level=level)

    def _at_least_all(self) -> Row:
        return Row(name=MASS, coefficients=self._unit(1, -1.0), bound=-1)

    def _shares(self, level: int) -> list[Row]:
        """The balance, and the limits on what is made; each counted in its own limit."""
        limits, heap, dry = self.limits, self.heap, self.limits.dry_kg
        rows = self._needed(level)
        if limits.dead_fines_limit is not None:
            dead, each_dead = heap.dead_clay_kg + heap.other_fines_kg, [each.dead for each in self.materials]
            rows.append(self._share(DEAD_FINES, dead, each_dead, limits.dead_fines_limit, MOST, level))
        for name, limit, sign in ((COARSE, limits.gfn_low, -1), (FINE, limits.gfn_high, 1)):
            if limit is not None:
                over = [each.grain * _beyond(each.gfn, limit) for each in self.materials]
                heaps = heap.grain_kg / dry * _beyond(self.gfn, limit)
                rows.append(
                    Row(name=name, coefficients=[sign * part for part in (heaps, 0.0, *over)], bound=0, level=level)
                )
        return rows

    def _needed(self, level: int) -> list[Row]:
        """The balance, and the live clay and the additive of what is made."""
        limits, heap = self.limits, self.heap
        balance = [heap.dry_kg / limits.dry_kg, -1.0, *(1.0 for _ in self.materials)]
        each_live = [each.live for each in self.materials]
        rows = [
            Row(name=BALANCE, coefficients=balance, bound=0, kind=EXACTLY),
            self._share(LIVE_CLAY, heap.live_clay_kg, each_live, limits.clay, EXACTLY, level),
        ]
        extras = [float(each.kind == ADDITIVE) for each in self.materials]
        if any(extras) or limits.additive:
            rows.append(self._share(ADDITIVE, 0.0, extras, limits.additive, EXACTLY, level))
        return rows

    def _share(self, name: str, heap_kg: float, each: Sequence[float], share: float, kind: str, level: int) -> Row:
        scale = max(share, LEAST_SCALE)
        heaps = heap_kg / self.heap.dry_kg
        parts = [part / scale if part > LEAST_SHARE else 0.0 for part in (heaps, share, *each)]
        parts[0], parts[1] = parts[0] * self.heap.dry_kg / self.limits.dry_kg, -parts[1]
        return Row(name=name, coefficients=parts, bound=0, kind=kind, level=level)

    def _unit(self, at: int, size: float = 1.0) -> list[float]:
        return [size if other == at else 0.0 for other in range(2 + len(self.materials))]

    def _costs(self) -> list[float]:
        """What each unknown costs; a material without a price counts as free."""
        return [0.0, 0.0, *((each.price or 0.0) * each.bought_kg(self.limits.dry_kg) for each in self.materials)]

    def _kept(self) -> list[float]:
        return self._unit(0, -1.0)

    def _carried(self) -> list[float]:
        return [0.0, 0.0, *(each.bought_kg(self.limits.dry_kg) for each in self.materials)]

    def _weigh(self, found: Solution) -> LeastCostPlan:
        kept_share, made, *shares = found.unknowns
        none = NOISE * min(1.0, self.limits.dry_kg / self.heap.dry_kg)
        kept_share = 1.0 if kept_share > 1 - NOISE else kept_share if kept_share > none else 0.0
        dry = [share * self.limits.dry_kg if share > NOISE else 0.0 for share in shares]
        kept = self.heap.scaled(kept_share)
        mixed = kept + sum((each.sand(mass) for mass, each in zip(dry, self.materials, strict=True)), Sand())
        needed = water_at(made * self.limits.dry_kg, self.limits.moisture)
        water = without_noise(needed - mixed.water_kg, needed + mixed.water_kg)
        return LeastCostPlan(
            discard_kg=self.heap.wet_kg * (1 - kept_share),
            used=tuple((each, each.bought_kg(mass)) for mass, each in zip(dry, self.materials, strict=True)),
            water_balance_kg=water,
            after=mixed.wet(water),
            discarded=self.heap.scaled(1 - kept_share),
            gfn=self._gfn(kept.grain_kg, dry),
        )

    def _gfn(self, kept_kg: float, dry: Sequence[float]) -> float | None:
        grains = [(kept_kg, self.gfn)]
        grains += [(mass * each.grain, each.gfn) for mass, each in zip(dry, self.materials, strict=True)]
        there = [(mass, gfn) for mass, gfn in grains if mass > 0]
        whole = sum(mass for mass, _ in there)
        known = [mass * gfn for mass, gfn in there if gfn is not None]
        return sum(known) / whole if whole and len(known) == len(there) else None

    def _bound(self, plan: LeastCostPlan, found: Solution) -> LeastCostPlan:
        """The plan with what forces its discard, and what easing each limit would save."""
        forced, binding, scarce = 0.0, NOTHING, ""
        if plan.discard_kg > 0:
            freest = solve(self._rows(mass_level=0, share_level=0), [self._kept()])
            forced = without_noise(self.heap.wet_kg * (1 - freest.unknowns[0]), 1e3 * self.heap.wet_kg)
            forced = plan.discard_kg if abs(plan.discard_kg - forced) < 1e-7 * self.heap.wet_kg else forced
            binding, scarce = self._binding(freest) if forced >= plan.discard_kg / 2 else (COST, "")
        worth = tuple(self._worth(found.prices[1 if self.keeps_first else 0]))
        return replace(plan, forced_kg=forced, binding=binding, scarce=scarce, worth=worth)

    def _binding(self, freest: Solution) -> tuple[str, str]:
        """The limit which, eased by a hundredth of itself, lets the most of the heap stay; if there is none, clay or mass."""
        prices, bounds = freest.prices[0], {row.name: row.bound for row in self._firm()}
        eased = {}
        for name, price in prices.items():
            kind = name.split()[0]
            if kind in (DEAD_FINES, COARSE, FINE, BIN, STOCK):
                eased[name] = -price * (bounds[name] if kind == STOCK else 1.0)
        name = max(eased, key=eased.__getitem__, default="")
        if name and eased[name] > 1e-7:
            return self._named(name)
        return (LIVE_CLAY if prices.get(LIVE_CLAY, 0.0) < 0 else MASS), ""

    def _named(self, row: str) -> tuple[str, str]:
        """The limit that a row stands for, and for a stock the material's name."""
        kind, _, at = row.partition(" ")
        return kind, self.materials[int(at)].name if kind == STOCK else ""

    def _worth(self, prices: Mapping[str, float]) -> Iterable[tuple[str, str, float]]:
        limits = self.limits
        for name, price in prices.items():
            kind, _, at = name.partition(" ")
            unit = {
                BIN: 1 / (limits.bin_kg or 1.0),
                DEAD_FINES: 0.01 / max(limits.dead_fines_limit or 0.0, LEAST_SCALE),
            }.get(kind, 0.0)
            if kind == STOCK:
                unit = 1 / self.materials[int(at)].bought_kg(limits.dry_kg)
            if -price * unit > NOISE:
                yield *self._named(name), -price * unit

    def _way(self, found: Solution) -> LeastCostPlan | None:
        return None if found.broken else self._weigh(found)


def _beyond(gfn: float | None, limit: float) -> float:
    """How far a fineness number is above *limit*, as a share of it; 0 if the number is not known."""
    over = 0.0 if gfn is None else gfn / limit - 1
    return over if abs(over) > LEAST_SHARE else 0.0
