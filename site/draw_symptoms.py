"""A picture for every sign of trouble, as a person sees it in the sand, the mould, the pour or the casting."""

from __future__ import annotations

from draw_lines import CASTING, HEAP, ball, box, drop, fist, flame, flask, grains, line, mould, speckled, turned
from draw_tag import Markup, join

PLACES = {
    "The sand in the hand": ("weak_squeeze", "wet_squeeze", "dusty", "clay_balls", "ever_more_water"),
    "The mould": ("crumbling_edges", "sticks_to_pattern", "cope_drops", "walls_blow_out", "drying_cracks"),
    "While pouring": ("glowing_metal", "bubbling_sprue", "steam", "run_out", "puffed_riser"),
    "The casting's face and shape": (
        "rough_face",
        "burnt_on_face",
        "scabs",
        "sand_in_metal",
        "rough_at_gate",
        "dross_skin",
        "swollen",
        "sink",
        "offset",
        "crushed_edge",
        "misrun",
        "ragged_tear",
        "torn_casting",
    ),
    "Holes: what they look like": ("pin_holes", "blows", "wall_smooth", "wall_rough", "wall_film"),
    "Holes: where they are": ("hole_under_skin", "hole_in_thick", "hole_all_through", "hole_near_gate"),
}
"""The signs by where they are seen, in the order of a casting day."""


def _sand() -> dict[str, Markup]:
    palm = line("M6 46q4 16 26 18h30q18 -2 26 -16q3 -7 -4 -6q-8 2 -14 8h-42q-10 -2 -14 -7q-8 -4 -8 3z", "ground")
    halves = join(
        line("M26 50L28 30 40 25 45 32 40 39 46 50z", "sand"),
        line("M54 50L49 39 55 32 51 25 65 28 71 38 68 50z", "sand"),
    )
    cups = join(
        *(
            join(
                line(f"M{x + inset} {level}h{24 - 2 * inset}L{x + 22} 65H{x + 2}z", "water"),
                line(f"M{x} 34L{x + 2} 65H{x + 22}L{x + 24} 34"),
            )
            for x, level, inset in ((4, 57, 1.5), (36, 48, 1), (68, 38, 0.3))
        )
    )
    falling = ((16, 20), (42, 20), (54, 20), (69, 20), (80, 20), (91, 20))
    puffs = line("M20 36q-9 -1 -8 -9q1 -7 8 -7q2 -8 11 -6q5 -7 13 -2M76 36q9 -1 8 -9q-1 -7 -8 -7q-2 -8 -11 -6")
    return {
        "weak_squeeze": join(
            palm, halves, grains((34, 44), (48, 46), (60, 44), (20, 42), (76, 42), (48, 20), (36, 18))
        ),
        "wet_squeeze": join(fist(), drop(28, 57), drop(46, 60), drop(62, 57)),
        "dusty": join(
            line(HEAP, "sand"),
            puffs,
            grains((30, 28), (40, 20), (50, 24), (58, 16), (66, 28), (48, 8), (36, 10), (76, 24)),
        ),
        "clay_balls": join(
            line(HEAP, "sand"),
            speckled(34, 42, 28, 18),
            *(ball(*at, "clay") for at in ((35, 54, 6), (50, 44, 7), (63, 56, 5))),
        ),
        "ever_more_water": join(cups, *(drop(x, y) for x, y in falling)),
    }


def _mould() -> dict[str, Markup]:
    pattern = join(box(32, 6, 32, 15, "wood"), line("M48 6V1"))
    sun = join(
        ball(48, 11, 6, "clay"), line("M48 1V2M48 20V22M36 11H38M58 11H60M39 3L41 5M57 3L55 5M39 19L41 17M57 19L55 17")
    )
    blown = join(
        line("M18 18H60L53 24 57 30 49 36 52 42H18z", "sand"),
        speckled(18, 18, 34, 24),
        box(12, 12, 58, 6, "wood"),
        box(12, 42, 58, 6, "wood"),
    )
    return {
        "crumbling_edges": join(
            line("M14 36H24L28 41 25 45 30 49V56H66V48L71 45 68 41 73 36H82V66H14z", "sand"),
            flask(36, 30),
            pattern,
            grains((36, 52), (43, 53), (56, 53), (61, 51), (34, 30), (62, 30), (44, 27), (29, 33), (67, 33)),
        ),
        "sticks_to_pattern": join(
            line("M34 21L36 30 42 32 46 26 51 33 59 31 62 21z", "sand"),
            pattern,
            line("M14 44H28L33 51 40 47 46 56 55 49 62 53 68 44H82V66H14z", "sand"),
            speckled(16, 56, 64, 9),
            flask(44, 22),
        ),
        "cope_drops": join(
            line("M14 6H82V32H64L60 25 48 21 37 25 32 32H14z", "sand"),
            speckled(16, 6, 64, 13),
            flask(6, 26),
            line("M40 31V36M56 31V36"),
            line("M36 46L41 40 54 39 61 45 58 53 47 56 38 53z", "sand"),
            grains((45, 47), (53, 46), (49, 51)),
            line("M6 66H90"),
        ),
        "walls_blow_out": join(
            turned(24, 44, 30, blown),
            line("M66 50L74 46 82 52 78 59 68 59z", "sand"),
            line("M48 58L55 55 60 61 54 65 47 64z", "sand"),
            grains((86, 62), (64, 64), (74, 64), (62, 44), (42, 64)),
            line("M6 68H90"),
        ),
        "drying_cracks": join(
            sun, mould(28), line("M30 28L35 38 29 46 34 55M64 28L59 40 66 48 62 58M46 64L50 53 45 45", "crack")
        ),
    }


