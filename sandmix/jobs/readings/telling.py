"""The texts of *readings*: headline, what to do, a sentence for each series, and its chart."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Axis, Chart, Computed, Lead, Limit, Line, Next, Telling, ToDo, WayOut
from sandmix.defects.causes import CAUSES
from sandmix.jobs.readings.figures import cut
from sandmix.jobs.readings.form import LEAST_POINTS, ChartOf, ResolvedReadings
from sandmix.jobs.readings.series import UNKNOWN
from sandmix.language.wording import list_of, number_to, plain, raised, with_unit
from sandmix.maths.control_chart import JUMP
from sandmix.vocabulary.reading_words import SERIES, UNITS

MOST_SHOWN = 50
ENOUGH = 20
"""From so many readings on, limits hardly move any more (from memory: 20 to 25 are usual)."""
_DIGITS = {"moisture": 2, "compactability": 1, "tin": 1, "scrap": 0}
_AXES = {
    "moisture": "Test less the book",
    "compactability": "Height lost under three rams",
    "tin": "Sand in the tin",
    "scrap": "Share of the castings of a cast",
}
_TESTS = {"moisture": "moisture", "compactability": "compactability", "tin": "compactability"}
_HOW_TO = {
    "moisture": "record each moisture test in the book",
    "compactability": "record the compactability with each test of the sand",
    "tin": "weigh the sand in your tin, rammed the same way each time, and record it with the test",
    "scrap": "enter with each cast how many castings were poured and how many were scrapped",
}


def tell(computed: Computed[ResolvedReadings]) -> Telling:
    """Say of each series whether the last reading is as usual, and whether it drifts."""
    form = computed.form
    there = {key: chart for key, chart in form.charts.items() if chart.points}
    outside = [key for key, chart in there.items() if chart.is_outside or chart.is_jump]
    drifting = [key for key, chart in there.items() if chart.is_drifting]
    return Telling(
        headline=_headline(there, outside, drifting),
        state=_state(there, outside, drifting),
        lead=_lead(there, outside, drifting),
        todo=tuple(_to_do(there, outside, drifting)),
        remarks=tuple(_remarks(form, there)),
        working=tuple(_working(there)),
        charts=tuple(_chart(key, chart) for key, chart in there.items() if len(chart.points) > 1),
        next=tuple(_next(outside, drifting)),
        sources=("nelson_1982", "montgomery_runger") if any(chart.limits for chart in there.values()) else (),
    )


def _names(keys: Iterable[str]) -> str:
    return list_of([SERIES[key] for key in keys], "and")


def _has_limits(there: dict[str, ChartOf]) -> bool:
    return any(chart.limits for chart in there.values())


def _headline(there: dict[str, ChartOf], outside: list[str], drifting: list[str]) -> str:
    if not there:
        return "The book has no readings to chart yet."
    if outside:
        drifts = f" Slowly drifting: {_names(drifting)}." if drifting else ""
        return f"The last reading is outside what is usual for you: {_names(outside)}.{drifts}"
    if drifting:
        return f"Nothing is far out, but there is a slow drift: {_names(drifting)}."
    if not _has_limits(there):
        most = max(len(chart.points) for chart in there.values())
        return f"Too few readings for limits: it takes {LEAST_POINTS}, and the longest series has {most}."
    return "Your readings are as usual: none of the last ones is outside its limits, and none drifts."


def _state(there: dict[str, ChartOf], outside: list[str], drifting: list[str]) -> tuple[str, str]:
    if outside or drifting:
        return ("look at it", "care") if outside else ("drifting", "care")
    return ("as usual", "go") if _has_limits(there) else ("too few", "plain")


def _lead(there: dict[str, ChartOf], outside: list[str], drifting: list[str]) -> Lead:
    if not there:
        return Lead(word="readings_count", label="Readings", text="none yet", then=f"limits need {LEAST_POINTS}")
    if not _has_limits(there):
        longest = max(there, key=lambda key: len(there[key].points))
        text = str(len(there[longest].points))
        return Lead(word="readings_count", label=raised(SERIES[longest]), text=text, then=f"limits need {LEAST_POINTS}")
    key = next(iter([*outside, *drifting, *(key for key, chart in there.items() if chart.limits)]))
    chart = there[key]
    return Lead(word="readings_mean", label=raised(SERIES[key]), text=_last(key, chart), then=_between(key, chart))


def _to_do(there: dict[str, ChartOf], outside: list[str], drifting: list[str]) -> Iterable[ToDo]:
    for key in outside:
        if key == "scrap":
            yield ToDo(text="Ask What went wrong about the last cast before you pour again")
        else:
            yield ToDo(text=f"Repeat the test before you act on it: {SERIES[key]}", amount=_last(key, there[key]))
    for key in drifting:
        if key not in outside:
            yield ToDo(text=f"Find out what changes slowly: {SERIES[key]}. {_WHY[key]}")
    if not there:
        yield ToDo(text=f"{raised(_HOW_TO['moisture'])}, and {_HOW_TO['compactability']}")


_WHY = {
    "moisture": "Water that the book does not know of, or an oven or scale that is off",
    "compactability": "Clay that burns, dead fines, water, or how hard you ram",
    "tin": "Water, clay, or how hard you ram",
    "scrap": "See the main causes below",
}


def _remarks(form: ResolvedReadings, there: dict[str, ChartOf]) -> Iterable[str]:
    for key, chart in there.items():
        yield _sentence(key, chart)
    for key, series in form.found.series.items():
        for one, two in series.disagree:
            yield WayOut(
                f"Two readings of the same sand, within ten minutes, differ by more than their errors: {SERIES[key]}, {_read(key, one)} and "
                f"{_read(key, two)}. At least one is wrong. Test a third time; until then they count as one point, their mean."
            )
    if form.found.out_of_order:
        yield (
            "Some entries are not in the order of their times. The charts follow the times; a moisture test that was written down after a later "
            "entry is left out, since what the book had at its time is not known."
        )
    if form.found.other_tin:
        count = form.found.other_tin
        yield (
            f"{count} {'reading' if count == 1 else 'readings'} of another tin or rammer {'is' if count == 1 else 'are'} left out: by the book it "
            "was changed."
        )
    if form.found.scrapped:
        whole = sum(form.found.scrapped.values())
        causes = [f"{_cause(cause)} {count:g}" for cause, count in form.found.scrapped.items()]
        yield f"Castings scrapped in all {whole:g}, by main cause: {', '.join(causes)}."
    if any(chart.limits and chart.limits.count < ENOUGH for chart in there.values()):
        yield (
            f"With fewer than {ENOUGH} readings the limits still move: a reading just outside may be chance. They find what is far out; slow "
            "changes are looked for by a straight line."
        )


def _sentence(key: str, chart: ChartOf) -> str:
    count = len(chart.points)
    one = "cast" if key == "scrap" else "reading"
    many = f"{raised(SERIES[key])}: {count} {one}{'' if count == 1 else 's'}"
    last = _last(key, chart)
    if chart.limits is None:
        more = LEAST_POINTS - count
        return f"{many}, the last {last}. Limits need {LEAST_POINTS}: {more} more."
    text = f"{many}, mean {_amount(key, chart.limits.mean)}, {_between(key, chart)}. "
    if not chart.is_judged:
        text += f"The last is {last}. The limits judge from the next one on."
    elif chart.is_outside:
        text += f"The last, {last}, is outside."
    elif chart.is_jump:
        text += f"The last, {last}, is inside, but further from the one before it than is usual."
    else:
        text += f"The last, {last}, is inside."
    if chart.drift is not None and chart.is_drifting:
        way = "up" if chart.drift.a_reading > 0 else "down"
        return f"{text} It drifts {way}, by about {_amount(key, abs(chart.drift.a_reading), 1)} a reading."
    return f"{text} No drift."


def _between(key: str, chart: ChartOf) -> str:
    assert chart.limits is not None
    low, high = cut(key, chart.limits.low), cut(key, chart.limits.high)
    return f"limits {number_to(low, _DIGITS[key])} to {_amount(key, high)}"


def _amount(key: str, value: float, more_digits: int = 0) -> str:
    return with_unit(number_to(value, _DIGITS[key] + more_digits), UNITS[key])


def _last(key: str, chart: ChartOf) -> str:
    """The last point as it was read, or with its sign where it is a difference."""
    value = round(chart.points[-1], _DIGITS[key])
    sign = "+" if key == "moisture" and value > 0 else ""
    return with_unit(f"{sign}{plain(value)}", UNITS[key])


def _read(key: str, value: float) -> str:
    return f"{plain(round(value, 2))} {'%' if key == 'moisture' else UNITS[key]}"


def _cause(cause: str) -> str:
    return "no cause given" if cause == UNKNOWN else CAUSES[cause].label


def _working(there: dict[str, ChartOf]) -> Iterable[str]:
    for key, chart in there.items():
        if chart.limits is None:
            continue
        found = chart.limits
        left = (
            f"; {found.left_out} of the differences above {JUMP:g} times their mean left out" if found.left_out else ""
        )
        yield (
            f"{SERIES[key]}: {found.count} readings, mean {found.mean:.4g}, mean difference from one to the next {found.mean_range:.4g}{left}; "
            f"limits = mean ± 2.659 × {found.mean_range:.4g}; a difference is usual up to 3.267 × {found.mean_range:.4g} = {found.range_high:.4g}"
        ).replace("-", "−")
        if chart.drift is not None:
            yield (
                f"{SERIES[key]}: straight line through the last readings {chart.drift.a_reading:+.3g} a reading; chance gives one as steep in "
                f"{100 * chart.drift.chance:.2g} % of cases, and below 1 % it is called a drift (own rule)"
            ).replace("-", "−")


def _chart(key: str, chart: ChartOf) -> Chart:
    first = max(1, len(chart.points) - MOST_SHOWN + 1)
    points = tuple((float(at), float(f"{value:.4g}")) for at, value in enumerate(chart.points, start=1) if at >= first)
    limits: tuple[Limit, ...] = ()
    if chart.limits is not None:
        ends = (
            ("lower limit", cut(key, chart.limits.low)),
            ("mean", chart.limits.mean),
            ("upper limit", cut(key, chart.limits.high)),
        )
        limits = tuple(Limit(axis="y", at=float(f"{value:.4g}"), label=label) for label, value in ends)
    return Chart(
        name=key,
        title=raised(SERIES[key]),
        sentence=_sentence(key, chart),
        x=Axis(label="Reading", unit=""),
        y=Axis(label=_AXES[key], unit=UNITS[key]),
        series=(Line(label=SERIES[key], points=points, shape="steps"),),
        limits=limits,
    )


def _next(outside: list[str], drifting: list[str]) -> Iterable[Next]:
    """The test of what is outside or drifts; the causes of scrap; else the heap."""
    odd = list(dict.fromkeys([*outside, *drifting]))
    for test in dict.fromkeys(_TESTS[key] for key in odd if key in _TESTS):
        yield Next(job="bench", label=f"Repeat the test: {test}", inputs={"test": test})
    if "scrap" in odd:
        yield Next(job="diagnose", label="What went wrong?")
    if not odd:
        yield Next(job="heap", label="The heap now")
