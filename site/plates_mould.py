"""Drawings of the mould: ramming, turning over, venting, and the way of the metal."""

from __future__ import annotations

from collections.abc import Mapping

from draw_lines import box, grains, line, speckled, turned
from draw_tag import Markup, join
from plate import Panels, Section, arrow, grains_in, number


def _clamped() -> Markup:
    """A rammed drag between two boards, clamped."""
    return join(
        box(18, 26, 60, 24, "sand"),
        speckled(20, 26, 56, 24),
        box(12, 26, 6, 24, "wood"),
        box(78, 26, 6, 24, "wood"),
        box(8, 20, 80, 6, "wood"),
        box(8, 50, 80, 6, "wood"),
        line("M26 14V20M26 14H20V62H26V56M70 14V20M70 14H76V62H70V56"),
    )


def _flask(top: float, joint: float, foot: float) -> Markup:
    """Both halves of a flask in section, with their sand."""
    return join(
        box(42, top, 236, foot - top, "sand"),
        box(32, top, 10, joint - top, "wood"),
        box(278, top, 10, joint - top, "wood"),
        box(32, joint, 10, foot - joint, "wood"),
        box(278, joint, 10, foot - joint, "wood"),
        line(f"M18 {joint}H302", "dash"),
    )


DRAWN: Mapping[str, Panels | Section] = {
    "layers": Section(
        caption="Ramming the drag, upside down on its board.",
        parts=(
            "pattern, flat side down, on the board",
            "fine riddled sand over it, pressed by hand",
            "layers as thick as two fingers, each rammed before the next",
            "ram along the walls first, then towards the middle, never onto the pattern",
            "scrape off level, and put the second board on",
        ),
        high=220,
        drawing=join(
            box(14, 186, 292, 12, "wood"),
            box(42, 84, 236, 102, "sand"),
            grains_in(42, 90, 236, 96, leave=((100, 148, 120, 40),)),
            box(32, 84, 10, 102, "wood"),
            box(278, 84, 10, 102, "wood"),
            line("M112 186V166H132V154H188V166H208V186z", "wood"),
            line("M96 186Q98 142 160 140T224 186", "dash"),
            line("M42 132Q160 116 278 132M42 110H278", "layer"),
            line("M62 16V66M54 66H70L74 84H50z", "metal"),
            line("M50 10H74"),
            line("M110 76H300", "tube"),
            number(1, 160, 172),
            number(2, 240, 164, (218, 152)),
            number(3, 160, 121),
            number(4, 98, 38, (66, 52)),
            number(5, 220, 54, (220, 74)),
        ),
    ),
    "turning": Panels(
        caption="Turning the drag over without losing sand.",
        panels=(
            ("Clamp:", "both boards and the flask are clamped together.", _clamped()),
            ("Turn:", "towards you, on the bench, in one go.", turned(-14, 48, 38, _clamped())),
            (
                "Open:",
                "lift off the board. The pattern lies face up in the joint.",
                join(
                    box(18, 34, 60, 26, "sand"),
                    speckled(20, 44, 56, 16),
                    box(12, 34, 6, 26, "wood"),
                    box(78, 34, 6, 26, "wood"),
                    box(8, 60, 80, 6, "wood"),
                    box(36, 34, 24, 8, "ground"),
                    turned(-12, 48, 20, box(10, 16, 76, 6, "wood")),
                ),
            ),
        ),
    ),
    "vents": Section(
        caption="Vents, pricked with a wire before the pattern is drawn.",
        parts=(
            "wire, 2 to 3 mm thick",
            "vents over the whole casting, about 40 mm apart",
            "stop about 12 mm above the pattern",
            "gas leaves here, and may burn",
            "open riser: it lets air out as the metal rises",
        ),
        high=220,
        drawing=join(
            _flask(70, 140, 196),
            grains_in(42, 74, 236, 120, leave=((84, 124, 150, 30), (226, 132, 42, 20), (250, 70, 18, 70))),
            line("M88 128H228V136H252V70H266V150H228V152H88z", "ground"),
            line("".join(f"M{x} 70V112" for x in (100, 128, 156, 184, 212)), "tube"),
            line("M128 12V70M120 12H136", "metal"),
            *(line(f"M{x} 60q-5 -5 0 -10t0 -10") for x in (100, 156, 184, 212)),
            line("M70 112V128M64 112H82M64 128H82"),
            number(1, 98, 20, (126, 24)),
            number(2, 142, 94),
            number(3, 58, 164, (70, 130)),
            number(4, 234, 34, (214, 46)),
            number(5, 300, 54, (262, 78)),
        ),
    ),
    "gating": Section(
        caption="The way of the metal, in section.",
        parts=(
            "pouring cup: kept full, so that no air is drawn in",
            "sprue: narrower towards its foot, as falling metal is",
            "runner: wide, so that the metal slows down",
            "gate: the way into the casting",
            "casting",
            "riser: freezes last and gives its metal to the casting",
        ),
        high=230,
        drawing=join(
            _flask(60, 132, 200),
            grains_in(42, 66, 236, 132, leave=((50, 60, 50, 100), (60, 128, 180, 40), (232, 60, 40, 108))),
            line(
                "M50 60H100L88 82 84 132H150V146H164V132H226V118H236V66H270V156H176V152H162V160H58V146H66L62 82z",
                "metal",
            ),
            number(1, 75, 34, (75, 62)),
            number(2, 112, 104, (80, 104)),
            number(3, 108, 178, (108, 156)),
            number(4, 158, 104, (156, 142)),
            number(5, 204, 178, (204, 148)),
            number(6, 253, 34, (253, 70)),
        ),
    ),
    "sprues": Panels(
        caption="Falling metal grows thin. The sprue follows it.",
        panels=(
            (
                "Straight:",
                "the metal leaves the wall, and air is drawn in with it.",
                join(
                    box(14, 8, 68, 58, "sand"),
                    box(36, 8, 24, 58, "ground"),
                    line("M38 8Q44 30 45 66H51Q52 30 58 8z", "metal"),
                    line("M40 40q-5 3 -2 8M56 40q5 3 2 8"),
                    grains((22, 20), (24, 40), (22, 58), (72, 20), (74, 40), (72, 58)),
                ),
            ),
            (
                "Tapered:",
                "the sprue is full from top to foot.",
                join(
                    box(14, 8, 68, 58, "sand"),
                    line("M34 8Q42 30 44 66H52Q54 30 62 8z", "metal"),
                    grains((22, 20), (24, 40), (28, 58), (72, 20), (74, 40), (68, 58)),
                ),
            ),
        ),
    ),
    "drawn": Panels(
        caption="Before you close the mould.",
        panels=(
            (
                "Draw:",
                "tap the pattern loose, then lift it straight up.",
                join(
                    box(10, 34, 76, 32, "sand"),
                    speckled(12, 50, 72, 14),
                    line("M32 34L36 48H60L64 34z", "ground"),
                    line("M34 16H62L58 30H38z", "wood"),
                    arrow(48, 14, 48, 2),
                ),
            ),
            (
                "Clean:",
                "tip or brush loose sand out. Never blow.",
                turned(
                    -20,
                    48,
                    38,
                    join(
                        box(14, 24, 68, 26, "sand"),
                        line("M34 24L38 36H58L62 24z", "ground"),
                        box(10, 50, 76, 5, "wood"),
                    ),
                ),
            ),
            (
                "Close:",
                "cope onto drag along the pins, with no grain between.",
                join(
                    box(18, 8, 60, 18, "sand"),
                    box(12, 8, 6, 18, "wood"),
                    box(78, 8, 6, 18, "wood"),
                    box(18, 44, 60, 22, "sand"),
                    box(12, 44, 6, 22, "wood"),
                    box(78, 44, 6, 22, "wood"),
                    line("M36 44L39 54H57L60 44z", "ground"),
                    line("M6 26V50M90 26V50", "tube"),
                    arrow(48, 28, 48, 41),
                ),
            ),
        ),
    ),
}