def _pour() -> dict[str, Markup]:
    sprue = line("M38 36H58L52 46V64H44V46z", "hot")
    return {
        "bubbling_sprue": join(
            mould(36),
            sprue,
            *(ball(*at, "hot") for at in ((44, 29, 5), (55, 24, 4), (47, 15, 3.5))),
            line("M36 30L29 24M60 30L67 24M35 20L31 12M61 16L66 9"),
        ),
        "glowing_metal": join(
            line("M30 30L35 64H61L66 30z", "wood"),
            line("M33 36H63L66 30H30z", "hot"),
            line("M48 22V8M34 22L26 11M62 22L70 11M25 29L13 24M71 29L83 24"),
        ),
        "puffed_riser": join(
            mould(40),
            line("M24 40H36V64H24z", "hot"),
            line("M56 40H76L72 64H60z", "hot"),
            line("M54 40q-6 -14 6 -17q4 -9 13 -2q11 2 5 19z", "hot"),
            line("M24 40q6 8 12 0"),
        ),
        "steam": join(mould(44), line("M38 44H58L52 52V64H44V52z", "hot"), *(_wave(x) for x in (24, 48, 72))),
        "run_out": join(
            box(18, 10, 50, 22, "sand"),
            box(18, 36, 50, 22, "sand"),
            box(12, 10, 6, 22, "wood"),
            box(12, 36, 6, 22, "wood"),
            line("M32 24H54V44H32z", "hot"),
            line("M54 32H76q10 0 10 10V60q3 1 6 6H66q4 -5 10 -6V42q0 -4 -3 -4H54z", "hot"),
            box(68, 10, 6, 20, "wood"),
            box(68, 41, 6, 17, "wood"),
            line("M6 66H60"),
        ),
    }


def _wave(x: float) -> Markup:
    return line(f"M{x} 38q-6 -5 0 -11t0 -11t0 -10")


def _casting() -> dict[str, Markup]:
    whole = line(CASTING, "metal")
    pins = (
        (40, 26),
        (48, 24),
        (56, 27),
        (44, 33),
        (53, 34),
        (22, 44),
        (30, 48),
        (39, 42),
        (48, 45),
        (57, 43),
        (66, 47),
    )
    more = ((75, 44), (20, 52), (35, 53), (45, 52), (61, 53), (72, 53), (53, 51))
    zigzag = "l5 5 5 -8 5 7 5 -8 5 8 5 -7 5 7 5 -8 5 8 5 -7 5 7 5 -8 5 7 5 -5 2 3"
    lumps = ("M40 26L48 24 52 29 46 33 40 31z", "M22 46L29 43 34 47 30 52 23 51z", "M58 46L66 43 72 48 67 53 59 51z")
    torn = "M10 58V38H28V22H44L39 30 46 37 39 45 45 58z", "M55 58L50 45 57 37 50 30 55 22H66V38H84V58z"
    return {
        "rough_face": join(
            line(f"M12 60V30{zigzag}V60z", "metal"), grains((20, 46), (34, 50), (50, 47), (66, 51), (76, 46))
        ),
        "burnt_on_face": join(
            box(12, 44, 72, 20, "metal"),
            line("M12 44L16 35 27 38 38 31 48 36 58 31 69 37 80 33 84 44z", "sand"),
            grains((22, 40), (32, 40), (40, 37), (50, 40), (58, 36), (66, 41), (76, 39)),
            flame(48, 24),
            flame(24, 28),
            flame(72, 28),
        ),
        "pin_holes": join(whole, *(ball(x, y, 1.8, "hole") for x, y in pins + more)),
        "blows": join(whole, *(ball(*at, "ground") for at in ((42, 27, 5.5), (54, 29, 4.5), (26, 46, 5), (70, 47, 6)))),
        "scabs": join(
            line("M8 62V38H60q8 14 18 0H88V62z", "metal"),
            line("M18 38L22 28 30 23 40 24 48 30 51 38z", "sand"),
            grains((27, 31), (35, 29), (42, 33), (32, 35)),
        ),
        "sand_in_metal": join(whole, *(line(d, "sand") for d in lumps), grains((46, 48), (42, 43), (52, 40), (44, 37))),
        "swollen": join(
            line("M12 60Q4 46 16 36 28 34 30 22 48 8 66 22 68 34 80 36 92 46 84 60 48 66 12 60z", "metal"),
            line("M20 57V42H38V26H58V42H76V57z", "dash"),
        ),
        "misrun": join(line("M10 60V26H34V50H88V60z", "dash"), line("M10 60V26H34V50H54q8 0 8 5t-8 5z", "metal")),
        "torn_casting": join(line(torn[0], "metal"), turned(10, 76, 58, line(torn[1], "metal"))),
    }


