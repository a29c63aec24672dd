"""The lines of the pictures: a sheet of 96 by 72, strokes in the text colour of the page, fills in the colours of the composition bar."""

from __future__ import annotations

from draw_tag import Markup, join, tag

WIDE, HIGH = 96, 72
CASTING = "M14 58V38H34V20H62V38H82V58Z"
"""A flange with a boss: every picture of a casting is this one."""
HEAP = "M6 64Q22 60 32 42 48 24 64 42 74 60 90 64Z"


def picture(*parts: Markup, title: str = "") -> Markup:
    """One picture; without a title it is decoration, and the words next to it say what it shows."""
    role = {"role": "img"} if title else {"aria_hidden": "true"}
    name = tag("title", title) if title else None
    return tag("svg", name, *parts, class_="pic", viewBox=f"0 0 {WIDE} {HIGH}", focusable="false", **role)


def line(d: str, *kinds: str) -> Markup:
    """A stroke, or a filled shape if one of its kinds is a fill: sand, metal, hot, water, clay, silt, wood, ground, ink."""
    return tag("path", d=d, class_=" ".join(f"pic-{kind}" for kind in kinds) or None)


def box(x: float, y: float, wide: float, high: float, *kinds: str) -> Markup:
    """An upright rectangle."""
    return line(f"M{x} {y}h{wide}v{high}h{-wide}z", *kinds)


def ball(x: float, y: float, radius: float, *kinds: str) -> Markup:
    """A circle."""
    return tag("circle", cx=x, cy=y, r=radius, class_=" ".join(f"pic-{kind}" for kind in kinds) or None)


def grains(*points: tuple[float, float]) -> Markup:
    """Grains of sand, or anything small and round."""
    return line("".join(f"M{x} {y}h.01" for x, y in points), "grains")


def speckled(x: float, y: float, wide: float, high: float) -> Markup:
    """Grains spread over a rectangle, row by row, each second row shifted."""
    rows, apart = max(1, int(high // 7)), 9
    return grains(
        *(
            (round(x + 4 + apart * at + apart / 2 * (row % 2), 1), round(y + (row + 0.5) * high / rows, 1))
            for row in range(rows)
            for at in range(int((wide - 4) // apart))
        )
    )


def turned(degrees: float, x: float, y: float, *parts: Markup) -> Markup:
    """Parts rotated about a point."""
    return tag("g", *parts, transform=f"rotate({degrees} {x} {y})")


def drop(x: float, y: float) -> Markup:
    """A drop of water; the point is its tip."""
    return line(f"M{x} {y}q5 6 0 9q-5 -3 0 -9z", "water")


def down(x: float, y: float, length: float) -> Markup:
    """An arrow that points down."""
    end = y + length
    return line(f"M{x} {y}V{end}M{x - 5} {end - 6}L{x} {end} {x + 5} {end - 6}")


def flame(x: float, y: float) -> Markup:
    """A flame; the point is its foot."""
    return line(f"M{x} {y}c-10 -4 -9 -12 -5 -17c0 4 3 5 4 6c0 -4 1 -7 4 -10c0 5 6 8 5 14c-1 4 -4 7 -8 7z", "clay")


def flask(y: float, high: float) -> Markup:
    """The two walls of a flask in section; the sand between them is drawn separately."""
    return join(box(8, y, 6, high, "wood"), box(82, y, 6, high, "wood"))


def mould(y: float) -> Markup:
    """A rammed flask from y down to the bench."""
    return join(box(14, y, 68, 64 - y, "sand"), speckled(16, y, 64, 64 - y), flask(y, 64 - y))


def fist() -> Markup:
    """A closed hand with the wrist to the right."""
    return join(
        line("M22 18H64q10 0 10 9V42q0 9 -10 9H30q-12 0 -12 -11V23q0 -5 4 -5z", "ground"),
        line("M32 18V33M44 18V33M56 18V33M18 33H52q6 0 6 5t-6 4H30M74 24H92M74 46H92"),
    )


def scale() -> Markup:
    """A kitchen scale under its pan or plate, which ends at y 40."""
    return join(
        line("M48 40V46"), line("M30 46H66L72 65H24z", "wood"), ball(48, 55.5, 6, "ground"), line("M48 55.5L51 52")
    )
