"""What *pattern* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.drawings import projections
from sandmix.jobs.pattern import orientations
from sandmix.jobs.pattern.figures import _overlaps
from sandmix.jobs.pattern.form import LARGE_MM, SMALL_MM, PatternForm
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.mesh import solid
from sandmix.mesh.seams import Hole
from sandmix.mould import body

_TOLD_HOLES = 3


def tell(computed: Computed[PatternForm]) -> Telling:
    """Say how big the casting is, or why that can't be said."""
    form = computed.form
    metal = METALS[form.metal].label
    if not computed.has("casting_volume_cm3"):
        assert form.solid is not None
        return Telling(
            headline=f"No volume can be computed: {form.solid.why}. Its box is {computed.text('box_mm')}.",
            state=("not closed" if form.solid.trust == solid.OPEN else "can't tell", "care"),
            lead=Lead(word="area_cm2", label="Surface", text=computed.text("area_cm2")),
            remarks=tuple(_remarks(computed)),
            working=tuple(_working(computed)),
        )
    size = f", {computed.text('box_mm')}" if computed.has("box_mm") else ""
    return Telling(
        headline=f"The casting is {computed.text('casting_volume_cm3')}: {computed.text('casting_kg')} of {metal}{size}.",
        state=("look at it", "care") if _overlaps(form) else ("measured", "go"),
        lead=Lead(
            word="casting_volume_cm3",
            label="The casting",
            text=computed.text("casting_volume_cm3"),
            then=computed.within("casting_volume_cm3"),
        ),
        remarks=tuple(_remarks(computed)),
        working=tuple(_working(computed)),
        drawings=_views(form),
        next=_next(computed),
    )


def _views(form: PatternForm) -> dict[str, str]:
    if form.solid is None or not form.solid.views:
        return {}
    return {"views": projections.draw(form.solid.views, form.mm, "pattern-views", "The shape, to scale")}


def _remarks(computed: Computed[PatternForm]) -> Iterable[str]:
    form = computed.form
    if form.solid is not None:
        yield from _of_the_mesh(form, form.solid)
    if computed.has("box_mm"):
        longest = max(computed.numbers("box_mm"))
        if longest < SMALL_MM or longest > LARGE_MM:
            yield (
                f"Its longest side is {longest:.4g} mm, which is {'tiny' if longest < SMALL_MM else 'huge'} for a "
                "casting. Look at the unit."
            )
    if computed.has("casting_volume_cm3") and not computed.has("modulus_mm"):
        yield (
            "Surface and modulus are left out: "
            + (
                "where pieces overlap, the surface of the file is more than the casting's."
                if _overlaps(form)
                else "this way of measuring tells the volume alone. A file or sizes tell both."
            )
        )
    if computed.has("box_mm") and computed.has("volume_cm3") and form.solid is None:
        box_cm3 = math.prod(computed.numbers("box_mm")) / 1000
        if computed.number("volume_cm3") > 1.01 * box_cm3:
            yield (
                f"Its volume is more than the {box_cm3:.0f} cm3 of a box of those sizes. One of them is wrong: look at both."
            )
    if form.box_mm is not None and form.dipped_or_weighed is None:
        yield "A plain shape leaves out bosses, fillets and draft. Dip the pattern in water, or send its file, to count them."
    if form.printed and form.pattern_mass_g is not None:
        yield "A print is hollow, and how far is a guess: dip it in water for a better figure."
    if computed.has("column_cm3") and computed.number("more_head_mm") >= 1:
        yield (
            f"It falls away from its top by {computed.text('more_head_mm')} in the mean. Add that to the head of metal for the "
            "weights on the cope. Reckoned with the whole upper side under the cope's sand."
        )
    yield from orientations.remarks(computed)


def _of_the_mesh(form: PatternForm, computed: solid.Solid) -> Iterable[str]:
    yield from computed.remarks
    found = computed.seams
    if found.joined:
        yield (
            f"Corners up to {to_figures(found.joined * form.mm, 2)} mm apart were taken as one: the file rounds them. "
            "That may move the volume by as much as its doubt says."
        )
    if found.turned:
        yield f"{_many(found.turned, 'facet')} faced the other way than their neighbours. They were turned."
    if computed.flipped:
        yield (
            "The whole of it faced inwards. It was turned."
            if computed.flipped == computed.shells
            else f"{_many(computed.flipped, 'shell')} faced inwards with nothing around. They were turned."
        )
    if computed.flat:
        yield f"{_many(computed.flat, 'facet')} of no area were passed over."
    if computed.trust == solid.OPEN:
        yield from _of_the_holes(form, computed)
    if computed.trust == solid.UNTOLD:
        yield f"No volume is computed: {computed.why}. Mend it where it was drawn, and save it anew."
    if computed.trust == solid.OVERLAPS and computed.volume is not None:
        share = 100 * computed.overlap / (computed.volume + computed.overlap)
        yield (
            f"Pieces of it overlap: {share:.2g} % of the volume was there twice, and is counted once. "
            "Join them where it was drawn for an exact figure."
        )
    if computed.hollows:
        yield (
            f"{_many(computed.hollows, 'closed hollow')} lie{'s' if computed.hollows == 1 else ''} inside. Sand can't get in there, nor out: it "
            "is counted as left free, which only a core with a way out can do."
        )


