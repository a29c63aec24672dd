"""How *blend* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DRYING, DUST, Caution
from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo, WayOut
from sandmix.drawings import composition_bar
from sandmix.jobs.blend.figures import wetness
from sandmix.jobs.blend.form import BlendForm, blend_of, blended_grading, grading_of, number_of, sand_of
from sandmix.jobs.shared import wet_sand
from sandmix.jobs.shared.bought import UNTESTED, is_untested
from sandmix.jobs.shared.doses import water_to_do
from sandmix.language.wording import to_figures
from sandmix.maths.uncertainty import wider_side
from sandmix.recipes.too_wet import STOP, Wetness
from sandmix.vocabulary import WORDS

_LOT_SHARES = ("moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")


def tell(computed: Computed[BlendForm]) -> Telling:
    """Say what the lots make and what to add."""
    form = computed.form
    added = [
        f"{computed.text(word)} {name}"
        for word, name in (("clay_kg", "clay"), ("water_kg", "water"))
        if computed.is_above_zero(word)
    ]
    together = f"{len(form.lots)} lots" if len(form.lots) > 1 else "The one lot"
    with_what = f", with {' and '.join(added)}," if added else ""
    makes = f"{together}{with_what} {'make' if len(form.lots) > 1 else 'makes'} {computed.text('make_kg')} of sand."
    rich, over_wet = _has_too_much_clay(computed), computed.is_above_zero("water_to_lose_kg")
    word, tone = ("too much clay", "care") if rich else ("too wet", "care") if over_wet else ("blend", "go")
    wet = wetness(form, computed.doubt.get("moisture_pct_wet"))
    return Telling(
        headline=wet_sand.headline(wet, makes),
        state=wet_sand.state(wet, word, tone),
        lead=_lead(computed),
        todo=tuple(_to_do(computed, wet)),
        remarks=(*wet_sand.remarks(wet), *_remarks(computed)),
        cautions=(*wet_sand.cautions(wet), *_cautions(computed)),
        working=tuple(_working(computed)),
        drawings=_bars(computed),
        next=tuple(_next(computed)),
        records=tuple(_records(computed)),
    )


def _to_do(computed: Computed[BlendForm], wet: Wetness) -> Iterable[ToDo]:
    """How much of each lot to take, what to dry off, and what to add, the water last."""
    to_lose = computed.text("water_to_lose_kg") if computed.is_above_zero("water_to_lose_kg") else ""
    if wet.tone == STOP:
        yield from wet_sand.to_do(wet, "" if wet.target == STOP else to_lose)
        return
    if not _are_enough(computed):
        yield ToDo(text="The lots are not enough: make less, or get more of them")
        return
    share = computed.number("lots_share_pct") / 100
    for at, lot in enumerate(computed.form.lots, start=1):
        yield ToDo(text=f"Take lot {at}", amount=f"{share * sand_of(lot).wet_kg:.2f} kg")
    if to_lose:
        yield ToDo(text="Dry them first: water to lose", amount=to_lose)
    if computed.is_above_zero("clay_kg"):
        yield ToDo(text="Clay, as bought: mix it into the sand dry", amount=computed.text("clay_kg"))
    if computed.has("plain_sand_kg"):
        yield ToDo(text="Dry plain sand, to bring the clay down to the target", amount=computed.text("plain_sand_kg"))
    yield from water_to_do(computed)


def _are_enough(computed: Computed[BlendForm]) -> bool:
    """Whether the lots are enough for the mass to make."""
    return computed.number("lots_share_pct") <= 100 * (1 + 1e-9)


def _has_too_much_clay(computed: Computed[BlendForm]) -> bool:
    target = computed.form.target_clay_pct_dry
    return target is not None and computed.number("clay_pct_dry") > target + 1e-9


def _lead(computed: Computed[BlendForm]) -> Lead:
    for word, label in (("clay_kg", "Clay to add"), ("water_to_lose_kg", "Dry off"), ("water_kg", "Water to add")):
        if computed.is_above_zero(word):
            return Lead(word=word, label=label, text=computed.text(word), then=computed.range(word))
    return Lead(word="clay_pct_dry", label="Live clay together", text=computed.text("clay_pct_dry"))


def _next(computed: Computed[BlendForm]) -> Iterable[Next]:
    retained = blended_grading(computed.form)
    if retained is not None:
        text = "; ".join(f"{number}: {held:.4g}" for number, held in retained.items())
        yield Next(job="fineness", label="What are its grain sizes?", inputs={"retained": text})
    if _are_enough(computed):
        yield Next(job="temper", label="Test and temper it", inputs=computed.carried(heap_kg="make_kg"))
    else:
        yield Next(job="mix", label="Mix new sand to add to it")


def _records(computed: Computed[BlendForm]) -> Iterable[Record]:
    """The blend as events of a heap: each lot is mixed in, then what is added; none where the lots are not enough."""
    if not _are_enough(computed):
        return
    share = computed.number("lots_share_pct") / 100
    for at, lot in enumerate(computed.form.lots):
        words = {
            theirs: _of_lot(computed, at, ours, share if ours == "kg" else 1.0)
            for theirs, ours in (("joined_kg", "kg"), *((word, word) for word in _LOT_SHARES))
            if isinstance(lot.get(ours), (int, float))
        }
        yield Record(kind="joined", label=f"Record lot {at + 1} in the book", words=words)
    if computed.is_above_zero("water_to_lose_kg"):
        lost = computed.carried(water_kg="water_to_lose_kg")
        yield Record(kind="dried", label="Record the water dried off in the book", words=lost)
    added = {word: word for word in ("clay_kg", "water_kg") if computed.is_above_zero(word)}
    if added:
        label = f"Record the {' and the '.join(WORDS[word].label.lower() for word in added)} in the book"
        yield Record(
            kind="added",
            label=label,
            words=computed.carried(**added) | (_the_clay(computed) if "clay_kg" in added else {}),
        )


def _of_lot(computed: Computed[BlendForm], at: int, word: str, share: float) -> str:
    """A lot's figure as text, with its ±."""
    value, unit = number_of(computed.form.lots[at], word), "kg" if word == "kg" else "%"
    half = wider_side(computed.filled.bands.get(("lots", at, word), (value, value)), value)
    doubt = f" ± {to_figures(share * half, 2)}" if half > 0 else ""
    return f"{to_figures(share * value, 6)}{doubt} {unit}"


