"""What to say at which step, where the work can hurt someone. Local codes and licensed practice come first, always."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution: its word, what to do, and the source of its figures."""

    word: str
    text: str
    source: str

    def __str__(self) -> str:
        return f"{self.word}: {self.text}"


DUST = Caution(
    word="Dust",
    text=(
        "sand and clay dust holds crystalline silica, which scars the lungs. Work it damp, wear a fitted "
        "respirator, never sweep dry or blow it off."
        " Workplaces are held to 50 µg/m³ over 8 hours, with action from 25; your local rules come first."
    ),
    source="osha_silica",
)
WET_MOULD = Caution(
    word="Steam",
    text=(
        "a mould that is too wet throws molten metal back out of the sprue. Above the limit do not pour: dry the "
        "sand or remake the mould."
    ),
    source="memory",
)
DRYING = Caution(
    word="Drying",
    text=(
        "dry sand outdoors in the sun, or in a pan you never cook with. Sand holds heat long after it looks cold: "
        "let it cool before it meets hands or plastic."
    ),
    source="practice",
)
LIFT = Caution(
    word="Lift",
    text=(
        "guideline figures are about 25 kg for men and 16 kg for women, close to the body, and less when you reach "
        "or twist."
        " Lift with two, or ram where it will be poured."
    ),
    source="hse_lifting",
)
TURN = Caution(
    word="Turning over",
    text=(
        "clamp or cleat the flask and its boards before you turn it: sand that lets go falls on feet and spoils the "
        "mould."
    ),
    source="practice",
)
CEMENT = Caution(
    word="Cement",
    text=(
        "bags sold as sand mix or mortar mix contain cement: it burns skin and eyes when wet and is no moulding "
        "sand. Read the whole label."
    ),
    source="practice",
)
DYE = Caution(
    word="Acid and dye",
    text=(
        "the dye stains for weeks, acid burns, and a boiling flask spits. Goggles and gloves, acid into water and "
        "never the other way, and none of it in vessels for food."
    ),
    source="practice",
)
GRINDING = Caution(
    word="Grinding",
    text=(
        "dry clay that is ground or sieved fills the air with dust too fine to see. Do it outdoors with the wind at "
        "your back, a fitted respirator on, and let it settle before you open the lid. Your local rules come first."
    ),
    source="osha_silica",
)
HOT_SAND = Caution(
    word="Hot sand",
    text=(
        "sand just shaken out burns, and water on it flashes to steam. Let it cool below 49 °C before you add "
        "water; above that it mulls badly."
    ),
    source="hot_sand",
)
WET_CHARGE = Caution(
    word="Explosion",
    text=(
        "water under molten metal explodes. Charge only dry, open scrap, no closed cans or tubes; warm tools, "
        "skimmer and "
        "ingot mould first; never pour over bare or damp concrete, but over a bed of dry sand. Never water on "
        "molten metal."
    ),
    source="practice",
)
BURNS = Caution(
    word="Burns",
    text=(
        "face shield, leather, nothing that melts on the skin; nobody in line with the parting. A burn: cool "
        "running water for "
        "20 minutes, and call for help where it is large, deep, or on face or hands."
    ),
    source="practice",
)
FURNACE = Caution(
    word="Furnace",
    text=(
        "never indoors or under a low roof: it gives off carbon monoxide. Keep an alarm near. Your local fire "
        "rules come first."
    ),
    source="practice",
)
ZINC_FUME = Caution(
    word="Zinc fume",
    text=(
        "brass, zinc alloys and galvanised scrap give off zinc oxide, which brings fever hours later. Outdoors, "
        "upwind, with a "
        "fitted respirator for metal fume, and no hotter than needed."
    ),
    source="practice",
)
HOLD_DOWN = Caution(
    word="Run-out",
    text=(
        "metal lifts a light cope and runs out at the parting, towards feet. Weight or clamp every closed mould "
        "just before "
        "pouring, not early: weights crush the sand."
    ),
    source="practice",
)
HOT_CASTING = Caution(
    word="Hot",
    text=(
        "casting and sand stay hot enough to burn and to light wood long after they look cold. Open with tongs "
        "and gloves, "
        "never quench in the mould, and never shut hot sand in plastic."
    ),
    source="practice",
)
