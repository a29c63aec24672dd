"""Defects of castings and moulds: the causes, the signs that a person sees, and how often each sign comes with each cause.

This is data, to be read and corrected. How often has five grades, because nobody knows finer figures. The link between a sign and a
cause is from the source of the row; how often the sign comes is common practice. A cause that a row does not name brings the sign as
often as ``otherwise`` says. So a sign that also comes without a defect (steam) counts less than one that does not (clay balls).

Source: casting_defect_lists, friable_sand, hot_sand where a row says so, else practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

GRADES = {"nearly always": 0.9, "often": 0.6, "sometimes": 0.3, "seldom": 0.1, "hardly": 0.02}
"""How often, in words, and the chance used for it. Source: own."""

OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One cause of defects: how common it is among a hundred defects of small foundries, and what to do about it."""

    key: str
    label: str
    prior_pct: float
    remedy: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Symptom:
    """One sign that a person sees: its family of signs, and how often it comes with each cause, by grade.

    Signs of one family often come together, so they count as one kind of evidence when a cause is called likely.
    """

    key: str
    label: str
    family: str
    chances: Mapping[str, str]
    source: str
    otherwise: str = "hardly"

    def chance(self, cause: str) -> float:
        """Return how often this sign comes with *cause*, as a share of one.

        >>> SYMPTOMS["clay_balls"].chance("poorly_mulled"), SYMPTOMS["steam"].chance("no_draft")
        (0.9, 0.1)
        """
        return GRADES[self.chances.get(cause, self.otherwise)]


_CAUSE_ROWS = (
    ("too_dry", "too dry", 10, "Temper it: weigh and dry a sample, spray the first dose in several portions, mull, rest, and test again.", "friable_sand"),
    ("too_wet", "too wet", 12, "Dry it, or mix in dry sand and clay. Mull it, and test again before you make a mould of it.", "casting_defect_lists"),
    ("little_live_clay", "too little live clay", 9, "Add half of the missing clay, mull, test, then add the rest. Water alone will not make it bond.", "practice"),
    ("much_dead_fines", "too many dead fines", 7, "Replace a part of the heap with new sand and clay: burnt clay never bonds again.", "practice"),
    ("much_clay", "too much live clay", 4, "Mix in dry sand, mull, and vent more until the clay is lower.", "practice"),
    ("poorly_mulled", "not mulled and rested enough", 10, "Mull it longer in smaller batches, let it rest for an hour to a night, riddle it, and test again.", "practice"),
    ("under_rammed", "rammed too soft", 8, "Ram in thin layers, along the walls first, and press with a thumb: the sand should hardly dent.", "practice"),
    ("over_rammed", "rammed too hard", 5, "Ram less over the pattern, ram hard only along the walls, and vent.", "casting_defect_lists"),
    ("unvented", "not vented", 6, "Prick vents with a thin wire to just above the pattern, and give the highest points a riser or a vent.", "casting_defect_lists"),
    ("too_fine", "sand too fine", 4, "Blend in coarser sand, ram less hard and vent more.", "casting_defect_lists"),
    ("too_coarse", "sand too coarse", 5, "Sieve finer sand over the pattern as a facing, or blend in finer sand.", "practice"),
    ("gas_in_metal", "gas in the metal", 9, "Melt clean dry metal, no hotter and no longer than needed. Flux or degas it, and do not stir. The sand is not at fault.", "casting_defect_lists"),
    ("light_cope", "cope not held down", 4, "Weight or clamp the mould just before the pour. Work out the uplift of the metal.", "shop_practice"),
    ("hot_sand", "sand still warm", 4, "Spread it out and let it cool below 49 °C, then temper and mull.", "hot_sand"),
    ("no_draft", "pattern does not release", 5, "Give it draft, smooth and seal it, dust it with parting powder, and rap it before you draw it.", "practice"),
    ("opened_early", "opened too early", 3, "Leave the mould shut until the middle is solid and has cooled.", "practice"),
    ("poured_cold", "poured too cold", 5, "Pour hotter, within the usual range of the metal, and without a pause, or make the gates wider.", "casting_defect_lists"),
    (OTHER, "something else or several at once", 8, "Change only one thing, cast again, and look.", "own"),
)  # fmt: skip
CAUSES = {
    key: Cause(key=key, label=label, prior_pct=float(prior), remedy=remedy, source=source)
    for key, label, prior, remedy, source in _CAUSE_ROWS
}
NAMED = tuple(key for key in CAUSES if key != OTHER)
"""The causes that the table knows, without ``other``."""


