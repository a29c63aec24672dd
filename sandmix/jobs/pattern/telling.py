"""What *pattern* answers in words: headline, remarks, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.job import Computed, Lead, Next, Telling, WayOut
from sandmix.drawings import projections
from sandmix.gating import ratio
from sandmix.jobs.pattern import hot_places, orientations
from sandmix.jobs.pattern.form import LARGE_MM, SMALL_MM, ResolvedPattern
from sandmix.jobs.pattern.repairs import remarks_on
from sandmix.language.wording import sides_typed
from sandmix.materials.metals import METALS
from sandmix.mesh import solid
from sandmix.mould import body
from sandmix.vocabulary import quantity


def tell(computed: Computed[ResolvedPattern]) -> Telling:
    """Say how big the casting is, or why that can't be calculated."""
    form = computed.form
    if form.mesh is not None and not computed.has("casting_volume_cm3"):
        return Telling(
            headline=f"The volume can't be calculated: {form.mesh.why}. The box is {computed.text('box_mm')}.",
            state=("not closed" if form.mesh.trust == solid.OPEN else "can't tell", "care"),
            lead=Lead(word="area_cm2", label="Surface", text=computed.text("area_cm2")),
            remarks=tuple(WayOut(remark) for remark in _remarks(computed)),
            working=tuple(_working(computed)),
            next=(
                Next(job="fit", label="Choose a flask by its sizes", inputs={"metal": form.metal} | _lying(computed)),
            ),
        )
    size = f", {computed.text('box_mm')}" if computed.has("box_mm") else ""
    metal = METALS[form.metal].label
    return Telling(
        headline=f"The casting is {computed.text('casting_volume_cm3')}: {computed.text('casting_kg')} of {metal}{size}.",
        state=("look at it", "care") if form.overlaps else ("measured", "go"),
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


def _views(form: ResolvedPattern) -> dict[str, str]:
    if form.mesh is None or not form.mesh.views:
        return {}
    return {
        "views": projections.draw(
            form.mesh.views, form.mm, "pattern-views", "The shape, to scale", hot_places.circles(form)
        )
    }


def _remarks(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    form = computed.form
    if form.mesh is not None:
        yield from remarks_on(form.mesh, form.mm)
    if computed.has("box_mm"):
        longest = max(computed.numbers("box_mm"))
        if longest < SMALL_MM or longest > LARGE_MM:
            yield (
                f"The longest side is {longest:.4g} mm, which is very {'small' if longest < SMALL_MM else 'large'} for a "
                "casting. Check the unit."
            )
    if computed.has("casting_volume_cm3") and not computed.has("modulus_mm"):
        yield "Surface and modulus are left out: " + (
            "where pieces overlap, the file has more surface than the casting."
            if form.overlaps
            else "this way of measuring gives only the volume. A file or sizes give them too."
        )
    if computed.has("box_mm") and computed.has("volume_cm3") and form.mesh is None:
        box_cm3 = math.prod(computed.numbers("box_mm")) / 1000
        if computed.number("volume_cm3") > 1.01 * box_cm3:
            yield (
                f"The volume is more than the {box_cm3:.0f} cm³ of a box of these sizes. One of the two is wrong: check both."
            )
    if form.box_mm is not None and form.dipped_or_weighed is None:
        yield "A plain shape has no bosses, fillets or draft. To include them, dip the pattern in water or send its file."
    if form.printed and form.pattern_mass_g is not None:
        yield "A print is hollow, and how much is only an estimate. Dip it in water for a better figure."
    if computed.has("column_cm3") and computed.number("more_head_mm") >= 1:
        yield (
            f"On average its upper side is {computed.text('more_head_mm')} below its top. Add that to the head of metal when you "
            "work out the weights for the cope. This assumes that the whole upper side is under the sand of the cope."
        )
    yield from hot_places.remarks(computed)
    yield from orientations.remarks(computed)


def _lying(computed: Computed[ResolvedPattern]) -> dict[str, str]:
    """The sizes of the pattern as it lies in the flask, as inputs of a job."""
    names = ("pattern_length_mm", "pattern_width_mm", "pattern_height_mm")
    return {name: f"{side:.4g} mm" for name, side in zip(names, _lying_mm(computed), strict=True)}


def _lying_mm(computed: Computed[ResolvedPattern]) -> tuple[float, float, float]:
    """Length, width and height of the pattern as it lies in the flask."""
    form, sides = computed.form, computed.numbers("box_mm")
    upright = "xyz".index(form.up[1]) if form.mesh is not None else 2
    larger = _larger(form)
    length, width = sorted((side * larger for at, side in enumerate(sides) if at != upright), reverse=True)
    return length, width, sides[upright] * larger


def _larger(form: ResolvedPattern) -> float:
    """How many times as long as the measured shape the pattern is."""
    return 1.0 if form.measured == "pattern" else form.larger


def _next(computed: Computed[ResolvedPattern]) -> tuple[Next, ...]:
    form = computed.form
    larger = _larger(form)
    flask = computed.carried(pattern_volume_cm3="pattern_volume_cm3")
    pour = {"metal": form.metal} | computed.carried(casting_volume_cm3="casting_volume_cm3")
    burnout = dict(pour)
    is_a_wall = computed.has("thinnest_mm") and computed.number("thinnest_mm") <= quantity("thinnest_mm").high
    thinnest = computed.carried(thinnest_mm="thinnest_mm") if is_a_wall else {}
    gate = {"metal": form.metal} | computed.carried(fill_volume_cm3="casting_volume_cm3") | thinnest
    gate |= {"gate_ratio": ratio.USUAL[form.metal].ratio.text}
    links = [
        Next(job="flask", label="Fill a flask with it", inputs=flask),
        Next(job="pour", label="Metal and weights", inputs=pour),
    ]
    if computed.has("box_mm"):
        sides = computed.numbers("box_mm")
        flask |= _lying(computed)
        links.insert(0, Next(job="fit", label="Choose a flask for it", inputs={"metal": form.metal} | flask))
        box = {"box_mm": sides_typed(sides, 4)}
        burnout |= box
        pour |= box
        gate |= {"gate_place": "parting", "fill_height_mm": f"{_lying_mm(computed)[2] / larger:.4g} mm"}
    if computed.has("projected_area_cm2"):
        pour |= {"projected_area_cm2": f"{computed.number('projected_area_cm2') * larger**2:.4g} cm²"}
    if computed.has("casting_area_cm2"):
        surface = computed.carried(casting_area_cm2="casting_area_cm2")
        feed = burnout | (hot_places.feeding(computed) or surface)
        burnout |= surface
        pour |= surface
        links[-2:-2] = [
            Next(job="feed", label="Does it need a riser?", inputs=feed),
            Next(job="gate", label="How wide are sprue and gates?", inputs=gate),
        ]
        links.append(Next(job="burnout", label="After the pour", inputs=burnout))
    plan = burnout | pour | thinnest | (hot_places.feeding(computed) if computed.has("casting_area_cm2") else {})
    if computed.has("box_mm"):
        plan |= {"box_mm": sides_typed(_lying_mm(computed), 4)}
    links.insert(0, Next(job="plan", label="Plan this casting", inputs=plan))
    return (*links, *orientations.onward(computed))


def _working(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    form = computed.form
    if form.mesh is not None:
        yield f"facets: {form.mesh.facets}, shells: {form.mesh.shells}, one unit of the file = {form.mm:g} mm"
    elif form.displaced_water_ml is not None:
        yield f"volume = displaced water = {form.displaced_water_ml:g} mL"
    elif form.pattern_mass_g is not None:
        hollow = (
            f" × solid share ({form.infill_pct:g} % infill, walls {form.walls_pct:g} % of the rest)"
            if form.printed
            else ""
        )
        yield (
            f"volume = {form.pattern_mass_g:g} g / ({form.pattern_density_kg_l:.3g} g/cm³{hollow}) = "
            f"{computed.number('volume_cm3'):.1f} cm³"
        )
    else:
        yield f"volume of {body.BODIES[form.body].partition(':')[0]} = {computed.number('volume_cm3'):.1f} cm³"
    if not computed.has("casting_volume_cm3"):
        return
    yield (
        f"shrink {form.shrink_pct:.2f} % of length: pattern = casting × {form.larger:.4f}³ = "
        f"{computed.number('pattern_volume_cm3'):.1f} cm³"
    )
    yield (
        f"mass = {computed.number('casting_volume_cm3'):.1f} cm³ × {METALS[form.metal].solid_kg_m3 / 1000:g} g/cm³ = "
        f"{computed.number('casting_kg'):.3f} kg"
    )
    if computed.has("modulus_mm"):
        yield f"modulus = volume / surface = {computed.number('modulus_mm'):.2f} mm"
    yield from hot_places.working(computed)
    yield from orientations.working(computed)
