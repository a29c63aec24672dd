"""What *pattern* answers about the six orientations of a shape from a file: rows, the best one and why, and what its walls need."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from sandmix.asking.job import Computed, Figures, Next
from sandmix.jobs.pattern.form import ResolvedPattern
from sandmix.jobs.shared import orientations as shared
from sandmix.jobs.shared.orientations import TAPER, sand, undercut, uplift
from sandmix.language.wording import to_figures
from sandmix.materials.metals import thermal
from sandmix.materials.sands_and_clays import RAMMED_KG_L
from sandmix.mould import clearance
from sandmix.mould.shape_orientation import (
    Shape,
    ShapeOrientation,
    best_on_another_axis,
    deciding,
    ranked,
    turned_over,
)
from sandmix.vocabulary import WORDS

NEEDS_A_CORE = "It needs a core, a loose piece, or a different shape there."


def compared(form: ResolvedPattern, figures: Mapping[str, object]) -> tuple[ShapeOrientation, ...]:
    """Return the orientations from best to worst; none where they are not asked for, or the shape has no volume."""
    solid, kg, volume = form.mesh, figures.get("casting_kg"), figures.get("pattern_volume_cm3")
    if solid is None or not solid.sides or not isinstance(kg, float) or not isinstance(volume, float):
        return ()
    mm = form.mm * (1.0 if form.measured == "pattern" else form.larger)
    x, y, z = solid.box
    return _ranked(
        Shape(
            sides=solid.sides,
            mm=mm,
            box_mm=(x * mm, y * mm, z * mm),
            volume_cm3=volume,
            clearance=clearance.required(kg),
            sprue_mm=clearance.SPRUE_MM,
            liquid_kg_m3=thermal(form.metal).liquid_kg_m3,
        ),
        form.up,
    )


_ranked = lru_cache(maxsize=8)(ranked)


def figures(form: ResolvedPattern, known: Mapping[str, object]) -> Figures:
    """Return the rows of the orientations, the best one, and its parting."""
    found = compared(form, known)
    if not found:
        return {}
    return {
        "ways_up": [
            shared.row(each, named(each), described(each))
            | {
                "parting_height_mm": each.mould.parting_mm,
                "straight_cm2": each.vertical_cm2,
                "least_draft_deg": each.least_draft_deg,
            }
            for each in found
        ],
        "suggested_way": named(found[0]),
        "parting_height_mm": found[0].mould.parting_mm,
    }


def named(each: ShapeOrientation) -> str:
    """Return which side is up and where the parting is, in words."""
    return f"{side(each.up)}, parted {place(each)}"


def side(up: str) -> str:
    """Return which side is up, in words.

    >>> side("+z"), side("-x")
    ('z up', 'x down')
    """
    return f"{up[1]} {'up' if up[0] == '+' else 'down'}"


def place(each: ShapeOrientation) -> str:
    """Return where the parting is, in words."""
    parting, height = each.mould.parting_mm, each.mould.body.height_mm
    if each.stepped:
        return "along its shape"
    if min(parting, height - parting) <= 1e-3 * height:
        return "on top" if parting > height / 2 else "underneath"
    return f"{to_figures(parting, 3)} mm above its underside"


def described(each: ShapeOrientation) -> str:
    """Return one orientation in words."""
    return shared.described(each, RAMMED_KG_L, held=each.undercut_pct > 0, vertical_cm2=each.vertical_cm2)


def remarks(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    """Yield the best orientation and why, and what it needs; or why none is given."""
    form = computed.form
    if form.ways != "yes":
        return
    found = compared(form, computed.figures)
    if form.mesh is None:
        yield "Orientations are compared only for a file of the shape. For plain sizes, use the page “Choose a flask”."
    elif not found:
        yield "The orientations are not compared, because that needs a shape with a volume."
    if not found:
        return
    best = found[0]
    yield f"Best orientation: {named(best)}. {_why(found)}"
    if best.undercut_pct:
        yield (
            f"In no orientation can it be drawn whole. Even in the best one {undercut(best)} is undercut, as seen from "
            f"above and below. {NEEDS_A_CORE}"
        )
    if best.stepped:
        yield (
            "For a parting along its shape, cut the sand down by hand to where the shape is widest, or ram it on a follow "
            "board."
        )
    if best.vertical_cm2:
        yield (
            f"{to_figures(best.vertical_cm2, 2)} cm² of its walls are vertical, within a degree, and are drawn up to "
            f"{to_figures(best.draw_mm, 3)} mm. Give them {TAPER}, or the sand tears."
        )
    if form.overlaps:
        yield (
            "Because pieces overlap, undercut and uplift are exact only to about 1 %, and the vertical walls are an upper "
            "limit: walls inside the shape are counted too."
        )
    if best.up != form.up:
        yield (
            f"The projected area and the head of metal above are for {side(form.up)}. For those of this orientation, "
            f"choose {best.up} under “{WORDS['up'].label}”."
        )


def _why(found: tuple[ShapeOrientation, ...]) -> str:
    """Why the best one: compared with the best on another axis, and with the same turned over."""
    best, other, over = found[0], best_on_another_axis(found), turned_over(found)
    if_turned_over = {
        "sand": f"turned over it would need {sand(over, RAMMED_KG_L)}",
        "uplift": f"turned over the uplift would be {uplift(over)}, not {uplift(best)}",
    }.get(deciding(best, over), "turned over it is as good")
    return f"{_compared_with(best, other)}; {if_turned_over}."


def _compared_with(best: ShapeOrientation, other: ShapeOrientation) -> str:
    """Why *best*, and why not *other*."""
    criterion, instead = deciding(best, other), f"with {named(other)}"
    if criterion == "undercut":
        least = f"Then the least is undercut, {undercut(best)}" if best.undercut_pct else "Then nothing is undercut"
        return f"{least}, but {undercut(other)} {instead}"
    if criterion == "parting":
        return f"Then a flat parting is enough, but with {side(other.up)} it must follow the shape"
    if criterion == "sand":
        return f"Then it needs {sand(best, RAMMED_KG_L)} of sand, but {sand(other, RAMMED_KG_L)} {instead}"
    if criterion == "uplift":
        return f"Then the uplift on the cope is {uplift(best)}, but {uplift(other)} {instead}"
    return f"It is as good {instead}"


def working(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    """Yield a line for each orientation."""
    for each in compared(computed.form, computed.figures):
        yield f"{named(each)}: {described(each)}"


def onward(computed: Computed[ResolvedPattern]) -> tuple[Next, ...]:
    """Return the job that chooses a flask for the best orientation."""
    found = compared(computed.form, computed.figures)
    if not found:
        return ()
    mould = found[0].mould
    sizes = {
        "pattern_length_mm": mould.body.length_mm,
        "pattern_width_mm": mould.body.width_mm,
        "pattern_height_mm": mould.body.height_mm,
        "parting_height_mm": min(mould.parting_mm, mould.body.height_mm),
    }
    inputs = {word: f"{value:.6g} mm" for word, value in sizes.items()}
    inputs |= computed.carried(pattern_volume_cm3="pattern_volume_cm3") | {"metal": computed.form.metal}
    return (Next(job="fit", label="A flask for this orientation", inputs=inputs),)