def _of_the_holes(form: PatternForm, computed: solid.Solid) -> Iterable[str]:
    found = computed.seams
    if found.holes:
        shown = "; ".join(_where(hole, form.mm) for hole in found.holes[:_TOLD_HOLES])
        yield (
            f"It is open in {_many(len(found.holes), 'place')}: {shown}"
            f"{'; and others' if len(found.holes) > _TOLD_HOLES else ''}. Mend it where it was drawn, and save it anew."
        )
    if found.twisted:
        yield (
            f"Along {_many(found.twisted, 'edge')} two facets face opposite ways, and it can't be told which is right."
        )
    if found.crowded:
        yield f"Along {_many(found.crowded, 'edge')} more facets meet than can pair."


def _where(hole: Hole, mm: float) -> str:
    middle = " / ".join(
        f"{round((low + high) / 2 * mm, 1) + 0.0:g}" for low, high in zip(hole.low, hole.high, strict=True)
    )
    across = max(high - low for low, high in zip(hole.low, hole.high, strict=True)) * mm
    return f"at x / y / z {middle} mm, {to_figures(across, 2)} mm across, {_many(hole.edges, 'edge')} around"


def _many(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"


def _next(computed: Computed[PatternForm]) -> tuple[Next, ...]:
    form = computed.form
    assert form.shrink_pct is not None
    larger = 1.0 if form.measured == "pattern" else 1 + form.shrink_pct / 100
    flask = computed.carried(pattern_volume_cm3="pattern_volume_cm3")
    pour = {"metal": form.metal} | computed.carried(casting_volume_cm3="casting_volume_cm3")
    burnout = {"metal": form.metal} | computed.carried(casting_volume_cm3="casting_volume_cm3")
    links = [
        Next(job="flask", label="A flask for it", inputs=flask),
        Next(job="pour", label="Metal and weights", inputs=pour),
    ]
    if computed.has("box_mm"):
        sides = computed.numbers("box_mm")
        high = "xyz".index(form.up[1]) if form.solid is not None else 2
        across = sorted((side * larger for at, side in enumerate(sides) if at != high), reverse=True)
        flask |= {"pattern_length_mm": f"{across[0]:.4g} mm", "pattern_width_mm": f"{across[1]:.4g} mm"}
        flask |= {"pattern_height_mm": f"{sides[high] * larger:.4g} mm"}
        links.insert(0, Next(job="fit", label="Which flask to take", inputs={"metal": form.metal} | flask))
        burnout |= {"box_mm": f"{' x '.join(f'{side:.4g}' for side in sides)} mm"}
    if computed.has("projected_area_cm2"):
        pour |= {"projected_area_cm2": f"{computed.number('projected_area_cm2') * larger**2:.4g} cm2"}
    if computed.has("casting_area_cm2"):
        burnout |= computed.carried(casting_area_cm2="casting_area_cm2")
        links.append(Next(job="burnout", label="What the pour does", inputs=burnout))
    return (*links, *orientations.onward(computed))


def _working(computed: Computed[PatternForm]) -> Iterable[str]:
    form = computed.form
    if form.solid is not None:
        yield f"{form.solid.facets} facets, {computed.text('shells')} shells, one unit of the file = {form.mm:g} mm"
    elif form.displaced_water_ml is not None:
        yield f"volume = the water pushed aside = {form.displaced_water_ml:g} mL"
    elif form.pattern_mass_g is not None:
        hollow = (
            f" × solid share ({form.infill_pct:g} % infill, {form.walls_pct:g} % of the rest walls)"
            if form.printed
            else ""
        )
        yield (
            f"volume = {form.pattern_mass_g:g} g / ({form.pattern_density_kg_l:.3g} g/cm3{hollow}) = "
            f"{computed.number('volume_cm3'):.1f} cm3"
        )
    else:
        yield f"volume of {body.BODIES[form.body].partition(':')[0]} = {computed.number('volume_cm3'):.1f} cm3"
    if not computed.has("casting_volume_cm3"):
        return
    yield (
        f"shrink {form.shrink_pct:.2f} % of length: pattern = casting × {1 + (form.shrink_pct or 0) / 100:.4f}³ = "
        f"{computed.number('pattern_volume_cm3'):.1f} cm3"
    )
    yield (
        f"mass = {computed.number('casting_volume_cm3'):.1f} cm3 × {METALS[form.metal].solid_kg_m3 / 1000:g} g/cm3 = "
        f"{computed.number('casting_kg'):.3f} kg"
    )
    if computed.has("modulus_mm"):
        yield f"modulus = volume / surface = {computed.number('modulus_mm'):.2f} mm"
    yield from orientations.working(computed)
