"""The job *estimate*: how much live clay is in a sand by all that was tested, and how well it is mulled."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from .. import estimates
from ..cautions import DUST
from ..doubt import Band
from ..form import Filled
from ..forms.estimate import Settled, Tested, settle, ways_of
from ..job import Figures, Job, Lead, Needs, Next, Telling, Told
from ..vocabulary import WORDS
from ..wording import list_of, raised, to_figures
from ..words import Quantity

WELL_MULLED_PCT = 65.0
"""Mulling efficiency of a well run production muller, about (from memory)."""
_CRUSHED = ("strength_kpa", "moisture_pct_wet", "compactability_read_pct")
_SAID = {
    "clay_blue_pct_dry": "methylene blue",
    "clay_washed_pct_dry": "the wash less what is dead",
    "clay_book_pct_dry": "the book",
    "clay_mulled_pct_dry": "moisture and compactability",
}


def run(form: Tested) -> Figures:
    """Return live clay by each way and by all, with weights as settled; dead fines; bond, mulling and equilibrium."""
    assert isinstance(form, Settled)
    ways = {key: value for key, value in ways_of(form).items() if key in form.half_widths}
    figures: Figures = {
        key: value for key, value in ways.items() if key in ("clay_washed_pct_dry", "clay_mulled_pct_dry")
    }
    if form.together is not None:
        weights = {
            key: estimates.Estimate(key=key, value=0.0, half_width=half).weight
            for key, half in form.half_widths.items()
        }
        live = sum(weights[key] * value for key, value in ways.items()) / sum(weights.values())
        figures["clay_pct_dry"] = live
        if form.washed_pct_dry is not None:
            figures["dead_fines_pct_dry"] = form.washed_pct_dry - live
    return figures | _bond(form) | _equilibrium(form)


def _bond(form: Settled) -> Figures:
    if not form.bond:
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


def _equilibrium(form: Settled) -> Figures:
    """The moisture of the same sand fully mulled, where its clay is known otherwise and within the published range."""
    known = form.clay_book_pct_dry if form.clay_blue_pct_dry is None else form.clay_blue_pct_dry
    compactability = form.compactability_read_pct
    if known is None or compactability is None or not form.half_widths or not _holds(form):
        return {}
    return {"equilibrium_moisture_pct_wet": estimates.equilibrium_moisture_pct_wet(known, compactability)}


def _holds(form: Settled) -> bool:
    """Whether the clay is within the published range; asked of the union, which doubt does not move."""
    return form.together is not None and estimates.clay_holds(form.together.value)


def finish(filled: Filled[Tested], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return how far the ways are apart, which no doubt moves."""
    form = filled.form
    assert isinstance(form, Settled)
    return {"agreement": form.together.ratio} if form.together is not None and len(form.half_widths) > 1 else {}


def _dead_half(washed: float, live: float, half_widths: Mapping[str, float]) -> float:
    """How far wash less live clay may be off, where the wash itself has a part w in the live clay: √(L² + (1 − 2w) W²).

    With no part in it that is both together; where live clay is the wash less the dead fines, it is the doubt of those.
    """
    least = estimates.LEAST_HALF_WIDTH
    weights = {key: 1 / max(half, least) ** 2 for key, half in half_widths.items()}
    part = weights.get("clay_washed_pct_dry", 0.0) / sum(weights.values())
    return math.sqrt(max(live**2 + (1 - 2 * part) * washed**2, least**2))


def known(form: Tested) -> Mapping[str, Band]:
    """Return the bands that the ways bring along: of each, of all together, and of the dead fines that are left of the wash."""
    assert isinstance(form, Settled)
    ways, half_widths = ways_of(form), form.half_widths
    bands = {key: (ways[key] - half, ways[key] + half) for key, half in half_widths.items()}
    together = form.together
    if together is None:
        return bands
    bands["clay_pct_dry"] = (together.value - together.half_width, together.value + together.half_width)
    washed, word = form.washed_pct_dry, WORDS["washed_pct_dry"]
    if washed is not None:
        assert isinstance(word, Quantity)
        half = _dead_half(word.half_width(washed, assumed=False), together.half_width, half_widths)
        dead = washed - together.value
        bands["dead_fines_pct_dry"] = (dead - half, max(dead + half, 0.0))
    return bands


