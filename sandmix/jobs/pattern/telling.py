"""What *pattern* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.job import Lead, Next, Telling, Told
from sandmix.drawings import projections
from sandmix.jobs.pattern import orientations
from sandmix.jobs.pattern.figures import _overlaps
from sandmix.jobs.pattern.form import LARGE_MM, SMALL_MM, Pattern
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.mesh import solid
from sandmix.mesh.seams import Hole
from sandmix.mould import body

_TOLD_HOLES = 3


def tell(told: Told[Pattern]) -> Telling:
    """Say how big the casting is, or why that can't be said."""
    form = told.form
    metal = METALS[form.metal].label
    if not told.has("casting_volume_cm3"):
        assert form.solid is not None
        return Telling(
            headline=f"No volume can be told: {form.solid.why}. Its box is {told.text('box_mm')}.",
            state=("not closed" if form.solid.trust == solid.OPEN else "can't tell", "care"),
            lead=Lead(word="area_cm2", label="Surface", text=told.text("area_cm2")),
            remarks=tuple(_remarks(told)),
            working=tuple(_working(told)),
        )
    size = f", {told.text('box_mm')}" if told.has("box_mm") else ""
    return Telling(
        headline=f"The casting is {told.text('casting_volume_cm3')}: {told.text('casting_kg')} of {metal}{size}.",
        state=("look at it", "care") if _overlaps(form) else ("measured", "go"),
        lead=Lead(
            word="casting_volume_cm3",
            label="The casting",
            text=told.text("casting_volume_cm3"),
            then=told.within("casting_volume_cm3"),
        ),
        remarks=tuple(_remarks(told)),
        working=tuple(_working(told)),
        drawings=_views(form),
        next=_next(told),
    )


def _views(form: Pattern) -> dict[str, str]:
    if form.solid is None or not form.solid.views:
        return {}
    return {"views": projections.draw(form.solid.views, form.mm, "pattern-views", "The shape, to scale")}


def _remarks(told: Told[Pattern]) -> Iterable[str]:
    form = told.form
    if form.solid is not None:
        yield from _of_the_mesh(form, form.solid)
    if told.has("box_mm"):
        longest = max(told.numbers("box_mm"))
        if longest < SMALL_MM or longest > LARGE_MM:
            yield (
                f"Its longest side is {longest:.4g} mm, which is {'tiny' if longest < SMALL_MM else 'huge'} for a "
                "casting. Look at the unit."
            )
    if told.has("casting_volume_cm3") and not told.has("modulus_mm"):
        yield (
            "Surface and modulus are left out: "
            + (
                "where pieces overlap, the surface of the file is more than the casting's."
                if _overlaps(form)
                else "this way of measuring tells the volume alone. A file or sizes tell both."
            )
        )
    if told.has("box_mm") and told.has("volume_cm3") and form.solid is None:
        box_cm3 = math.prod(told.numbers("box_mm")) / 1000
        if told.number("volume_cm3") > 1.01 * box_cm3:
            yield (
                f"Its volume is more than the {box_cm3:.0f} cm3 of a box of those sizes. One of them is wrong: look at both."
            )
    if form.box_mm is not None and form.dipped_or_weighed is None:
        yield "A plain shape leaves out bosses, fillets and draft. Dip the pattern in water, or send its file, to count them."
    if form.printed and form.pattern_mass_g is not None:
        yield "A print is hollow, and how far is a guess: dip it in water for a better figure."
    if told.has("column_cm3") and told.number("more_head_mm") >= 1:
        yield (
            f"It falls away from its top by {told.text('more_head_mm')} in the mean. Add that to the head of metal for the "
            "weights on the cope. Reckoned with the whole upper side under the cope's sand."
        )
    yield from orientations.remarks(told)


