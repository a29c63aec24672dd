"""The charts of an answer: a figure with its sentence, a place for the drawing, and the same numbers as a table.

The browser makes the drawing from the figure's own data, for the worked example and for a live answer.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from draw_tag import Markup, symbol, tag

Chart = Mapping[str, Any]
BLANK: Chart = {
    "name": "",
    "title": "",
    "sentence": "",
    "x": {},
    "y": {},
    "series": [],
    "limits": [],
    "band": [],
    "below": [],
}


def charts(shown: Iterable[Chart]) -> Markup:
    """Every chart of an answer, in its order."""
    return tag("div", *(figure(chart) for chart in shown), class_="charts", data_charts=True)


def figure(chart: Chart) -> Markup:
    """One chart; without JavaScript only its sentence and its table are shown."""
    return tag(
        "figure",
        tag("figcaption", chart["title"], data_slot="title"),
        tag("p", chart["sentence"], class_="chart-sentence", data_slot="sentence"),
        tag("div", class_="chart-plot", data_plot=True),
        _reading(),
        tag("p", "Tap the picture to read it.", class_="chart-hint"),
        tag(
            "details",
            tag("summary", "The numbers of this chart", symbol("on")),
            _table(chart),
            tag("ul", *_limits(chart), class_="chart-limits", data_limits=True),
            class_="more chart-numbers",
        ),
        class_="chart",
        data_chart=json.dumps(chart, ensure_ascii=False),
    )


def template() -> Markup:
    """An empty chart, for the browser to clone."""
    return figure(BLANK)


def _reading() -> Markup:
    """What stood at one entry of a chart of several panels; the browser fills it in."""
    return tag(
        "div",
        tag("button", symbol("back"), type="button", data_go="-1", aria_label="The entry before"),
        tag("div", tag("p", data_slot="when"), tag("ul", data_list="figures"), aria_live="off"),
        tag("button", symbol("on"), type="button", data_go="1", aria_label="The entry after"),
        class_="chart-reading",
        data_reading=True,
        hidden=True,
    )


def _table(chart: Chart) -> Markup:
    head, rows = _panel_rows(chart) if chart["below"] else _line_rows(chart)
    return tag(
        "table",
        tag("caption", "" if chart["below"] else _axis(chart["y"]), data_slot="measured"),
        tag("thead", tag("tr", *(tag("th", label, scope="col") for label in head))),
        tag("tbody", *rows),
        class_="chart-rows",
    )


def _line_rows(chart: Chart) -> tuple[list[str], Iterable[Markup]]:
    """A column for the place along x and for each line, and a row for each place; several points at one place stand together."""
    series = [*chart["series"], *chart["band"]]
    columns: list[dict[float, list[str]]] = [{} for _ in series]
    for column, line in zip(columns, series, strict=True):
        for x, value in line["points"]:
            column.setdefault(x, []).append(shown_number(value))
    rows = (
        tag("tr", tag("th", _place(chart, x), scope="row"), *(tag("td", "; ".join(column.get(x, ()))) for column in columns))
        for x in sorted({x for column in columns for x in column})
    )  # fmt: skip
    return [_axis(chart["x"]), *(line["label"] for line in series)], rows


def _panel_rows(chart: Chart) -> tuple[list[str], Iterable[Markup]]:
    """A column for each panel, and for each place where the steps go up or down the date over all columns and then each panel's figure."""
    panels = [chart, *chart["below"]]
    columns = [[dict(line["points"]) for line in (panel["series"][0], *panel["band"])] for panel in panels]
    along = [x for x, _ in chart["series"][0]["points"]]
    texts = dict(zip(along, chart["series"][0]["texts"], strict=True))
    ends = (along[0], along[-1])
    places = dict.fromkeys(x for at, x in enumerate(along) if x in ends or x == along[at - 1])
    whens = {x: " · ".join(part for part in (_place(chart, x), texts[x]) if part) for x in places}
    rows = (
        row
        for x, when in whens.items()
        for row in (
            tag("tr", tag("th", when, scope="rowgroup", colspan=len(panels))),
            tag("tr", *(tag("td", _with_range(*(line[x] for line in panel))) for panel in columns)),
        )
    )
    return [_axis(panel["y"]) for panel in panels], rows


def _with_range(value: float, low: float, high: float) -> str:
    half = max(value - low, high - value)
    return shown_number(value) + (f" ± {float(f'{half:.2g}'):.10g}" if half > 0 else "")


def _place(chart: Chart, x: float) -> str:
    """A place along x: a number, or a date."""
    if chart["x"]["scale"] != "time":
        return shown_number(x)
    day = datetime.fromtimestamp(x, UTC)
    return f"{day.day} {day:%B %Y}"


def _limits(chart: Chart) -> Iterable[Markup]:
    panels: Sequence[Chart] = [chart, *chart["below"]]
    for panel in panels:
        for limit in panel["limits"]:
            unit = (chart["x"] if limit["axis"] == "x" else panel["y"]).get("unit", "")
            yield tag("li", f"{limit['label']}: {shown_number(limit['at'])} {unit}".strip())


def _axis(axis: Mapping[str, str]) -> str:
    return ", ".join(part for part in (axis.get("label", ""), axis.get("unit", "")) if part)


def shown_number(value: float) -> str:
    """A number of a chart in three figures."""
    return f"{float(f'{value:.3g}'):,.10g}".replace(",", "\u2009").replace("-", "\u2212")
