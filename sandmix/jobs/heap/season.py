"""A season of a heap in one picture: mass, water, live clay and dead fines over time, with its tests and its casts.

The book's figures are drawn as steps at the times at which things happened, and their likely range widens between tests. Entries that were undone
are left out, and a correction counts from the time of what it corrects, so a step back in the picture is never a slip of the pen.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from sandmix.asking.job import Axis, Chart, Limit, Line, Panel
from sandmix.book import known_water
from sandmix.book.events import KINDS, typed
from sandmix.book.heap import HeapFold, HeapState, figure
from sandmix.book.standing import Entry
from sandmix.drying.heap_water import Move
from sandmix.language.wording import shown_given
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary import default_of

MOST_STEPS = 50
MOST_TESTS = 50
MOST_CASTS = 100
BETWEEN = (0.1, 0.4)
"""Where the heap is also worked out between two entries, as shares of the time between them: the range widens fastest at first."""
LEAST_GAP = 0.04
"""Only between entries that are further apart than this share of the season."""
LIMIT_SHOWN_FROM = 0.5
"""A limit is drawn from half of it on: before that it would only flatten the line."""
TIME = Axis(label="Date", unit="", scale="time")
SHOWN = (
    ("heap_kg", "Mass with its water", "kg"),
    ("moisture_pct_wet", "Water, of the wet mass", "%"),
    ("clay_pct_dry", "Live clay, of the dry mass", "%"),
    ("dead_fines_pct_dry", "Dead fines, of the dry mass", "%"),
)
"""The word, the label and the unit of each panel, from the top."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """The heap at one time: what is drawn of it, with its bands, and what happened then, in words; nothing between two entries."""

    at_s: float
    figures: Mapping[str, float]
    bands: Mapping[str, Band]
    text: str = ""

    @classmethod
    def of(cls, state: HeapState, at_s: float, text: str = "") -> Moment:
        """Return a heap as it is at a time, with the water that has probably gone since it was known.

        Where entries were written in another order than they happened, a part may be below nothing in between: then it is drawn as nothing.
        """
        then = state.at(at_s).settled()
        sand, bands = then.sand, then.bands()
        figures = {word: figure(sand, word) for word, *_ in SHOWN}
        held = {word: (min(bands[word][0], value), max(bands[word][1], value)) for word, value in figures.items()}
        return cls(at_s=_at(at_s), figures=figures, bands=held, text=text)


def charts(entries: Sequence[Entry], now: HeapState, now_s: float | None) -> Iterable[Chart]:
    """Yield the picture of the season up to now, if there are at least two entries with sand in the heap.

    What the tests of the heap as it is *now* have taught about its days counts for the whole season.
    """
    moments, each = list(_moments(entries, now.moves, now_s)), _each(entries)
    if len({moment.at_s for moment in moments}) < 2:
        return
    thinned = f" Of {len(entries)} entries, every {_ordinal(each)} makes a step." if each > 1 else ""
    above, *below = (_panel(moments, entries, word, label, unit) for word, label, unit in SHOWN)
    yield Chart(
        name="season",
        title="The season",
        sentence=(
            f"The heap by its book, with its likely range as a band, the tests with their ±, and the casts.{thinned}"
        ),
        x=TIME,
        y=above.y,
        series=(*above.series, *_casts(entries)),
        band=above.band,
        below=tuple(below),
    )


def _moments(entries: Sequence[Entry], moves: tuple[Move, ...], now_s: float | None) -> Iterator[Moment]:
    """The heap before and after at most some fifty entries, at times between them, and now."""
    heap, each, last_s = HeapFold(), _each(entries), None
    state = heap.state()
    ends_s = [entries[0].at_s, max(entries[-1].at_s, now_s or entries[-1].at_s)] if entries else [0.0, 0.0]
    gap_s = LEAST_GAP * (ends_s[1] - ends_s[0])
    for at, entry in enumerate(entries, start=1):
        drawn = at % each == 0 or at in (1, len(entries))
        if drawn and last_s is not None:
            until = state if each == 1 else replace(heap.state(), moves=moves)
            yield from _until(until, last_s, entry.at_s, gap_s)
        for event in (entry.event, *entry.corrections):
            heap.add(event)
        if drawn:
            state = replace(heap.state(), moves=moves)
            last_s = entry.at_s if state.sand.dry_kg > 0 else None
            if last_s is not None:
                yield Moment.of(state, last_s, _text(entry))
    if last_s is not None and ends_s[1] > last_s:
        yield from _until(state, last_s, ends_s[1], gap_s)


def _until(state: HeapState, from_s: float, to_s: float, gap_s: float) -> Iterator[Moment]:
    """The heap as nothing happens to it, up to a time."""
    between = BETWEEN if to_s - from_s > gap_s else ()
    for share in (*between, 1.0):
        yield Moment.of(state, from_s + share * (to_s - from_s))


def _each(entries: Sequence[Entry]) -> int:
    return max(1, len(entries) // MOST_STEPS)


def _ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _panel(moments: Sequence[Moment], entries: Sequence[Entry], word: str, label: str, unit: str) -> Panel:
    points = tuple((moment.at_s, _rounded(moment.figures[word])) for moment in moments)
    low, high = (tuple((moment.at_s, _rounded(moment.bands[word][end])) for moment in moments) for end in (0, 1))
    texts = tuple(moment.text for moment in moments) if word == SHOWN[0][0] else ()
    return Panel(
        y=Axis(label=label, unit=unit),
        series=(Line(label="the book", points=points, shape="steps", texts=texts), *_tests(entries, word)),
        limits=tuple(_limits(word, max(most for _, most in high))),
        band=(Line(label="low end", points=low), Line(label="high end", points=high)),
    )


def _limits(word: str, most: float) -> Iterable[Limit]:
    limit = default_of("dead_fines_limit_pct_dry")
    if word == "dead_fines_pct_dry" and most >= LIMIT_SHOWN_FROM * limit:
        yield Limit(axis="y", at=limit, label="limit for dead fines")


def _tests(entries: Sequence[Entry], word: str) -> Iterable[Line]:
    """What tests read of a figure, each with its ±, at most the last fifty."""
    read: list[tuple[float, float, Band]] = []
    for entry in reversed(entries):
        found = _reading(entry, word)
        if found:
            value, half = found
            read.append((_at(entry.at_s), _rounded(value), (max(0.0, _rounded(value - half)), _rounded(value + half))))
        if len(read) == MOST_TESTS:
            break
    if read:
        read.reverse()
        yield Line(
            label="tests",
            points=tuple((at, value) for at, value, _ in read),
            shape="points",
            ends=tuple(ends for *_, ends in read),
        )


def _reading(entry: Entry, word: str) -> tuple[float, float] | None:
    if word == "moisture_pct_wet":
        return known_water.reading(entry.words) if entry.kind in known_water.READ_BY else None
    return typed(word, entry.words) if entry.kind == "measured" else None


def _casts(entries: Sequence[Entry]) -> Iterable[Line]:
    poured = [entry for entry in entries if entry.kind == "poured"][-MOST_CASTS:]
    if poured:
        points = tuple((_at(entry.at_s), 0.0) for entry in poured)
        yield Line(label="casts", points=points, shape="marks", texts=tuple(map(_text, poured)))


def _text(entry: Entry) -> str:
    """What happened, with the pattern of a cast."""
    label, pattern = KINDS[entry.kind].label, entry.words.get("pattern")
    return f"{label}: {shown_given(pattern)}" if isinstance(pattern, str) and pattern else label


def _at(at_s: float) -> float:
    return float(round(at_s))


def _rounded(value: float) -> float:
    return float(f"{value:.4g}")
