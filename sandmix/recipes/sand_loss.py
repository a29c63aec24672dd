"""How much sand a cast loses, in addition to what burns: crust thrown away, lumps in the riddle, sand on the casting, dust and spills.

The loss belongs to the sand in the mould, not to the heap: a small flask loses as much out of 200 kg as out of 20. It is what was weighed;
without a weighing, the mean of the person's own weighed casts; without those, a default with its uncertainty.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths import statistics

WEIGHED, LEARNED, DEFAULT = "weighed", "learned", "default"
DEFAULT_SHARE = 0.02
DEFAULT_HALF_WIDTH = 0.01
ENOUGH_CASTS = 3
MOULD_PER_METAL = 15.0
"""Sand in a mould per mass of metal, where the flask's sand is not given (own rule, no source)."""
MOULD_PER_METAL_ENDS = (7.5, 22.5)
"""Its likely range (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """A loss as a share of the sand in the mould, its 95 % half-width, and where it comes from."""

    share: float
    half_width: float
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MouldSand:
    """The sand in a mould, with its water, in kg, its 95 % half-width, and whether it is only estimated from the metal."""

    kg: float
    half_width: float
    estimated: bool

    def lost_kg(self, loss: Loss) -> tuple[float, float]:
        """Return the loss in kg, and its 95 % half-width.

        >>> [round(kg, 3) for kg in MouldSand(kg=10.0, half_width=0.0, estimated=False).lost_kg(loss_a_cast([]))]
        [0.2, 0.1]
        """
        return loss.share * self.kg, math.hypot(loss.half_width * self.kg, loss.share * self.half_width)


def sand_in_mould(
    metal_kg: float, heap_kg: float, flask_sand_kg: float | None = None, half_width: float = 0.0
) -> MouldSand:
    """Return the sand in the mould of *metal_kg*: that of the flask, else 15 times the metal, and never more than the heap.

    >>> sand_in_mould(0.7, 200.0).kg, sand_in_mould(2.0, 20.0).kg, sand_in_mould(0.7, 200.0, 12.0).kg
    (10.5, 20.0, 12.0)
    """
    if flask_sand_kg is not None:
        return MouldSand(kg=min(flask_sand_kg, heap_kg), half_width=half_width, estimated=False)
    least, here, most = (
        min(times * metal_kg, heap_kg) for times in (MOULD_PER_METAL_ENDS[0], MOULD_PER_METAL, MOULD_PER_METAL_ENDS[1])
    )
    return MouldSand(kg=here, half_width=max(here - least, most - here), estimated=True)


def loss_a_cast(own: Sequence[float]) -> Loss:
    """Return what the next cast will lose, as a share of the sand in its mould, from the shares *own* of casts that were weighed.

    From three casts on it is their mean, with the prediction interval of one more cast: t s √(1 + 1/N), over the last twenty. Below three it is
    1 to 3 % (from memory). Source: the usual prediction interval.

    >>> loss_a_cast([]).how, loss_a_cast([0.03, 0.04, 0.05]).share
    ('default', 0.04)
    """
    lately = own[-statistics.MOST_READINGS :]
    if len(lately) < ENOUGH_CASTS:
        return Loss(share=DEFAULT_SHARE, half_width=DEFAULT_HALF_WIDTH, how=DEFAULT)
    mean, half_width = statistics.prediction_interval(lately)
    return Loss(share=mean, half_width=half_width, how=LEARNED)
