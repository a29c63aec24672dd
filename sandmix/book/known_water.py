"""What a book says of the water of its heap: the last moisture test, when the water was known, how the heap was kept, and what the tests show.

The water is known from a test of the moisture or of the mass, and from the sand that an empty heap starts with.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from heapq import merge
from itertools import islice
from operator import itemgetter
from typing import Any

from sandmix.asking.form import band_about
from sandmix.bench import measurements
from sandmix.book.events import chosen, figure_set_back, typed, words_of
from sandmix.book.standing import Counted, Latest
from sandmix.drying.heap_water import COVERS, LEAST_DAYS, LID, OPEN, Cover, Exposure, Move, exposure
from sandmix.drying.moist_air import Air
from sandmix.language.timestamps import seconds_of
from sandmix.materials.metals import Metal
from sandmix.materials.sand import Sand
from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA, is_above
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary import default_of

READ_BY = ("measured", "tempered", "dried", "rained_on", "put_away", "opened")
"""The kinds of event that may come with a moisture of the heap that was read."""
COVERED_BY = ("put_away", "opened")
"""The kinds of event that say how the heap is kept."""
TESTS_THE_DAYS = ("measured", "put_away")
"""The kinds of event whose moisture shows what the days before it did; after the others, water was added or dried off on purpose."""
IN_THE_OPEN = "open"
SAMPLE = {"sample_wet_g", "sample_dry_g"}


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureTest:
    """A moisture of the heap that was read, in % of the wet mass, with its 95 % half-width, its time and its event."""

    read_pct: float
    half_width: float
    at_s: float
    event: str

    @property
    def band(self) -> Band:
        """The likely range of the moisture that was read."""
        return band_about("moisture_pct_wet", self.read_pct, self.half_width)

    def says_stop(self, metal: Metal) -> bool:
        """Whether what was read is too wet to pour *metal* on: then the heap is, until a later moisture is read, whatever the book adds up to."""
        return is_above(self.read_pct, metal.red_moisture_pct_wet)


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """The moisture that the book had before an event, in % of the wet mass, its variance without the days, and the days since it was known."""

    moisture_pct: float
    variance_pct2: float
    exposure: Exposure


def reading(words: Mapping[str, Any]) -> tuple[float, float] | None:
    """Return the moisture that an event reads, in % of the wet mass, with its 95 % half-width; a dried sample counts before a figure."""
    wet, dry = typed("sample_wet_g", words), typed("sample_dry_g", words)
    if wet is None or dry is None or wet[0] <= 0:
        return typed("moisture_pct_wet", words)
    step = typed("scale_step_g", words)
    rounding = measurements.reading_error_g(step[0] if step else default_of("scale_step_g"))
    weighing = measurements.weighing_error_pct(wet[0], wet[1] or rounding, dry[1] or rounding)
    return measurements.moisture_pct_wet(wet[0], dry[0]), measurements.moisture_error_pct(weighing)


def _reads(words: Mapping[str, Any]) -> bool:
    """Whether an event has a moisture that was read, without reading it."""
    there = {word for word in ("moisture_pct_wet", *SAMPLE) if words.get(word) not in (None, "")}
    return "moisture_pct_wet" in there or there >= SAMPLE


def is_open(words: Mapping[str, Any]) -> bool:
    """Return whether an event says that the heap is kept in the open."""
    return chosen("cover", words) == IN_THE_OPEN


def _covers(words: Mapping[str, Any]) -> tuple[Cover, ...]:
    """How an event says that the heap was kept: from then on, or in the open for some hours up to it and under a lid again."""
    at_s = seconds_of(words["at"])
    if words["kind"] != "opened":
        return (Cover(at_s=at_s, open=is_open(words)),)
    hours = typed("open_h", words)
    began_s = at_s if hours is None else at_s - 3600 * hours[0]
    stood = Cover(at_s=began_s, open=True, air=_air(words), area_m2=(typed("heap_area_m2", words) or (0.0, 0.0))[0])
    return (stood,) if hours is None else (stood, Cover(at_s=at_s, open=False))


def _air(words: Mapping[str, Any]) -> Air | None:
    """The air that an event names; None where it lacks the temperature or the humidity."""
    temp, humidity, wind = (typed(word, words) for word in ("air_temp_c", "humidity_pct", "wind_m_s"))
    if temp is None or humidity is None:
        return None
    return Air(temp_c=temp[0], humidity_pct=humidity[0], wind_m_s=wind[0] if wind else 0.0)


DAY_LOSSES = {"lid_loss_pct_day": LID, "open_loss_pct_day": OPEN}
"""The learned figures of what the days take, each with the cover that it is for."""


EACH_MOVED: tuple[frozenset[str], ...] = (frozenset(), frozenset({LID}), frozenset({OPEN}), frozenset({LID, OPEN}))
"""The covers that a learned figure is for, of all that a heap may have had in one spell of days."""


def moved_under(move: Move) -> frozenset[str]:
    """Return under which of these covers the moisture changed."""
    return frozenset(cover for cover in DAY_LOSSES.values() if move.exposure.days[COVERS.index(cover)] > 0)


def latest_moves(each: Iterable[Iterator[tuple[int, Move]]]) -> tuple[Move, ...]:
    """Return at most the last twenty changes under any cover, of those under *each* with their places, the last one first."""
    lately = merge(*each, key=itemgetter(0), reverse=True)
    return tuple(reversed([move for _, move in islice(lately, MOST_READINGS)]))


class WaterFold:
    """What the events of a book say of the water, one after the other: the last test, when the water was known last, and how the heap is kept."""

    def __init__(self) -> None:
        self._words: dict[str, dict[str, Any]] = {}
        self._tests, self._known = Latest(), Latest()
        self._covers: dict[str, tuple[Cover, ...]] = {}
        self._before: dict[str, Before] = {}
        self._moves: dict[frozenset[str], Counted[Move]] = {covers: Counted() for covers in EACH_MOVED}
        self._added = 0

    @property
    def known_s(self) -> float | None:
        """When the water was known last."""
        last = self._known.last
        return last and last[0]

    @property
    def last_test(self) -> MoistureTest | None:
        """The latest moisture test, of two at one time the one that was written later; None where the heap was begun again since."""
        if self._tests.last is None:
            return None
        at_s, name = self._tests.last
        read = reading(self._words.get(name, {}))
        return MoistureTest(read_pct=read[0], half_width=read[1], at_s=at_s, event=name) if read else None

    def last_covers(self) -> tuple[Cover, ...]:
        """Return how the heap was kept, by at most the last twenty entries that say so."""
        lately = [*islice(reversed(self._covers.values()), MOST_READINGS)]
        return tuple(cover for several in reversed(lately) for cover in several)

    def last_moves(self) -> tuple[Move, ...]:
        """Return the changes of the moisture between tests, at most the last twenty, without those that were set back."""
        return latest_moves(moves.lately() for moves in self._moves.values())

    def move_to(self, name: str) -> Move | None:
        """Return the change of the moisture that the event of that id showed; None where it shows none."""
        if name not in self._before:
            return None
        return next((move for moves in self._moves.values() if (move := moves.get(name))), None)

    def tests_water(self, event: Mapping[str, Any]) -> bool:
        """Return whether a new event tests what the days before it did to the moisture."""
        return event["kind"] in TESTS_THE_DAYS and self.known_s is not None and _reads(event)

    def days_before(self, event: Mapping[str, Any], sand: Sand) -> Exposure | None:
        """Return the days that a new event tests in a heap of *sand*; None for fewer than count."""
        days = exposure(self.known_s, self.last_covers(), seconds_of(event["at"]), sand)
        return days if days.total_days >= LEAST_DAYS else None

    def known_from(self, name: str) -> float | None:
        """Return when the water was known from the event of that id; None where it says nothing of the water."""
        return self._known.get(name)

    def covers_from(self, name: str) -> tuple[Cover, ...] | None:
        """Return how the heap was and is kept by the event of that id; None where it does not say."""
        return self._covers.get(name)

    def add(self, event: Mapping[str, Any], of: str, *, starts: bool, before: Before | None = None) -> None:
        """Note what an event says, or what a correction says of the event *of*.

        *starts* if an empty heap starts with its sand; *before* is what the book had, where the event tests the days before it.
        """
        self._added += 1
        if starts:
            self._note(of, seconds_of(event["at"]), is_test=True)
        if cover := DAY_LOSSES.get(figure_set_back(event)):
            for covers, moves in self._moves.items():
                if cover in covers:
                    moves.set_back(of, self._added)
        if event["kind"] not in READ_BY and of not in self._words:
            return
        words = self._words[of] = self._words.get(of, {"at": event["at"], "kind": event["kind"]}) | words_of(event)
        self._forget(of)
        if _reads(words) or event["outcome"].get("aged"):
            self._note(of, seconds_of(words["at"]), is_test=_reads(words))
        if before:
            self._before[of] = before
        self._learn(of, words)
        if words["kind"] in COVERED_BY:
            self._covers[of] = _covers(words)

    def undo(self, name: str) -> None:
        """Take back what an event said."""
        self._forget(name)
        self._covers.pop(name, None)
        self._before.pop(name, None)
        for moves in self._moves.values():
            moves.drop(name)

    def _learn(self, name: str, words: Mapping[str, Any]) -> None:
        """Note by how much the moisture changed over the days before a test."""
        before, read = self._before.get(name), reading(words)
        if before is None or read is None:
            return
        move = Move(
            exposure=before.exposure,
            lost_pct=before.moisture_pct - read[0],
            error_pct2=before.variance_pct2 + (read[1] / TWO_SIGMA) ** 2,
        )
        self._moves[moved_under(move)].put(name, self._added, move)

    def _note(self, name: str, at_s: float, *, is_test: bool) -> None:
        """Note that the water was known; a heap that is begun again counts as a test without a reading."""
        self._known.note(name, at_s)
        if is_test:
            self._tests.note(name, at_s)

    def _forget(self, name: str) -> None:
        self._known.drop(name)
        self._tests.drop(name)
