"""The charts of an answer: a figure with its sentence, a place for the drawing, and the same numbers as a table.

The browser makes the drawing from the figure's own data, for the worked example and for a live answer.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from draw_tag import Markup, symbol, tag

Chart = Mapping[str, Any]
BLANK: Chart = {"name": "", "title": "", "sentence": "", "x": {}, "y": {}, "series": [], "limits": [], "band": []}


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
        tag(
            "details",
            tag("summary", "The numbers of this chart", symbol("on")),
            _table(chart),
            tag("ul", *(_limit(limit, chart) for limit in chart["limits"]), class_="chart-limits", data_limits=True),
            class_="more chart-numbers",
        ),
        class_="chart",
        data_chart=json.dumps(chart, ensure_ascii=False),
    )


def template() -> Markup:
    """An empty chart, for the browser to clone."""
    return figure(BLANK)


def _table(chart: Chart) -> Markup:
    series = [*chart["series"], *chart["band"]]
    columns = [dict(line["points"]) for line in series]
    rows = sorted({x for column in columns for x in column})
    head = [tag("th", _axis(chart["x"]), scope="col"), *(tag("th", line["label"], scope="col") for line in series)]
    body = [
        tag(
            "tr",
            tag("th", shown_number(x), scope="row"),
            *(tag("td", shown_number(column.get(x))) for column in columns),
        )
        for x in rows
    ]
    return tag(
        "table",
        tag("caption", _axis(chart["y"]), data_slot="measured"),
        tag("thead", tag("tr", *head)),
        tag("tbody", *body),
        class_="chart-rows",
    )


def _limit(limit: Mapping[str, Any], chart: Chart) -> Markup:
    return tag("li", f"{limit['label']}: {shown_number(limit['at'])} {chart[limit['axis']].get('unit', '')}".strip())


def _axis(axis: Mapping[str, str]) -> str:
    return ", ".join(part for part in (axis.get("label", ""), axis.get("unit", "")) if part)


def shown_number(value: float | None) -> str:
    """A number of a chart in three figures, or nothing if a line has no point there."""
    return "" if value is None else f"{float(f'{value:.3g}'):,.10g}".replace(",", "\u2009").replace("-", "\u2212")
