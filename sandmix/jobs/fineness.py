"""The job *fineness*: how fine the grain is, and on which sieves it lies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from .. import bench, fineness, stack
from ..doubt import Band
from ..forms.fineness import Fineness
from ..job import Chart, Figures, Job, Lead, Needs, Telling, Told
from ..wording import to_figures
from .grading_chart import grading_chart, listed

_GOOD_SCREENS = 3
LOSS_PCT = 0.3
"""Up to here a loss in the sieves is within what a laboratory may have with aggregates. Source: astm_c136."""
MUCH_LOSS_PCT = 1.0
"""From here a loss in the sieves is worth a second sieving (own choice)."""
_NO_BALANCE = 2.0
_WIDE = 0.1
_CLOSE = 1.0
"""A band narrower than this is no worry: sieving itself leaves as much (own choice)."""
_MEAN = 0.05


def run(form: Fineness) -> Figures:
    """Return the figures of the grain, what the wash took where it was weighed, and what was lost where the sample was."""
    assert form.retained is not None
    retained = form.retained
    series = stack.series_of(retained, form.unnamed_sieves)
    number = fineness.gfn(series)
    figures: Figures = {
        "gfn": number,
        "mean_um": fineness.mean_um(number),
        "surface_cm2_g": fineness.surface_cm2_g(series),
    }
    if stack.is_of_the_series(retained):
        figures |= {
            "screens": fineness.screens(retained),
            "gaps": fineness.gaps(retained),
            "passing": fineness.passing_pct(retained),
        }
    else:
        figures["passing"] = stack.passing_pct(retained)
    if _is_open(form):
        figures["gfn_estimate"] = stack.estimate(retained, form.unnamed_sieves)
    return figures | _balance(form)


def _balance(form: Fineness) -> Figures:
    """What the wash took and what was lost, in percent; no loss where sieves and sample can't be in the same unit."""
    assert form.retained is not None
    figures: Figures = {}
    held, washed, sample = fineness.total(form.retained), form.clay_washed_g, form.sample_g
    if washed is not None:
        figures["washed_pct_dry"] = 100 * washed / (washed + held)
    if sample is not None and 1 / _NO_BALANCE <= (held + (washed or 0.0)) / sample <= _NO_BALANCE:
        figures["sieve_loss_pct"] = 100 * (sample - held - (washed or 0.0)) / sample
    return figures


def _is_open(form: Fineness) -> bool:
    """Whether gradings of more than one number agree with the readings."""
    assert form.retained is not None
    low, high = stack.band(form.retained, form.unnamed_sieves)
    return high - low > 1e-9 * high


def known(form: Fineness) -> Mapping[str, Band]:
    """The bands that the sieves leave: of the number those of all gradings that agree with them, of what was lost that of the scale."""
    assert form.retained is not None
    low, high = stack.band(form.retained, form.unnamed_sieves)
    number = stack.number(form.retained, form.unnamed_sieves)
    low, high = min(low, number), max(high, number)
    bands = {
        "gfn": (low, high),
        "gfn_estimate": (low, high),
        "mean_um": ((1 - _MEAN) * fineness.mean_um(high), (1 + _MEAN) * fineness.mean_um(low)),
    }
    loss = _balance(form).get("sieve_loss_pct")
    if not isinstance(loss, float) or form.sample_g is None:
        return bands
    readings = len(form.retained) + 1 + (form.clay_washed_g is not None)
    off = 100 * math.sqrt(readings) * bench.reading_error_g(form.scale_step_g) / form.sample_g
    return bands | {"sieve_loss_pct": (loss - off, loss + off)}


def needs(form: Fineness, figures: Figures) -> Needs:
    """What the wash took and the sample must be weighed to be told."""
    return {"washed_pct_dry": ("clay_washed_g",), "sieve_loss_pct": ("sample_g",)}


def tell(told: Told[Fineness]) -> Telling:
    """Say how fine the grain is and how it is spread."""
    return Telling(
        headline=_headline(told),
        state=_state(told),
        lead=Lead(
            word="gfn",
            label="Fineness",
            text=told.text("gfn"),
            then=told.range("gfn") or f"some {told.text('mean_um')}, ± 5 %",
        ),
        remarks=(*_remarks(told), *_stack_remarks(told), *_loss_remarks(told), *_last_remarks(told)),
        working=tuple(_working(told)),
        charts=(_chart(told),) if told.figures["passing"] else (),
    )


def _headline(told: Told[Fineness]) -> str:
    start = f"Grain fineness number {told.text('gfn')}, some {told.text('mean_um')}"
    if not told.has("screens"):
        return f"{start}, read off between the openings."
    count = len(_names(told, "screens"))
    return f"{start}, on {'no screen' if count == 0 else 'one screen' if count == 1 else f'{count} screens'}."


def _state(told: Told[Fineness]) -> tuple[str, str]:
    low, high = told.doubt.get("gfn", (0.0, 0.0))
    if high - low > _WIDE * told.number("gfn"):
        return "too few sieves", "care"
    if not told.has("screens"):
        return "read off", "plain"
    well = len(_names(told, "screens")) >= _GOOD_SCREENS and not _names(told, "gaps")
    return ("well spread", "go") if well else ("look at the spread", "care")


def _names(told: Told[Fineness], word: str) -> list[str]:
    value = told.figures[word]
    assert isinstance(value, list)
    return [str(name) for name in value]


