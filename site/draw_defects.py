"""The table behind the diagnosis, as the method page prints it: causes, signs, and results of tests, all in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import draw
from draw_tag import Markup, join, tag


def defects() -> Markup:
    """The whole table, in reading order."""
    table = draw.description()["ailments"]
    labels = {cause["key"]: cause["label"] for cause in table["causes"]}
    return join(
        tag("h3", "The grades"),
        tag(
            "p", "; ".join(f"{grade}: {100 * share:.0f} times in 100" for grade, share in table["grades"].items()) + "."
        ),
        tag("h3", "The causes"),
        _causes(table["causes"], {test["key"]: test["short"] for test in table["tests"]}),
        tag("h3", "The signs"),
        *(_sign(sign, list(table["grades"]), labels) for sign in table["symptoms"]),
        tag("h3", "What tests find"),
        tag(
            "p",
            f"How many of 100 sands or castings with each cause give each result. Ranges that depend on the metal are those for {table['metal']}.",
        ),
        *(_test(test, labels) for test in table["tests"]),
    )


def _rows(head: tuple[str, ...], rows: list[tuple[object, ...]]) -> Markup:
    titles = tag("thead", tag("tr", *(tag("th", title, scope="col") for title in head)))
    body = (tag("tr", *(tag("td", cell) for cell in row)) for row in rows)
    return tag("table", titles, tag("tbody", *body), class_="words-table")


def _source(key: str) -> Markup:
    return tag("a", key, href=f"../../sources/#{key}")


def _causes(causes: list[Mapping[str, Any]], tests: Mapping[str, str]) -> Markup:
    rows: list[tuple[object, ...]] = [
        (
            cause["label"],
            f"{cause['prior_pct']:g}",
            ", ".join(tests[key] for key in cause["tests"]),
            cause["remedy"],
            _source(cause["source"]),
        )
        for cause in causes
    ]
    return _rows(("Cause", "How common", "Its own tests, the first to do first", "What to do", "From"), rows)


def _sign(sign: Mapping[str, Any], grades: list[str], labels: Mapping[str, str]) -> Markup:
    """One sign: a row for each grade, with the causes that show it that often."""
    by_grade: dict[str, list[str]] = {grade: [] for grade in grades}
    for cause, grade in sign["chances"].items():
        by_grade[grade].append(labels[cause])
    rows: list[tuple[object, ...]] = [(grade, ", ".join(causes)) for grade, causes in by_grade.items() if causes]
    rows.append((sign["otherwise"], "all others"))
    title = tag("h4", sign["label"][:1].upper() + sign["label"][1:])
    return join(title, _rows(("How often", "With"), rows), tag("p", "From ", _source(sign["source"]), "."))


def _test(test: Mapping[str, Any], labels: Mapping[str, str]) -> Markup:
    """One test: a row for each result, a column for each cause in the table, and one for the usual share."""
    named = list(test["rows"])
    head = ("Result", "usual", *(labels[cause] for cause in named))
    rows: list[tuple[object, ...]] = [
        (result, _of_100(test["usual"][at]), *(_of_100(test["rows"][cause][at]) for cause in named))
        for at, result in enumerate(test["outcomes"])
    ]
    note = tag("p", f"Effort {test['effort_min']:g} min. From ", _source(test["source"]), ".")
    return join(tag("h4", test["label"]), _rows(head, rows), note)


def _of_100(share: float) -> str:
    return f"{100 * share:.0f}" if share >= 0.01 else f"{100 * share:.1f}"
