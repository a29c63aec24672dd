"""The form of *pour*: the casting, what is melted, and what lies over it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature
from sandmix.materials.metals import METALS, SCRAPS, family, liquid_density_ends, thermal
from sandmix.maths.uncertainty import Ends, Key
from sandmix.mould.charge import Lot, loss_of

ONWARD = "Not used on this page. “After the pour” takes it over."
_LARGEST_CORE = 20
"""In volumes of the casting (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PourForm(Form):
    """The casting and its gating, the scrap and the crucible, and the cope that the metal lifts."""

    metal: str = ask("metal", first=True)
    casting_volume_cm3: float | None = ask("casting_volume_cm3", first=True)
    projected_area_cm2: float | None = ask("projected_area_cm2", first=True)
    head_mm: float | None = ask("head_mm", first=True)
    cope_kg: float | None = ask(
        "cope_kg",
        first=True,
        label="Cope with its frame",
        help="The sand and the wood that lie on the metal. The page “Fill the flask” works it out.",
    )
    crucible_l: float | None = ask("crucible_l")
    gating_pct: float = ask("gating_pct")
    scrap: str = ask("scrap")
    scrap_lots: Sequence[Mapping[str, object]] | None = ask("scrap_lots")
    melt_loss_pct: float | None = ask("melt_loss_pct")
    spare_pct: float = ask(
        "spare_pct",
        exact=True,
        default=10.0,
        usual=(5.0, 25.0),
        label="Spare metal",
        help="Melt a little more than the mould takes, so that you never pour it short.",
    )
    uplift_factor: float = ask("uplift_factor", exact=True)
    core_volume_cm3: float = ask("core_volume_cm3")
    pour_temp_c: float | None = ask("pour_temp_c")
    fill_time_s: float | None = ask("fill_time_s", exact=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", label="Moisture of the sand, last test")
    sand_kind: str = ask("sand_kind")
    casting_area_cm2: float | None = ask("casting_area_cm2", help=ONWARD)
    box_mm: Sequence[float] | None = ask("box_mm", help=ONWARD)
    gating_section_mm: float | None = ask("gating_section_mm", help=ONWARD)

    @rule
    def something_can_be_computed(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is None and (self.projected_area_cm2 is None or self.head_mm is None):
            yield self.wrong(
                "casting_volume_cm3",
                "a volume, or projected area and head",
                (
                    "nothing can be computed yet. Enter the volume of the casting for the charge, or its projected area "
                    "and the head of metal for the weights."
                ),
            )

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def no_other_metal_is_in_the_charge(self) -> Iterable[Problem]:
        own = family(self.metal)
        for at, row in enumerate(self.scrap_lots or (), start=1):
            alloy = str(row.get("alloy") or self.metal)
            if family(alloy) != own:
                yield self.wrong(
                    "scrap_lots",
                    own,
                    f"lot {at} is {METALS[alloy].label}, which does not belong in {own}: it makes the casting brittle or weak. Leave it out.",
                )

    @rule
    def the_core_leaves_a_wall(self) -> Iterable[Problem]:
        volume_cm3 = self.casting_volume_cm3
        if volume_cm3 is not None and self.core_volume_cm3 > _LARGEST_CORE * volume_cm3:
            yield self.wrong(
                "core_volume_cm3",
                f"at most {_LARGEST_CORE * volume_cm3:g} cm³",
                (
                    f"{self.core_volume_cm3:g} cm³ of core in a casting of {volume_cm3:g} cm³ leaves almost no wall. Check "
                    "both volumes and their units."
                ),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedPour(PourForm):
    """The same, with a melting loss and a pour temperature that are always there, and the density of the liquid metal."""

    melt_loss_pct: float
    pour_temp_c: float
    liquid_kg_m3: float

    @property
    def lots(self) -> list[Lot]:
        """The lots of scrap, each with its loss: its own, else the one for all."""
        return [
            Lot(kg=_number(row, "kg"), loss=(_number(row, "melt_loss_pct", self.melt_loss_pct)) / 100)
            for row in self.scrap_lots or ()
        ]

    @property
    def loss(self) -> float:
        """The share of the charge that is lost on melting."""
        return loss_of(self.lots) if self.scrap_lots else self.melt_loss_pct / 100


def resolve(filled: Filled[PourForm]) -> Filled[ResolvedPour]:
    """Take the loss of the scrap and the usual pour temperature of the metal where nothing is given, and its liquid density, with their bands."""
    form = filled.form
    values: dict[str, object] = {"liquid_kg_m3": thermal(form.metal).liquid_kg_m3}
    bands: dict[Key, Ends] = {"liquid_kg_m3": liquid_density_ends(form.metal)}
    if form.melt_loss_pct is None:
        low, high = SCRAPS[form.scrap].loss_pct
        values["melt_loss_pct"] = (low + high) / 2
        if form.scrap_lots:
            rows = _with_losses(form.scrap_lots)
            values["scrap_lots"] = [row for row, _ in rows]
            bands |= {place: band for place, band in filled.bands.items() if place[0] == "scrap_lots"}
            bands |= {("scrap_lots", at, "melt_loss_pct"): band for at, (_, band) in enumerate(rows) if band}
        else:
            bands["melt_loss_pct"] = (low, high)
    if form.pour_temp_c is None:
        values["pour_temp_c"], bands["pour_temp_c"] = pour_temperature.usual(form.metal)
    return filled.into(ResolvedPour, values, bands=bands, remarks=pour_temperature.odd(form))


def _with_losses(lots: Sequence[Mapping[str, object]]) -> list[tuple[Mapping[str, object], tuple[float, float] | None]]:
    """Each lot with its melting loss, and the range of that where only the kind of scrap is known."""
    found: list[tuple[Mapping[str, object], tuple[float, float] | None]] = []
    for row in lots:
        low, high = SCRAPS[str(row["scrap"])].loss_pct
        known = row.get("melt_loss_pct") is not None
        found.append((row, None) if known else ({**row, "melt_loss_pct": (low + high) / 2}, (low, high)))
    return found


def _number(row: Mapping[str, object], word: str, default: float = 0.0) -> float:
    value = row.get(word)
    return float(value) if isinstance(value, (int, float)) else default