def needs(form: Tested, figures: Figures) -> Needs:
    """What each answer takes; a way that lies beyond its range is told of elsewhere."""
    return {
        "dead_fines_pct_dry": ("washed_pct_dry",),
        **dict.fromkeys(("mulling_efficiency_pct", "working_bond_pct", "available_bond_pct"), _CRUSHED),
    }


def tell(told: Told[Tested]) -> Telling:
    """Say how much live clay there is, whether the ways agree, and how well it is worked in."""
    form = told.form
    assert isinstance(form, Settled)
    return Telling(
        headline=_headline(told, form),
        state=_state(form),
        lead=_lead(told),
        remarks=tuple(_remarks(told, form)),
        cautions=(DUST,) if form.washed_pct_dry is not None else (),
        working=tuple(_working(told, form)),
        next=_next(told),
    )


def _state(form: Settled) -> tuple[str, str]:
    if form.together is None:
        return "mulling", "plain"
    if not form.together.agrees:
        return "they disagree", "care"
    return ("estimated", "go") if len(form.half_widths) > 1 else ("one way alone", "plain")


def _headline(told: Told[Tested], form: Settled) -> str:
    if form.together is None:
        return f"{WORDS[_lead(told).word].label}: {_lead(told).text}."
    live = f"{told.text('clay_pct_dry')} of live clay, {told.range('clay_pct_dry')} of the dry mass"
    if not form.together.agrees:
        return f"The tests disagree. Taken together they say {live}."
    ways = list_of([_SAID[key] for key in form.half_widths], "and")
    return f"{raised(live)}, by {ways}."


def _lead(told: Told[Tested]) -> Lead:
    word = next(
        word
        for word in ("clay_pct_dry", "mulling_efficiency_pct", "working_bond_pct", "available_bond_pct")
        if told.has(word)
    )
    return Lead(word=word, label=WORDS[word].label, text=told.text(word), then=told.within(word))


def _remarks(told: Told[Tested], form: Settled) -> Iterable[str]:
    together = form.together
    if together is not None and not together.agrees:
        spoken = ", ".join(
            f"{_SAID[key]} {ways_of(form)[key]:.1f} ± {form.half_widths[key]:.1f} %" for key in form.half_widths
        )
        yield (
            f"They differ by more than their doubts allow: {spoken}. One of them is wrong, and the mean does not say which. The ± is widened "
            f"{together.ratio:.1f} times. Repeat the one you trust least."
        )
    if "clay_washed_pct_dry" in form.half_widths and form.dead_fines_pct_dry is None:
        yield (
            "The wash less ash takes all the rest of the fines for live clay, as if none had burnt. In used sand it reads too high, so its ± is "
            f"{estimates.ASH_SCATTER:g} points and more."
        )
    if form.washed_pct_dry is not None and form.dead_pct_dry is None:
        yield f"The wash took {form.washed_pct_dry:g} %: live clay can't be more than that, and it has no other say here."
    if "clay_mulled_pct_dry" in form.half_widths:
        yield "By moisture and compactability, sand that is mulled worse than a foundry's reads too high in clay: water lies loose in it."
    if (
        told.has("dead_fines_pct_dry")
        and form.together is not None
        and form.washed_pct_dry is not None
        and form.washed_pct_dry < form.together.value
    ):
        yield "The live clay comes out above all that the wash took, which can't be: repeat the wash. Dead fines are told as none."
    yield from _mulling(told, form)


def _mulling(told: Told[Tested], form: Settled) -> Iterable[str]:
    if told.has("mulling_efficiency_pct"):
        efficiency = told.number("mulling_efficiency_pct")
        if efficiency < WELL_MULLED_PCT - 5:
            yield (
                f"Of the clay that could bond, {told.text('mulling_efficiency_pct')} is at work. A well run muller reaches "
                f"about {WELL_MULLED_PCT:g} (from memory): mull longer before adding clay."
            )
        else:
            yield f"Of the clay that could bond, {told.text('mulling_efficiency_pct')} is at work, as in a well run muller."
    known_clay = form.clay_blue_pct_dry is not None or form.clay_book_pct_dry is not None
    if known_clay and form.compactability_read_pct is not None and not _holds(form):
        low, high = estimates.CLAY_HOLDS_PCT
        yield f"Its moisture fully mulled is left out: the published equilibrium holds for {low:g} to {high:g} % of clay."
    if told.has("equilibrium_moisture_pct_wet") and form.moisture_pct_wet is not None:
        over = form.moisture_pct_wet - told.number("equilibrium_moisture_pct_wet")
        if over > 0.3:
            yield (
                f"Fully mulled it would need {told.text('equilibrium_moisture_pct_wet')} of water for that compactability; it "
                f"holds {over:.1f} points more. Mull on, or look for dead fines that drink it."
            )


