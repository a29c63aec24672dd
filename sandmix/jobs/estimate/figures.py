"""The figures of *estimate*."""

from __future__ import annotations

import math
from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.bench import estimates
from sandmix.jobs.estimate.form import ResolvedEstimate, clay_by_test, middles
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary import quantity

_CRUSHED = ("strength_kpa", "moisture_pct_wet", "compactability_read_pct")


def run(form: ResolvedEstimate) -> Figures:
    """Return live clay from each test and from all, with the weights of the resolved form; dead fines; bond, mulling and equilibrium."""
    found = {key: value for key, value in clay_by_test(form).items() if key in form.half_widths}
    figures: Figures = {
        key: value for key, value in found.items() if key in ("clay_washed_pct_dry", "clay_mulled_pct_dry")
    }
    if form.together is not None:
        weights = {
            key: estimates.Estimate(key=key, value=0.0, half_width=half).weight
            for key, half in form.half_widths.items()
        }
        live = sum(weights[key] * middle for key, middle in middles(form).items()) / sum(weights.values())
        figures["clay_pct_dry"] = live
        if form.washed_pct_dry is not None:
            figures["dead_fines_pct_dry"] = form.washed_pct_dry - live
    return figures | _bond(form) | _equilibrium(form)


def _bond(form: ResolvedEstimate) -> Figures:
    if form.strength_psi is None:
        return {}
    found: Figures = {}
    moisture, compactability = form.moisture_pct_wet, form.compactability_read_pct
    if moisture is not None:
        found["available_bond_pct"] = estimates.available_bond_pct(form.strength_psi, moisture)
    if compactability is not None:
        found["working_bond_pct"] = estimates.working_bond_pct(form.strength_psi, compactability)
    available, working = found.get("available_bond_pct"), found.get("working_bond_pct")
    if isinstance(available, float) and isinstance(working, float) and available > 0:
        found["mulling_efficiency_pct"] = 100 * working / available
    return found


def _equilibrium(form: ResolvedEstimate) -> Figures:
    """The moisture of the same sand fully mulled, where its clay is known from another test and within the published range."""
    known = form.clay_book_pct_dry if form.clay_blue_pct_dry is None else form.clay_blue_pct_dry
    compactability = form.compactability_read_pct
    if known is None or compactability is None or not form.half_widths or not equilibrium_holds(form):
        return {}
    return {"equilibrium_moisture_pct_wet": estimates.equilibrium_moisture_pct_wet(known, compactability)}


def equilibrium_holds(form: ResolvedEstimate) -> bool:
    """Return whether the combined estimate is within the published range."""
    return form.together is not None and estimates.clay_holds(form.together.value)


def finish(filled: Filled[ResolvedEstimate], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return how well the tests agree; this has no uncertainty of its own."""
    form = filled.form
    return {"agreement": form.together.ratio} if form.together is not None and len(form.half_widths) > 1 else {}


def _dead_half(washed: float, live: float, half_widths: Mapping[str, float]) -> float:
    """The half-width of wash less live clay, where the wash has a share w in the live clay: √(L² + (1 − 2w) W²).

    With w = 0 both errors add as squares. With w = 1 live clay is the wash less the dead fines, and only their error is left.
    """
    least = estimates.LEAST_HALF_WIDTH
    weights = {key: 1 / max(half, least) ** 2 for key, half in half_widths.items()}
    share = weights.get("clay_washed_pct_dry", 0.0) / sum(weights.values())
    return math.sqrt(max(live**2 + (1 - 2 * share) * washed**2, least**2))


def known(form: ResolvedEstimate) -> Mapping[str, Band]:
    """Return the bands of live clay from each test and from all, and of the dead fines."""
    found, half_widths = middles(form), form.half_widths
    bands = {key: (found[key] - half, found[key] + half) for key, half in half_widths.items()}
    together = form.together
    if together is None:
        return bands
    bands["clay_pct_dry"] = (together.value - together.half_width, together.value + together.half_width)
    washed = form.washed_pct_dry
    if washed is not None:
        washed_half = quantity("washed_pct_dry").half_width(washed, assumed=False)
        half = _dead_half(washed_half, together.half_width, half_widths)
        dead = washed - together.value
        bands["dead_fines_pct_dry"] = (dead - half, max(dead + half, 0.0))
    return bands


def needs(form: ResolvedEstimate, figures: Figures) -> Needs:
    """Return the words that each answer needs."""
    return {
        "dead_fines_pct_dry": ("washed_pct_dry",),
        **dict.fromkeys(("mulling_efficiency_pct", "working_bond_pct", "available_bond_pct"), _CRUSHED),
    }
