"""The signs in the hand, in the mould and during the pour, and how often each comes with each cause.

This is data, to be read and corrected. How often has five grades, because nobody knows finer figures. The link between a sign and a
cause is from the source of the row; how often the sign comes is common practice. A cause that a row does not name brings the sign as
often as ``otherwise`` says. So a sign that also comes without a defect (steam) counts less than one that does not (clay balls).

Source: casting_defect_lists, friable_sand, hot_sand where a row says so, else practice.
"""

from __future__ import annotations

from sandmix.defects.symptom import symptom

# each row: key, what a person sees, family; then the causes that bring it nearly always, often, sometimes, seldom
MOULD_SIGNS = (
    symptom("crumbling_edges", "edges crumble or corners break when the pattern is drawn", "strength",
            "too_dry", "little_live_clay poorly_mulled hot_sand", "under_rammed much_dead_fines too_coarse no_draft", "too_wet", source="friable_sand"),
    symptom("cope_drops", "sand drops out of the cope or a piece of the mould falls", "strength",
            "", "little_live_clay under_rammed", "too_dry poorly_mulled too_coarse hot_sand much_dead_fines too_wet", "light_cope no_draft crush", source="friable_sand"),
    symptom("walls_blow_out", "sand falls out of the flask or bursts out sideways when it is turned over", "strength",
            "", "under_rammed little_live_clay", "too_dry poorly_mulled too_coarse", "too_wet hot_sand much_dead_fines"),
    symptom("sticks_to_pattern", "sand sticks to the pattern and tears the mould face", "drawing",
            "no_draft", "too_wet hot_sand", "much_clay poorly_mulled", "under_rammed little_live_clay too_dry much_dead_fines", source="hot_sand"),
    symptom("bubbling_sprue", "metal bubbles or spits in the sprue", "gas",
            "too_wet", "unvented too_fine", "over_rammed much_clay", "much_dead_fines gas_in_metal hot_sand poured_hot", source="casting_defect_lists"),
    symptom("clay_balls", "hard little balls of clay in the sand", "mixing",
            "poorly_mulled", "", "much_clay hot_sand", "too_wet too_dry"),
    symptom("ever_more_water", "it needs more water each time and is no stronger", "drinking",
            "much_dead_fines", "hot_sand", "little_live_clay much_clay", "too_fine poorly_mulled"),
    symptom("drying_cracks", "the mould cracks when it stands or dries", "skin",
            "much_clay", "", "too_wet too_dry much_dead_fines hot_sand", "too_fine over_rammed poorly_mulled"),
    symptom("run_out", "metal runs out at the parting", "parting",
            "light_cope", "", "", "under_rammed too_dry no_draft crush mismatch"),
    symptom("weak_squeeze", "a squeezed handful falls apart or breaks with crumbs", "strength",
            "too_dry little_live_clay", "poorly_mulled much_dead_fines", "too_coarse hot_sand", "too_wet"),
    symptom("wet_squeeze", "a squeezed handful leaves the hand wet or shiny or sticks to it", "damp",
            "too_wet", "", "", "much_clay poorly_mulled"),
    symptom("dusty", "sand looks dry and pale and dust rises", "damp",
            "too_dry", "", "hot_sand much_dead_fines", "poorly_mulled too_fine little_live_clay", source="friable_sand"),
    symptom("steam", "steam comes out of the mould during the pour", "steam",
            "", "too_wet", "unvented much_dead_fines much_clay hot_sand", "", otherwise="seldom"),
    symptom("glowing_metal", "the metal glowed brighter than usual or smoked before the pour", "heat",
            "poured_hot", "", "gas_in_metal long_melt", "", otherwise="hardly"),
    symptom("puffed_riser", "the top of the riser or sprue puffed up instead of sinking", "riser",
            "", "gas_in_metal long_melt", "", "too_wet poured_hot"),
)  # fmt: skip