def _symptom(
    key: str, label: str, family: str, *grades: str, source: str = "practice", otherwise: str = "hardly"
) -> Symptom:
    """Return a row; *grades* are the keys of the causes that bring the sign nearly always, often, sometimes and seldom."""
    chances = {cause: grade for grade, causes in zip(GRADES, grades, strict=False) for cause in causes.split()}
    return Symptom(key=key, label=label, family=family, chances=chances, source=source, otherwise=otherwise)


# each row: key, what a person sees, family; then the causes that bring it nearly always, often, sometimes, seldom
_SYMPTOM_ROWS = (
    _symptom("crumbling_edges", "edges crumble or corners break when the pattern is drawn", "strength",
             "too_dry", "little_live_clay poorly_mulled hot_sand", "under_rammed much_dead_fines too_coarse no_draft", "too_wet", source="friable_sand"),
    _symptom("cope_drops", "sand drops out of the cope or a piece of the mould falls", "strength",
             "", "little_live_clay under_rammed", "too_dry poorly_mulled too_coarse hot_sand much_dead_fines too_wet", "light_cope no_draft", source="friable_sand"),
    _symptom("walls_blow_out", "sand falls out of the flask or bursts out sideways when it is turned over", "strength",
             "", "under_rammed little_live_clay", "too_dry poorly_mulled too_coarse", "too_wet hot_sand much_dead_fines"),
    _symptom("sticks_to_pattern", "sand sticks to the pattern and tears the mould face", "drawing",
             "no_draft", "too_wet hot_sand", "much_clay poorly_mulled", "under_rammed little_live_clay too_dry much_dead_fines", source="hot_sand"),
    _symptom("rough_face", "the casting's face is as rough as coarse sandpaper", "face",
             "too_coarse", "under_rammed", "too_dry too_wet", "poorly_mulled little_live_clay no_draft hot_sand gas_in_metal", source="friable_sand"),
    _symptom("burnt_on_face", "sand is fused to the casting's face", "face",
             "", "too_coarse", "under_rammed much_dead_fines gas_in_metal", "little_live_clay too_dry too_wet"),
    _symptom("pin_holes", "many small round holes under the skin or seen when machining", "gas",
             "gas_in_metal", "too_wet", "too_fine unvented much_dead_fines", "much_clay over_rammed hot_sand poorly_mulled", source="casting_defect_lists"),
    _symptom("blows", "large smooth holes mostly in the upper side", "gas",
             "unvented", "too_wet over_rammed too_fine", "much_clay much_dead_fines", "gas_in_metal hot_sand poured_cold", source="casting_defect_lists"),
    _symptom("bubbling_sprue", "metal bubbles or spits in the sprue", "gas",
             "too_wet", "unvented too_fine", "over_rammed much_clay", "much_dead_fines gas_in_metal hot_sand", source="casting_defect_lists"),
    _symptom("scabs", "rough lumps where the sand's skin came off with a hollow elsewhere", "skin",
             "", "over_rammed", "too_wet too_fine much_dead_fines much_clay poorly_mulled little_live_clay", "too_dry hot_sand"),
    _symptom("clay_balls", "hard little balls of clay in the sand", "mixing",
             "poorly_mulled", "", "much_clay hot_sand", "too_wet too_dry"),
    _symptom("ever_more_water", "it needs more water each time and is no stronger", "drinking",
             "much_dead_fines", "hot_sand", "little_live_clay much_clay", "too_fine poorly_mulled"),
    _symptom("drying_cracks", "the mould cracks when it stands or dries", "skin",
             "much_clay", "", "too_wet too_dry much_dead_fines hot_sand", "too_fine over_rammed poorly_mulled"),
    _symptom("run_out", "metal runs out at the parting", "parting",
             "light_cope", "", "", "under_rammed too_dry no_draft"),
    _symptom("swollen", "the casting is fatter than the pattern or bulges", "walls",
             "under_rammed", "", "light_cope too_wet", "little_live_clay poorly_mulled no_draft"),
    _symptom("sand_in_metal", "grains or lumps of sand in the casting", "loose",
             "", "too_dry little_live_clay", "under_rammed poorly_mulled hot_sand much_dead_fines no_draft", "too_coarse over_rammed light_cope", source="friable_sand"),
    _symptom("weak_squeeze", "a squeezed handful falls apart or breaks with crumbs", "strength",
             "too_dry little_live_clay", "poorly_mulled much_dead_fines", "too_coarse hot_sand", "too_wet"),
    _symptom("wet_squeeze", "a squeezed handful leaves the hand wet or shiny or sticks to it", "damp",
             "too_wet", "", "", "much_clay poorly_mulled"),
    _symptom("dusty", "sand looks dry and pale and dust rises", "damp",
             "too_dry", "", "hot_sand much_dead_fines", "poorly_mulled too_fine little_live_clay", source="friable_sand"),
    _symptom("steam", "steam comes out of the mould during the pour", "steam",
             "", "too_wet", "unvented much_dead_fines much_clay hot_sand", "", otherwise="seldom"),
    _symptom("misrun", "the metal did not fill thin parts", "filling",
             "poured_cold", "", "unvented", "over_rammed too_fine too_wet gas_in_metal light_cope", source="casting_defect_lists"),
    _symptom("torn_casting", "the casting tore or bent or crumbled when the mould was opened", "opening",
             "opened_early", "", "over_rammed", "much_clay gas_in_metal"),
)  # fmt: skip
SYMPTOMS = {row.key: row for row in _SYMPTOM_ROWS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Dont:
    """What not to do while the cause is not known: shown for its signs or leading causes, unless a reading is given or another cause leads."""

    text: str
    signs: frozenset[str]
    causes: frozenset[str]
    unless_read: frozenset[str]
    unless_leading: frozenset[str]

    def applies(self, signs: set[str], leading: set[str], read: set[str]) -> bool:
        """Return whether to show it; one with neither signs nor causes is always shown."""
        relevant = bool(self.signs & signs or self.causes & leading) or not (self.signs or self.causes)
        return relevant and not self.unless_read & read and not self.unless_leading & leading


# what not to do; the signs and leading causes that it is for; the readings and leading causes that make it needless
_DONT_ROWS = (
    ("add water because the sand is weak before you know its moisture",
     "weak_squeeze crumbling_edges cope_drops dusty sand_in_metal", "", "moisture_pct_wet", ""),
    ("add more water if water has not helped so far", "ever_more_water", "", "", ""),
    ("pour before you have tested its moisture and it is right", "bubbling_sprue steam wet_squeeze", "too_wet", "", ""),
    ("add clay before you know the live clay", "clay_balls", "little_live_clay much_clay much_dead_fines", "clay_pct_dry", ""),
    ("ram harder to make weak sand hold", "weak_squeeze crumbling_edges cope_drops", "", "", "under_rammed"),
    ("blame the sand before you have cut a sample of the metal", "pin_holes", "", "sample_pores sample_sound", ""),
    ("add water while the sand is warm", "", "hot_sand", "", ""),
    ("mix the burnt crust back in", "", "much_dead_fines", "", ""),
    ("put the weights on early: they crush the mould", "run_out", "light_cope", "", ""),
    ("pour hotter before you have checked vents and gates", "misrun", "", "", "poured_cold"),
    ("open the next mould as early as this one", "torn_casting", "opened_early", "", ""),
    ("riddle or sweep the sand while it is dry", "dusty", "too_dry", "", ""),
    ("change two things at once", "", "", "", ""),
)  # fmt: skip
DONTS = tuple(
    Dont(
        text=text,
        signs=frozenset(signs.split()),
        causes=frozenset(causes.split()),
        unless_read=frozenset(read.split()),
        unless_leading=frozenset(leading.split()),
    )
    for text, signs, causes, read, leading in _DONT_ROWS
)
