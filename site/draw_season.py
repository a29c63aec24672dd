"""The season of one heap: a table of its book, a drawing of its clay, and the book as a file. All are from the answer of the job `heap`."""

from __future__ import annotations

import json
from dataclasses import dataclass
from importlib import import_module
from itertools import pairwise
from math import ceil

import checkout
from draw_lines import line
from draw_tag import Markup, join, tag
from draw_walk import day, entry_in_words
from handbook_answers import answer, entries

WIDE, HIGH, LEFT, TOP, FOOT = 320, 170, 34, 12, 146
"""The sheet of the drawing, and its axes."""
STEP = 2
"""From one number of the axis to the next, in %."""
MASS, LIVE, DEAD = 0, 2, 3
"""The panels of the job's chart."""

Points = list[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Axes:
    """Where the drawing has a time and a percentage."""

    first: float
    last: float
    high: float

    def x(self, at: float) -> float:
        """The place of a time."""
        return round(LEFT + (WIDE - LEFT - 8) * (at - self.first) / (self.last - self.first), 1)

    def y(self, percent: float) -> float:
        """The place of a percentage."""
        return round(FOOT - (FOOT - TOP) * percent / self.high, 1)

    def steps(self, points: Points) -> str:
        """A line that keeps its height from one entry to the next."""
        begin = f"M{self.x(points[0][0])} {self.y(points[0][1])}"
        return begin + "".join(f"H{self.x(x)}V{self.y(y)}" for _, (x, y) in pairwise(points))

    def drawn(self) -> Markup:
        """Both axes, with the numbers of the upright one."""
        marks = range(0, int(self.high) + 1, STEP)
        ticks = "".join(f"M{LEFT - 4} {self.y(at)}h4" for at in marks)
        numbers = (
            tag("text", at, x=LEFT - 8, y=self.y(at) + 6, text_anchor="end", class_="plate-number") for at in marks
        )
        return join(line(f"M{LEFT} 6V{FOOT}H{WIDE - 6}{ticks}", "lead"), *numbers)


def after_each_entry(name: str, panel: int) -> Points:
    """What a panel of the job's chart shows after each entry of the book: when, and how much."""
    chart = answer(name)["charts"][0]
    points = [chart, *chart["below"]][panel]["series"][0]["points"]
    texts = chart["series"][0]["texts"]
    return [(point[0], point[1]) for point, words in zip(points, texts, strict=True) if words]


def season_table(name: str) -> Markup:
    """The book of a season: each entry, and the heap after it."""
    columns = zip(*(after_each_entry(name, panel) for panel in (MASS, LIVE, DEAD)), strict=True)
    head = tag("tr", *(tag("th", words, scope="col") for words in ("Heap", "Live clay", "Dead fines")))
    rows = (
        row
        for entry, after in zip(entries(name), columns, strict=True)
        for row in (
            tag(
                "tr",
                tag(
                    "th",
                    *entry_in_words(entry),
                    scope="rowgroup",
                    colspan=3,
                    data_entry=json.dumps(entry, ensure_ascii=False),
                ),
            ),
            tag("tr", *(tag("td", f"{value:.1f}") for _, value in after)),
        )
    )
    caption = tag(
        "caption", "The heap after each entry: its mass in kg, live clay and dead fines in % of the dry mass."
    )
    return tag("table", caption, tag("thead", head), tag("tbody", *rows), class_="season-rows", data_season=name)


def season_chart(name: str) -> Markup:
    """Live clay and dead fines over a season, as two lines of steps; its numbers are those of the table."""
    live, dead = after_each_entry(name, LIVE), after_each_entry(name, DEAD)
    highest = max(percent for _, percent in live + dead)
    axes = Axes(first=live[0][0], last=live[-1][0], high=STEP * ceil(highest / STEP))
    casts = [at for at, _ in answer(name)["charts"][0]["series"][2]["points"]]
    title = (
        f"Over {len(casts)} casts live clay goes from {live[0][1]:.1f} to {live[-1][1]:.1f} %, at the lowest "
        f"{min(percent for _, percent in live):.1f} %, and dead fines from {dead[0][1]:.1f} to {dead[-1][1]:.1f} %."
    )
    sheet = tag(
        "svg",
        tag("title", title),
        axes.drawn(),
        line("".join(f"M{axes.x(at)} {FOOT + 6}v9" for at in casts), "tube"),
        line(axes.steps(live), "live-line"),
        line(axes.steps(dead), "dead-line"),
        class_="pic plate-section",
        viewBox=f"0 0 {WIDE} {HIGH}",
        role="img",
        focusable="false",
    )
    return tag("figure", sheet, _keys(), tag("figcaption", title), class_="plate", data_plate="season")


def _keys() -> Markup:
    keys = (
        ("Solid line:", "live clay, % of the dry mass."),
        ("Dashed line:", "dead fines, % of the dry mass."),
        ("Marks below:", "the casts."),
    )
    return tag("ul", *(tag("li", tag("b", name), " ", words) for name, words in keys), class_="season-keys")


def span(name: str) -> Markup:
    """The first and the last day of a book."""
    first, *_, last = entries(name)
    return tag("span", f"from {day(first['at'])} to {day(last['at'])}")


def book_file(name: str, title: str) -> str:
    """The book of a question as a file that the page of the heap book takes over."""
    checkout.door()
    book = import_module("sandmix.book.book")
    whole = {"format": book.FORMAT, "version": book.VERSION, "name": title, "events": entries(name)}
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"
