"""Clocks for the sand: how long to mull after a dose, how long to let it rest, and the weight at which wet sand is dry enough."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.form import F
from sandmix.asking.job import Computed, Timer, ToDo

MULL_S = 10 * 60.0
"""How long a batch is mulled (common practice, no source)."""
REST_S = 60 * 60.0
"""The shortest rest after mulling; a night is the longest (common practice, no source)."""
SOURCE = "mull_and_rest"

STOP_MULLING = "Stop mulling, and cover the sand"
STOP_BATCH = "Stop mulling this batch; start the clocks again with the next one"
STOP_EITHER = "Stop mulling: test the sand after clay, cover it after water"
STOP_AND_TEST = "Stop mulling, and test the sand"
TEST_RESTED = "Test the rested sand (an hour to a night after mulling)"


def after_a_dose(*, water: bool, clay: bool = False, batches: bool = False) -> Iterable[Timer]:
    """Yield the clocks that start when the first dose is in: of *water*, of *clay*, or in one of several *batches*.

    Clay alone is mulled and tested; water is mulled in and then needs its rest. Source: mull_and_rest.

    >>> [(timer.after_s, timer.text) for timer in after_a_dose(water=True)]
    [(600.0, '10 min'), (4200.0, '1 h 10 min')]
    >>> [timer.label for timer in after_a_dose(water=False, clay=True)]
    ['Stop mulling, and test the sand']
    """
    if not (water or clay):
        return
    mulled = STOP_BATCH if batches else STOP_MULLING
    if clay:
        mulled = STOP_EITHER if water else STOP_AND_TEST
    yield Timer(name="mull", label=mulled, after_s=MULL_S, text="10 min")
    if water:
        yield Timer(name="rest", label=TEST_RESTED, after_s=MULL_S + REST_S, text="1 h 10 min")


def dry_to(computed: Computed[F], begin: str = "Dry the sand") -> Iterable[str]:
    """Say at which weight the sand is dry enough, where it has water to lose; *begin* begins the sentence."""
    if computed.has("dried_kg"):
        yield (
            f"{begin} until it weighs {computed.text('dried_kg')} without its container, {computed.text('water_to_lose_kg')} less than "
            "now. How long that takes depends on the air, so go by the weight."
        )


def spread_and_dry(computed: Computed[F]) -> Iterable[ToDo]:
    """Return what to do about sand that is too wet to mould: spread it, and the weight at which it is dry enough, where that is known."""
    if computed.is_above_zero("water_to_lose_kg"):
        yield ToDo(text="Spread the sand and dry it: water to lose", amount=computed.text("water_to_lose_kg"))
    else:
        yield ToDo(text="Spread the sand and dry it")
    yield from dry_enough(computed)


def dry_enough(computed: Computed[F]) -> Iterable[ToDo]:
    """Return the same as a thing to do, after the one that says to dry the sand."""
    if computed.has("dried_kg"):
        yield ToDo(text="It is dry enough when the sand alone weighs", amount=computed.text("dried_kg"))
