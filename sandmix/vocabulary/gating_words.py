"""The words of the metal's way in: what is filled, sprue, runner and gates, how fast, and whether the metal stays liquid."""

from __future__ import annotations

from sandmix.gating.sprue import CUP_MM
from sandmix.gating.torricelli import DISCHARGE
from sandmix.language.texts import Text
from sandmix.language.uploads import Flag
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.flask_words import cm3

_LENGTHS = ("mm", "cm", "in")
PLACES = {
    "top": "at the top: the metal always has the whole head",
    "bottom": "at the bottom: the metal rises over the gate",
    "parting": "at the parting: the drag fills from above, the cope from below",
}

_mm = quantities("mm", low=0.0, high=3000.0, digits=0, step=5.0, units=_LENGTHS, error=Error(absolute=2.0), error_note="± 2 mm", source="geometry")
_round_mm = quantities("mm", "diameter", low=2.0, high=1000.0, usual=(6.0, 60.0), digits=1, step=1.0, units=_LENGTHS, error=Error(absolute=0.5), error_note="± 0.5 mm", source="torricelli")
_cm2 = quantities("cm²", low=0.01, high=10000.0, usual=(0.3, 50.0), digits=2, step=0.1, units=("cm²", "mm²", "in²"), error=Error(relative=0.05), error_note="± 5 %", source="torricelli")
_s = quantities("s", low=0.0, high=1e9, digits=1, units=("s", "min"))
_speed = quantities("m/s", low=0.0, high=1000.0, digits=2, units=("m/s",))
_celsius = quantities("°C", low=100.0, high=3000.0, digits=0, step=10.0, units=("°C", "°F"))

