"""What *rebond* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DRYING, DUST, HOT_SAND, Caution
from sandmix.asking.job import Lead, Next, Telling, Told
from sandmix.drawings import composition_bar
from sandmix.jobs.rebond import several_materials
from sandmix.jobs.rebond.form import Rebond, heap_of, plan_of
from sandmix.jobs.shared.bought import is_untested
from sandmix.jobs.shared.doses import dosed, stop_limit, wet_mould
from sandmix.language.wording import raised
from sandmix.recipes import rebond, rebond_lp


def tell(told: Told[Rebond]) -> Telling:
    """Say what to take out and put in."""
    parts = [f"discard {told.text('discard_kg')}"] if told.number("discard_kg") > 0 else []
    added = _added(told)
    parts += [f"add {', '.join(added)}"] if added else []
    parts += [f"dry off {told.text('water_to_lose_kg')} of water"] if told.number("water_to_lose_kg") > 0 else []
    if not parts:
        headline, state = "Nothing to put back: the heap is at its target.", ("nothing to do", "go")
    else:
        headline, state = (
            f"{raised('; '.join(parts))}.",
            ("put back", "care" if told.number("discard_kg") > 0 else "go"),
        )
    return Telling(
        headline=headline,
        state=state,
        lead=_lead(told),
        remarks=tuple(_remarks(told)),
        cautions=tuple(_cautions(told)),
        working=tuple(_working(told)),
        drawings=_strips(told),
        next=_next(told),
    )


def _added(told: Told[Rebond]) -> list[str]:
    words = (("sand_kg", "sand"), ("clay_kg", "clay"), ("water_kg", "water"))
    if told.form.materials is not None:
        return several_materials.added(told) + (
            [f"{told.text('water_kg')} water"] if told.number("water_kg") > 0 else []
        )
    return [f"{told.text(word)} {name}" for word, name in words if told.number(word) > 0]


def _plan_of(form: Rebond) -> rebond.Plan | rebond_lp.Plan:
    plan = plan_of(form) if form.materials is None else several_materials.plan_of(form)
    assert isinstance(plan, (rebond.Plan, rebond_lp.Plan))
    return plan


def _lead(told: Told[Rebond]) -> Lead:
    if told.number("clay_kg") > 0:
        return Lead(
            word="first_clay_kg",
            label="Clay first",
            text=told.text("first_clay_kg"),
            then=", ".join(filter(None, (f"{told.text('clay_kg')} in all", told.within("clay_kg")))),
        )
    for word, label in (("discard_kg", "Discard"), ("water_to_lose_kg", "Dry off"), ("first_water_kg", "Water first")):
        if told.number(word) > 0:
            return Lead(word=word, label=label, text=told.text(word), then=told.within(word))
    for word, label in (("sand_kg", "Sand"), ("mix_kg", "Fresh mix"), ("additive_kg", "Additive")):
        if told.form.materials is not None and told.number(word) > 0:
            return Lead(word=word, label=label, text=told.text(word), then=told.within(word))
    return Lead(word="clay_kg", label="Clay to add", text="none")


def _next(told: Told[Rebond]) -> tuple[Next, ...]:
    if told.number("sand_kg") + told.number("clay_kg") == 0:
        return ()
    wanted = told.carried(sand_kg="sand_kg", clay_kg="clay_kg")
    return (Next(job="shopping", label="How many bags is that?", inputs=wanted),)


_WHY = {
    rebond.MASS: (
        "What is added leaves no room for the whole heap: that, and no limit, is what forces {discard} out. Ask for "
        "a larger mass to keep it all."
    ),
    rebond.LIVE_CLAY: (
        "The heap holds more live clay than wanted: that is what forces {discard} out. New sand in its place, or a "
        "larger mass, brings it down."
    ),
    rebond.DEAD_FINES: "Dead fines are what force {discard} out: only new sand in place of old brings them down.",
    **several_materials.WHY,
}


def _remarks(told: Told[Rebond]) -> Iterable[str]:
    form = told.form
    if told.number("discard_kg") > 0:
        plan = _plan_of(form)
        scarce = plan.scarce if isinstance(plan, rebond_lp.Plan) else ""
        yield _WHY[plan.binding].format(discard=told.text("discard_kg"), scarce=scarce)
    yield from several_materials.not_counted(told) if form.materials is None else several_materials.remarks(told)
    if form.dead_fines_pct_dry is None:
        yield "Dead fines are not given, so no limit on them is kept to. A wash test, less the live clay, tells them."
    if told.number("clay_kg") > 0:
        yield (
            f"Add half of the clay, {told.text('first_clay_kg')}, mull and test; then the rest. The present clay is "
            "the least certain figure here."
        )
    yield from dosed(told, "Then" if told.number("clay_kg") > 0 else "First")
    yield from stop_limit(told.form.target_moisture_pct_wet)
    if told.number("water_to_lose_kg") > 0:
        yield (
            f"It holds too much water by {told.text('water_to_lose_kg')}: dry it before you add anything. No sand "
            "is thrown away for being wet."
        )
    if form.materials is None and is_untested(told.filled):
        yield (
            "The live share of the granules is not known: the plan counts them as 85 % live, and the band reaches "
            "to 50. Test between the steps."
        )


def _cautions(told: Told[Rebond]) -> Iterable[Caution]:
    yield from wet_mould(told.form.target_moisture_pct_wet)
    yield HOT_SAND
    yield DUST
    if told.number("water_to_lose_kg") > 0:
        yield DRYING


def _working(told: Told[Rebond]) -> Iterable[str]:
    form = told.form
    if form.materials is not None:
        yield from several_materials.working(told)
        return
    plan = plan_of(form)
    assert isinstance(plan, rebond.Plan) and form.heap_kg is not None and form.target_kg is not None
    dry, kept = plan.after.dry_kg, 1 - plan.discard_kg / form.heap_kg
    yield f"dry mass wanted = {form.target_kg:g} × (1 − {form.target_moisture_pct_wet:g} / 100) = {dry:.3f} kg"
    yield f"share of the heap that stays = {kept:.4f}; what binds: {plan.binding.replace('_', ' ')}"
    yield (
        f"live clay wanted {plan.after.live_clay_kg:.3f} kg, kept "
        f"{plan.after.live_clay_kg - told.number('clay_kg') * (1 - form.clay_moisture_pct_wet / 100) * form.activity_pct / 100:.3f} "
        f"kg; clay as bought {told.number('clay_kg'):.3f} kg"
    )
    yield f"sand as bought {told.number('sand_kg'):.3f} kg; water to add {told.number('water_kg'):.3f} kg"


def _strips(told: Told[Rebond]) -> dict[str, str]:
    plan = _plan_of(told.form)
    before = heap_of(told.form)
    full = max(before.dry_kg, plan.after.dry_kg)
    strips = {
        "before": composition_bar.draw(before, "rebond-before", "The heap now", full_dry_kg=full),
        "after": composition_bar.draw(plan.after, "rebond-after", "The heap afterwards", full_dry_kg=full),
    }
    if plan.discard_kg > 0:
        strips["discarded"] = composition_bar.draw(
            plan.discarded, "rebond-discarded", "What is taken out", full_dry_kg=full
        )
    return strips
