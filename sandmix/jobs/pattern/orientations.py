"""What *pattern* says of the six ways up of a shape from a file: rows, the one to take and why, and what its walls want."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from sandmix.asking.job import Computed, Figures, Next
from sandmix.jobs.pattern.form import PatternForm
from sandmix.language.wording import to_figures
from sandmix.language.words import Quantity
from sandmix.materials.metals import thermal
from sandmix.mesh import solid
from sandmix.mould import orientation
from sandmix.mould.clearance import wanted
from sandmix.mould.orientation import Orientation
from sandmix.vocabulary import WORDS


def _default(word: str) -> float:
    declared = WORDS[word]
    assert isinstance(declared, Quantity) and isinstance(declared.default, float)
    return declared.default


SPRUE_MM = _default("sprue_mm")
RAMMED_KG_L = _default("rammed_density_kg_l")
WANTS_A_CORE = "It wants a core, a loose piece, or another shape there."


def found(form: PatternForm, figures: Mapping[str, object]) -> tuple[Orientation, ...]:
    """Return the ways up from the best to the worst; none where they were not asked for or the shape has no volume."""
    computed, kg, volume = form.solid, figures.get("casting_kg"), figures.get("pattern_volume_cm3")
    if computed is None or not computed.sides or not isinstance(kg, float) or not isinstance(volume, float):
        return ()
    assert form.shrink_pct is not None
    mm = form.mm * (1.0 if form.measured == "pattern" else 1 + form.shrink_pct / 100)
    x, y, z = computed.box
    return _compared(
        orientation.Shape(
            sides=computed.sides,
            mm=mm,
            box_mm=(x * mm, y * mm, z * mm),
            volume_cm3=volume,
            clearance=wanted(kg),
            sprue_mm=SPRUE_MM,
            liquid_kg_m3=thermal(form.metal).liquid_kg_m3,
        ),
        form.up,
    )


@lru_cache(maxsize=8)
def _compared(shape: orientation.Shape, asked: str) -> tuple[Orientation, ...]:
    return orientation.ways(shape, asked)


def figures(form: PatternForm, known: Mapping[str, object]) -> Figures:
    """Return the rows of the ways up, the one to take, and its parting."""
    lies = found(form, known)
    if not lies:
        return {}
    return {
        "ways_up": [
            {
                "way": named(lie),
                "said": said(lie),
                "sand_l": lie.sand_l,
                "cope_mm": lie.flask.cope_depth_mm,
                "draw_mm": lie.draw_mm,
                "lift_kg": lie.uplift_kg,
                "undercut_cm2": lie.undercut_cm2,
                "parting_height_mm": lie.mould.parting_mm,
                "straight_cm2": lie.straight_cm2,
                "least_draft_deg": lie.least_draft_deg,
            }
            for lie in lies
        ],
        "suggested_way": named(lies[0]),
        "parting_height_mm": lies[0].mould.parting_mm,
    }


def named(lie: Orientation) -> str:
    """Return which way up and where it is parted, in words."""
    return f"{turned(lie.up)}, parted {place(lie)}"


def turned(up: str) -> str:
    """Return which way up, in words.

    >>> turned("+z"), turned("-x")
    ('z up', 'x down')
    """
    return f"{up[1]} {'up' if up[0] == '+' else 'down'}"


def place(lie: Orientation) -> str:
    """Return where the parting lies, in words."""
    parting, high = lie.mould.parting_mm, lie.mould.body.height_mm
    if lie.stepped:
        return "along its shape"
    if min(parting, high - parting) <= 1e-3 * high:
        return "on top" if parting > high / 2 else "underneath"
    return f"{to_figures(parting, 3)} mm above its underside"


def said(lie: Orientation) -> str:
    """Return what one way up takes, and what is against it."""
    straight = f", {to_figures(lie.straight_cm2, 2)} cm2 of walls stand straight" if lie.straight_cm2 else ""
    against = f", but {_cm2(lie)} of it would tear the sand" if lie.held_pct else ""
    return (
        f"{_kg(lie)} of sand, cope {lie.flask.cope_depth_mm:g}, draw {to_figures(lie.draw_mm, 3)} mm, uplift "
        f"{_lift(lie)}{straight}{against}"
    )


def _kg(lie: Orientation) -> str:
    return f"{to_figures(lie.sand_l * RAMMED_KG_L, 3)} kg"


def _lift(lie: Orientation) -> str:
    return f"{to_figures(lie.uplift_kg, 2)} kg"


def _cm2(lie: Orientation) -> str:
    return f"{to_figures(lie.undercut_cm2, 2)} cm2"


def remarks(computed: Computed[PatternForm]) -> Iterable[str]:
    """Yield the way up to take and why, and what it wants; or why none is told."""
    form = computed.form
    lies = found(form, computed.figures)
    if form.ways == "yes" and form.solid is None:
        yield "The ways up are compared for a file of the shape. For plain sizes, the page for choosing a flask does it."
    if form.ways == "yes" and form.solid is not None and not lies:
        yield "The ways up are not compared: that takes a shape whose volume can be told."
    if not lies:
        return
    best = lies[0]
    yield f"Lay it with {turned(best.up)}, parted {place(best)}. {_why(lies)}"
    if best.held_pct:
        yield f"No way up lets it draw whole: {_cm2(best)} of it, seen straight up and down, hold it in the sand. {WANTS_A_CORE}"
    if best.stepped:
        yield "A parting along its shape is cut down by hand to where the shape is widest, or rammed on a follow board."
    if best.straight_cm2:
        yield (
            f"{to_figures(best.straight_cm2, 2)} cm2 of its walls stand straight, within a degree, and are drawn up to "
            f"{to_figures(best.draw_mm, 3)} mm. Give them 1 to 2 mm of taper in 100 mm, or the sand tears."
        )
    if form.solid is not None and form.solid.trust == solid.OVERLAPS:
        yield (
            "Where pieces overlap, undercut and uplift are good to about a hundredth, and the straight walls are at most so "
            "much: those that lie inside count too."
        )
    if best.up != form.up:
        yield f"Outline and head of metal above are for {turned(form.up)}. Set the way up to {best.up} for those of this way."


def _why(lies: tuple[Orientation, ...]) -> str:
    """Why the best of *lies*: against the best with another side up, and against the same turned over."""
    best, other, over = lies[0], orientation.next_side(lies), orientation.turned_over(lies)
    turned_over = {
        "sand": f"turned over it would take {_kg(over)}",
        "uplift": f"turned over the metal would lift the cope with {_lift(over)}, not {_lift(best)}",
    }.get(orientation.between(best, over), "turned over it does as well")
    return f"{_against(best, other)}; {turned_over}."


def _against(best: Orientation, other: Orientation) -> str:
    """Why *best*, and why not *other*."""
    what, instead = orientation.between(best, other), f"with {named(other)}"
    if what == "undercut":
        first = f"The least of it is undercut then, {_cm2(best)}" if best.held_pct else "Nothing of it is undercut then"
        return f"{first}, but {_cm2(other)} {instead}"
    if what == "parting":
        return f"It parts flat then, with {turned(other.up)} only along its shape"
    if what == "sand":
        return f"It takes {_kg(best)} of sand then, and {_kg(other)} {instead}"
    if what == "uplift":
        return f"The metal lifts the cope with {_lift(best)} then, and with {_lift(other)} where it lies {instead}"
    return f"It does as well {instead}"


def working(computed: Computed[PatternForm]) -> Iterable[str]:
    """Yield a line for each way up."""
    for lie in found(computed.form, computed.figures):
        yield f"{named(lie)}: {said(lie)}"


def onward(computed: Computed[PatternForm]) -> tuple[Next, ...]:
    """Return the flask for the way up to take."""
    lies = found(computed.form, computed.figures)
    if not lies:
        return ()
    mould = lies[0].mould
    sizes = {
        "pattern_length_mm": mould.body.length_mm,
        "pattern_width_mm": mould.body.width_mm,
        "pattern_height_mm": mould.body.height_mm,
        "parting_height_mm": min(mould.parting_mm, mould.body.height_mm),
    }
    inputs = {word: f"{value:.6g} mm" for word, value in sizes.items()}
    inputs |= computed.carried(pattern_volume_cm3="pattern_volume_cm3") | {"metal": computed.form.metal}
    return (Next(job="fit", label="A flask for this way up", inputs=inputs),)
