"""Drawings of the sand itself: what to buy, how clay binds it, how wet it is, how it is restored and kept."""

from __future__ import annotations

from collections.abc import Mapping

from draw_lines import ball, box, down, drop, fist, grains, line, speckled
from draw_tag import Markup, join
from plate import Panels, Section, arrow, grains_in, number

GRAINS = ((20, 22), (48, 22), (76, 22), (34, 48), (62, 48))
"""The middles of five grains next to each other."""
BETWEEN = "M20 22H76M34 48H62M20 22L34 48 48 22 62 48 76 22"
CRACKS = "M34 16l-2 4 4 4-2 4M62 16l-2 4 4 4-2 4M48 42l-2 4 4 4-2 4M23 37l4 -4 0 5 5 -4M36 34l5 1-2 4 5 1M51 37l4 -4 0 5 5 -4M64 34l5 1-2 4 5 1"


def _grains(radius: float = 12) -> Markup:
    return join(*(ball(x, y, radius, "sand") for x, y in GRAINS))


def _cylinder(gel: float) -> Markup:
    """A measuring cylinder with clay up to a height."""
    return join(
        box(36, 14, 24, 50 - gel, "water"),
        box(36, 64 - gel, 24, gel, "clay"),
        line("M36 4V64H60V4M26 67H70"),
        line("".join(f"M36 {y}h7" for y in (14, 24, 34, 44, 54))),
    )


def _glass(*inside: Markup) -> Markup:
    return join(
        box(28, 22, 40, 42, "ground"), box(28, 50, 40, 14, "sand"), speckled(28, 51, 40, 12), *inside, line("M28 8V64H68V8")
    )  # fmt: skip


def _chest(level: float) -> Markup:
    """An open chest with sand up to a level."""
    return join(
        box(14, level, 68, 60 - level, "sand"),
        speckled(16, level, 64, 60 - level),
        line("M14 18V60H82V18M20 60V68M76 60V68"),
    )


_BUBBLES = join(
    *(
        ball(x, y, r, "hole")
        for x, y, r in ((38, 42, 3), (46, 34, 4), (56, 40, 3), (52, 27, 2.5), (41, 26, 2.5), (60, 30, 3))
    )
)
_FALLING = ("M22 52L28 46 34 52 30 58 23 58z", "M40 60L45 53 51 57 50 64 42 65z", "M58 54L66 50 69 57 62 61z")

