"""How *shopping* presents its answer: headline, remarks, caution and working."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import CEMENT
from sandmix.asking.job import Computed, Lead, Telling
from sandmix.jobs.shopping.form import ShoppingForm


def tell(computed: Computed[ShoppingForm]) -> Telling:
    """Say what to buy."""
    bags = [
        f"{computed.number(f'{kind}_bags'):.0f} of {kind}" for kind in ("sand", "clay") if computed.has(f"{kind}_bags")
    ]
    lead = "sand_bags" if computed.has("sand_bags") else "clay_bags"
    cost = f", {computed.text('cost')} in all" if computed.has("cost") else ""
    return Telling(
        headline=f"Bags to buy: {' and '.join(bags)}{cost}.",
        state=("buy", "plain"),
        lead=Lead(
            word=lead,
            label="Bags to buy",
            text=" + ".join(
                f"{computed.number(f'{kind}_bags'):.0f} {kind}"
                for kind in ("sand", "clay")
                if computed.has(f"{kind}_bags")
            ),
            then=computed.text("cost") if computed.has("cost") else "",
        ),
        remarks=tuple(_remarks(computed)),
        cautions=(CEMENT,),
        working=tuple(_working(computed)),
    )


def _remarks(computed: Computed[ShoppingForm]) -> Iterable[str]:
    form = computed.form
    if computed.has("clay_left_kg") and form.clay_kg:
        left = computed.number("clay_left_kg")
        if left < 0.25 * form.clay_kg:
            yield (
                f"{_only(computed, 'clay_left_kg')} clay would be left to replace what casting burns. Consider one more bag; it is "
                "not counted here."
            )
    if computed.has("sand_left_kg") and form.sand_kg and computed.number("sand_left_kg") < 0.1 * form.sand_kg:
        yield (
            f"{_only(computed, 'sand_left_kg')} sand would be left for spills, facing and repairs. Consider one more bag; it is not "
            "counted here."
        )
    if form.make_kg is None and computed.has("cost_per_kg"):
        yield (
            "The cost per kilogram counts the sand and clay as bought. For the cost of finished sand, enter the moulding sand that "
            "it makes."
        )
    yield (
        "Test the sand before you buy: grains that bubble in vinegar are shell or limestone, and slag sold as blasting sand is "
        "not moulding sand."
    )


def _only(computed: Computed[ShoppingForm], word: str) -> str:
    return f"Only {computed.text(word)} of" if computed.number(word) > 0 else "No"


def _working(computed: Computed[ShoppingForm]) -> Iterable[str]:
    form = computed.form
    if computed.has("sand_bags"):
        yield (
            f"sand: {form.sand_kg:g} kg / {form.sand_yield_pct / 100:g} / {form.sand_bag_kg:g} kg, rounded up to "
            f"whole bags = {computed.number('sand_bags'):.0f}"
        )
    if computed.has("clay_bags"):
        yield (
            f"clay: {form.clay_kg:g} kg / {form.clay_bag_kg:g} kg, rounded up to whole bags = "
            f"{computed.number('clay_bags'):.0f}"
        )