def _shape() -> dict[str, Markup]:
    """Faults of the casting's shape and skin that come from the mould's halves, its gate, or the metal."""
    whole = line(CASTING, "metal")
    wrinkles = (
        "M38 26q5 -4 9 0t9 -1M37 32q6 4 10 0t11 1M18 44q6 -5 11 0t11 0M20 52q7 5 12 0t12 0"
        "M52 46q6 -5 11 0t12 -1M54 53q7 4 12 0t11 0"
    )
    return {
        "sink": join(line("M14 58V38H34V20q14 20 28 0V38H82V58Z", "metal"), line("M34 20H62", "dash")),
        "offset": join(
            line("M12 38V20H66V38z", "metal"), line("M26 38H80V58H26z", "metal"), line("M4 38H12M80 38H92", "dash")
        ),
        "crushed_edge": join(
            line("M14 58V20H82V30L74 33 66 31 60 38 64 43 60 48 70 49 82 52V58Z", "metal"),
            line("M67 41L73 37 80 40 88 37 91 43 84 47 75 46z", "sand"),
            grains((75, 42), (82, 43)),
            line("M2 40H14M58 40H46", "dash"),
        ),
        "rough_at_gate": join(
            line("M2 46H16V56H2z", "metal"),
            *(ball(*at, "metal") for at in ((17, 40, 5), (26, 38, 4), (12, 45, 4))),
            line("M14 58V42H34V20H62V38H82V58Z", "metal"),
            grains((19, 47), (24, 45), (22, 52), (29, 49), (28, 54), (34, 50)),
        ),
        "dross_skin": join(whole, line(wrinkles)),
        "ragged_tear": join(whole, line("M34 38L38 41 35 45 41 48 37 52 42 58", "crack")),
    }


def _places() -> dict[str, Markup]:
    """Where the holes of a casting are."""
    whole = line(CASTING, "metal")
    skin = ((38, 25), (45, 25), (52, 25), (58, 26), (19, 43), (27, 43), (69, 43), (77, 43))
    near = ((20, 46, 3), (27, 51, 2.4), (21, 53, 2), (29, 44, 2))
    return {
        "hole_under_skin": join(whole, *(ball(x, y, 2.5, "ground") for x, y in skin)),
        "hole_in_thick": join(whole, ball(48, 38, 7, "ground"), line("M84 12L60 30M60 30L66 30M60 30L62 24")),
        "hole_all_through": join(
            box(12, 16, 72, 42, "metal"),
            *(
                ball(21 + 11 * column + 5 * (row % 2), 24 + 9 * row, 2.4, "ground")
                for row in range(4)
                for column in range(6 - row % 2)
            ),
        ),
        "hole_near_gate": join(whole, box(4, 44, 10, 10, "metal"), *(ball(*at, "ground") for at in near)),
    }


def _lens(*inside: Markup) -> Markup:
    """A piece of the casting under a lens."""
    return join(line("M64 48L86 67"), ball(42, 32, 28, "metal"), *inside)


def _walls() -> dict[str, Markup]:
    """The wall of a hole, seen through a lens."""
    ragged = "M42 16L46 22 53 19 52 26 59 30 53 33 57 41 49 40 46 47 41 41 33 46 34 38 26 36 32 31 28 23 36 24z"
    return {
        "wall_smooth": _lens(ball(42, 32, 14, "ground"), line("M32 30q2 -8 10 -9")),
        "wall_rough": _lens(line(ragged, "ground"), line("M38 28L42 32 47 28M38 38L42 33 47 37")),
        "wall_film": _lens(
            line("M27 33Q31 18 45 19 58 22 56 34 52 46 40 45 28 44 27 33z", "ground"),
            line("M30 31q5 -5 9 0t8 0 7 -1M31 38q5 -4 9 0t9 -1"),
        ),
    }


DRAWN = {**_sand(), **_mould(), **_pour(), **_casting(), **_shape(), **_places(), **_walls()}
"""The parts of each sign's picture, by its key."""
