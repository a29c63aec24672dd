"""The form of *feel*: the word for a handful, and the book with what is known of the heap and of the person's own words."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask, band_about
from sandmix.bench import feel, feel_check
from sandmix.bench.feel import NOTHING_KNOWN, ORDER, Judged, Known
from sandmix.bench.feel_check import Check
from sandmix.book.book import read
from sandmix.book.heap import HeapState
from sandmix.book.known_water import MoistureTest
from sandmix.jobs.shared.feel_pairs import NO_PAIRS, POINTS_A_POINT, OwnPairs, own_pairs
from sandmix.jobs.shared.from_book import heap_at
from sandmix.materials.metals import METALS
from sandmix.maths.ordered_regression import OrderedFit
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import Band, wider_side
from sandmix.recipes import temper
from sandmix.recipes.too_wet import WASHED, Wetness, usual_target_pct_wet

USUAL_CLAY_PCT = (6.0, 9.0)
"""The live clay, in % of the dry mass, for which the usual words hold (feel_words)."""
OTHER_SAND_PCT = 3.0
"""How far the usual words may be off for another kind of sand, as a standard deviation in points (own choice)."""
MOISTURE = "moisture_pct_wet"


@dataclass(frozen=True, slots=True, kw_only=True)
class FeelForm(Form):
    """The word for a handful, the heap and its target, and the book."""

    feel: str = ask("feel", first=True, required=True)
    heap_kg: float | None = ask("heap_kg", first=True)
    metal: str = ask("metal")
    sand_kind: str = ask("sand_kind")
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", exact=True)
    book: Mapping[str, object] | None = ask("book")
    now: str | None = ask("now")


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedFeel(FeelForm):
    """The same with the moisture and the target; what was known without the word, and the check on the person's own tests."""

    moisture_pct_wet: float
    target_moisture_pct_wet: float
    words: OrderedFit
    judged: Judged
    known: Known | None
    check: Check
    stopped_by: MoistureTest | None
    clay_change_pct: float
    doses: str

    @property
    def index(self) -> int:
        """The place of the word among the five."""
        return ORDER.index(self.feel)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heap:
    """What the book says: the heap as it is now if there is sand, and the pairs."""

    state: HeapState | None = None
    own: OwnPairs = NO_PAIRS

    @property
    def moisture(self) -> tuple[float, float] | None:
        """The moisture of today and its 95 % half-width, in % of the wet mass."""
        found = self.state.moisture() if self.state else None
        return found and (found[0], TWO_SIGMA * math.sqrt(found[1]))


def resolve(filled: Filled[FeelForm]) -> Filled[ResolvedFeel]:
    """Judge the handful with what the book knows; raises InputError with what is wrong with the book."""
    form, heap = filled.form, _heap(filled.form)
    metal = _metal(filled, heap)
    words = feel.own_words(heap.own.pairs)
    check = feel_check.check(heap.own.pairs, words)
    known = _known(heap)
    change, shift = _shift(form, heap)
    at = ORDER.index(form.feel)
    judged = feel.judge(words, at, known or NOTHING_KNOWN, shift)
    alone = feel.judge(words, at, NOTHING_KNOWN, shift) if judged.contradicts else judged
    moisture, band = _meant(judged, alone, heap)
    target = _target(form, metal)
    test = heap.state.moisture_test if heap.state and form.sand_kind == WASHED else None
    stopped = test if test and test.says_stop(METALS[metal]) else None
    wet = Wetness(metal=METALS[metal], target_pct_wet=target, sand_kind=form.sand_kind)
    one_word = len(temper.verdicts_within(*band, target, wet.red_pct_wet)) == 1
    values: dict[str, Any] = {
        MOISTURE: moisture,
        "metal": metal,
        "target_moisture_pct_wet": target,
        "words": words,
        "judged": judged,
        "known": known,
        "check": check,
        "stopped_by": stopped,
        "clay_change_pct": change,
        "doses": _doses(form, judged, check, stopped=stopped is not None, one_word=one_word),
    }
    bands: dict[str, Band] = {MOISTURE: band}
    if form.heap_kg is None and heap.state is not None and heap.moisture is not None:
        mass = heap.state.bands()["heap_kg"]
        values["heap_kg"] = heap.state.sand.wet_kg
        bands["heap_kg"] = band_about("heap_kg", values["heap_kg"], wider_side(mass, values["heap_kg"]))
    return filled.into(ResolvedFeel, values, bands=bands, origins={MOISTURE: {"feel": (band[1] - band[0]) / 2}})


def _heap(form: FeelForm) -> _Heap:
    if form.book is None:
        return _Heap()
    events = read(form.book).events
    state = heap_at(events, form.now)
    return _Heap(state=state if state.sand.wet_kg > 0 else None, own=own_pairs(events))


def _metal(filled: Filled[FeelForm], heap: _Heap) -> str:
    poured = heap.state.metal if heap.state and "metal" in filled.assumed else None
    return poured if poured in METALS else filled.form.metal


def _target(form: FeelForm, metal: str) -> float:
    given = form.target_moisture_pct_wet
    return usual_target_pct_wet(metal, form.sand_kind) if given is None else given


def _known(heap: _Heap) -> Known | None:
    """What the book knows of the moisture, if that is more than what is usual."""
    if heap.moisture is None:
        return None
    known = feel.of_band(*heap.moisture)
    return known if known.sd_pct < NOTHING_KNOWN.sd_pct else None


def _shift(form: FeelForm, heap: _Heap) -> tuple[float, float]:
    """How far the live clay is from that of the pairs (or else from the usual one), and how far the words may be off because of it, in points."""
    if form.sand_kind != WASHED:
        return 0.0, OTHER_SAND_PCT
    clay = heap.state.sand.clay_pct_dry if heap.state else 0.0
    if clay <= 0:
        return 0.0, 0.0
    low, high = USUAL_CLAY_PCT if heap.own.clay_pct_dry is None else (heap.own.clay_pct_dry, heap.own.clay_pct_dry)
    change = clay - min(max(clay, low), high)
    return change, abs(change) * POINTS_A_POINT


def _meant(judged: Judged, alone: Judged, heap: _Heap) -> tuple[float, Band]:
    """The moisture and its range; where the word contradicts the book, a range that holds what both say."""
    if not judged.contradicts or heap.moisture is None:
        return judged.moisture_pct_wet, (judged.low_pct, judged.high_pct)
    value, half = heap.moisture
    low, high = max(0.0, min(alone.low_pct, value - half)), max(alone.high_pct, value + half)
    return (low + high) / 2, (low, high)


def _doses(form: FeelForm, judged: Judged, check: Check, *, stopped: bool, one_word: bool) -> str:
    if judged.contradicts or stopped:
        return "no"
    if not check.may_dose or form.sand_kind != WASHED:
        return "not_yet"
    return "yes" if one_word else "wide"