CHAPTER: tuple[Word, ...] = (
    cm3("fill_volume_cm3", "Volume to fill", "of the cavity, with the risers that fill through it", low=0.1, usual=(10.0, 20000.0), default=None, help="All that the metal fills behind the gate: castings and the risers beyond it, without sprue and runner."),
    Choice(name="gate_place", label="Where the metal enters", choices=PLACES, default="top", help="For an open mould, and for a cavity that lies wholly in the drag, take the top.", source="torricelli"),
    _mm("fill_height_mm", "Height of the cavity", "as it lies in the mould", low=0.5, usual=(3.0, 300.0), help="From its lowest to its highest point. Needed where the metal enters below the top."),
    _mm("cope_height_mm", "Cavity above the parting", "part of its height", usual=(0.0, 200.0), help="How far the cavity stands up into the cope. Leave empty for half of its height. 0 where all of it lies in the drag."),
    _cm2("gate_cm2", "Gates", "all together, where they meet the cavity", help="Depth times width of each gate, all added up. Without a ratio they count as the narrowest place."),
    Quantity(name="discharge", label="Discharge coefficient", unit="", basis="share of the ideal flow", low=0.05, high=1.0, usual=(0.5, 0.95), default=DISCHARGE, digits=2, step=0.05, error=Error(absolute=0.05, assumed=0.1), error_note="± 0.1 where assumed, ± 0.05 where measured",
             help="What bends and friction leave of the flow: 0.7 to 0.9 from memory, 0.69 in one worked example with a bend.", source="discharge_memory"),
    _mm("sprue_length_mm", "Length of the sprue", low=5.0, usual=(30.0, 400.0), help="From its top, under the pouring cup, to its base. Leave empty for the head less the pouring cup."),
    _mm("basin_mm", "Metal in the pouring cup", "above the top of the sprue", low=1.0, usual=(10.0, 120.0), error=Error(absolute=5.0), error_note="± 5 mm", help=f"How deep the metal stands in the cup while you pour. Leave empty for {CUP_MM:g} mm (own choice).", source="own"),
    _round_mm("sprue_base_mm", "Sprue, base", help="The narrow end. With the heads, it gives the other end."),
    _round_mm("sprue_top_mm", "Sprue, top", help="The wide end. With the heads, it gives the other end."),
    Text(name="gate_ratio", label="Gating ratio", longest=30, help="Sprue base : runner : gates, by area. Usual: 1:4:4 for aluminium and zinc, 1:2:4 for copper alloys, 3:2:1 for iron. Left empty, all have the area of the gates.", source="gating_ratio_lexicon"),
    Quantity(name="gates_count", label="Number of gates", unit="", basis="whole number", low=1, high=100, usual=(1, 6), default=1.0, digits=0, step=1.0, help="They share the area of the gates evenly.", source="geometry"),
    _mm("gate_depth_mm", "Depth of a gate", low=0.5, high=500.0, usual=(2.0, 20.0), digits=1, step=1.0, error=Error(absolute=0.5), error_note="± 0.5 mm", help="Left empty, a gate four times as wide as deep, and no deeper than the thinnest wall (own choice)."),
    _mm("runner_length_mm", "Length of the runner", "all branches together", usual=(20.0, 1000.0), help="For the volume of the gating. Left empty, the runner is left out of it."),
    _mm("gate_length_mm", "Length of a gate", "from runner to cavity", usual=(5.0, 100.0), help="For the volume of the gating. Left empty, the gates are left out of it."),
    _mm("thinnest_mm", "Thinnest wall", "thickness of the casting", low=0.2, high=500.0, usual=(2.0, 40.0), digits=1, step=0.5, error=Error(absolute=0.2), error_note="± 0.2 mm", help="It freezes first. Also sets the usual pouring time; left empty, 8 mm is taken for that."),
    Quantity(name="pot_mm", label="Crucible, inside diameter", unit="mm", basis="at the surface of the metal", low=10.0, high=2000.0, usual=(40.0, 400.0), digits=0, step=5.0, units=_LENGTHS, error=Error(absolute=2.0), error_note="± 2 mm", help="Of what carries the metal to the mould.", source="geometry"),
    Quantity(name="melt_kg", label="Metal in the crucible", unit="kg", low=0.01, high=5000.0, usual=(0.3, 60.0), digits=2, step=0.5, units=("kg", "g", "lb"), error=Error(relative=0.03), error_note="± 3 %", help="What leaves the furnace, spare included.", source="mass_balance"),
    Quantity(name="carry_min", label="Time from furnace to mould", unit="min", basis="until the last metal is poured", low=0.0, high=120.0, usual=(0.2, 10.0), digits=1, step=0.5, units=("min", "s"), error=Error(relative=0.1), error_note="± 10 %", help="Skimming and walking included.", source="practice"),
    Quantity(name="emissivity", label="Emissivity of the metal's surface", unit="", basis="1 is perfectly black", low=0.02, high=1.0, usual=(0.1, 0.9), digits=2, step=0.05, error=Error(absolute=0.05), error_note="from clean to skinned over where left empty, ± 0.05 where entered", help="Clean aluminium 0.1, with dross up to 0.6; iron 0.28, under slag up to 0.9.", source="emissivity_tables"),
    _celsius("furnace_temp_c", "Temperature in the furnace", "when the metal leaves it", usual=(450.0, 1550.0), error=Error(absolute=10.0), error_note="± 10", help="Enter it to get the temperature at the mould; left empty, the page says how hot it must be.", source="stefan_boltzmann"),
    _s("rule_time_s", "Usual pouring time", help="By a rule of thumb from mass and wall.", source="pouring_rates"),
    _cm2("choke_cm2", "Choke", "narrowest area of the gating", low=0.0, high=1e9, usual=None, help="It sets the flow."),
    _cm2("runner_cm2", "Runner", "all branches together", low=0.0, high=1e9, usual=None, help="By the ratio."),
    _cm2("gate_for_speed_cm2", "Gates that keep the speed limit", "all together", low=0.0, high=1e9, usual=None, help="With the same flow.", source="campbell_turbulence"),
    _mm("gate_width_mm", "Width of a gate", digits=1, high=1e6, help="Its area divided by its depth."),
    _mm("sprue_base_stick_mm", "Stick or drill for the base", "diameter, next larger size", high=1e6, help="Rounded up to a size in which dowels and drills are sold.", source="practice"),
    _mm("sprue_top_stick_mm", "Stick or drill for the top", "diameter, next larger size", high=1e6, help="Rounded up in the same way.", source="practice"),
    _speed("gate_speed_m_s", "Speed in the gates", "at the full head", source="torricelli", help="Its highest: while the cavity is still empty."),
    _speed("speed_limit_m_s", "Speed at which the skin breaks", source="campbell_turbulence", help="From surface tension. For aluminium it is the 0.5 m/s of the trade."),
    Quantity(name="reynolds", label="Reynolds number in a gate", unit="", basis="as if round", low=0.0, high=1e12, digits=0, source="reynolds_memory", help="A flat gate of the same area has a smaller one. Above 20 000 the flow mixes severely."),
    _s("flow_stops_s", "Flow stops in the thinnest wall", "from when the metal gets there", source="fluidity_memory", help="So much of the metal is solid that the rest no longer moves."),
    _s("wall_freeze_s", "Thinnest wall frozen through", "from when the metal gets there", source="heat", help="In perfect contact with the sand, and at its upper end with 600 W/m²K."),
    Flag(name="freeze_first", label="Wall freezes before the mould is full", help="Filling takes longer than the thinnest wall takes to freeze.", source="heat"),
    Quantity(name="flow_length_m", label="Flow length in the thinnest wall", unit="", basis="m, by Flemings' formula", low=0.0, high=1e6, digits=2, source="fluidity_memory", help="For comparison. It leaves out how the sand warms up."),
    Quantity(name="heat_loss_c", label="Temperature lost on the way", unit="°C", basis="from furnace to mould", low=0.0, high=5000.0, digits=0, units=("°C",), source="stefan_boltzmann", help="From the surface, and through the wall about as much again."),
    Quantity(name="loss_per_min", label="Loss of temperature per minute", unit="", basis="K per minute, when it leaves the furnace", low=0.0, high=1e6, digits=1, source="stefan_boltzmann", help="A lid cuts it much."),
    Quantity(name="pour_within_min", label="Pour within", unit="min", basis="from the furnace until the metal is at the low end of its usual pouring temperature", low=0.0, high=1e6, digits=1, units=("min", "s"), source="stefan_boltzmann", help="After that, heat it again."),
)
