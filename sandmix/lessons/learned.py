"""What a person's own readings teach: each figure as it is assumed at first and as it is now, and how much of that is still assumed.

Rammed density, the sand lost at a cast, the live share of clay granules, the slope of compactability against water, and the dead fines gained at
a cast. Each reading moves the figure by the errors of both (`maths/learning.py`). Where a figure was set back, only later readings count.
Source: the conjugate update of a normal mean, derived; each first figure has its own source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from sandmix.asking.form import band_about
from sandmix.bench import tin_dosing
from sandmix.book.heap import fold
from sandmix.book.known_water import DAY_LOSSES
from sandmix.book.logged_readings import LoggedReading, readings
from sandmix.book.standing import Event
from sandmix.book.weighed_losses import OWN_LOSS
from sandmix.drying import heap_water
from sandmix.drying.heap_water import COVERS, Move
from sandmix.lessons.taught import Taught
from sandmix.lessons.tin_past import tin_past
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.maths import learning
from sandmix.maths.learning import Belief
from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA
from sandmix.maths.uncertainty import Band
from sandmix.recipes import sand_loss
from sandmix.vocabulary import quantity

DENSITY, GRANULES, SLOPE, FINES = (
    "rammed_density_kg_l",
    "clay_activity_pct",
    "compactability_slope",
    "dead_fines_a_cast_pct_dry",
)
DEAD_FINES_PRIOR = Belief(mean=0.15, sd=0.15 / TWO_SIGMA)
"""Points of dead fines gained at a cast: 2 % of a live clay of 7.5 % die, give or take as much (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """One figure by its word: at first and now, each with its 95 % range, the number of own readings, and the share of the first figure, 0 to 1.

    *source* is the key of the source of the first figure.
    """

    word: str
    first: float
    first_band: Band
    now: float
    band: Band
    readings: int
    prior_share: float
    source: str

    @property
    def from_where(self) -> str:
        """Where the figure is from, for a person."""
        return from_readings(self.readings) if self.readings else "a general figure"

    @property
    def own_text(self) -> str:
        """How much of it is one's own, of 100 %."""
        own = 100 * (1 - self.prior_share)
        return f"{own:.0f} % your own" if own >= 1 or not self.readings else "less than 1 % your own"


def from_readings(count: int) -> str:
    """Return where a figure is from that so many own readings have taught, as the page says it."""
    return f"your own, {count} {'reading' if count == 1 else 'readings'}"


def density(own: Sequence[LoggedReading]) -> Learned:
    """Return the rammed density in kg/L after the last twenty of its *own* readings."""
    word = quantity(DENSITY)
    assert word.default is not None
    first = learning.belief(word.default, word.half_width(word.default, assumed=True))
    lately = [(reading.value, reading.half_width) for reading in own[-MOST_READINGS:]]
    now = learning.after(first, learning.measured(lately)) if lately else first
    return _of(DENSITY, first, now, len(lately), word.source)


def learned(events: Sequence[Event]) -> list[Learned]:
    """Return every figure that the entries of a book teach."""
    taught, moves = Taught.of(events), fold(events).moves
    days = [_day_loss(word, moves) for word in DAY_LOSSES]
    return [
        density(readings(events).get(DENSITY, ())),
        _loss(taught),
        *days,
        _granules(taught),
        _slope(events),
        _dead_fines(taught),
    ]


def _loss(taught: Taught) -> Learned:
    """The sand lost at a cast, in % of the sand in the mould: the long-run mean."""
    own = taught.losses
    now = sand_loss.learned(own)[0] if own else sand_loss.PRIOR
    return _of_logarithm(OWN_LOSS, sand_loss.PRIOR, now, len(own), 100.0, "memory")


def _day_loss(word: str, moves: Sequence[Move]) -> Learned:
    """The points of moisture that a day takes under one cover, as the heap book counts them: its own rule until it has seen enough."""
    cover = DAY_LOSSES[word]
    at = COVERS.index(cover)
    mean, sd = heap_water.PRIOR[cover]
    first, count = Belief(mean=mean, sd=sd), sum(move.exposure.days[at] > 0 for move in moves)
    if cover not in heap_water.seen(moves):
        return replace(_of(word, first, first, 0, "own"), readings=count)
    mean, sd = heap_water.rates(moves).rate(at)
    return _of(word, first, Belief(mean=mean, sd=sd), count, "own")


def _granules(taught: Taught) -> Learned:
    """The live share of clay granules: the middle of their range at first."""
    low, high = CLAYS["clay_granules"].activity_band_pct
    first = learning.belief((low + high) / 2, (high - low) / 2)
    now = learning.after_all(first, taught.granules)
    return _of(GRANULES, first, now, len(taught.granules), quantity(GRANULES).source)


def _dead_fines(taught: Taught) -> Learned:
    slopes, count = taught.growths()
    now = learning.after_all(DEAD_FINES_PRIOR, slopes)
    return _of(FINES, DEAD_FINES_PRIOR, now, count, "own")


def _slope(events: Sequence[Event]) -> Learned:
    """The slope of compactability against water, by the line of the tin tests."""
    line = tin_past(events).line
    prior = tin_dosing.SLOPE
    side = TWO_SIGMA * prior.log_sd
    count = len(line.points) + len(line.differences)
    return Learned(
        word=SLOPE,
        first=prior.median,
        first_band=(prior.median * math.exp(-side), prior.median * math.exp(side)),
        now=line.slope,
        band=line.slope_band,
        readings=count,
        prior_share=line.prior_share if count else 1.0,
        source="tin_slope",
    )


def _of(word: str, first: Belief, now: Belief, readings: int, source: str) -> Learned:
    """A figure whose belief is normal, cut off at the bounds of its word."""
    declared = quantity(word)
    mean = min(declared.high, max(declared.low, now.mean))
    return Learned(
        word=word,
        first=first.mean,
        first_band=band_about(word, first.mean, first.half_width),
        now=mean,
        band=band_about(word, mean, now.half_width),
        readings=readings,
        prior_share=learning.share_of_prior(first, now) if readings else 1.0,
        source=source,
    )


def _of_logarithm(word: str, first: Belief, now: Belief, readings: int, unit: float, source: str) -> Learned:
    """A figure above 0 whose logarithm is believed, in so many of its unit."""
    first_band, band = (
        tuple(unit * math.exp(each.mean + sign * each.half_width) for sign in (-1, 1)) for each in (first, now)
    )
    return Learned(
        word=word,
        first=unit * math.exp(first.mean),
        first_band=(first_band[0], first_band[1]),
        now=unit * math.exp(now.mean),
        band=(band[0], band[1]),
        readings=readings,
        prior_share=learning.share_of_prior(first, now) if readings else 1.0,
        source=source,
    )


def sources(figures: Iterable[Learned]) -> tuple[str, ...]:
    """Return the keys of the sources of the first figures, each once."""
    return tuple(dict.fromkeys(figure.source for figure in figures))