def _of_the_mesh(form: Pattern, told: solid.Solid) -> Iterable[str]:
    yield from told.remarks
    found = told.seams
    if found.joined:
        yield (
            f"Corners up to {to_figures(found.joined * form.mm, 2)} mm apart were taken as one: the file rounds them. "
            "That may move the volume by as much as its doubt says."
        )
    if found.turned:
        yield f"{_many(found.turned, 'facet')} faced the other way than their neighbours. They were turned."
    if told.flipped:
        yield (
            "The whole of it faced inwards. It was turned."
            if told.flipped == told.shells
            else f"{_many(told.flipped, 'shell')} faced inwards with nothing around. They were turned."
        )
    if told.flat:
        yield f"{_many(told.flat, 'facet')} of no area were passed over."
    if told.trust == solid.OPEN:
        yield from _of_the_holes(form, told)
    if told.trust == solid.UNTOLD:
        yield f"No volume is told: {told.why}. Mend it where it was drawn, and save it anew."
    if told.trust == solid.OVERLAPS and told.volume is not None:
        share = 100 * told.overlap / (told.volume + told.overlap)
        yield (
            f"Pieces of it overlap: {share:.2g} % of the volume was there twice, and is counted once. "
            "Join them where it was drawn for an exact figure."
        )
    if told.hollows:
        yield (
            f"{_many(told.hollows, 'closed hollow')} lie{'s' if told.hollows == 1 else ''} inside. Sand can't get in there, nor out: it "
            "is counted as left free, which only a core with a way out can do."
        )


def _of_the_holes(form: Pattern, told: solid.Solid) -> Iterable[str]:
    found = told.seams
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


def _next(told: Told[Pattern]) -> tuple[Next, ...]:
    form = told.form
    assert form.shrink_pct is not None
    larger = 1.0 if form.measured == "pattern" else 1 + form.shrink_pct / 100
    flask = told.carried(pattern_volume_cm3="pattern_volume_cm3")
    pour = {"metal": form.metal} | told.carried(casting_volume_cm3="casting_volume_cm3")
    burnout = {"metal": form.metal} | told.carried(casting_volume_cm3="casting_volume_cm3")
    links = [
        Next(job="flask", label="A flask for it", inputs=flask),
        Next(job="pour", label="Metal and weights", inputs=pour),
    ]
    if told.has("box_mm"):
        sides = told.numbers("box_mm")
        high = "xyz".index(form.up[1]) if form.solid is not None else 2
        across = sorted((side * larger for at, side in enumerate(sides) if at != high), reverse=True)
        flask |= {"pattern_length_mm": f"{across[0]:.4g} mm", "pattern_width_mm": f"{across[1]:.4g} mm"}
        flask |= {"pattern_height_mm": f"{sides[high] * larger:.4g} mm"}
        links.insert(0, Next(job="fit", label="Which flask to take", inputs={"metal": form.metal} | flask))
        burnout |= {"box_mm": f"{' x '.join(f'{side:.4g}' for side in sides)} mm"}
    if told.has("projected_area_cm2"):
        pour |= {"projected_area_cm2": f"{told.number('projected_area_cm2') * larger**2:.4g} cm2"}
    if told.has("casting_area_cm2"):
        burnout |= told.carried(casting_area_cm2="casting_area_cm2")
        links.append(Next(job="burnout", label="What the pour does", inputs=burnout))
    return (*links, *orientations.onward(told))


def _working(told: Told[Pattern]) -> Iterable[str]:
    form = told.form
    if form.solid is not None:
        yield f"{form.solid.facets} facets, {told.text('shells')} shells, one unit of the file = {form.mm:g} mm"
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
            f"{told.number('volume_cm3'):.1f} cm3"
        )
    else:
        yield f"volume of {body.BODIES[form.body].partition(':')[0]} = {told.number('volume_cm3'):.1f} cm3"
    if not told.has("casting_volume_cm3"):
        return
    yield (
        f"shrink {form.shrink_pct:.2f} % of length: pattern = casting × {1 + (form.shrink_pct or 0) / 100:.4f}³ = "
        f"{told.number('pattern_volume_cm3'):.1f} cm3"
    )
    yield (
        f"mass = {told.number('casting_volume_cm3'):.1f} cm3 × {METALS[form.metal].solid_kg_m3 / 1000:g} g/cm3 = "
        f"{told.number('casting_kg'):.3f} kg"
    )
    if told.has("modulus_mm"):
        yield f"modulus = volume / surface = {told.number('modulus_mm'):.2f} mm"
    yield from orientations.working(told)
