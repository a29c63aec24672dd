"""The words that are one of a few named things."""

from __future__ import annotations

from sandmix.language.words import Choice, Sentence, Word
from sandmix.materials.metals import METALS, SCRAPS
from sandmix.materials.sands_and_clays import CLAYS, SANDS_FOR_HEAT

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
    "too_fine": "fineness: the heap is finer than the window",
    "too_coarse": "fineness: the heap is coarser than the window",
    "stock": "stock: there is not enough of what would let more stay",
    "bin": "the bin: it holds no more",
    "cost": "cost: to keep more would cost more",
}

SHAPES = {
    "plate": "a plate: flat, thin for its size",
    "bar": "a bar: long, about as thick as wide",
    "ball": "a lump: a cube, a ball, a short stub",
}

MAKE_UPS = {
    "yes": "yes: clay is added to stay where it is",
    "no": "no: clay is left to run down",
}

DISCARDS = {
    "as_it_lies": "as it lies: some of the heap",
    "crust": "crust: what was burnt beside the casting, before it was mixed back",
}

CHAPTER: tuple[Word, ...] = (
    Choice(
        name="metal",
        label="Metal",
        choices={metal.key: metal.label for metal in METALS.values()},
        default="aluminium",
        help="Sets how wet the sand may be, and the heat it brings.",
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
    Choice(
        name="scrap",
        label="What is melted",
        choices={scrap.key: scrap.label for scrap in SCRAPS.values()},
        default="offcuts",
        help="Sets how much is skimmed off: the thinner, the more.",
        source="memory",
    ),
    Choice(
        name="shape",
        label="Nearest shape",
        choices=SHAPES,
        help="How the sand closes in around it. Left empty: from the box, else a plate.",
        source="geometry",
    ),
    Choice(
        name="sand_heat",
        label="Sand, as heat sees it",
        choices={sand.key: sand.label for sand in SANDS_FOR_HEAT.values()},
        default="a",
        help="Three published sets of figures for dry rammed sand. Left empty, the other two count as doubt.",
        source="flemings",
    ),
    Choice(name="verdict", label="Verdict", choices=VERDICTS, help="What to do with the heap as it is.", source="own"),
    Choice(
        name="binding",
        label="What forces sand out",
        choices=BINDINGS,
        help="The limit that decides how much of the heap can stay.",
        source="mass_balance",
    ),
    Choice(
        name="make_up",
        label="Clay made up each cast",
        choices=MAKE_UPS,
        default="yes",
        help="Whether live clay goes in after each cast, for what burnt and for what left with the sand replaced.",
        source="own",
    ),
    Choice(
        name="discarded_as",
        label="Thrown away as",
        choices=DISCARDS,
        default="as_it_lies",
        help="Crust takes the clay along that the casts have burnt since new sand, clay or water was last mixed in.",
        source="own",
    ),
    Sentence(
        name="recipe",
        label="The recipe in all four bases",
        help="One mix, said the four ways it is said in shops.",
        source="mass_balance",
    ),
)
