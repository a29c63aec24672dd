"""The charts of an answer: a figure with its sentence, a place for the drawing, and the same numbers as a table.

The drawing is made in the browser from the figure's own data, for the worked example as for a live answer.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from draw_tag import Markup, symbol, tag

Chart = Mapping[str, Any]
BLANK: Chart = {"name": "", "title": "", "sentence": "", "x": {}, "y": {}, "series": [], "limits": [], "band": []}


def charts(shown: Iterable[Chart]) -> Markup:
    """Every chart of an answer, in the order it was told."""
    return tag("div", *(figure(chart) for chart in shown), class_="charts", data_charts=True)


def figure(chart: Chart) -> Markup:
    """One chart; without a script it is its sentence and its table."""
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
    """A chart with nothing in it, for the browser to clone."""
    return figure(BLANK)


def _table(chart: Chart) -> Markup:
    series = [*chart["series"], *chart["band"]]
    columns = [dict(line["points"]) for line in series]
    rows = sorted({x for column in columns for x in column})
    head = [tag("th", _axis(chart["x"]), scope="col"), *(tag("th", line["label"], scope="col") for line in series)]
    body = [
        tag("tr", tag("th", spoken(x), scope="row"), *(tag("td", spoken(column.get(x))) for column in columns))
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
    return tag("li", f"{limit['label']}: {spoken(limit['at'])} {chart[limit['axis']].get('unit', '')}".strip())


def _axis(axis: Mapping[str, str]) -> str:
    return ", ".join(part for part in (axis.get("label", ""), axis.get("unit", "")) if part)


def spoken(value: float | None) -> str:
    """A number of a chart in three figures, or nothing where a line has no point."""
    return "" if value is None else f"{float(f'{value:.3g}'):,.10g}".replace(",", "\u2009").replace("-", "\u2212")
