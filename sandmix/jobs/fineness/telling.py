"""What *fineness* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Chart, Computed, Lead, Telling
from sandmix.jobs.fineness.form import FinenessForm
from sandmix.jobs.shared.grading_chart import grading_chart, listed
from sandmix.language.wording import to_figures
from sandmix.materials import fineness, partial_sieves

_GOOD_SCREENS = 3
LOSS_PCT = 0.3
"""Up to here a loss in the sieves is within what a laboratory may have with aggregates. Source: astm_c136."""
MUCH_LOSS_PCT = 1.0
"""From here a loss in the sieves is worth a second sieving (own choice)."""
_WIDE = 0.1
_CLOSE = 1.0
"""A band narrower than this is no worry: sieving itself leaves as much (own choice)."""


def tell(computed: Computed[FinenessForm]) -> Telling:
    """Say how fine the grain is and how it is spread."""
    return Telling(
        headline=_headline(computed),
        state=_state(computed),
        lead=Lead(
            word="gfn",
            label="Fineness",
            text=computed.text("gfn"),
            then=computed.range("gfn") or f"some {computed.text('mean_um')}, ± 5 %",
        ),
        remarks=(*_remarks(computed), *_stack_remarks(computed), *_loss_remarks(computed), *_last_remarks(computed)),
        working=tuple(_working(computed)),
        charts=(_chart(computed),) if computed.figures["passing"] else (),
    )


def _headline(computed: Computed[FinenessForm]) -> str:
    start = f"Grain fineness number {computed.text('gfn')}, some {computed.text('mean_um')}"
    if not computed.has("screens"):
        return f"{start}, read off between the openings."
    count = len(_names(computed, "screens"))
    return f"{start}, on {'no screen' if count == 0 else 'one screen' if count == 1 else f'{count} screens'}."


def _state(computed: Computed[FinenessForm]) -> tuple[str, str]:
    low, high = computed.doubt.get("gfn", (0.0, 0.0))
    if high - low > _WIDE * computed.number("gfn"):
        return "too few sieves", "care"
    if not computed.has("screens"):
        return "read off", "plain"
    well = len(_names(computed, "screens")) >= _GOOD_SCREENS and not _names(computed, "gaps")
    return ("well spread", "go") if well else ("look at the spread", "care")


def _names(computed: Computed[FinenessForm], word: str) -> list[str]:
    value = computed.figures[word]
    assert isinstance(value, list)
    return [str(name) for name in value]


def _remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    if not computed.has("screens"):
        yield (
            "Some of these sieves are not of the series, so the number is a best guess between their openings, and "
            "screens and gaps are left out: they are counted on the series alone."
        )
        return
    retained = computed.form.retained
    assert retained is not None
    screens, gaps = _names(computed, "screens"), _names(computed, "gaps")
    sieved = [number for number in gaps if number in retained or computed.form.unnamed_sieves == partial_sieves.EMPTY]
    if gaps and not sieved:
        yield f"The gap at {listed(gaps)} may be none: that sieve is not named, so nobody knows what lies there."
    elif gaps:
        yield (
            f"Between the screens there is a gap: {listed(gaps)} below a tenth. Sand with a gap packs less evenly; "
            "blended with a lot that lies there it closes."
        )
    elif 0 < len(screens) < _GOOD_SCREENS:
        yield (
            f"Nearly all of it lies on {listed(screens)}: grain of one size swells all at once when it is heated. "
            "Three screens or more are calmer."
        )


def _stack_remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    assert form.retained is not None
    left_out = fineness.missing(form.retained) if computed.has("screens") and form.unnamed_sieves is None else []
    if left_out:
        yield (
            f"Not named, so taken as empty: {listed(left_out)}. If you have no such sieve, its grain lies on the next "
            "finer one, and the number is a little too high."
        )
    if computed.has("gfn_estimate"):
        low, high = computed.doubt["gfn"]
        narrower = partial_sieves.next_sieve(form.retained, form.unnamed_sieves)
        if high - low < _CLOSE:
            yield f"The sieves that are missing move the number by no more than {to_figures(high - low, 1)}."
        else:
            yield _wide_remark(computed, low, high, narrower)
    if fineness.PAN not in form.retained:
        yield "The pan is not named, so it counts as empty. A little in the pan moves the number a lot."


def _wide_remark(computed: Computed[FinenessForm], low: float, high: float, narrower: tuple[str, float] | None) -> str:
    """How far apart the sands are that read like this, and the sieve that would part them best."""
    left = "" if narrower is None else f"some {narrower[1]:.0f}" if narrower[1] >= _CLOSE else "less than 1"
    better = f" A sieve No. {narrower[0]} would help most: it would leave {left} between the two." if narrower else ""
    return (
        f"Without the sieves that are missing, sands of {low:.0f} to {high:.0f} all read like this; the best guess "
        f"is {computed.text('gfn_estimate')}.{better}"
    )


def _loss_remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    assert form.retained is not None
    if form.sample_g is None:
        return
    held = fineness.total(form.retained)
    if not computed.has("sieve_loss_pct"):
        yield (
            f"The sieves hold {held:g} against a sample of {form.sample_g:g} g, so nothing is said of a loss. It can be "
            "told where both are in grams of the same sample."
        )
        return
    loss, off = computed.number("sieve_loss_pct"), computed.half_width("sieve_loss_pct")
    if form.clay_washed_g and abs(held / form.sample_g - 1) < abs(loss) / 200:
        yield (
            "It looks as if the sample was weighed after the wash: the sieves alone come to it. Give its weight before "
            "the wash, or leave out what was washed."
        )
    elif abs(loss) <= max(MUCH_LOSS_PCT, off):
        yield (
            f"Of the sample {loss:.1f} % is missing after sieving, ± {off:.1f} for the scale. With aggregates {LOSS_PCT:g} % "
            f"is allowed; from {MUCH_LOSS_PCT:g} % on sieve again."
        )
    elif loss > 0:
        yield (
            f"Of the sample {loss:.1f} % was lost in sieving. Brush the meshes out, look for spilt sand, and sieve again: dust "
            "that flew off makes the sand look coarser."
        )
    else:
        yield (
            f"The sieves hold {-loss:.1f} % more than went in. Look for grain stuck from the sand before, or for a tray that "
            "was weighed along."
        )


def _last_remarks(computed: Computed[FinenessForm]) -> Iterable[str]:
    if computed.form.clay_washed_g is not None:
        yield (
            "What was washed out never counts in the fineness number. Its share holds where the sieves too are in "
            "grams of that same sample."
        )
    else:
        yield "Clay must be washed out before sieving: what sticks to the grain makes it look coarser."
    yield "The number is one figure of many sands: two with the same number may pack quite unlike. Compare the sieves too."


def _working(computed: Computed[FinenessForm]) -> Iterable[str]:
    form = computed.form
    assert form.retained is not None
    series = partial_sieves.series_of(form.retained, form.unnamed_sieves)
    if not partial_sieves.is_of_the_series(form.retained):
        yield "between two openings what passes is read off straight on a scale of log size, at the openings of the series"
    products = [f"{held:.6g} × {fineness.SIEVES[number].multiplier:g}" for number, held in series.items() if held > 0]
    yield f"fineness number = ({' + '.join(products)}) / {fineness.total(series):.6g} = {computed.number('gfn'):.2f}"
    yield f"mean size = {fineness.MEAN_UM_PER_GFN:g} / {computed.number('gfn'):.2f} = {computed.number('mean_um'):.0f} µm"
    yield f"surface = sum of share × 6/(ρ d), ρ 2650 kg/m³ = {computed.number('surface_cm2_g'):.0f} cm²/g"
    if computed.has("sieve_loss_pct"):
        yield (
            f"lost = 100 × ({form.sample_g:g} − {form.clay_washed_g or 0:g} − {fineness.total(form.retained):.6g}) / "
            f"{form.sample_g:g} = {computed.number('sieve_loss_pct'):.2f} %"
        )


def _chart(computed: Computed[FinenessForm]) -> Chart:
    assert computed.form.retained is not None
    if not computed.has("screens"):
        return grading_chart(
            computed.form.retained, "What is counted as screens is left out: it takes the sieves of the series."
        )
    return grading_chart(computed.form.retained, f"Screens: {listed(_names(computed, 'screens')) or 'none'}.")
