"""The metal's way in a plan: the riser, sprue and gates, and what of them the flask, the pour and the opening count with."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from sandmix.asking.job import AnyJob
from sandmix.casting.layers import ASSUMED
from sandmix.feeding.modulus import cylinder_cm3
from sandmix.gating import ratio
from sandmix.jobs.feed import JOB as FEED
from sandmix.jobs.gate import JOB as GATE
from sandmix.jobs.plan.carrier import OF_SIZES, Carrier
from sandmix.jobs.plan.steps import Carried, Inputs, Step, amount, value_of, without_range
from sandmix.mould.walls import CUP_MM

OF_THE_METAL = "usual for this metal"


@dataclass(slots=True)
class MetalWay:
    """Riser, sprue and gates of one casting day. ``ask`` gives the step of a job with its inputs and why it is there."""

    carrier: Carrier
    ask: Callable[[AnyJob, Inputs, str], Step]
    planned_riser: Step | None = field(init=False)
    """The riser that the flask, the metal and the opening count with; None where the person casts without one, or none can be sized."""

    def __post_init__(self) -> None:
        """Size the riser where one is planned: the flask must hold it."""
        sized = self._feed({}) if self.carrier.filled.form.with_riser == "yes" else None
        self.planned_riser = sized if sized and sized.answer else None

    @property
    def gating(self) -> Inputs:
        """The volume of the gating, risers included: as given, or with the planned riser; nothing where neither is known."""
        given = self.carrier.given("gating_volume_cm3")
        if given or self.planned_riser is None:
            return given
        count = self.carrier.filled.form.count
        return self.planned_riser.carried("gating_with_riser_cm3", "gating_volume_cm3", times=count)

    @property
    def gating_cm3(self) -> float | None:
        """The same as a number, in cm³."""
        known = self.gating.get("gating_volume_cm3")
        return None if known is None else value_of("gating_volume_cm3", known)

    def riser_to_fit(self) -> Inputs:
        """Return the planned riser as the flask must hold it."""
        riser = self.planned_riser
        if riser is None:
            return {}
        kind = riser.inputs.get("riser_kind")
        chosen = {} if kind is None else {"riser_kind": Carried(given=kind, origin=riser.origin)}
        high = riser.carried("riser_made_height_mm", "riser_height_mm")
        return chosen | without_range(riser.carried("riser_made_mm", "riser_diameter_mm") | high)

    def thickest_section(self) -> Inputs:
        """Return the planned riser as the thickest section of the gating, for the time to open."""
        riser = self.planned_riser
        return riser.carried("riser_made_mm", "gating_section_mm") if riser else {}

    def steps(self, fit: Step, flask: Step) -> Iterable[Step]:
        """Yield the riser, where the surface of the casting is known, and sprue and gates, where the mould has a cope."""
        depth_mm = cope_depth_mm(flask)
        feed = self._feed({} if depth_mm is None else amount("cope_depth_mm", depth_mm, origin=flask.origin))
        if feed:
            yield feed
        if depth_mm != 0:
            yield self._gate(fit, flask, depth_mm)

    def _feed(self, cope: Inputs) -> Step | None:
        carrier = self.carrier
        surface = carrier.surface()
        if not surface:
            return None
        given = carrier.several("metal") | carrier.volume() | surface | carrier.sizes()
        why = "One casting. Where it freezes last, its shrinkage leaves a hole, unless a riser feeds it."
        if carrier.filled.form.with_riser != "yes":
            why += " Flask, metal and opening are planned without a riser."
        return self.ask(FEED, given | cope, why)

    def _gate(self, fit: Step, flask: Step, depth_mm: float | None) -> Step:
        carrier, riser = self.carrier, self.planned_riser
        form = carrier.filled.form
        fills = carrier.volume("fill_volume_cm3", form.count)
        if riser:
            all_cm3 = carrier.cm3(form.count) + form.count * _made_cm3(riser)
            fills = amount("fill_volume_cm3", all_cm3, origin=riser.origin)
        usual = Carried(given=ratio.USUAL[form.metal].ratio.text, origin=OF_THE_METAL)
        inputs = fills | {"gate_ratio": usual} | self._cavity(fit, depth_mm)
        if depth_mm is not None:
            inputs |= amount("head_mm", depth_mm + CUP_MM, origin=flask.origin)
        why = "All castings of the mould, through the sprue of this cope, in the usual time."
        return self.ask(GATE, inputs | carrier.several("metal", "thinnest_mm", "pour_temp_c"), why)

    def _cavity(self, fit: Step, depth_mm: float | None) -> Inputs:
        """Where the metal enters, and how high the cavity stands above it."""
        sides = self.carrier.filled.form.box_mm
        if sides is None:
            return {}
        in_cope: Inputs = {}
        over_mm = fit.figure("above_mm")
        if depth_mm is not None and isinstance(over_mm, float) and over_mm <= depth_mm:
            in_cope = amount("cope_height_mm", min(sides[2], depth_mm - over_mm), origin=fit.origin)
        place = {"gate_place": Carried(given="parting", origin=ASSUMED)}
        return place | amount("fill_height_mm", sides[2], origin=OF_SIZES) | in_cope


def _made_cm3(riser: Step) -> float:
    """The volume of the riser to make, in cm³; 0 where none is sized."""
    diameter_mm, height_mm = riser.figure("riser_made_mm"), riser.figure("riser_made_height_mm")
    if not isinstance(diameter_mm, float) or not isinstance(height_mm, float):
        return 0.0
    return cylinder_cm3(diameter_mm, height_mm / diameter_mm)


def cope_depth_mm(flask: Step) -> float | None:
    """Return the depth of the cope of the flask that is used, 0 for an open mould; None while no flask is known."""
    depth = flask.inputs.get("cope_depth_mm")
    return None if depth is None else value_of("cope_depth_mm", Carried(given=depth))
