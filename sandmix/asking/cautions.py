"""What to say at each step where the work can hurt someone. Local rules and licensed trades always come first."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.materials.metals import METALS


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
        "sand and clay dust contains crystalline silica, which scars the lungs. Work the sand damp and wear a fitted "
        "respirator. Brush, wipe or tip loose sand off; never sweep it dry or blow it off, from a mould either. In US "
        "workplaces the 8-hour average may be at most 50 µg/m³, and measures are required from 25. Your local rules come "
        "first."
    ),
    source="osha_silica",
)
WET_MOULD = Caution(
    word="Steam",
    text=(
        "a mould that is too wet throws molten metal back out of the sprue. Do not pour above "
        f"{METALS['aluminium'].red_moisture_pct_wet:g} % of the wet mass for aluminium and zinc, or above "
        f"{METALS['tin_bronze'].red_moisture_pct_wet:g} % for other metals (limits from memory). Dry the sand or make "
        "the mould again."
    ),
    source="memory",
)
UNKNOWN_WETNESS = Caution(
    word="Steam",
    text=(
        "a mould that is too wet throws molten metal back out of the sprue. How wet this sand may be is not known here. Keep "
        "it as dry as it still holds, vent it well, and pour a small open mould first, standing well back."
    ),
    source="own",
)
DRYING = Caution(
    word="Drying",
    text=(
        "dry the sand outdoors in the sun, or in a pan that you never cook with. Sand stays hot long after it looks "
        "cold: let it cool before you touch it or put it in plastic."
    ),
    source="practice",
)
BURNER = Caution(
    word="Burner",
    text=(
        "only outdoors and away from anything that burns: a burner gives off carbon monoxide, which has no smell, and hot sand "
        "starts fires. Wet sand spits and its steam scalds: wear gloves and goggles, use a thin layer, and stir it with a long "
        "tool. Stay with it, and never heat it red: that kills the clay. Your local fire rules come first."
    ),
    source="niosh_carbon_monoxide",
)
LIFT = Caution(
    word="Lifting",
    text=(
        "guideline figures are about 25 kg for men and 16 kg for women, but only at waist height and close to the body. "
        "From the floor, at arm's length or with a twist they are much lower. Work on a bench, lift with two people, or ram "
        "the mould where it will be poured."
    ),
    source="hse_lifting",
)
TURN = Caution(
    word="Turning over",
    text=(
        "clamp or cleat the flask and its boards before you turn it. Sand that comes loose falls on your feet and "
        "spoils the mould."
    ),
    source="practice",
)
CEMENT = Caution(
    word="Cement",
    text=(
        "bags sold as sand mix or mortar mix contain cement. It burns skin and eyes when wet, and it does not make "
        "moulding sand. Read the whole label."
    ),
    source="practice",
)
DYE = Caution(
    word="Acid and dye",
    text=(
        "the dye stains for weeks, acid burns, and a boiling flask spits. Wear goggles and gloves. Pour acid into "
        "water, never water into acid. Use nothing of it for food again."
    ),
    source="practice",
)
GRINDING = Caution(
    word="Grinding",
    text=(
        "grinding or sieving dry clay fills the air with dust too fine to see. Do it outdoors with the wind at your "
        "back and a fitted respirator on, and let the dust settle before you open the mill. Your local rules come "
        "first."
    ),
    source="osha_silica",
)
HOT_SAND = Caution(
    word="Hot sand",
    text=(
        "sand that was just shaken out can burn you, and water on it flashes to steam. Let it cool below 49 °C before you "
        "add water; above that it mulls badly."
    ),
    source="hot_sand",
)
WET_CHARGE = Caution(
    word="Explosion",
    text=(
        "water trapped under molten metal turns to steam and explodes. Melt only dry scrap, and nothing closed (no "
        "cans, no tubes). Warm the tools, the skimmer and the ingot mould first. Work over a bed of dry sand, never "
        "over bare or damp concrete. Never put water on molten metal."
    ),
    source="practice",
)
BURNS = Caution(
    word="Burns",
    text=(
        "wear a face shield and leather, and nothing that melts. Nobody stands level with the joint between the two "
        "halves. Cool a burn under running water for 20 minutes, and call for help if it is large, deep, or on the "
        "face or hands."
    ),
    source="practice",
)
FURNACE = Caution(
    word="Furnace",
    text=(
        "never use it indoors or under a low roof: it gives off carbon monoxide, which has no smell, and open doors are "
        "not enough. Keep an alarm near. Your local fire rules come first."
    ),
    source="niosh_carbon_monoxide",
)
ZINC_FUME = Caution(
    word="Zinc fume",
    text=(
        "brass, zinc alloys and galvanised scrap give off zinc oxide, which causes a fever hours later. Melt "
        "outdoors, stand upwind, wear a fitted respirator for metal fume, and make the metal no hotter than needed."
    ),
    source="practice",
)
MAGNESIUM = Caution(
    word="Magnesium",
    text=(
        "some scrap that looks like aluminium is magnesium. It burns white-hot, and water makes that fire explode. Melt no "
        "scrap that you cannot name, and swarf only dry, pressed and pushed under a melt. Cover a metal fire with dry sand, "
        "never with water, foam or carbon dioxide."
    ),
    source="icsc_magnesium",
)
LEAD = Caution(
    word="Lead",
    text=(
        "free-cutting brass, plumbing brass and many bronzes contain lead. Its fume and dust build up in the body and harm "
        "children most. Choose an alloy sold as free of lead. Otherwise melt outdoors, upwind, in a fitted respirator for "
        "metal fume, change clothes, wash, and keep food and children away."
    ),
    source="osha_lead_brass",
)
GLARE = Caution(
    word="Glare",
    text=(
        "bronze, brass and iron glow so brightly that looking into furnace or crucible harms the eyes over the years. "
        "Wear a dark lens made for furnace work (shade 3 to 5, from memory) under the face shield."
    ),
    source="osha_eyes",
)
VENT_GAS = Caution(
    word="Vent gas",
    text=(
        "the sand gives off carbon monoxide and hydrogen, which may burn at the vents and the joint. Coal dust, wood flour, "
        "oil or resin in the sand gives off far more. Pour outdoors, do not lean over the mould, and leave at once with a "
        "headache or dizziness."
    ),
    source="foundry_gases",
)
CARBON_MONOXIDE = Caution(
    word="Carbon monoxide",
    text=(
        "it has no colour and no smell, and a mould with carbon gives off far more of it, for a long time after the pour. It forms "
        "in sand without carbon too. Pour, cool and shake out outdoors, stand upwind, and leave at once with a headache or "
        "dizziness. Your local rules come first."
    ),
    source="mocek_2014",
)
COAL_DUST = Caution(
    word="Coal dust",
    text=(
        "coal dust, gilsonite and wood flour burn, and a cloud of them can explode. Store them dry and closed, away from flames and "
        "sparks. Tip them in low and damp, never near the furnace, and clean up by wiping, not by blowing."
    ),
    source="coal_dust",
)
HOLD_DOWN = Caution(
    word="Run-out",
    text=(
        "metal lifts a light cope and runs out at the joint, towards your feet. Weight or clamp every closed mould "
        "just before you pour, not earlier: weights crush the sand."
    ),
    source="practice",
)
HOT_CASTING = Caution(
    word="Hot",
    text=(
        "casting and sand stay hot enough to burn you and to light wood long after they look cold. Open the mould "
        "with tongs and gloves, never pour water into it, and never shut hot sand in plastic."
    ),
    source="practice",
)
FLUX_FUME = Caution(
    word="Flux fume",
    text=(
        "fluxes and degassing tablets give off smoke that harms the lungs; some leave chlorine compounds in the body. Use "
        "only what is sold for this metal, dry, outdoors and upwind. Never use pool chlorine or a salt that you cannot name."
    ),
    source="degassing_tablets",
)
CUTTING = Caution(
    word="Cutting",
    text=(
        "let the casting cool fully, clamp it, and wear eye protection when you saw, file or break it. Chips are sharp."
    ),
    source="practice",
)
