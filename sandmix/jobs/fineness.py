"""The job *fineness*: how fine the grain is, and on which sieves it lies."""

from __future__ import annotations

from collections.abc import Iterable

from .. import fineness
from ..forms.fineness import Fineness
from ..job import Axis, Chart, Figures, Job, Lead, Limit, Line, Needs, Telling, Told

_GOOD_SCREENS = 3


def run(form: Fineness) -> Figures:
    """Return the figures of the grain, and what the wash took where it was weighed."""
    assert form.retained is not None
    retained = form.retained
    number = fineness.gfn(retained)
    figures: Figures = {
        "gfn": number,
        "mean_um": fineness.mean_um(number),
        "screens": fineness.screens(retained),
        "gaps": fineness.gaps(retained),
        "passing": fineness.passing_pct(retained),
        "surface_cm2_g": fineness.surface_cm2_g(retained),
    }
    if form.clay_washed_g is None:
        return figures
    washed = form.clay_washed_g
    return figures | {"washed_pct_dry": 100 * washed / (washed + fineness.total(retained))}


def needs(form: Fineness, figures: Figures) -> Needs:
    """What the wash took must be weighed to be told."""
    return {"washed_pct_dry": ("clay_washed_g",)}


def tell(told: Told[Fineness]) -> Telling:
    """Say how fine the grain is and how it is spread."""
    count, gaps = len(_names(told, "screens")), _names(told, "gaps")
    spread = "no screen" if count == 0 else "one screen" if count == 1 else f"{count} screens"
    well = count >= _GOOD_SCREENS and not gaps
    return Telling(
        headline=f"Grain fineness number {told.text('gfn')}, some {told.number('mean_um'):.0f} µm, on {spread}.",
        state=("well spread", "go") if well else ("look at the spread", "care"),
        lead=Lead(
            word="gfn", label="Fineness", text=told.text("gfn"), then=f"some {told.number('mean_um'):.0f} µm, ± 5 %"
        ),
        remarks=tuple(_remarks(told)),
        working=tuple(_working(told)),
        charts=(_chart(told),) if told.figures["passing"] else (),
    )


def _names(told: Told[Fineness], word: str) -> list[str]:
    value = told.figures[word]
    assert isinstance(value, list)
    return [str(name) for name in value]


def _remarks(told: Told[Fineness]) -> Iterable[str]:
    form, screens, gaps = told.form, _names(told, "screens"), _names(told, "gaps")
    assert form.retained is not None
    if gaps:
        yield (
            f"Between the screens there is a gap: {_listed(gaps)} below a tenth. Sand with a gap packs less evenly; "
            "blended with a lot that lies there it closes."
        )
    elif 0 < len(screens) < _GOOD_SCREENS:
        yield (
            f"Nearly all of it lies on {_listed(screens)}: grain of one size swells all at once when it is heated. "
            "Three screens or more are calmer."
        )
    if left_out := fineness.missing(form.retained):
        yield (
            f"Not named, so taken as empty: {_listed(left_out)}. If you have no such sieve, its grain lies on the next "
            "finer one, and the number is a little too high."
        )
    if fineness.PAN not in form.retained:
        yield "The pan is not named, so it counts as empty. A little in the pan moves the number a lot."
    if form.clay_washed_g is not None:
        yield (
            "What was washed out never counts in the fineness number. Its share holds where the sieves too are in "
            "grams of that same sample."
        )
    else:
        yield "Clay must be washed out before sieving: what sticks to the grain makes it look coarser."
    yield "The number is one figure of many sands: two with the same number may pack quite unlike. Compare the sieves too."


def _listed(numbers: list[str]) -> str:
    return ", ".join(f"No. {number}" for number in numbers)


def _working(told: Told[Fineness]) -> Iterable[str]:
    retained = told.form.retained
    assert retained is not None
    products = [f"{held:g} × {fineness.SIEVES[number].multiplier:g}" for number, held in retained.items() if held > 0]
    yield (f"fineness number = ({' + '.join(products)}) / {fineness.total(retained):.6g} = {told.number('gfn'):.2f}")
    yield f"mean size = {fineness.MEAN_UM_PER_GFN:g} / {told.number('gfn'):.2f} = {told.number('mean_um'):.0f} µm"
    yield f"surface = sum of share × 6/(ρ d), ρ 2650 kg/m³ = {told.number('surface_cm2_g'):.0f} cm²/g"


def _chart(told: Told[Fineness]) -> Chart:
    retained = told.form.retained
    assert retained is not None
    opening_mm = {number: sieve.opening_mm for number, sieve in fineness.SIEVES.items()}
    passed = [(opening_mm[number], round(share, 4)) for number, share in fineness.passing_pct(retained).items()]
    held = [
        (opening_mm[number], round(100 * share, 4))
        for number, share in fineness.shares(retained).items()
        if number != fineness.PAN and share > 0
    ]
    lines = (Line(label="passing", points=tuple(sorted(passed))), Line(label="held", points=tuple(sorted(held))))
    return Chart(
        name="grading",
        title="What the sieves hold and let through",
        sentence=f"By the sieve's opening: what passes it, and what it holds. Screens: {_listed(_names(told, 'screens')) or 'none'}.",
        x=Axis(label="Opening of the sieve", unit="mm"),
        y=Axis(label="Share of the grain", unit="%"),
        series=tuple(line for line in lines if line.points),
        limits=(Limit(axis="y", at=fineness.SCREEN_PCT, label="a screen"),),
    )


JOB = Job(
    name="fineness",
    short="Grain",
    title="How fine is the sand?",
    form=Fineness,
    run=run,
    tell=tell,
    answers=("gfn", "mean_um", "screens", "gaps", "passing", "surface_cm2_g", "washed_pct_dry"),
    needs=needs,
    example={
        "retained": "30: 0.6; 40: 3.2; 50: 9.8; 70: 19.5; 100: 11.7; 140: 2.4; 200: 0.5; 270: 0.1; pan: 0.1",
        "clay_washed_g": "2.1 g",
    },
    story="Fifty grams of used sand, washed, dried, and shaken through the nest of sieves for a quarter of an hour.",
)
