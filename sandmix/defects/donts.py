"""What not to do while the cause is not known."""

from __future__ import annotations

from dataclasses import dataclass


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
    ("blame the sand before you have cut a sample of the metal", "pin_holes hole_all_through puffed_riser", "", "sample_pores sample_sound", ""),
    ("add water while the sand is warm", "", "hot_sand", "", ""),
    ("mix the burnt crust back in", "", "much_dead_fines", "", ""),
    ("put the weights on early: they crush the mould", "run_out crushed_edge", "light_cope crush", "", ""),
    ("pour hotter before you have checked vents and gates", "misrun", "", "", "poured_cold"),
    ("open the next mould as early as this one", "torn_casting", "opened_early", "", ""),
    ("riddle or sweep the sand while it is dry", "dusty", "too_dry", "", ""),
    ("dry or vent the sand because of a hole in the thickest part before you have looked at its wall", "hole_in_thick", "", "", "unvented too_wet"),
    ("pour hotter to fill a sunken place: hotter metal shrinks more", "sink wall_rough", "shrinkage", "", "poured_cold"),
    ("keep the metal hot while you finish the mould", "puffed_riser glowing_metal", "long_melt poured_hot", "", ""),
    ("stir the metal or skim it during the pour", "dross_skin wall_film", "dross", "", ""),
    ("straighten or force a torn casting: it may break in your hands", "ragged_tear", "hot_tear", "", ""),
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
