"""Checks of the metal and of the casting: what each finds, and how often with each cause.

This is data, to be read and corrected. Every figure is common practice; none is measured.

Source: pour_temperatures for the bands of the probe, campbell_turbulence for those of the speed in the gates; practice for every figure.
"""

from __future__ import annotations

from sandmix.defects.signs import HOLES, TEARS
from sandmix.defects.trial import Trial, check, look, reading, same
from sandmix.gating import speed
from sandmix.materials.liquid_metals import LIQUIDS
from sandmix.materials.metals import Metal, thermal


def _gate_speeds(metal: Metal) -> tuple[float, ...]:
    """Return the speed at which the skin of the metal breaks, and twice that, in m/s."""
    limit = speed.limit_m_s(LIQUIDS[metal.key].tension_n_m, thermal(metal.key).liquid_kg_m3)
    return limit, 2 * limit


def _pour_temps(metal: Metal) -> tuple[float, ...]:
    """Return the usual range of the metal, and the temperature that is far too hot."""
    return *metal.pour_c, metal.pour_c[1] + 40.0


CASTING_TRIALS: tuple[Trial, ...] = (
    check("sample", "Metal sample", "Pour a little of the metal into a dry warm open ingot mould and cut it when cold", 20,
          {"sample_pores": "pores in a sample that no sand touched", "sample_sound": "the sample is sound"},
          (20, 80), gas_in_metal=(85, 15), long_melt=(85, 15), poured_hot=(45, 55)),
    check("charge", "What was melted", "Ask whether the charge and the tools were clean and dry and warm", 1,
          {"charge_dirty": "damp or oily or painted scrap or cold tools", "charge_clean": "clean dry metal and warm tools"},
          (30, 70), gas_in_metal=(82, 18), dross=(50, 50), long_melt=(30, 70)),
    check("melt_time", "Time in the furnace", "Ask how long the metal was liquid and how often it had been melted before", 1,
          {"melted_long": "liquid for over half an hour or mostly old runners and spills", "melted_short": "melted once and poured at once"},
          (25, 75), long_melt=(92, 8), gas_in_metal=(28, 72), dross=(45, 55), poured_hot=(45, 55)),
    check("skimmed", "Skimming and pour", "Ask whether it was skimmed just before the pour and poured low and without a break", 1,
          {"not_skimmed": "not skimmed or stirred or poured from high up or with a break", "skimmed": "skimmed and poured low in one go"},
          (32, 68), dross=(88, 12), gate_erosion=(55, 45)),
    reading("probe", "pour_temp_c", "Probe the metal", "Measure the temperature of the metal with a probe just before the pour", 3, _pour_temps,
            ("colder than usual", "as usual", "hotter than usual", "far too hot"), (8, 74, 13, 5), source="pour_temperatures",
            poured_cold=(78, 21, 0.7, 0.3), poured_hot=(0.3, 3.7, 41, 55), gas_in_metal=(1.5, 38, 33, 27.5), long_melt=(2, 45, 31, 22),
            too_coarse=(3, 62, 24, 11), shrinkage=(4, 64, 22, 10), hot_tear=(4, 66, 21, 9)),
    reading("riser", "riser_to_section", "Riser over section", "Work out the modulus of the riser over that of the section that it fed (page “The riser”)", 5, same(1.0, 1.2),
            ("the riser froze before the section", "both froze at about the same time", "the riser froze last"), (22, 23, 55),
            shrinkage=(58, 27, 15)),
    reading("filled", "fill_to_freeze", "Filled in time", "Divide the filling time by the time in which the thinnest wall freezes (page “Sprue and gates”)", 5, same(0.5, 1.0),
            ("the mould was full in time", "the mould was full just in time", "the wall froze before the mould was full"), (80, 14, 6),
            poured_cold=(30, 32, 38)),
    reading("gate_speed", "gate_speed_m_s", "Speed in the gates", "Work out how fast the metal left the gates (page “Sprue and gates”)", 5, _gate_speeds,
            ("slower than its skin breaks", "faster than its skin breaks", "over twice as fast as its skin breaks"), (38, 37, 25), source="campbell_turbulence",
            dross=(15, 38, 47), gate_erosion=(15, 35, 50)),
    look("wall", "Wall of the hole", "Look at the wall of the hole with a lens", 2,
         {"wall_smooth": "", "wall_rough": "", "wall_film": ""}, ("wall_unclear", "the wall of the hole shows nothing clear"), only_with=HOLES),
    look("where", "Place of the holes", "File or saw into the holes and note where they are", 5,
         {"hole_under_skin": "", "hole_in_thick": "", "hole_all_through": "", "hole_near_gate": ""},
         ("hole_elsewhere", "the holes are in no special place"), only_with=HOLES),
    check("saw", "Saw it through", "Saw the casting through its thickest part and look at the cut", 15,
          {"cut_rough": "a rough or spongy hole in the middle of the cut", "cut_round": "round smooth holes in the cut", "cut_sound": "the cut is sound"},
          (8, 12, 80), shrinkage=(86, 4, 10), gas_in_metal=(10, 68, 22), long_melt=(10, 68, 22), poured_hot=(35, 25, 40),
          unvented=(2, 38, 60), too_wet=(2, 34, 64)),
    check("feed_look", "Look at the riser", "Look for a riser at the thickest part: is it thicker than that part, and did it sink", 2,
          {"not_fed": "no riser at the thickest part or one thinner than it", "fed": "a thicker riser there that sank"},
          (45, 55), shrinkage=(93, 7), gas_in_metal=(50, 50), long_melt=(50, 50)),
    check("weigh", "Weigh the casting", "Weigh the casting and compare it with its volume times the density of the metal", 15,
          {"too_light": "the casting is over 2 % lighter than its volume says", "weight_right": "the casting weighs what its volume says", "too_heavy": "the casting is over 2 % heavier than its pattern says"},
          (8, 76, 16), shrinkage=(38, 58, 4), gas_in_metal=(42, 55, 3), long_melt=(42, 55, 3), under_rammed=(2, 30, 68),
          light_cope=(2, 48, 50)),
    look("joint", "Look at the parting", "Look along the parting for a step or a dent", 1,
         {"offset": "", "crushed_edge": ""}, ("joint_true", "the parting is true and clean")),
    check("gate_look", "Look at the gate", "Compare the gate and the runner of the casting with what you cut", 2,
          {"gate_washed": "the gate came out wider and rougher than it was cut", "gate_sharp": "the gate came out as it was cut"},
          (12, 88), gate_erosion=(90, 10), too_dry=(35, 65), little_live_clay=(35, 65), poured_hot=(22, 78), under_rammed=(28, 72)),
    check("fracture", "Look at a break", "Break a runner or a spoilt casting and look at the break", 5,
          {"break_films": "grey films or folds in the break", "break_coarse": "coarse bright crystals in the break", "break_pores": "round pores or a spongy patch in the break", "break_even": "the break is fine and even"},
          (10, 12, 13, 65), dross=(70, 6, 6, 18), poured_hot=(6, 58, 14, 22), gas_in_metal=(7, 11, 55, 27), long_melt=(20, 16, 44, 20), shrinkage=(5, 15, 38, 42)),
    check("tear_face", "Faces of the crack", "Open the crack and look at its faces with a lens", 5,
          {"tear_dark": "the crack is dull or coloured and ragged inside", "tear_bright": "the crack is bright and clean inside"},
          (50, 50), only_with=TEARS, hot_tear=(94, 6), opened_early=(60, 40), over_rammed=(70, 30)),
    check("corners", "Inside corners", "Look for sharp inside corners and for sand held fast between two parts of the casting", 2,
          {"corners_sharp": "sharp inside corners or sand that could not give", "corners_round": "round inside corners and sand that could give"},
          (40, 60), only_with=TEARS, hot_tear=(85, 15), shrinkage=(55, 45)),
)  # fmt: skip
