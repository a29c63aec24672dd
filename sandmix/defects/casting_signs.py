"""The signs in the casting: its face and shape, where its holes are, and what their walls look like.

This is data, to be read and corrected, with the same grades as the signs of the mould. The place of a hole and its wall say more than its
size: gas leaves smooth walls, metal that shrinks leaves rough ones in what freezes last, and dross leaves a film. What a row's source
says is the link between sign and cause; how often the sign comes with each cause is common practice.

Source: the key in each row.
"""

from __future__ import annotations

from sandmix.defects.symptom import symptom

# each row: key, what a person sees, family; then the causes that bring it nearly always, often, sometimes, seldom
CASTING_SIGNS = (
    symptom("rough_face", "the casting's face is as rough as coarse sandpaper", "face",
            "too_coarse", "under_rammed", "too_dry too_wet poured_hot", "poorly_mulled little_live_clay no_draft hot_sand gas_in_metal gate_erosion", source="friable_sand"),
    symptom("burnt_on_face", "sand is fused to the casting's face", "face",
            "", "too_coarse poured_hot", "under_rammed much_dead_fines gas_in_metal", "little_live_clay too_dry too_wet", source="mould_shift"),
    symptom("pin_holes", "many small round holes under the skin or seen when machining", "gas",
            "gas_in_metal long_melt", "too_wet", "too_fine unvented much_dead_fines poured_hot", "much_clay over_rammed hot_sand poorly_mulled shrinkage", source="casting_defect_lists"),
    symptom("blows", "large smooth holes mostly in the upper side", "gas",
            "unvented", "too_wet over_rammed too_fine", "much_clay much_dead_fines", "gas_in_metal hot_sand poured_cold dross shrinkage", source="casting_defect_lists"),
    symptom("scabs", "rough lumps where the sand's skin came off with a hollow elsewhere", "skin",
            "", "over_rammed", "too_wet too_fine much_dead_fines much_clay poorly_mulled little_live_clay", "too_dry hot_sand gate_erosion poured_hot"),
    symptom("swollen", "the casting is fatter than the pattern or bulges", "walls",
            "under_rammed", "", "light_cope too_wet", "little_live_clay poorly_mulled no_draft"),
    symptom("sand_in_metal", "grains or lumps of sand in the casting", "loose",
            "", "too_dry little_live_clay gate_erosion crush", "under_rammed poorly_mulled hot_sand much_dead_fines no_draft", "too_coarse over_rammed light_cope", source="friable_sand"),
    symptom("misrun", "the metal did not fill thin parts", "filling",
            "poured_cold", "", "unvented", "over_rammed too_fine too_wet gas_in_metal light_cope dross", source="casting_defect_lists"),
    symptom("torn_casting", "the casting tore or bent or crumbled when the mould was opened", "opening",
            "opened_early", "", "over_rammed hot_tear", "much_clay gas_in_metal"),
    symptom("hole_under_skin", "the holes are just under the upper skin", "where",
            "", "too_wet unvented over_rammed too_fine", "much_clay much_dead_fines dross", "hot_sand poured_cold gas_in_metal long_melt poured_hot", source="west_shrink_holes"),
    symptom("hole_in_thick", "the hole is in the thickest part or where parts meet", "where",
            "shrinkage", "", "gas_in_metal long_melt poured_hot", "unvented under_rammed hot_tear", source="west_shrink_holes"),
    symptom("hole_all_through", "the holes are spread all through the metal", "where",
            "gas_in_metal long_melt", "", "poured_hot", "too_wet dross shrinkage", source="gas_pore_walls"),
    symptom("hole_near_gate", "the holes or lumps are near the gate", "where",
            "gate_erosion", "dross", "shrinkage poured_hot", "poured_cold unvented", source="defect_glossary"),
    symptom("wall_smooth", "the wall of the hole is smooth and shiny", "wall",
            "gas_in_metal long_melt unvented", "too_wet over_rammed too_fine", "much_clay much_dead_fines poured_hot", "hot_sand poured_cold dross", source="gas_pore_walls"),
    symptom("wall_rough", "the wall of the hole is rough with crystals like sugar", "wall",
            "shrinkage", "", "poured_hot", "gas_in_metal long_melt under_rammed hot_tear", source="gas_pore_walls"),
    symptom("wall_film", "a grey or dark film or skin lies in the hole", "wall",
            "dross", "", "long_melt", "poured_cold poured_hot gas_in_metal shrinkage", source="oxide_films"),
    symptom("sink", "a hollow sank in over a thick part", "sinking",
            "shrinkage", "", "poured_hot", "under_rammed opened_early", source="mould_shift"),
    symptom("offset", "a step runs along the parting: one half is out of line", "joint",
            "mismatch", "", "", "light_cope crush", source="mould_shift"),
    symptom("crushed_edge", "a dent along the parting where sand was pressed in", "joint",
            "crush", "", "", "mismatch light_cope"),
    symptom("rough_at_gate", "rough lumps of extra metal at the gate", "gate",
            "gate_erosion", "", "poured_hot", "too_dry little_live_clay under_rammed poorly_mulled hot_sand", source="defect_glossary"),
    symptom("dross_skin", "dull wrinkled films or folds in the casting's skin", "film",
            "dross", "", "poured_cold", "long_melt poured_hot", source="oxide_films"),
    symptom("ragged_tear", "a ragged crack at an inside corner or where thick meets thin", "tear",
            "hot_tear", "", "over_rammed", "shrinkage opened_early poured_hot", source="hot_tear_atlas"),
)  # fmt: skip