def _the_clay(computed: Computed[BlendForm]) -> dict[str, str]:
    form = computed.form
    words = {"clay": form.clay}
    if "clay_moisture_pct_wet" not in computed.filled.assumed:
        words["clay_moisture_pct_wet"] = f"{form.clay_moisture_pct_wet:g} %"
    if "clay_activity_pct" not in computed.filled.assumed:
        words["clay_activity_pct"] = f"{form.activity_pct:g} %"
    return words


def _remarks(computed: Computed[BlendForm]) -> Iterable[str]:
    form = computed.form
    if _has_too_much_clay(computed):
        start = (
            f"The lots contain {computed.text('clay_pct_dry')} live clay; the target is {form.target_clay_pct_dry:g} % (both of "
            "the dry mass). No clay is added."
        )
        if computed.has("plain_sand_kg"):
            yield WayOut(f"{start} To dilute it to the target, add {computed.text('plain_sand_kg')} of dry plain sand.")
        else:
            yield WayOut(f"{start} Plain sand cannot bring it to zero.")
    if form.make_kg is not None:
        share = computed.number("lots_share_pct") / 100
        masses = ", ".join(
            f"lot {at}: {share * sand_of(lot).wet_kg:.2f} kg" for at, lot in enumerate(form.lots, start=1)
        )
        yield (
            f"Take {masses}." if _are_enough(computed) else WayOut(f"The lots are not enough. You would need {masses}.")
        )
    if computed.is_above_zero("water_to_lose_kg"):
        yield WayOut(
            f"Together the lots hold {computed.text('water_to_lose_kg')} too much water. Dry them first. The mass given is the mass "
            "after drying."
        )
    unsieved = [at for at, lot in enumerate(form.lots, start=1) if grading_of(lot) is None]
    if not computed.has("retained"):
        listed = ", ".join(str(at) for at in unsieved)
        yield (
            f"Left out: the grain sizes of the blend. To get them, enter the sieve results of lot {listed}."
            if unsieved
            else "Left out: the grain sizes of the blend, because it contains no grain."
        )
    if is_untested(computed.filled) and computed.is_above_zero("clay_kg"):
        yield UNTESTED
    if _are_enough(computed):
        yield "In the heap's book, enter each lot and then what is added. Leave out a lot that is already in the heap."
    yield (
        "Moisture, live clay and dead fines are those of the lots together, before anything is added. The likely ranges "
        "include the uncertainty of each lot's figures: the ± that you entered, or the usual one. A box left empty counts as "
        "exactly zero."
    )


def _cautions(computed: Computed[BlendForm]) -> Iterable[Caution]:
    yield DUST
    if computed.is_above_zero("water_to_lose_kg"):
        yield DRYING


def _working(computed: Computed[BlendForm]) -> Iterable[str]:
    form, found = computed.form, blend_of(computed.form)
    lots = [sand_of(lot) for lot in form.lots]
    dry, live, water = (sum(getattr(lot, part) for lot in lots) for part in ("dry_kg", "live_clay_kg", "water_kg"))
    yield f"all lots: {dry:.3f} kg dry mass with {live:.3f} kg live clay, and {water:.3f} kg water"
    if found.lots_share != 1:
        yield f"share of each lot that is used = {found.lots_share:.4f}"
    if computed.is_above_zero("clay_kg"):
        target, activity = (form.target_clay_pct_dry or 0.0) / 100, form.activity_pct / 100
        yield (
            f"dry clay product = ({target:g} × {dry:.3f} − {live:.3f}) / ({activity:g} − {target:g}) × "
            f"{found.lots_share:.4f} = {computed.number('clay_kg') * (1 - form.clay_moisture_pct_wet / 100):.3f} kg; as "
            f"bought {computed.number('clay_kg'):.3f} kg"
        )
    for at, lot in enumerate(lots, start=1):
        yield f"lot {at}: {lot.grain_kg:.3f} kg of dry grain, its weight in the grading of the blend"


def _bars(computed: Computed[BlendForm]) -> dict[str, str]:
    found = blend_of(computed.form)
    full = max(found.together.dry_kg, found.made.dry_kg)
    return {
        "together": composition_bar.draw(found.together, "blend-together", "The lots together", full_dry_kg=full),
        "after": composition_bar.draw(found.made, "blend-after", "The finished sand", full_dry_kg=full),
    }
