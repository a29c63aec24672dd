"""What *tin* says about the line behind its dose: whose slope it is, how many tests make it exact, and which tests did not fit."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, WayOut
from sandmix.bench import estimates, tin_dosing
from sandmix.jobs.tin.form import ResolvedTin


def remarks(computed: Computed[ResolvedTin]) -> Iterable[str]:
    """Say whose slope it is and what is wrong or missing in the tests behind it."""
    form, line = computed.form, computed.form.line
    if not form.own_slope:
        yield _whose(computed)
        yield from _to_go(form)
    if line.left_out:
        tests = "1 test does" if len(line.left_out) == 1 else f"{len(line.left_out)} tests do"
        yield WayOut(
            f"{tests} not fit the line through all the others, by more than three times the usual error, and is left out. Look for a mistake in "
            "the book's entry."
            if len(line.left_out) == 1
            else f"{tests} not fit the line through all the others, by more than three times the usual error, and are left out. Look for mistakes "
            "in the book's entries."
        )
    if line.grown > 1:
        yield f"Your tests scatter more than their errors allow, so each error is taken as {line.grown:.1f} times as large."
    if form.past and form.past.other_tin:
        yield WayOut(
            "This tin or rammer is not the one in the book, so the book's tin tests are not used. A slope is that of one tin."
        )
    if form.past and form.past.ahead:
        yield f"{form.past.ahead} of the book's tin tests are in the future and not used. Check the clock, or their dates."
    if form.tin is not None and not form.tin.is_standard:
        yield (
            f"{form.tin.sentences} A slope of your own holds for your tin as it is; the general slope and the working range of "
            f"{tin_dosing.WORKING_PCT[0]:g} to {tin_dosing.WORKING_PCT[1]:g} % are for the standard."
        )


def _whose(computed: Computed[ResolvedTin]) -> str:
    line = computed.form.line
    low, high = line.slope_band
    slope = f"{line.slope:.0f} points per 1 % of water ({low:.0f} to {high:.0f})"
    if not line.points and not line.differences:
        return f"The slope is {slope}: a general one from memory. None of it is from your own tests yet."
    own = " and ".join(
        f"{count} own {name}{'' if count == 1 else 's'}"
        for count, name in ((len(line.points), "pair"), (len(line.differences), "step"))
        if count
    )
    return f"The slope is {slope}, from {own}; {100 * line.prior_share:.0f} % of what is known of it is still the general one."


def _to_go(form: ResolvedTin) -> Iterable[str]:
    """What makes the dose of a usual step as exact as an oven test."""
    line = form.line
    pairs = tin_dosing.pairs_to_go(line)
    steps = tin_dosing.pairs_to_go(line, tin_dosing.step_information(line.slope))
    what = f"a dose for {tin_dosing.USUAL_STEP_PCT:g} points of compactability is known to ± {tin_dosing.USEFUL_PCT:g} points of moisture"
    if pairs == 0:
        return
    if steps is None:
        yield "Your sand moves so little in the tin that no number of tests makes it as exact as an oven test. Take the mean of two readings."
        return
    by_pairs = "" if pairs is None else f", or about {pairs} more pairs of tin test and oven test,"
    count = "one step" if steps == 1 else f"{steps} steps"
    yield (
        f"With {count} of 1 % water{by_pairs} {what}. A step: read the tin, mull 10 g of water into each kilogram of a sample for ten minutes, "
        "and read the tin again. Enter it here under “more”."
    )


def working(form: ResolvedTin) -> Iterable[str]:
    """The line that was learned, and the published one for the heap's clay."""
    line = form.line
    if line.points:
        height, half = line.y_at(line.grid.centre)
        yield (
            f"own line: {height:.1f} ± {half:.1f} % compactability at {line.grid.centre:.2f} % moisture (of the wet mass), "
            f"{line.slope:.1f} points per 1 %"
        )
    if form.past is None:
        return
    clay = form.past.state.sand.clay_pct_dry
    if estimates.clay_holds(clay):
        slopes = [tin_dosing.equilibrium_slope(clay, at) for at in (50.0, 40.0)]
        yield (
            f"published line of many fully mulled sands at {clay:.1f} % live clay (of the dry mass): {slopes[0]:.0f} points per 1 % at a "
            f"compactability of 50, {slopes[1]:.0f} at 40"
        )
