"""The causes of defects in the sand, the mould and the metal: how common each is, which tests check it, and what to do about it.

This is data, to be read and corrected. How common each cause is in small foundries is trade judgement: only the proportions count.

Source: the key in each row for the link between cause and defect; practice for how common it is and for which tests check it.
"""

from __future__ import annotations

from dataclasses import dataclass

GRADES = {"nearly always": 0.9, "often": 0.6, "sometimes": 0.3, "seldom": 0.1, "hardly": 0.01}
"""How often, in words, and the chance used for it. Source: own."""

OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One cause of defects: how common it is compared with the others, the tests that check it, and what to do about it.

    ``tests`` are keys of trials, the one to do first in front.
    """

    key: str
    label: str
    prior_pct: float
    tests: tuple[str, ...]
    remedy: str
    source: str


# key, label, how common, the tests that check it, what to do, source
_OF_SAND = (
    ("too_dry", "too dry", 10, "moisture compactability", "Temper it: weigh and dry a sample, spray the first dose in several portions, mull, rest, and test again.", "friable_sand"),
    ("too_wet", "too wet", 12, "moisture compactability", "Dry it, or mix in dry sand and clay. Mull it, and test again before you make a mould of it.", "casting_defect_lists"),
    ("little_live_clay", "too little live clay", 9, "live_clay", "Add half of the missing clay, mull, test, then add the rest. Water alone will not make it bond.", "practice"),
    ("much_dead_fines", "too many dead fines", 7, "wash live_clay", "Replace a part of the heap with new sand and clay: burnt clay never bonds again.", "practice"),
    ("much_clay", "too much live clay", 4, "live_clay", "Mix in dry sand, mull, and vent more until the clay is lower.", "practice"),
    ("poorly_mulled", "not mulled and rested enough", 10, "mulled rest", "Mull it longer in smaller batches, let it rest for an hour to a night, riddle it, and test again.", "practice"),
    ("too_fine", "sand too fine", 4, "sieves permeability", "Blend in coarser sand, ram less hard and vent more.", "casting_defect_lists"),
    ("too_coarse", "sand too coarse", 5, "sieves permeability", "Sieve finer sand over the pattern as a facing, or blend in finer sand.", "practice"),
    ("hot_sand", "sand still warm", 4, "warmth", "Spread it out and let it cool below 49 °C, then temper and mull.", "hot_sand"),
)  # fmt: skip
_OF_MOULD = (
    ("under_rammed", "rammed too soft", 8, "thumb weigh", "Ram in thin layers, along the walls first, and press with a thumb: the sand should hardly dent.", "practice"),
    ("over_rammed", "rammed too hard", 5, "thumb", "Ram less over the pattern, ram hard only along the walls, and vent.", "casting_defect_lists"),
    ("unvented", "not vented", 6, "vents", "Prick vents with a thin wire to just above the pattern, and give the highest points a riser or a vent.", "casting_defect_lists"),
    ("light_cope", "cope not held down", 4, "held", "Weight or clamp the mould just before the pour. Work out the uplift of the metal.", "shop_practice"),
    ("no_draft", "pattern does not release", 5, "pattern", "Give it draft, smooth and seal it, dust it with parting powder, and rap it before you draw it.", "practice"),
    ("opened_early", "opened too early", 3, "clock tear_face", "Leave the mould shut until the middle is solid and has cooled.", "practice"),
    ("mismatch", "halves of the mould out of line", 4, "joint pins", "Take the play out of the flask's pins or guides, mark both halves, and check that the two parts of a split pattern line up.", "mould_shift"),
    ("crush", "mould crushed as it was closed", 3, "closing", "Strike the joint off level, close the cope straight down on its guides, and set the weights on gently just before the pour.", "practice"),
    ("gate_erosion", "sand washed away at the gate", 4, "gate_look gate_speed", "Pour lower and steadily, make the gate wider and smooth, round its edges, and ram and temper the sand there well.", "defect_glossary"),
    ("hot_tear", "torn while hot because the mould held it", 3, "tear_face corners", "Let the sand give: ram less hard between flanges and in cores, round the inside corners, and do not change thickness abruptly.", "hot_tear_atlas"),
)  # fmt: skip
_OF_METAL = (
    ("gas_in_metal", "gas in the metal from a damp or dirty melt", 9, "sample where charge", "Melt clean dry metal, no hotter and no longer than needed. Flux or degas it, and do not stir. The sand is not at fault.", "casting_defect_lists"),
    ("long_melt", "gas picked up by melting long or twice", 4, "melt_time sample where", "Have the mould ready first, melt fast, and pour as soon as the metal is hot. Use at least half new metal instead of old runners.", "melt_time_hydrogen"),
    ("poured_cold", "poured too cold", 5, "probe filled", "Pour hotter, within the usual range of the metal, and without a pause, or make the gates wider.", "casting_defect_lists"),
    ("poured_hot", "poured too hot", 4, "probe", "Let it cool to the usual range of the metal before you pour, and measure it with a probe.", "defect_remedies"),
    ("shrinkage", "shrinkage of a thick part", 8, "feed_look riser wall saw", "Put a riser that freezes later than the thick part right beside it, or gate into the thick part, or make the part thinner.", "west_shrink_holes"),
    ("dross", "dross or oxide films in the metal", 6, "skimmed gate_speed wall fracture", "Skim just before the pour, keep the sprue full, pour low without a splash, and do not stir. A wider, longer runner traps dross.", "oxide_films"),
    (OTHER, "something else or several at once", 8, "", "Change only one thing, cast again, and look.", "own"),
)  # fmt: skip
CAUSES = {
    key: Cause(key=key, label=label, prior_pct=float(prior), tests=tuple(tests.split()), remedy=remedy, source=source)
    for key, label, prior, tests, remedy, source in (*_OF_SAND, *_OF_MOULD, *_OF_METAL)
}
NAMED = tuple(key for key in CAUSES if key != OTHER)
"""The causes that the table knows, without ``other``."""
