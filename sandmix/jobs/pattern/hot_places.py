"""What *pattern* answers about the places of a shape that freeze last, and its thinnest wall."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, Figures
from sandmix.cooling.opening import ball_modulus_mm
from sandmix.drawings.projections import Circle
from sandmix.jobs.pattern.form import ResolvedPattern
from sandmix.language.wording import to_figures
from sandmix.mesh.views import points_in_views
from sandmix.thickness.hot_places import CLEARLY, HotPlace

UNEVEN = 1.2
"""A casting of one section is worth a remark where its thickest place is this many times its thinnest wall (own choice)."""
MODULUS_ERROR = 0.3
"""How far the modulus of a place may be off, as a share of it: a boss of 40 mm on a plate of 12 mm has 28 % more by hand (own choice)."""
_SHRINK_OFF = 0.002
_NAMED = 3


def figures(form: ResolvedPattern) -> Figures:
    """Return the thickest place and the thinnest wall of the casting, and its hot places; nothing without a shape from a file."""
    found = form.thickness
    if found is None:
        return {}
    rows = [_row(form, place) for place in found.places]
    result: Figures = {"thickest_mm": _thick(form, max(place.radius for place in found.places)), "hot_places": rows}
    if found.thinnest is not None:
        result["thinnest_mm"] = _thick(form, found.thinnest / 2)
    return result


def known(form: ResolvedPattern) -> dict[str, tuple[float, float]]:
    """Return the range of the thickest place: how exactly its ball was found, what its section may have nearby, and for a pattern the shrink."""
    found = form.thickness
    if found is None:
        return {}
    place = max(found.places, key=lambda each: each.radius)
    thick = _thick(form, place.radius)
    off = 2 * place.radius_error * form.mm + (_SHRINK_OFF * thick if form.measured == "pattern" else 0.0)
    return {"thickest_mm": (max(0.0, thick - off), CLEARLY * thick + off)}


def _thick(form: ResolvedPattern, radius: float) -> float:
    """The thickness of the casting in mm where a ball of *radius*, in the unit of the file, fits into the shape."""
    smaller = 1 / form.larger if form.measured == "pattern" else 1.0
    stock = form.machining_stock_mm if form.measured == "part" else 0.0
    return 2 * (radius * form.mm * smaller + stock)


def _row(form: ResolvedPattern, place: HotPlace) -> dict[str, object]:
    thick = _thick(form, place.radius)
    own = place.modulus / place.radius * thick / 2
    x, y, z = (form.mm * value for value in place.centre)
    said = f"{to_figures(thick, 3)} mm thick at x / y / z {_at(x)} / {_at(y)} / {_at(z)} mm, modulus about {to_figures(own, 2)} mm"
    return {
        "said": said,
        "x_mm": x,
        "y_mm": y,
        "z_mm": z,
        "thickness_mm": thick,
        "modulus_mm": own,
        "least_modulus_mm": thick / 6,
        "most_modulus_mm": thick / 2,
    }


def _at(value: float) -> str:
    return f"{round(value, 1) + 0.0:g}"


def remarks(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    """Yield which place freezes last, if it is worth a remark, and what is not known."""
    form, found = computed.form, computed.form.thickness
    if found is None or not _is_uneven(computed):
        return
    said = [str(row["said"]) for row in _rows(computed)]
    thin = f"The thinnest wall is {computed.text('thinnest_mm')}. " if computed.has("thinnest_mm") else ""
    yield f"Freezes last: {said[0]}. {thin}Pour or feed from there, or make it thinner."
    if len(said) > 1:
        more = f", and {len(said) - 1 - _NAMED} more" if len(said) - 1 > _NAMED else ""
        yield f"Other thick places, each with thinner metal around it: {'; '.join(said[1 : 1 + _NAMED])}{more}."
    if found.by_the_grid:
        step = to_figures(found.step * form.mm, 2)
        yield f"Because pieces overlap, thick places are only known to ± {step} mm, and the thinnest wall is left out."


def _is_uneven(computed: Computed[ResolvedPattern]) -> bool:
    """Whether the casting has several thick places, or one that is clearly thicker than its thinnest wall."""
    if len(_rows(computed)) > 1 or not computed.has("thinnest_mm"):
        return len(_rows(computed)) > 1
    return computed.number("thickest_mm") >= UNEVEN * computed.number("thinnest_mm")


def feeding(computed: Computed[ResolvedPattern]) -> dict[str, str]:
    """Return the modulus of the place that freezes last as an input for its riser, where it is more than that of the whole casting.

    Its ± covers a boss on a plate: the plate within reach counts as cooling surface, though little heat leaves through it.
    """
    if computed.form.thickness is None or not computed.has("modulus_mm") or not _is_uneven(computed):
        return {}
    own = _rows(computed)[0]["modulus_mm"]
    assert isinstance(own, float)
    own = min(own, ball_modulus_mm(computed.number("casting_volume_cm3")))
    if own <= computed.number("modulus_mm"):
        return {}
    return {"modulus_mm": f"{own:.4g} ± {to_figures(MODULUS_ERROR * own, 2)} mm"}


def _rows(computed: Computed[ResolvedPattern]) -> list[dict[str, object]]:
    rows = computed.figures["hot_places"]
    assert isinstance(rows, list)
    return rows


def working(computed: Computed[ResolvedPattern]) -> Iterable[str]:
    """Yield a line for each place, with the bounds of its modulus."""
    for at, row in enumerate(_rows(computed) if computed.form.thickness else (), start=1):
        least, most = (f"{float(str(row[word])):.2f}" for word in ("least_modulus_mm", "most_modulus_mm"))
        yield f"thick place {at}: {row['said']} (as a ball {least}, as a wide plate {most})"


def circles(form: ResolvedPattern) -> tuple[Circle, ...]:
    """Return the largest ball of each place as circles in the three views."""
    if form.thickness is None or form.mesh is None:
        return ()
    facets = form.mesh.topology.facets
    return tuple(
        Circle(radius=place.radius, centres=points_in_views(facets, form.up, place.centre))
        for place in form.thickness.places
    )