def _working(told: Told[Tested], form: Settled) -> Iterable[str]:
    ways = ways_of(form)
    if "clay_washed_pct_dry" in form.half_widths:
        yield f"by the wash: {form.washed_pct_dry:g} − {form.dead_pct_dry:g} = {ways['clay_washed_pct_dry']:.2f} %"
    if "clay_mulled_pct_dry" in form.half_widths and form.compactability_read_pct is not None:
        per = estimates.clay_per_moisture(form.compactability_read_pct)
        yield f"by moisture and compactability: {form.moisture_pct_wet:g} × {per:.4f} = {ways['clay_mulled_pct_dry']:.2f} %"
    if form.together is not None and len(form.half_widths) > 1:
        parts = " + ".join(f"{ways[key]:.2f}/{half:.2f}²" for key, half in form.half_widths.items())
        below = " + ".join(f"1/{half:.2f}²" for half in form.half_widths.values())
        yield f"together = ({parts}) / ({below}) = {form.together.value:.2f} %, each weighed by one over its ± squared"
        yield f"Birge ratio √(χ²/(n − 1)) = {form.together.ratio:.2f}; above 1 the ± grows by it"
    if told.has("dead_fines_pct_dry"):
        yield f"dead fines = wash − live clay = {form.washed_pct_dry:g} − {told.number('clay_pct_dry'):.2f} %"
    if told.has("available_bond_pct"):
        available = told.number("available_bond_pct")
        yield f"available bond = 0.105 × {form.strength_psi:.2f} psi + 1.316 × {form.moisture_pct_wet:g} = {available:.3f} %"
    if told.has("working_bond_pct"):
        below = f"(132.1 − {form.compactability_read_pct:g})"
        yield f"working bond = 15.29 × {form.strength_psi:.2f} psi / {below} = {told.number('working_bond_pct'):.3f} %"
    if told.has("equilibrium_moisture_pct_wet") and form.compactability_read_pct is not None:
        per = estimates.clay_per_moisture(form.compactability_read_pct)
        yield f"moisture fully mulled = clay / {per:.4f} = {to_figures(told.number('equilibrium_moisture_pct_wet'), 4)} %"


def _next(told: Told[Tested]) -> tuple[Next, ...]:
    if not told.has("clay_pct_dry"):
        return ()
    words = {"clay_pct_dry": "clay_pct_dry"}
    words |= {"dead_fines_pct_dry": "dead_fines_pct_dry"} if told.has("dead_fines_pct_dry") else {}
    return (Next(job="rebond", label="What must go back into it?", inputs=told.carried_as_sure(**words)),)


JOB = Job(
    name="estimate",
    short="Live clay",
    title="How much live clay is in it?",
    form=Tested,
    settle=settle,
    run=run,
    finish=finish,
    known=known,
    tell=tell,
    answers=(
        "clay_pct_dry",
        "dead_fines_pct_dry",
        "clay_washed_pct_dry",
        "clay_mulled_pct_dry",
        "agreement",
        "mulling_efficiency_pct",
        "available_bond_pct",
        "working_bond_pct",
        "equilibrium_moisture_pct_wet",
    ),
    needs=needs,
    example={
        "clay_blue_pct_dry": "7.6 %",
        "washed_pct_dry": "10.5 %",
        "clay_book_pct_dry": "8.1 %",
        "moisture_pct_wet": "3.4 %",
        "compactability_read_pct": "43 %",
        "strength_kpa": "14 psi",
    },
    story="A heap in its second year: washed, titrated, rammed and crushed on one evening, with the book beside it.",
)
