"""What *estimate* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.bench import estimates
from sandmix.jobs.estimate.figures import equilibrium_holds
from sandmix.jobs.estimate.form import ResolvedEstimate, clay_by_test, middles
from sandmix.language.wording import list_of, to_figures
from sandmix.vocabulary import WORDS

_NAMES = {
    "clay_blue_pct_dry": "methylene blue",
    "clay_washed_pct_dry": "the wash less dead fines",
    "clay_book_pct_dry": "the book",
    "clay_mulled_pct_dry": "moisture with compactability",
}


def tell(computed: Computed[ResolvedEstimate]) -> Telling:
    """Say how much live clay there is, whether the tests agree, and how well the clay is mulled in."""
    return Telling(
        headline=_headline(computed),
        state=_state(computed.form),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=tuple(_remarks(computed)),
        cautions=(DUST,) if computed.form.washed_pct_dry is not None else (),
        working=tuple(_working(computed)),
        next=_next(computed),
    )


def _state(form: ResolvedEstimate) -> tuple[str, str]:
    if form.together is None:
        return "mulling", "plain"
    if not form.together.agrees:
        return "they disagree", "care"
    return ("estimated", "go") if len(form.half_widths) > 1 else ("one way alone", "plain")


def _headline(computed: Computed[ResolvedEstimate]) -> str:
    form = computed.form
    if form.together is None:
        return f"{WORDS[_lead(computed).word].label}: {_lead(computed).text}."
    live = f"{computed.text('clay_pct_dry')} live clay in the dry sand ({computed.within('clay_pct_dry')})"
    if not form.together.agrees:
        return f"The tests disagree. Combined they give {live}."
    if list(form.half_widths) == ["clay_mulled_pct_dry"]:
        low, high = computed.doubt["clay_pct_dry"]
        read = computed.number("clay_mulled_pct_dry")
        return (
            f"{low:.1f} to {high:.1f} % live clay in the dry sand, from moisture with compactability alone: {read:.1f} % if it is "
            "mulled as well as in a foundry, less if it is mulled by hand."
        )
    return f"{live}, from {list_of([_NAMES[key] for key in form.half_widths], 'and')}."


def _lead(computed: Computed[ResolvedEstimate]) -> Lead:
    word = next(
        word
        for word in ("clay_pct_dry", "mulling_efficiency_pct", "working_bond_pct", "available_bond_pct")
        if computed.has(word)
    )
    return Lead(word=word, label=WORDS[word].label, text=computed.text(word), then=computed.within(word))


def _to_do(computed: Computed[ResolvedEstimate]) -> Iterable[ToDo]:
    """Repeat a test where they disagree, and mull longer where clay is not worked in."""
    together = computed.form.together
    if together is not None and not together.agrees:
        yield ToDo(text="Repeat the test that you trust least")
    if _is_mulled_badly(computed):
        yield ToDo(
            text="Mull longer before you add clay: of the clay that could bond, only this much does",
            amount=computed.text("mulling_efficiency_pct"),
        )


def _is_mulled_badly(computed: Computed[ResolvedEstimate]) -> bool:
    word = "mulling_efficiency_pct"
    return computed.has(word) and computed.number(word) < estimates.WELL_MULLED_PCT - 5


def _remarks(computed: Computed[ResolvedEstimate]) -> Iterable[str]:
    form, together = computed.form, computed.form.together
    found = middles(form)
    if together is not None and not together.agrees:
        each = ", ".join(f"{_NAMES[key]} {live:.1f} ± {form.half_widths[key]:.1f} %" for key, live in found.items())
        yield WayOut(
            f"The tests differ by more than their ± explains: {each}. One of them is wrong, and the mean cannot show which. The ± is widened "
            f"{together.ratio:.1f} times. Repeat the test you trust least."
        )
    if "clay_washed_pct_dry" in form.half_widths and form.dead_fines_pct_dry is None:
        yield (
            "The wash less ash counts all other fines as live clay, as if none had burnt. In used sand it is too high, so its ± is at least "
            f"{estimates.ASH_SCATTER:g} points."
        )
    if form.washed_pct_dry is not None and form.dead_pct_dry is None:
        yield f"The wash took {form.washed_pct_dry:g} %: live clay cannot be more than that; the wash is not used for anything else here."
    if "clay_mulled_pct_dry" in form.half_widths:
        yield (
            "Sand that is mulled worse than in a foundry gets too much clay from moisture and compactability, never too little: its water is not "
            f"all in the clay. By hand about {estimates.BY_HAND_PCT:g} % of the clay is worked in, in a well run muller "
            f"{estimates.WELL_MULLED_PCT:g} % (both from memory), so the range reaches down to {estimates.BY_HAND_PCT:g}/"
            f"{estimates.WELL_MULLED_PCT:g} of the figure. Its middle is used. A tin that is not rammed as the standard makes it less sure still."
        )
    if (
        computed.has("dead_fines_pct_dry")
        and form.together is not None
        and form.washed_pct_dry is not None
        and form.washed_pct_dry < form.together.value
    ):
        yield WayOut(
            "The live clay is more than the wash took in all, which is not possible: repeat the wash. Dead fines are shown as none."
        )
    yield from _mulling(computed)


def _mulling(computed: Computed[ResolvedEstimate]) -> Iterable[str]:
    form = computed.form
    if computed.has("mulling_efficiency_pct"):
        if _is_mulled_badly(computed):
            yield (
                f"Of the clay that could bond, {computed.text('mulling_efficiency_pct')} does. A well run muller reaches "
                f"about {estimates.WELL_MULLED_PCT:g} % (from memory): mull longer before you add clay."
            )
        else:
            yield f"Of the clay that could bond, {computed.text('mulling_efficiency_pct')} does, as in a well run muller."
    known_clay = form.clay_blue_pct_dry is not None or form.clay_book_pct_dry is not None
    if known_clay and form.compactability_read_pct is not None and not equilibrium_holds(form):
        low, high = estimates.CLAY_HOLDS_PCT
        yield f"The moisture of the fully mulled sand is left out: the published equilibrium holds for {low:g} to {high:g} % clay."
    if computed.has("equilibrium_moisture_pct_wet") and form.moisture_pct_wet is not None:
        over = form.moisture_pct_wet - computed.number("equilibrium_moisture_pct_wet")
        if over > 0.3:
            yield (
                f"Fully mulled it would need {computed.text('equilibrium_moisture_pct_wet')} water (of the wet mass) for that compactability; it "
                f"has {over:.1f} points more. Mull longer, or check for dead fines that take up the water."
            )


def _working(computed: Computed[ResolvedEstimate]) -> Iterable[str]:
    form = computed.form
    found = clay_by_test(form)
    if "clay_washed_pct_dry" in form.half_widths:
        yield f"from the wash: {form.washed_pct_dry:g} − {form.dead_pct_dry:g} = {found['clay_washed_pct_dry']:.2f} %"
    if "clay_mulled_pct_dry" in form.half_widths and form.compactability_read_pct is not None:
        per = estimates.clay_per_moisture(form.compactability_read_pct)
        yield (
            f"from moisture and compactability: {form.moisture_pct_wet:g} × {per:.4f} = {found['clay_mulled_pct_dry']:.2f} % if fully mulled; "
            f"the middle of its range is {middles(form)['clay_mulled_pct_dry']:.2f} %"
        )
    if form.together is not None and len(form.half_widths) > 1:
        parts = " + ".join(f"{middles(form)[key]:.2f}/{half:.2f}²" for key, half in form.half_widths.items())
        below = " + ".join(f"1/{half:.2f}²" for half in form.half_widths.values())
        yield f"combined = ({parts}) / ({below}) = {form.together.value:.2f} %, each weighted by one over its ± squared"
        yield f"Birge ratio √(χ²/(n − 1)) = {form.together.ratio:.2f}; above 1 the ± is multiplied by it"
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
        yield f"moisture of fully mulled sand = clay / {per:.4f} = {to_figures(computed.number('equilibrium_moisture_pct_wet'), 4)} %"


def _next(computed: Computed[ResolvedEstimate]) -> tuple[Next, ...]:
    if not computed.has("clay_pct_dry"):
        return (Next(job="bench", label="Test the live clay", inputs={"test": "methylene_blue"}),)
    words = {"clay_pct_dry": "clay_pct_dry"}
    words |= {"dead_fines_pct_dry": "dead_fines_pct_dry"} if computed.has("dead_fines_pct_dry") else {}
    return (Next(job="rebond", label="What must I add to restore it?", inputs=computed.carried_as_sure(**words)),)