DRAWN: Mapping[str, Panels | Section] = {
    "two_tests": Panels(
        caption="Two tests on the kitchen table before you buy more than one bag.",
        panels=(
            ("Vinegar stays quiet:", "silica sand. Good.", _glass()),
            ("Vinegar bubbles:", "shell or limestone. Do not use it.", _glass(_BUBBLES)),
            ("Swells high:", "sodium bentonite, after a day in water.", _cylinder(34)),
            ("Swells little:", "calcium bentonite, or clay that is not bentonite.", _cylinder(14)),
        ),
    ),
    "mulling": Panels(
        caption="Mulling rubs the clay over every grain. Clay in lumps binds nothing.",
        panels=(
            (
                "Just mixed:",
                "lumps of clay, and bare grains.",
                join(_grains(), ball(48, 60, 8, "clay"), ball(86, 38, 7, "clay"), ball(10, 40, 6, "clay")),
            ),
            (
                "Half mulled:",
                "some grains have a coat of clay.",
                join(*(ball(x, y, 15, "clay") for x, y in GRAINS[:2]), _grains(), ball(84, 52, 6, "clay")),
            ),
            (
                "Mulled:",
                "every grain has a coat, and the coats stick together.",
                join(*(ball(x, y, 16, "clay") for x, y in GRAINS), _grains()),
            ),
        ),
    ),
    "bridges": Panels(
        caption="Water makes the clay between two grains sticky. There is a right amount of it.",
        panels=(
            (
                "Too dry:",
                "the bridges crack, and edges crumble.",
                join(
                    line(BETWEEN, "bridge"),
                    _grains(9),
                    line(CRACKS, "split"),
                    grains((10, 64), (28, 66), (50, 64), (72, 66), (88, 62)),
                ),
            ),
            (
                "Right:",
                "plump bridges of clay, and air between the grains for the gas.",
                join(line(BETWEEN, "bridge", "wide"), _grains(9)),
            ),
            (
                "Too wet:",
                "water fills the gaps. Gas cannot leave, and the water turns to steam.",
                join(box(3, 4, 90, 62, "water"), line(BETWEEN, "bridge"), _grains(9)),
            ),
        ),
    ),
    "squeeze": Panels(
        caption="Squeeze a handful, open the hand, and break the lump in two.",
        panels=(
            (
                "Crumbles:",
                "too dry. Temper it.",
                join(*(line(d, "sand") for d in _FALLING), fist(), grains((26, 66), (54, 68), (74, 64))),
            ),
            (
                "Breaks clean:",
                "two halves with sharp edges. About right; now test it.",
                join(
                    line("M14 24H42L46 36 41 50H14z", "sand"),
                    line("M82 24H52L56 36 51 50H82z", "sand"),
                    speckled(16, 25, 24, 24),
                    speckled(56, 25, 24, 24),
                ),
            ),
            (
                "Sticks and shines:",
                "too wet. Dry it; do not pour on it.",
                join(fist(), drop(28, 57), drop(46, 60), drop(62, 57)),
            ),
        ),
    ),
    "doses": Panels(
        caption="Each dose is a part of the answer, with a test before the rest.",
        panels=(
            (
                "Out:",
                "the burnt crust, and what the riddle holds back.",
                join(_chest(34), line("M44 40L52 34 60 40 57 48 47 48z", "metal"), arrow(52, 32, 52, 6)),
            ),
            (
                "In:",
                "new sand, and half of the clay.",
                join(
                    _chest(40),
                    line("M34 6H52L50 22H36z", "sand"),
                    line("M58 8H70L68 22H60z", "clay"),
                    down(43, 24, 12),
                    down(64, 24, 12),
                ),
            ),
            (
                "Water:",
                "the first dose. Mull, rest, test.",
                join(_chest(34), drop(36, 10), drop(48, 6), drop(60, 10), drop(42, 20), drop(54, 20)),
            ),
            (
                "The rest:",
                "what the test still asks for.",
                join(_chest(28), line("M62 8H74L72 20H64z", "clay"), drop(30, 8), drop(42, 12)),
            ),
        ),
    ),
    "riddle": Section(
        caption="Riddling, with the sand damp so that it gives off no dust.",
        parts=(
            "riddle of about 5 mm mesh",
            "lumps, beads of metal and nails stay in it",
            "sand falls into the chest",
            "crust and beads, weighed before they are thrown away",
        ),
        high=210,
        drawing=join(
            box(24, 34, 150, 10, "wood"),
            line("M24 44V70H174V44", "ground"),
            line("".join(f"M{x} 70v6" for x in range(32, 172, 8))),
            line("M44 68L52 52 66 56 70 68z", "sand"),
            line("M84 68L90 56 104 58 106 68z", "metal"),
            ball(124, 63, 5, "metal"),
            ball(140, 62, 6, "metal"),
            line("M152 67L162 55"),
            grains(
                (40, 88),
                (58, 96),
                (76, 86),
                (94, 98),
                (112, 88),
                (130, 96),
                (150, 86),
                (66, 112),
                (102, 114),
                (138, 112),
            ),
            line("M30 184Q60 150 99 132 140 150 170 184z", "sand"),
            grains_in(62, 158, 76, 26),
            line("M20 120V190H180V120"),
            line("M224 130L232 190H288L296 130z", "ground"),
            line("M230 130L240 112 258 118 262 106 280 112 290 130z", "sand"),
            ball(250, 124, 5, "metal"),
            number(1, 196, 40, (174, 40)),
            number(2, 196, 66, (148, 62)),
            number(3, 205, 168, (160, 172)),
            number(4, 260, 84, (260, 106)),
        ),
    ),
    "chest": Section(
        caption="How the hall keeps its sand from one casting day to the next.",
        parts=(
            "lid, closed",
            "sacks or black plastic on the sand, once it has cooled",
            "tempered sand",
            "battens: no wood touches a damp floor",
            "label: date, mass and moisture of the last test",
        ),
        high=200,
        drawing=join(
            box(40, 34, 240, 12, "wood"),
            box(52, 46, 10, 116, "wood"),
            box(258, 46, 10, 116, "wood"),
            box(52, 152, 216, 10, "wood"),
            box(62, 78, 196, 74, "sand"),
            grains_in(62, 82, 196, 68, leave=((118, 104, 84, 34),)),
            line("M62 78Q90 68 112 76T160 74 210 76 258 78L258 84Q230 78 200 82T140 82 62 84z", "metal"),
            box(120, 106, 80, 30, "ground"),
            line("M130 117H190M130 126H174"),
            box(70, 162, 40, 12, "wood"),
            box(210, 162, 40, 12, "wood"),
            line("M16 174H304"),
            number(1, 22, 24, (48, 38)),
            number(2, 298, 62, (250, 78)),
            number(3, 22, 116, (74, 116)),
            number(4, 22, 152, (72, 168)),
            number(5, 298, 120, (200, 120)),
        ),
    ),
    "round": Section(
        caption="The sand goes round. What it loses at each cast is put back before the next.",
        parts=("mix, mull, temper", "ram the mould and vent it", "pour", "open and riddle", "restore and store"),
        high=230,
        drawing=join(
            line("M110 62Q132 56 142 42 160 22 178 42 188 56 210 62Z", "sand"),
            grains((150, 48), (162, 42), (170, 52), (158, 56), (144, 57), (178, 57)),
            box(232, 74, 6, 44, "wood"),
            box(292, 74, 6, 44, "wood"),
            box(238, 74, 54, 44, "sand"),
            line("M250 96H280", "crack"),
            line("M232 96H298"),
            box(206, 168, 60, 36, "sand"),
            line("M226 168V186H246", "tube"),
            line("M214 140L244 140 238 156 220 156z", "ground"),
            line("M226 156V168", "crack"),
            line("M54 168H114M54 168V184H114V168"),
            grains((62, 194), (76, 198), (90, 194), (104, 198)),
            line("M70 168L78 156 92 160 96 168z", "metal"),
            box(24, 78, 70, 38, "wood"),
            box(18, 70, 82, 8, "wood"),
            arrow(214, 44, 240, 44),
            arrow(268, 124, 268, 150),
            arrow(196, 186, 130, 186),
            arrow(58, 150, 58, 124),
            arrow(76, 44, 104, 44),
            number(1, 160, 84),
            number(2, 306, 60),
            number(3, 288, 190),
            number(4, 30, 182),
            number(5, 30, 54),
        ),
    ),
}
