"""The words that are one of a few named things."""

from __future__ import annotations

from ..materials import CLAYS, METALS
from ..words import Choice, Sentence, Word

VERDICTS = {
    "go": "go: fit to mould",
    "temper": "temper: it wants water",
    "dry": "dry: too wet to mould",
    "stop": "stop: far too wet to pour on",
}
BINDINGS = {
    "nothing": "nothing: the whole heap can stay",
    "mass": "mass: what is added leaves no room for the whole heap",
    "live_clay": "live clay: the heap holds more than the target",
    "dead_fines": "dead fines: they force sand out",
}

CHAPTER: tuple[Word, ...] = (
    Choice(
        name="metal",
        label="Metal",
        choices={metal.key: metal.label for metal in METALS.values()},
        default="aluminium",
        help="Sets how wet the sand may be.",
        source="memory",
    ),
    Choice(
        name="clay",
        label="Clay",
        choices={clay.key: clay.label for clay in CLAYS.values()},
        default="sodium_bentonite",
        help=(
            "Granules are only partly live, and no label says how much. Cement, fire clay and pottery clay are "
            "other things."
        ),
        source="vingas_zrimsek_1964",
    ),
    Choice(name="verdict", label="Verdict", choices=VERDICTS, help="What to do with the heap as it is.", source="own"),
    Choice(
        name="binding",
        label="What forces sand out",
        choices=BINDINGS,
        help="The limit that decides how much of the heap can stay.",
        source="mass_balance",
    ),
    Sentence(
        name="recipe",
        label="The recipe in all four bases",
        help="One mix, said the four ways it is said in shops.",
        source="mass_balance",
    ),
)
