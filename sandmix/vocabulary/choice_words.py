"""The words whose value is one of a few named things."""

from __future__ import annotations

from sandmix.language.words import Choice, Sentence, Word
from sandmix.materials.metals import METALS, SCRAPS
from sandmix.materials.sands_and_clays import CLAYS, SANDS_FOR_HEAT

VERDICTS = {
    "go": "go: fit to mould",
    "temper": "temper: it needs water",
    "dry": "dry: too wet to mould",
    "stop": "stop: far too wet to pour into",
}
BINDINGS = {
    "nothing": "nothing: the whole heap can stay",
    "mass": "mass: with the additions the heap would be larger than you asked for",
    "live_clay": "live clay: the heap holds more than the target",
    "dead_fines": "dead fines: there would be more than the limit",
    "too_fine": "fineness: the heap is finer than the range you set",
    "too_coarse": "fineness: the heap is coarser than the range you set",
    "stock": "stock: there is too little of the material that would let more stay",
    "bin": "the bin: it is full",
    "cost": "cost: keeping more would cost more",
}
SAND_KINDS = {
    "washed": "washed sand with bentonite",
    "natural": "natural moulding sand, with its own clay",
    "used": "used foundry sand, binder unknown",
}
SHAPES = {
    "plate": "a plate: flat, thin for its size",
    "bar": "a bar: long, about as thick as wide",
    "ball": "a lump: a cube, a ball, a short stub",
}
MAKE_UPS = {
    "yes": "yes: clay is added to keep its level",
    "no": "no: none is added, so its level falls",
}
DISCARDS = {
    "as_it_lies": "part of the heap, as it is",
    "crust": "crust: burnt sand from around the casting, before it was mixed back",
}
COVERS = {
    "lid": "under a lid, or well covered",
    "open": "in the open",
}

CHAPTER: tuple[Word, ...] = (
    Choice(name="metal", label="Metal", choices={metal.key: metal.label for metal in METALS.values()}, default="aluminium", help="Sets how wet the sand may be and how much heat the casting brings.", source="memory"),
    Choice(name="clay", label="Clay", choices={clay.key: clay.label for clay in CLAYS.values()}, default="sodium_bentonite", help="Granules are only partly live, and the label doesn't say how much. Cement, fire clay and pottery clay are different materials.", source="vingas_zrimsek_1964"),
    Choice(name="sand_kind", label="Kind of sand", choices=SAND_KINDS, default="washed", help="The stop limits are for washed sand with bentonite. For the other kinds none is known here.", source="own"),
    Choice(name="scrap", label="What you melt", choices={scrap.key: scrap.label for scrap in SCRAPS.values()}, default="offcuts", help="Sets the melting loss. Thin scrap loses more.", source="memory"),
    Choice(name="shape", label="Nearest shape", choices=SHAPES, help="Sets how the sand surrounds the casting. Leave empty to go by the box, or else by a plate.", source="geometry"),
    Choice(name="sand_heat", label="Heat properties of the sand", choices={sand.key: sand.label for sand in SANDS_FOR_HEAT.values()}, default="a", help="Three published sets of figures for dry rammed sand. If left empty, set a is used and the other two widen the ranges.", source="flemings"),
    Choice(name="verdict", label="Verdict", choices=VERDICTS, help="What to do with the heap as it is.", source="own"),
    Choice(name="binding", label="What forces sand out", choices=BINDINGS, help="The limit that decides how much of the heap can stay.", source="mass_balance"),
    Choice(name="make_up", label="Clay added after each cast", choices=MAKE_UPS, default="yes", help="Whether you add live clay after each cast, for the clay that burnt and the clay in the sand you replaced.", source="own"),
    Choice(name="discarded_as", label="Thrown away as", choices=DISCARDS, default="as_it_lies", help="Throwing crust away also removes the clay burnt since you last mixed in sand, clay or water.", source="own"),
    Choice(name="cover", label="Kept from now on", choices=COVERS, default="lid", help="Sets how fast the moisture becomes uncertain: 0.3 points on the first day under a lid, 1 point in the open.", source="own"),
    Sentence(name="recipe", label="The recipe on all four bases", help="The same mix, on the four bases that shops use.", source="mass_balance"),
)
