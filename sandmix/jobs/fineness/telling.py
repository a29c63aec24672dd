"""What *fineness* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Chart, Computed, Lead, Next, Telling
from sandmix.jobs.fineness.form import FinenessForm
from sandmix.jobs.shared.grading_chart import grading_chart, listed
from sandmix.language.wording import to_figures
from sandmix.materials import fineness, partial_sieves

_GOOD_SCREENS = 3
LOSS_PCT = 0.3
"""The largest loss in the sieves that a laboratory may have with aggregates. Source: astm_c136."""
MUCH_LOSS_PCT = 1.0
"""From this loss on, sieve again (own choice)."""
SPREAD_BADLY = "look at the spread"
_WIDE = 0.1
_CLOSE = 1.0
"""A narrower band does not matter: sieving itself has this error (own choice)."""


def tell(computed: Computed[FinenessForm]) -> Telling:
    """Say how fine the grain is and how it is spread over the sieves."""
    return Telling(
        headline=_headline(computed),
        state=_state(computed),
        lead=Lead(
            word="gfn",
            label="Fineness",
            text=computed.text("gfn"),
            then=computed.range("gfn") or f"about {computed.text('mean_um')}, ± 5 %",
        ),
        remarks=(
            *_remarks(computed),
            *_stack_remarks(computed),
            *_loss_remarks(computed),
            *_last_remarks(computed.form),
        ),
        working=tuple(_working(computed)),
        charts=(_chart(computed),) if computed.figures["passing"] else (),
        next=tuple(_next(computed)),
    )


def _next(computed: Computed[FinenessForm]) -> Iterable[Next]:
    """A blend, where the grain is badly spread; and whether gas gets through it."""
    if _state(computed)[0] == SPREAD_BADLY:
        yield Next(job="match", label="Blend in another sand")
    yield Next(job="bench", label="Test how gas gets through it", inputs={"test": "permeability"})


def _headline(computed: Computed[FinenessForm]) -> str:
    start = f"Grain fineness number {computed.text('gfn')}, about {computed.text('mean_um')}"
    if not computed.has("screens"):
        return f"{start}, estimated between the openings."
    count = len(fineness.screens(computed.form.retained))
    return f"{start}, on {'no screen' if count == 0 else 'one screen' if count == 1 else f'{count} screens'}."


def _state(computed: Computed[FinenessForm]) -> tuple[str, str]:
    low, high = computed.doubt.get("gfn", (0.0, 0.0))
    if high - low > _WIDE * computed.number("gfn"):
        return "too few sieves", "care"
    if not computed.has("screens"):
        return "read off", "plain"
    retained = computed.form.retained
    well = len(fineness.screens(retained)) >= _GOOD_SCREENS and not fineness.gaps(retained)
    return ("well spread", "go") if well else (SPREAD_BADLY, "care")


def _remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    if not computed.has("screens"):
        yield (
            "Some of these sieves do not belong to the series, so the number is a best guess between their openings. "
            "Screens and gaps are left out, because they are only defined on the series."
        )
        return
    retained = computed.form.retained
    screens, gaps = fineness.screens(retained), fineness.gaps(retained)
    sieved = [number for number in gaps if number in retained or computed.form.unnamed_sieves == partial_sieves.EMPTY]
    if gaps and not sieved:
        yield f"The gap at {listed(gaps)} may not be real: you did not name that sieve, so nobody knows what it would hold."
    elif gaps:
        yield (
            f"There is a gap between the screens: less than a tenth on {listed(gaps)}. Sand with a gap packs less evenly. "
            "To close it, blend in a sand of that size."
        )
    elif 0 < len(screens) < _GOOD_SCREENS:
        yield (
            f"Nearly all of it is on {listed(screens)}: grain of one size expands all at once when heated. "
            "With three or more screens it expands more evenly."
        )


def _stack_remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    left_out = fineness.missing(form.retained) if computed.has("screens") and form.unnamed_sieves is None else []
    if left_out:
        yield (
            f"Not named, so counted as empty: {listed(left_out)}. If you have no such sieve, its grain is on the next "
            "finer one, and the number is a little too high."
        )
    if computed.has("gfn_estimate"):
        low, high = computed.doubt["gfn"]
        narrower = partial_sieves.next_sieve(form.retained, form.unnamed_sieves)
        if high - low < _CLOSE:
            yield f"The missing sieves change the number by at most {to_figures(high - low, 1)}."
        else:
            yield _wide_remark(computed, low, high, narrower)
    if fineness.PAN not in form.retained:
        yield "You did not name the pan, so it counts as empty. A little in the pan changes the number a lot."


def _wide_remark(computed: Computed[FinenessForm], low: float, high: float, narrower: tuple[str, float] | None) -> str:
    """How different the sands can be that give these readings, and the sieve that would narrow this most."""
    left = "" if narrower is None else f"about {narrower[1]:.0f}" if narrower[1] >= _CLOSE else "less than 1"
    better = f" A No. {narrower[0]} sieve would help most: the range would then be {left} wide." if narrower else ""
    return (
        f"Because sieves are missing, sands with numbers from {low:.0f} to {high:.0f} all give these readings; the best guess "
        f"is {computed.text('gfn_estimate')}.{better}"
    )


def _loss_remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    if form.sample_g is None:
        return
    held = fineness.total(form.retained)
    if not computed.has("sieve_loss_pct"):
        yield (
            f"The sieves hold {held:g} and the sample is {form.sample_g:g} g, so the loss is left out. To see it, give both "
            "in grams of the same sample."
        )
        return
    loss, off = computed.number("sieve_loss_pct"), computed.half_width("sieve_loss_pct")
    if form.clay_washed_g and abs(held / form.sample_g - 1) < abs(loss) / 200:
        yield (
            "The sample seems to be weighed after the wash: the sieves alone add up to it. Enter its weight before "
            "the wash, or leave out what was washed."
        )
    elif abs(loss) <= max(MUCH_LOSS_PCT, off):
        yield (
            f"After sieving, {abs(loss):.1f} % of the sample is {'missing' if loss >= 0 else 'too much'} (± {off:.1f} from the scale). "
            f"For aggregates {LOSS_PCT:g} % is allowed. From {MUCH_LOSS_PCT:g} % on, sieve again."
        )
    elif loss > 0:
        yield (
            f"Sieving lost {loss:.1f} % of the sample. Brush out the sieves, look for spilt sand, and sieve again. Dust that "
            "blew away makes the sand look coarser."
        )
    else:
        yield (
            f"The sieves hold {-loss:.1f} % more than the sample. Look for grain left from an earlier sand, or a tray "
            "weighed with the sand."
        )


def _last_remarks(form: FinenessForm) -> Iterable[str]:
    if form.clay_washed_g is not None:
        yield (
            "What was washed out never counts in the fineness number. Its percent is right only if the sieves are in "
            "grams of the same sample."
        )
    else:
        yield "Clay must be washed out before sieving: what sticks to the grain makes it look coarser."
    yield "Different sands can have the same number and still pack differently. Compare the sieve results too."


def _working(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    series = partial_sieves.series_of(form.retained, form.unnamed_sieves)
    if not partial_sieves.is_of_the_series(form.retained):
        yield "between two openings, what passes is a straight line on a log scale of size, read at the openings of the series"
    products = [f"{held:.6g} × {fineness.SIEVES[number].multiplier:g}" for number, held in series.items() if held > 0]
    yield f"fineness number = ({' + '.join(products)}) / {fineness.total(series):.6g} = {computed.number('gfn'):.2f}"
    yield f"mean size = {fineness.MEAN_UM_PER_GFN:g} / {computed.number('gfn'):.2f} = {computed.number('mean_um'):.0f} µm"
    yield f"surface = sum of share × 6/(ρ d), with ρ = 2650 kg/m³ = {computed.number('surface_cm2_g'):.0f} cm²/g"
    if computed.has("sieve_loss_pct"):
        yield (
            f"lost = 100 × ({form.sample_g:g} − {form.clay_washed_g or 0:g} − {fineness.total(form.retained):.6g}) / "
            f"{form.sample_g:g} = {computed.number('sieve_loss_pct'):.2f} %".replace("-", "−")
        )


def _chart(computed: Computed[FinenessForm]) -> Chart:
    retained = computed.form.retained
    if not computed.has("screens"):
        return grading_chart(retained, "Screens are left out: they need the sieves of the series.")
    return grading_chart(retained, f"Screens: {listed(fineness.screens(retained)) or 'none'}.")
