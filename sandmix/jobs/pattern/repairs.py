"""What *pattern* answers about a file that was repaired, or that has to be repaired."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.language.wording import to_figures
from sandmix.mesh import solid
from sandmix.mesh.solid import Solid
from sandmix.mesh.topology import Hole

_SHOWN_HOLES = 3
_REPAIR = "Repair it in the program that drew it, and save it again."


def remarks_on(shape: Solid, mm: float) -> Iterable[str]:
    """Yield what was repaired in a file with *mm* to its unit, what is still wrong, and what was assumed."""
    yield from shape.remarks
    yield from _of_the_repairs(shape, mm)
    if shape.trust == solid.OPEN:
        yield from _of_the_holes(shape, mm)
    if shape.trust == solid.UNDECIDED:
        yield f"The volume is not calculated: {shape.why}. {_REPAIR}"
    if shape.trust == solid.OVERLAPS and shape.volume is not None:
        share = 100 * shape.overlap / (shape.volume + shape.overlap)
        yield (
            f"Pieces of it overlap: {to_figures(share, 2 if share < 99 else 3)} % of the volume in the file was there more than once, and is "
            "counted once. For an exact figure, join the pieces in the program that drew them."
        )
    if shape.hollows:
        yield (
            f"Closed hollows inside: {shape.hollows}. Sand can't get in or out. They are counted as empty, which needs a core "
            "with an opening."
        )


def _of_the_repairs(shape: Solid, mm: float) -> Iterable[str]:
    found = shape.topology
    if found.joined:
        yield (
            f"Corners up to {to_figures(found.joined * mm, 2)} mm apart were joined, because the file rounds them. The ± of the "
            "volume includes this."
        )
    if found.turned:
        yield f"Facets that faced the other way than their neighbours: {found.turned}. They were turned over."
    if shape.flipped:
        yield (
            "The whole shape faced inwards. It was turned."
            if shape.flipped == shape.shells
            else f"Shells that faced inwards without being inside another: {shape.flipped}. They were turned."
        )
    if shape.flat:
        yield f"Facets without area: {shape.flat}. They are ignored."


def _of_the_holes(shape: Solid, mm: float) -> Iterable[str]:
    found = shape.topology
    if found.holes:
        shown = "; ".join(_where(hole, mm) for hole in found.holes[:_SHOWN_HOLES])
        more = "; and others" if len(found.holes) > _SHOWN_HOLES else ""
        yield f"The shape has {_many(len(found.holes), 'hole')}: {shown}{more}. {_REPAIR}"
    if found.twisted:
        yield f"At {_many(found.twisted, 'edge')} two facets face opposite ways, and it is not clear which one is right."
    if found.crowded:
        yield f"At {_many(found.crowded, 'edge')} more than two facets meet and can't be paired."


def _where(hole: Hole, mm: float) -> str:
    middle = " / ".join(
        f"{round((low + high) / 2 * mm, 1) + 0.0:g}" for low, high in zip(hole.low, hole.high, strict=True)
    )
    across = max(high - low for low, high in zip(hole.low, hole.high, strict=True)) * mm
    return f"at x / y / z {middle} mm, {to_figures(across, 2)} mm across, with {_many(hole.edges, 'edge')}"


def _many(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"
