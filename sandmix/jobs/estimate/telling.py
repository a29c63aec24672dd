"""What *estimate* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.bench import estimates
from sandmix.jobs.estimate.figures import _holds
from sandmix.jobs.estimate.form import EstimateForm, ResolvedEstimate, ways_of
from sandmix.language.wording import list_of, raised, to_figures
from sandmix.vocabulary import WORDS

WELL_MULLED_PCT = 65.0
"""Mulling efficiency of a well run production muller, about (from memory)."""
_SAID = {
    "clay_blue_pct_dry": "methylene blue",
    "clay_washed_pct_dry": "the wash less what is dead",
    "clay_book_pct_dry": "the book",
    "clay_mulled_pct_dry": "moisture and compactability",
}


def tell(computed: Computed[EstimateForm]) -> Telling:
    """Say how much live clay there is, whether the ways agree, and how well it is worked in."""
    form = computed.form
    assert isinstance(form, ResolvedEstimate)
    return Telling(
        headline=_headline(computed, form),
        state=_state(form),
        lead=_lead(computed),
        remarks=tuple(_remarks(computed, form)),
        cautions=(DUST,) if form.washed_pct_dry is not None else (),
        working=tuple(_working(computed, form)),
        next=_next(computed),
    )


def _state(form: ResolvedEstimate) -> tuple[str, str]:
    if form.together is None:
        return "mulling", "plain"
    if not form.together.agrees:
        return "they disagree", "care"
    return ("estimated", "go") if len(form.half_widths) > 1 else ("one way alone", "plain")


def _headline(computed: Computed[EstimateForm], form: ResolvedEstimate) -> str:
    if form.together is None:
        return f"{WORDS[_lead(computed).word].label}: {_lead(computed).text}."
    live = f"{computed.text('clay_pct_dry')} of live clay, {computed.range('clay_pct_dry')} of the dry mass"
    if not form.together.agrees:
        return f"The tests disagree. Taken together they say {live}."
    ways = list_of([_SAID[key] for key in form.half_widths], "and")
    return f"{raised(live)}, by {ways}."


def _lead(computed: Computed[EstimateForm]) -> Lead:
    word = next(
        word
        for word in ("clay_pct_dry", "mulling_efficiency_pct", "working_bond_pct", "available_bond_pct")
        if computed.has(word)
    )
    return Lead(word=word, label=WORDS[word].label, text=computed.text(word), then=computed.within(word))


def _remarks(computed: Computed[EstimateForm], form: ResolvedEstimate) -> Iterable[str]:
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
        computed.has("dead_fines_pct_dry")
        and form.together is not None
        and form.washed_pct_dry is not None
        and form.washed_pct_dry < form.together.value
    ):
        yield "The live clay comes out above all that the wash took, which can't be: repeat the wash. Dead fines are told as none."
    yield from _mulling(computed, form)


def _mulling(computed: Computed[EstimateForm], form: ResolvedEstimate) -> Iterable[str]:
    if computed.has("mulling_efficiency_pct"):
        efficiency = computed.number("mulling_efficiency_pct")
        if efficiency < WELL_MULLED_PCT - 5:
            yield (
                f"Of the clay that could bond, {computed.text('mulling_efficiency_pct')} is at work. A well run muller reaches "
                f"about {WELL_MULLED_PCT:g} (from memory): mull longer before adding clay."
            )
        else:
            yield f"Of the clay that could bond, {computed.text('mulling_efficiency_pct')} is at work, as in a well run muller."
    known_clay = form.clay_blue_pct_dry is not None or form.clay_book_pct_dry is not None
    if known_clay and form.compactability_read_pct is not None and not _holds(form):
        low, high = estimates.CLAY_HOLDS_PCT
        yield f"Its moisture fully mulled is left out: the published equilibrium holds for {low:g} to {high:g} % of clay."
    if computed.has("equilibrium_moisture_pct_wet") and form.moisture_pct_wet is not None:
        over = form.moisture_pct_wet - computed.number("equilibrium_moisture_pct_wet")
        if over > 0.3:
            yield (
                f"Fully mulled it would need {computed.text('equilibrium_moisture_pct_wet')} of water for that compactability; it "
                f"holds {over:.1f} points more. Mull on, or look for dead fines that drink it."
            )


def _working(computed: Computed[EstimateForm], form: ResolvedEstimate) -> Iterable[str]:
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
    if computed.has("dead_fines_pct_dry"):
        yield f"dead fines = wash − live clay = {form.washed_pct_dry:g} − {computed.number('clay_pct_dry'):.2f} %"
    if computed.has("available_bond_pct"):
        available = computed.number("available_bond_pct")
        yield f"available bond = 0.105 × {form.strength_psi:.2f} psi + 1.316 × {form.moisture_pct_wet:g} = {available:.3f} %"
    if computed.has("working_bond_pct"):
        below = f"(132.1 − {form.compactability_read_pct:g})"
        yield f"working bond = 15.29 × {form.strength_psi:.2f} psi / {below} = {computed.number('working_bond_pct'):.3f} %"
    if computed.has("equilibrium_moisture_pct_wet") and form.compactability_read_pct is not None:
        per = estimates.clay_per_moisture(form.compactability_read_pct)
        yield f"moisture fully mulled = clay / {per:.4f} = {to_figures(computed.number('equilibrium_moisture_pct_wet'), 4)} %"


def _next(computed: Computed[EstimateForm]) -> tuple[Next, ...]:
    if not computed.has("clay_pct_dry"):
        return ()
    words = {"clay_pct_dry": "clay_pct_dry"}
    words |= {"dead_fines_pct_dry": "dead_fines_pct_dry"} if computed.has("dead_fines_pct_dry") else {}
    return (Next(job="rebond", label="What must go back into it?", inputs=computed.carried_as_sure(**words)),)
