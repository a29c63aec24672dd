"""How much sand a cast loses, in addition to what burns: crust thrown away, lumps in the riddle, sand on the casting, dust and spills.

The loss belongs to the sand in the mould, not to the heap: a small flask loses as much out of 200 kg as out of 20. It is what was weighed;
without a weighing, what the person's own weighed casts have taught; without those, a default with its uncertainty.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths import learning, statistics
from sandmix.maths.learning import Belief, Scatter

WEIGHED, LEARNED, DEFAULT = "weighed", "learned", "default"
DEFAULT_SHARE = 0.02
DEFAULT_HALF_WIDTH = 0.01
PRIOR = learning.of_range(0.01, 0.04)
"""The long-run loss before any weighing, as a logarithm: 2 %, a factor of two each way (from memory, widened)."""
ASSUMED_SPREAD = math.log(1.3) / statistics.TWO_SIGMA
"""By how much single casts differ, as a logarithm: 19 in 20 within a factor of 1.3 (own choice)."""
LEAST_SHARE = 0.001
"""A cast that was weighed to lose nothing counts as this."""
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


def learned(own: Sequence[float]) -> tuple[Belief, Scatter]:
    """Return what one or more weighed casts teach: the belief of the logarithm of the long-run loss, and what the casts say of it by themselves."""
    reading = learning.scattered([math.log(max(LEAST_SHARE, share)) for share in own], ASSUMED_SPREAD)
    return learning.after(PRIOR, reading.mean), reading


def loss_a_cast(own: Sequence[float]) -> Loss:
    """Return what the next cast will lose, as a share of the sand in its mould, from the shares *own* of casts that were weighed.

    Without any it is 1 to 3 % (from memory). From the first on, the prior of the long-run loss, 1 to 4 %, moves towards the weighed casts by the
    errors of both, and the ± is that of one more cast: Student's t of the logarithm, with the spread of casts. Only the last twenty count.
    Source: the conjugate update of a normal mean with the scaled inverse-χ² update of its variance, derived.

    >>> loss_a_cast([]).how, round(loss_a_cast([0.03, 0.04, 0.05]).share, 3)
    ('default', 0.037)
    """
    if not own:
        return Loss(share=DEFAULT_SHARE, half_width=DEFAULT_HALF_WIDTH, how=DEFAULT)
    now, casts = learned(own)
    share = math.exp(now.mean)
    side = statistics.student_t_95(casts.freedom) * math.hypot(now.sd, casts.spread)
    return Loss(share=share, half_width=share * math.sinh(side), how=LEARNED)
