"""What a test is: what to do, its effort, its outcomes, and the chance of each outcome with each cause.

Each row of figures says how a hundred sands or castings with that cause spread over the outcomes. ``usual`` says the same for a hundred of
which nothing is known, and counts for every cause that a table does not name.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sandmix.defects.causes import NAMED
from sandmix.defects.signs import SYMPTOMS
from sandmix.materials.metals import Metal

Edges = Callable[[Metal], tuple[float, ...]]


def _none(metal: Metal) -> tuple[float, ...]:
    return ()


def same(*edges: float) -> Edges:
    """Return edges that are the same for every metal."""

    def always(metal: Metal) -> tuple[float, ...]:
        return edges

    return always


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One test: what to do, its effort in minutes of one person, its outcomes, and the chance of each with each cause.

    ``word`` is the reading that it gives, and ``edges`` are the limits between its bands for a metal, in the unit of the word. A test
    without a word is a check: a person picks its outcome by its key in ``outcomes``. A test with ``only_with`` can be done only where one
    of these signs was seen: without a hole, nobody can look at its wall.
    """

    key: str
    short: str
    label: str
    effort_min: float
    outcomes: Mapping[str, str]
    usual: tuple[float, ...]
    rows: Mapping[str, tuple[float, ...]]
    source: str = "practice"
    word: str = ""
    edges: Edges = _none
    only_with: frozenset[str] = frozenset()

    def chances(self, cause: str) -> tuple[float, ...]:
        """Return the chances of the outcomes with *cause*, in their order; those of ``usual`` where the table does not name it."""
        return self.rows.get(cause, self.usual)


def _shares(*parts: float) -> tuple[float, ...]:
    return tuple(part / sum(parts) for part in parts)


def reading(
    key: str,
    word: str,
    short: str,
    label: str,
    effort_min: float,
    edges: Edges,
    bands: tuple[str, ...],
    usual: tuple[float, ...],
    source: str = "practice",
    **rows: tuple[float, ...],
) -> Trial:
    """Return a test that gives a reading, with the names of its bands from the lowest to the highest."""
    return Trial(
        key=key,
        short=short,
        label=label,
        effort_min=effort_min,
        outcomes={f"{key}_{at}": band for at, band in enumerate(bands)},
        usual=_shares(*usual),
        rows={cause: _shares(*row) for cause, row in rows.items()},
        source=source,
        word=word,
        edges=edges,
    )


def check(
    key: str,
    short: str,
    label: str,
    effort_min: float,
    outcomes: Mapping[str, str],
    usual: tuple[float, ...],
    only_with: frozenset[str] = frozenset(),
    **rows: tuple[float, ...],
) -> Trial:
    """Return a test whose outcome a person picks."""
    return Trial(
        key=key,
        short=short,
        label=label,
        effort_min=effort_min,
        outcomes=outcomes,
        usual=_shares(*usual),
        rows={cause: _shares(*row) for cause, row in rows.items()},
        only_with=only_with,
    )


def look(
    key: str,
    short: str,
    label: str,
    effort_min: float,
    seen: Mapping[str, str],
    nothing: tuple[str, str],
    only_with: frozenset[str] = frozenset(),
) -> Trial:
    """Return a check whose outcomes are the signs *seen*, with the chances of their own table, or *nothing* of them for the rest of each cause.

    A sign without words in *seen* keeps its own label.
    """
    rows = {}
    for cause in NAMED:
        chances = [SYMPTOMS[sign].chance(cause) for sign in seen]
        rows[cause] = _shares(*chances, max(0.05, 1 - sum(chances)))
    return Trial(
        key=key,
        short=short,
        label=label,
        effort_min=effort_min,
        outcomes={sign: words or SYMPTOMS[sign].label for sign, words in seen.items()} | dict([nothing]),
        usual=tuple(sum(row[at] for row in rows.values()) / len(rows) for at in range(len(seen) + 1)),
        rows=rows,
        only_with=only_with,
    )
