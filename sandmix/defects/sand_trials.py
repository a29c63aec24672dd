"""Tests of the sand, of the mould and of how it was made: what each finds, and how often with each cause.

This is data, to be read and corrected. Bands and figures are common practice (working compactability 35 to 50 and hot sand above 49 °C are
read); none is measured.

Source: bcira_specimen, tjfs_201, afs_gfn, hot_sand for what is measured; practice for the spread.
"""

from __future__ import annotations

from sandmix.defects.trial import Trial, check, look, reading, same
from sandmix.materials.metals import Metal

FIVE = ("very low", "low", "usual", "high", "very high")
COMPACTABILITY_EDGES = (30.0, 38.0, 50.0, 58.0)
"""The limits between the bands of the tin test, in percent of the height, rammed as the standard rams."""


def _moistures(metal: Metal) -> tuple[float, ...]:
    """Return the moistures below which edges crumble, and between dry and right, right and wet, wet and far too wet."""
    return 2.0, metal.target_moisture_pct_wet - 0.6, metal.amber_moisture_pct_wet, metal.red_moisture_pct_wet


SAND_TRIALS: tuple[Trial, ...] = (
    look("squeeze", "Squeeze test", "Squeeze a handful and break it", 1,
         {"weak_squeeze": "it falls apart or breaks with crumbs", "wet_squeeze": "it leaves the hand wet or sticks to it"},
         ("clean_squeeze", "it holds and breaks clean and the hand stays dry")),
    check("mulled", "Mull and rest", "Mull a handful hard for ten minutes and squeeze it again after an hour of rest", 70,
          {"mulled_better": "much stronger after mulling and rest with no water added", "mulled_same": "no stronger after mulling and rest"},
          (20, 80), poorly_mulled=(88, 12), hot_sand=(55, 45), too_dry=(15, 85), little_live_clay=(10, 90), much_dead_fines=(10, 90), too_wet=(10, 90)),
    check("warmth", "Feel for warmth", "Put the back of a hand or a thermometer into the middle of the sand", 1,
          {"sand_warm": "the sand was warm when it was tempered or moulded", "sand_cool": "the sand was cool throughout"},
          (6, 94), hot_sand=(94, 6)),
    check("vents", "Count the vents", "Count the vents and check whether they reach down near the pattern", 1,
          {"no_vents": "no vents or blocked vents", "vented": "well vented"},
          (25, 75), unvented=(95, 5)),
    check("thumb", "Thumb test", "Press a thumb into a rammed mould along the walls and over the pattern", 2,
          {"soft_mould": "it dents easily somewhere", "firm_mould": "firm all over", "hard_mould": "hard as a board over the pattern"},
          (18, 72, 10), under_rammed=(88, 11, 1), over_rammed=(2, 23, 75), unvented=(10, 70, 20), hot_tear=(4, 56, 40), gate_erosion=(32, 62, 6)),
    check("pattern", "Look at the pattern", "Check the pattern for draft and roughness and ask whether it was dusted", 2,
          {"poor_pattern": "no draft or rough or not dusted", "good_pattern": "draft on all sides and smooth and dusted"},
          (25, 75), no_draft=(95, 5)),
    check("held", "What held the cope", "Ask what held the cope down and compare it with the uplift of the metal", 3,
          {"cope_loose": "no weight or clamp or too little", "cope_held": "weighted or clamped enough"},
          (20, 80), light_cope=(93, 7)),
    check("clock", "Time in the mould", "Ask how long it stayed in the mould and compare that with its thickness", 1,
          {"opened_soon": "opened within minutes or glowing", "opened_cold": "opened long after it was solid"},
          (10, 90), opened_early=(92, 8)),
    check("closing", "How it was closed", "Ask how the mould was closed and look whether sand stands above the joint", 2,
          {"closed_hard": "sand stood above the joint or the cope came down askew or weights were set on early or hard", "closed_clean": "struck off level and closed straight down"},
          (20, 80), crush=(88, 12), mismatch=(35, 65)),
    check("pins", "Play of the flask", "Push the empty cope sideways on the drag and look whether it moves on its guides", 1,
          {"pins_loose": "the cope moves sideways on its guides", "pins_tight": "the cope does not move on its guides"},
          (25, 75), mismatch=(88, 12), crush=(40, 60)),
    reading("compactability", "compactability_read_pct", "Tin test", "Fill a tin level and ram it and measure how far the sand sinks", 5, same(*COMPACTABILITY_EDGES),
            FIVE, (8, 20, 46, 18, 8), source="bcira_specimen",
            too_dry=(50, 37, 11, 1.5, 0.5), too_wet=(0.5, 2, 14, 38, 45.5), much_dead_fines=(15, 32, 38, 11, 4), poorly_mulled=(17, 33, 36, 10, 4),
            little_live_clay=(9, 20, 40, 20, 11), much_clay=(12, 26, 42, 14, 6), hot_sand=(22, 30, 32, 11, 5)),
    reading("moisture", "moisture_pct_wet", "Moisture test", "Weigh a sample of the sand and dry it and weigh it again", 30, _moistures,
            ("far too dry", "dry", "as it should be", "wet", "far too wet"), (5, 16, 55, 18, 6), source="tjfs_201",
            too_dry=(42, 44, 13, 0.8, 0.2), too_wet=(0.1, 0.4, 12, 52, 35.5), much_dead_fines=(1, 7, 48, 34, 10),
            much_clay=(1, 9, 56, 27, 7), hot_sand=(18, 30, 41, 9, 2), little_live_clay=(6, 20, 56, 15, 3)),
    reading("live_clay", "clay_pct_dry", "Live clay test", "Test the live clay with methylene blue", 60, same(4, 6, 10, 13),
            FIVE, (7, 20, 58, 11, 4),
            little_live_clay=(52, 39, 8, 0.7, 0.3), much_clay=(0.3, 0.7, 10, 42, 47), much_dead_fines=(14, 32, 46, 6, 2)),
    reading("wash", "dead_fines_pct_dry", "Wash test", "Wash the fines out of a dried sample and weigh what is left", 60, same(3, 6, 10),
            ("low", "usual", "high", "very high"), (47, 34, 14, 5),
            much_dead_fines=(1, 7, 42, 50), little_live_clay=(38, 36, 19, 7), too_fine=(35, 36, 21, 8)),
    reading("sieves", "gfn", "Sieve test", "Shake a washed sample through the sieves", 60, same(40, 55, 80, 110),
            ("very coarse", "coarse", "usual", "fine", "very fine"), (9, 27, 42, 17, 5), source="afs_gfn",
            too_fine=(0.3, 1.7, 15, 43, 40), too_coarse=(58, 33, 7.5, 1, 0.5)),
    reading("permeability", "permeability", "Air test", "Time the flow of air through a rammed specimen", 15, same(25, 60, 150),
            ("very tight", "tight", "open", "very open"), (12, 32, 42, 14),
            too_fine=(56, 36, 7, 1), too_coarse=(0.5, 6, 38, 55.5), much_dead_fines=(34, 44, 19, 3), too_wet=(22, 38, 33, 7), much_clay=(28, 42, 26, 4)),
    reading("strength", "strength_kpa", "Strength test", "Crush a rammed specimen", 15, same(35, 60, 120),
            ("very weak", "weak", "usual", "strong"), (14, 33, 43, 10),
            little_live_clay=(55, 37, 7.5, 0.5), poorly_mulled=(48, 38, 13, 1), too_wet=(40, 38, 20, 2), too_dry=(38, 32, 24, 6),
            much_dead_fines=(30, 40, 26, 4), much_clay=(0.5, 5, 42, 52.5), hot_sand=(38, 36, 22, 4), hot_tear=(5, 22, 50, 23)),
    reading("rest", "rested_h", "Hours rested", "Ask how long the sand rested after the water was added", 1, same(0.5, 2, 12),
            ("hardly rested", "short", "rested", "long rested"), (14, 22, 36, 28),
            poorly_mulled=(62, 24, 9, 5), hot_sand=(36, 30, 22, 12), too_dry=(8, 16, 30, 46)),
)  # fmt: skip
