"""A picture for every test of the sand: the apparatus on the bench."""

from __future__ import annotations

from draw_lines import ball, box, down, drop, fist, flame, grains, line, scale, speckled, turned
from draw_tag import Markup, join


def _tin(x: float, y: float, wide: float, high: float, level: float) -> Markup:
    """A tin in which the sand has sunk to a level."""
    full = y + high - level
    return join(
        box(x, level, wide, full, "sand"), speckled(x, level, wide, full), line(f"M{x} {y}V{y + high}H{x + wide}V{y}")
    )


def _weighed() -> dict[str, Markup]:
    heap = join(line("M28 28Q48 8 68 28z", "sand"), grains((42, 24), (50, 21), (56, 25), (48, 26)))
    return {
        "moisture": join(heap, line("M22 28H74L67 40H29z", "ground"), scale()),
        "tin_density": join(_tin(32, 8, 32, 31, 9), line("M22 40H74M30 8H66"), scale()),
    }


def _in_water() -> dict[str, Markup]:
    jar = "M24 14H58V62q0 3 -3 3H27q-3 0 -3 -3z"
    ticks = "".join(f"M36 {y}h8" for y in (14, 22, 30, 38, 46, 54))
    return {
        "wash": join(
            box(24, 24, 34, 26, "silt"),
            box(24, 50, 34, 15, "sand"),
            speckled(24, 50, 34, 14),
            line(jar),
            line("M48 42V6H78V50", "tube"),
            drop(78, 56),
        ),
        "jar": join(
            box(28, 16, 40, 14, "ground"),
            box(28, 30, 40, 8, "silt"),
            box(28, 38, 40, 8, "clay"),
            box(28, 46, 40, 19, "sand"),
            speckled(28, 46, 40, 18),
            line("M28 16V65H68V16"),
            box(32, 8, 32, 8, "wood"),
        ),
        "swell": join(
            box(36, 18, 24, 18, "water"),
            box(36, 36, 24, 27, "clay"),
            line("M36 5V60q0 4 4 4H56q4 0 4 -4V5M26 67H70"),
            line(ticks),
        ),
        "methylene_blue": join(
            box(42, 14, 9, 24, "water"),
            line("M42 3V38H51V3M46.5 38V44M39 41H54M51 16H80M80 3V68"),
            drop(46.5, 46),
            line("M12 58H70L64 68H6z", "ground"),
            ball(38, 63, 4, "water"),
            line("M28 63q10 -7 20 0q-10 7 -20 0z"),
        ),
        "spray": join(
            line("M44 36H70V61q0 4 -4 4H48q-4 0 -4 -4z", "water"),
            box(52, 27, 10, 9, "ground"),
            line("M40 14H70V27H46L40 36M40 14V22H46"),
            grains(
                (33, 18),
                (26, 13),
                (26, 20),
                (26, 27),
                (18, 9),
                (18, 18),
                (18, 28),
                (10, 6),
                (10, 16),
                (10, 25),
                (10, 33),
            ),
        ),
    }


def _rammed() -> dict[str, Markup]:
    ruler = join(box(70, 16, 12, 49, "wood"), line("".join(f"M70 {y}h6" for y in (23, 30, 37, 44, 51, 58))))
    pieces = ("M34 64L38 57 46 58 46 64z", "M52 64L52 56 60 58 63 64z")
    cell = join(box(58, 26, 24, 26, "sand"), speckled(58, 26, 24, 26))
    return {
        "compactability": join(_tin(20, 22, 38, 43, 42), line("M39 2V34"), box(25, 34, 28, 7, "wood"), ruler),
        "water_sensitivity": join(
            _tin(8, 28, 32, 37, 38), drop(24, 12), _tin(54, 28, 32, 37, 50), drop(60, 12), drop(70, 10), drop(80, 12)
        ),
        "strength": join(
            box(36, 27, 24, 25, "sand"),
            line("M44 27L50 36 45 44 51 52", "crack"),
            box(24, 19, 48, 8, "wood"),
            box(24, 52, 48, 8, "wood"),
            down(48, 2, 13),
            line("M10 66H86"),
        ),
        "shatter": join(
            turned(14, 48, 16, box(38, 5, 20, 22, "sand")),
            line("M38 34V42M48 36V46M58 34V42"),
            *(line(d, "sand") for d in pieces),
            grains((28, 62), (49, 62), (68, 62), (74, 60), (22, 58)),
            line("M8 66H88"),
        ),
        "permeability": join(
            box(8, 40, 32, 25, "water"),
            line("M8 32V65H40V32"),
            line("M15 56V14H33V56", "bell"),
            line("M24 14V6H70V26"),
            cell,
            line("M70 52V56"),
            down(70, 56, 12),
        ),
        "hardness": join(
            ball(48, 24, 19, "ground"),
            line("M48 24L58 13M48 8V11M32 24H35M61 24H64M37 13L39 15M48 43V50"),
            box(8, 50, 80, 16, "sand"),
            speckled(10, 51, 76, 14),
        ),
    }


def _others() -> dict[str, Markup]:
    lump = join(line("M10 26L20 22V48L10 44 6 35z", "sand"), grains((13, 32), (14, 40)))
    crucible = join(line("M30 18H66L59 40H37z", "ground"), line("M24 44H72M29 44L20 67M67 44L76 67"), flame(48, 67))
    smoke = line("M38 12q-5 -3 0 -6t0 -5M48 12q-5 -3 0 -6t0 -5M58 12q-5 -3 0 -6t0 -5")
    flask = join(
        box(18, 38, 60, 26, "sand"), speckled(18, 38, 60, 26), box(12, 38, 6, 26, "wood"), box(78, 38, 6, 26, "wood")
    )
    hook = line("M48 25V30M18 38L48 30 78 38M48 5V2")
    return {
        "squeeze": join(lump, fist(), grains((22, 58), (30, 62), (40, 58))),
        "loss_on_ignition": join(line("M36 18Q48 6 60 18z", "sand"), crucible),
        "volatiles": join(crucible, line("M26 18H70", "tube"), smoke),
        "flask_density": join(flask, hook, ball(48, 15, 10, "ground"), line("M48 15L53 10")),
        "sieve": join(
            grains((34, 12), (44, 10), (52, 13), (62, 11), (40, 18), (56, 19), (48, 18)),
            line("M18 14V36H78V14M18 30H78"),
            line("M26 30V36M34 30V36M42 30V36M50 30V36M58 30V36M66 30V36M73 30V36"),
            grains((32, 44), (42, 48), (52, 43), (62, 47)),
            line("M28 64Q48 46 68 64z", "sand"),
            line("M12 66H84"),
        ),
    }


DRAWN = {**_weighed(), **_in_water(), **_rammed(), **_others()}
"""The parts of each test's picture, by its key."""
