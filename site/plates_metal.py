"""Drawings of the pour and of what follows it."""

from __future__ import annotations

from collections.abc import Mapping

from draw_lines import ball, box, line
from draw_tag import join
from plate import Panels, Section, grains_in, number

DRAWN: Mapping[str, Panels | Section] = {
    "stance": Section(
        caption="Where everything is before the metal leaves the furnace.",
        parts=(
            "a bed of dry sand under the mould, and along your way",
            "weights on the cope, put on just before the pour",
            "the joint: nobody stands level with it",
            "pour from as low as you can, in one steady stream",
            "face shield, leather, boots; the way behind is clear",
        ),
        high=240,
        drawing=join(
            line("M6 226H314V208Q240 202 160 206T6 206z", "sand"),
            grains_in(8, 206, 304, 22),
            box(22, 142, 104, 32, "sand"),
            box(22, 174, 104, 32, "sand"),
            box(14, 142, 8, 32, "wood"),
            box(126, 142, 8, 32, "wood"),
            box(14, 174, 8, 32, "wood"),
            box(126, 174, 8, 32, "wood"),
            line("M4 174H152", "dash"),
            box(26, 122, 26, 20, "metal"),
            box(58, 122, 26, 20, "metal"),
            line("M98 142V132H118V142", "ground"),
            line("M108 108L106 136", "stream"),
            line("M104 92L138 80 146 104 112 112z", "ground"),
            line("M107 100L142 92 146 104 112 112z", "hot"),
            line("M142 90L196 104", "tube"),
            ball(232, 44, 17, "ground"),
            line("M217 34Q212 46 218 58L222 58", "tube"),
            line("M226 62H246Q258 66 258 84V132H216V84Q216 66 226 62z", "ground"),
            line("M222 78L192 102 200 112 232 98z", "ground"),
            line("M220 132V206H234L238 144 242 206H256V132z", "ground"),
            line("M220 196H208V207H234M242 207H268V196H256", "ground"),
            line("M228 100L236 100M220 120H254"),
            number(1, 292, 190, (292, 212)),
            number(2, 40, 96, (40, 122)),
            number(3, 168, 174, (150, 174)),
            number(4, 92, 60, (108, 108)),
            number(5, 284, 66, (246, 52)),
        ),
    ),
    "crust": Section(
        caption="What the heat did to the sand, from the casting outwards. The crust is drawn thicker than it is.",
        parts=(
            "casting: hot long after it looks cold",
            "burnt crust: its clay is dead. Throw it away",
            "dried shell: its water has boiled off",
            "damp sand, as it was: nothing lost",
        ),
        high=210,
        drawing=join(
            box(30, 20, 260, 170, "sand"),
            box(20, 20, 10, 170, "wood"),
            box(290, 20, 10, 170, "wood"),
            grains_in(30, 24, 260, 164, leave=((76, 60, 170, 92),)),
            line("M76 62Q76 52 92 52H228Q244 52 244 62V146Q244 158 228 158H92Q76 158 76 146z", "dry"),
            line("M92 82Q92 74 102 74H218Q228 74 228 82V130Q228 138 218 138H102Q92 138 92 130z", "burnt"),
            line("M102 128V106H132V84H188V106H218V128z", "metal"),
            number(1, 160, 112),
            number(2, 262, 90, (222, 92)),
            number(3, 262, 150, (236, 146)),
            number(4, 52, 40),
        ),
    ),
}