def _remarks(told: Told[Fineness]) -> Iterable[str]:
    if not told.has("screens"):
        yield (
            "Some of these sieves are not of the series, so the number is a best guess between their openings, and "
            "screens and gaps are left out: they are counted on the series alone."
        )
        return
    retained = told.form.retained
    assert retained is not None
    screens, gaps = _names(told, "screens"), _names(told, "gaps")
    sieved = [number for number in gaps if number in retained or told.form.unnamed_sieves == stack.EMPTY]
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


def _stack_remarks(told: Told[Fineness]) -> Iterable[str]:
    form = told.form
    assert form.retained is not None
    left_out = fineness.missing(form.retained) if told.has("screens") and form.unnamed_sieves is None else []
    if left_out:
        yield (
            f"Not named, so taken as empty: {listed(left_out)}. If you have no such sieve, its grain lies on the next "
            "finer one, and the number is a little too high."
        )
    if told.has("gfn_estimate"):
        low, high = told.doubt["gfn"]
        narrower = stack.next_sieve(form.retained, form.unnamed_sieves)
        if high - low < _CLOSE:
            yield f"The sieves that are missing move the number by no more than {to_figures(high - low, 1)}."
        else:
            yield _wide_remark(told, low, high, narrower)
    if fineness.PAN not in form.retained:
        yield "The pan is not named, so it counts as empty. A little in the pan moves the number a lot."


def _wide_remark(told: Told[Fineness], low: float, high: float, narrower: tuple[str, float] | None) -> str:
    """How far apart the sands are that read like this, and the sieve that would part them best."""
    left = "" if narrower is None else f"some {narrower[1]:.0f}" if narrower[1] >= _CLOSE else "less than 1"
    better = f" A sieve No. {narrower[0]} would help most: it would leave {left} between the two." if narrower else ""
    return (
        f"Without the sieves that are missing, sands of {low:.0f} to {high:.0f} all read like this; the best guess "
        f"is {told.text('gfn_estimate')}.{better}"
    )


def _loss_remarks(told: Told[Fineness]) -> Iterable[str]:
    form = told.form
    assert form.retained is not None
    if form.sample_g is None:
        return
    held = fineness.total(form.retained)
    if not told.has("sieve_loss_pct"):
        yield (
            f"The sieves hold {held:g} against a sample of {form.sample_g:g} g, so nothing is said of a loss. It can be "
            "told where both are in grams of the same sample."
        )
        return
    loss, off = told.number("sieve_loss_pct"), told.half_width("sieve_loss_pct")
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


def _last_remarks(told: Told[Fineness]) -> Iterable[str]:
    if told.form.clay_washed_g is not None:
        yield (
            "What was washed out never counts in the fineness number. Its share holds where the sieves too are in "
            "grams of that same sample."
        )
    else:
        yield "Clay must be washed out before sieving: what sticks to the grain makes it look coarser."
    yield "The number is one figure of many sands: two with the same number may pack quite unlike. Compare the sieves too."


def _working(told: Told[Fineness]) -> Iterable[str]:
    form = told.form
    assert form.retained is not None
    series = stack.series_of(form.retained, form.unnamed_sieves)
    if not stack.is_of_the_series(form.retained):
        yield "between two openings what passes is read off straight on a scale of log size, at the openings of the series"
    products = [f"{held:.6g} × {fineness.SIEVES[number].multiplier:g}" for number, held in series.items() if held > 0]
    yield f"fineness number = ({' + '.join(products)}) / {fineness.total(series):.6g} = {told.number('gfn'):.2f}"
    yield f"mean size = {fineness.MEAN_UM_PER_GFN:g} / {told.number('gfn'):.2f} = {told.number('mean_um'):.0f} µm"
    yield f"surface = sum of share × 6/(ρ d), ρ 2650 kg/m³ = {told.number('surface_cm2_g'):.0f} cm²/g"
    if told.has("sieve_loss_pct"):
        yield (
            f"lost = 100 × ({form.sample_g:g} − {form.clay_washed_g or 0:g} − {fineness.total(form.retained):.6g}) / "
            f"{form.sample_g:g} = {told.number('sieve_loss_pct'):.2f} %"
        )


def _chart(told: Told[Fineness]) -> Chart:
    assert told.form.retained is not None
    if not told.has("screens"):
        return grading_chart(
            told.form.retained, "What is counted as screens is left out: it takes the sieves of the series."
        )
    return grading_chart(told.form.retained, f"Screens: {listed(_names(told, 'screens')) or 'none'}.")


JOB = Job(
    name="fineness",
    short="Grain",
    title="How fine is the sand?",
    form=Fineness,
    run=run,
    known=known,
    tell=tell,
    answers=(
        "gfn",
        "gfn_estimate",
        "mean_um",
        "screens",
        "gaps",
        "passing",
        "surface_cm2_g",
        "washed_pct_dry",
        "sieve_loss_pct",
    ),
    needs=needs,
    example={
        "retained": "30: 0.6; 40: 3.2; 50: 9.8; 70: 19.5; 100: 11.7; 140: 2.4; 200: 0.5; 270: 0.1; pan: 0.1",
        "clay_washed_g": "2.1 g",
        "sample_g": "50.1 g",
    },
    story="Fifty grams of used sand, washed, dried, and shaken through the nest of sieves for a quarter of an hour.",
)
