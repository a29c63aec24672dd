"""The types of `sandmix.ask`. Written by site/ask_types.py from the forms of the jobs; do not edit it by hand."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from os import PathLike
from typing import Any, Literal, TypeAlias, TypedDict, overload

from sandmix.python.answered import Answer as Answer

Amount: TypeAlias = float | str | Mapping[str, float | str]
"""A number in the unit of the word, a text such as "2.5 kg" or "6.4 ± 0.3 %", or a mapping such as {"value": 6.4, "unit": "%"}."""
Document: TypeAlias = str | PathLike[str] | Mapping[str, object] | Sequence[Mapping[str, object]]
"""A file by its name, or what it holds."""
File: TypeAlias = str | PathLike[str] | bytes
"""A file by its name, or its bytes."""

PatternShapeChoice: TypeAlias = Literal["box", "upright", "lying", "ball"]
OpenTopChoice: TypeAlias = Literal["yes", "no"]
ClearanceRuleChoice: TypeAlias = Literal["trade", "home"]
RiserKindChoice: TypeAlias = Literal["side", "top"]
PartChoice: TypeAlias = Literal["plate", "bar", "round_bar", "ring", "block", "boss"]
JointChoice: TypeAlias = Literal["l", "t", "x", "y"]
WithRiserChoice: TypeAlias = Literal["yes", "no"]
DecidesChoice: TypeAlias = Literal["freezing", "volume", "none"]
GatePlaceChoice: TypeAlias = Literal["top", "bottom", "parting"]
UnitChoice: TypeAlias = Literal["mm", "cm", "m", "in"]
UpChoice: TypeAlias = Literal["+z", "-z", "+x", "-x", "+y", "-y"]
WaysChoice: TypeAlias = Literal["yes", "no"]
BodyChoice: TypeAlias = Literal["block", "cylinder", "ring", "ball"]
PatternMaterialChoice: TypeAlias = Literal["pla", "petg", "abs", "pine", "hardwood", "mdf", "wax", "plaster", "aluminium", "brass"]
MeasuredChoice: TypeAlias = Literal["casting", "part", "pattern"]
TestChoice: TypeAlias = Literal["moisture", "wash", "methylene_blue", "permeability", "compactability", "water_sensitivity", "strength", "swell", "tin_density", "jar", "squeeze", "shatter", "hardness", "loss_on_ignition", "volatiles", "spray", "flask_density"]
MannerChoice: TypeAlias = Literal["home", "lab"]
SpecimenChoice: TypeAlias = Literal["us", "metric"]
SqueezeChoice: TypeAlias = Literal["falls", "crumbles", "clean", "sticky"]
HardnessScaleChoice: TypeAlias = Literal["ball", "cone"]
VolatilesAtChoice: TypeAlias = Literal["482", "900"]
OrdinaryChoice: TypeAlias = Literal["yes", "no"]
FeelChoice: TypeAlias = Literal["crumbles", "weak", "prints", "shiny", "leaves_water"]
FeelDosesChoice: TypeAlias = Literal["yes", "wide", "not_yet", "no"]
DryingPlaceChoice: TypeAlias = Literal["shade", "sun", "indoors", "plate", "burner"]
UnnamedSievesChoice: TypeAlias = Literal["empty", "absent"]
StuffChoice: TypeAlias = Literal["sand", "clay"]
BagLabelChoice: TypeAlias = Literal["washed_silica", "paving_sand", "play_sand", "pool_filter_sand", "builders_sand", "river_sand", "beach_sand", "natural_sand", "used_sand", "olivine", "zircon", "blasting_grit", "jointing_sand", "sand_mix", "sodium_bentonite", "calcium_bentonite", "drilling_bentonite", "pond_bentonite", "granules", "scented_granules", "absorbent", "other_litter", "ball_clay", "fire_clay", "cement", "unknown"]
VinegarChoice: TypeAlias = Literal["yes", "no", "not_tried"]
ClayVinegarChoice: TypeAlias = Literal["yes", "no", "not_tried"]
SmokeChoice: TypeAlias = Literal["yes", "no", "not_tried"]
JarChoice: TypeAlias = Literal["clear", "cloudy", "not_tried"]
GrainShapeChoice: TypeAlias = Literal["round", "sharp", "not_tried"]
SwollenChoice: TypeAlias = Literal["gel", "grit", "not_tried"]
PerfumeChoice: TypeAlias = Literal["yes", "no", "not_tried"]
UsabilityChoice: TypeAlias = Literal["usable", "usable_with_care", "not_usable"]
CarbonAdditiveChoice: TypeAlias = Literal["seacoal", "gilsonite", "asphalt", "cellulose"]
CarbonGaugeChoice: TypeAlias = Literal["seacoal", "volatiles", "loss_on_ignition"]
TwoSandsChoice: TypeAlias = Literal["yes", "no"]
NothingElseChoice: TypeAlias = Literal["yes", "no"]
TinRammedChoice: TypeAlias = Literal["standard", "own"]
NextTestChoice: TypeAlias = Literal["squeeze", "mulled", "warmth", "vents", "thumb", "pattern", "held", "clock", "closing", "pins", "compactability", "moisture", "live_clay", "wash", "sieves", "permeability", "strength", "rest", "sample", "charge", "melt_time", "skimmed", "probe", "riser", "filled", "gate_speed", "wall", "where", "saw", "feed_look", "weigh", "joint", "gate_look", "fracture", "tear_face", "corners"]
MetalChoice: TypeAlias = Literal["aluminium", "al_si7mg", "al_si12", "al_6061", "tin_bronze", "yellow_brass", "silicon_brass", "zinc_al12", "grey_iron"]
ClayChoice: TypeAlias = Literal["sodium_bentonite", "calcium_bentonite", "clay_granules"]
SandKindChoice: TypeAlias = Literal["washed", "natural", "used"]
ScrapChoice: TypeAlias = Literal["ingot", "offcuts", "turnings", "cans"]
ShapeChoice: TypeAlias = Literal["plate", "bar", "ball"]
SandHeatChoice: TypeAlias = Literal["a", "b", "c"]
VerdictChoice: TypeAlias = Literal["go", "temper", "dry", "stop"]
BindingChoice: TypeAlias = Literal["nothing", "mass", "live_clay", "dead_fines", "too_fine", "too_coarse", "stock", "bin", "cost"]
MakeUpChoice: TypeAlias = Literal["yes", "no"]

class PlanResult(TypedDict, total=False):
    """The figures of *plan* by word; one that could not be worked out is not there."""

    flask_taken: str
    make_kg: float
    rammed_kg: float
    surplus_kg: float
    sand_bags: float
    clay_bags: float
    cost: float
    verdict: VerdictChoice
    moisture_pct_wet: float
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    drag_kg: float
    cope_kg: float
    both_kg: float
    charge_kg: float
    crucible_fill_pct: float
    put_on_kg: float
    riser_made_mm: float
    riser_made_height_mm: float
    fill_time_s: float
    sprue_base_mm: float
    sprue_top_mm: float
    runner_cm2: float
    gate_cm2: float
    hold_down_kg: float
    vents: float
    freeze_s: float
    solid_after_min: float
    casting_open_min: float
    open_after_min: float
    handle_after_min: float
    heap_kg: float
    clay_pct_dry: float
    discard_kg: float
    sand_kg: float
    first_clay_kg: float
    clay_kg: float
    heap_after_kg: float

def plan(
    *,
    metal: MetalChoice | None = None,
    box: str | Sequence[Amount] | None = None,
    box_mm: str | Sequence[Amount] | None = None,
    casting_volume: Amount | None = None,
    casting_volume_cm3: Amount | None = None,
    casting_kg: Amount | None = None,
    casting_area: Amount | None = None,
    casting_area_cm2: Amount | None = None,
    projected_area: Amount | None = None,
    projected_area_cm2: Amount | None = None,
    modulus: Amount | None = None,
    modulus_mm: Amount | None = None,
    patterns_count: Amount | None = None,
    thinnest: Amount | None = None,
    thinnest_mm: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    with_riser: WithRiserChoice | bool | None = None,
    flasks: str | Sequence[Mapping[str, object]] | None = None,
    frame: Amount | None = None,
    frame_kg: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    sample_wet: Amount | None = None,
    sample_wet_g: Amount | None = None,
    sample_dry: Amount | None = None,
    sample_dry_g: Amount | None = None,
    scale_step: Amount | None = None,
    scale_step_g: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    casting: Document | None = None,
    book: Document | None = None,
    now: str | datetime | None = None,
    clay: ClayChoice | None = None,
    target_clay_pct_dry: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    two_sands: TwoSandsChoice | bool | None = None,
    crucible: Amount | None = None,
    crucible_l: Amount | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag_price: Amount | None = None,
    sand_yield_pct: Amount | None = None,
) -> Answer[PlanResult]:
    """What does this casting take, step by step? Raises InputError with everything that is wrong in what was given."""

class PatternResult(TypedDict, total=False):
    """The figures of *pattern* by word; one that could not be worked out is not there."""

    casting_volume_cm3: float
    casting_kg: float
    casting_area_cm2: float
    modulus_mm: float
    box_mm: list[float]
    thickest_mm: float
    thinnest_mm: float
    hot_places: list[dict[str, object]]
    projected_area_cm2: float
    column_cm3: float
    more_head_mm: float
    suggested_way: str
    parting_height_mm: float
    ways_up: list[dict[str, object]]
    pattern_volume_cm3: float
    part_kg: float
    volume_cm3: float
    area_cm2: float
    closed: bool
    shells: float
    facets: float
    centre_mm: list[float]

def pattern(
    *,
    mesh: File | None = None,
    unit: UnitChoice | None = None,
    box: str | Sequence[Amount] | None = None,
    box_mm: str | Sequence[Amount] | None = None,
    body: BodyChoice | None = None,
    bore: Amount | None = None,
    bore_mm: Amount | None = None,
    displaced_water: Amount | None = None,
    displaced_water_ml: Amount | None = None,
    pattern_mass: Amount | None = None,
    pattern_mass_g: Amount | None = None,
    pattern_material: PatternMaterialChoice | None = None,
    infill_pct: Amount | None = None,
    metal: MetalChoice | None = None,
    measured: MeasuredChoice | None = None,
    shrink_pct: Amount | None = None,
    machining_stock: Amount | None = None,
    machining_stock_mm: Amount | None = None,
    up: UpChoice | None = None,
    ways: WaysChoice | bool | None = None,
    scale: Amount | None = None,
    pattern_density: Amount | None = None,
    pattern_density_kg: Amount | None = None,
    pattern_density_kg_l: Amount | None = None,
    walls_pct: Amount | None = None,
) -> Answer[PatternResult]:
    """How big is the casting? Raises InputError with everything that is wrong in what was given."""

class FitResult(TypedDict, total=False):
    """The figures of *fit* by word; one that could not be worked out is not there."""

    flask_taken: str
    make_kg: float
    rammed_kg: float
    surplus_kg: float
    sand_cost: float
    above_mm: float
    below_mm: float
    ends_mm: float
    sides_mm: float
    beside_mm: float
    others: list[dict[str, object]]
    least_length_mm: float
    least_width_mm: float
    least_drag_mm: float
    least_cope_mm: float
    cuts: list[dict[str, object]]
    boards_used: float
    boards_fewest: float
    cut_length_mm: float
    filler_to_add_l: float
    filler_room_l: float
    mix_to_make_kg: float
    facing_kg: float
    facing_l: float
    drag_kg: float
    cope_kg: float
    frame_kg: float
    both_kg: float
    casting_kg: float
    poured_kg: float
    uplift_kg: float
    cope_bars: float
    clamps: float
    wall_ties: float
    wall_gives_mm: float
    wall_kpa: float
    ways_up: list[dict[str, object]]
    suggested_way: str

@overload
def fit(
    *,
    pattern_length: Amount,
    pattern_width: Amount,
    pattern_height: Amount,
    flasks: str | Sequence[Mapping[str, object]] | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    pattern_shape: PatternShapeChoice | None = None,
    pattern_volume: Amount | None = None,
    pattern_volume_cm3: Amount | None = None,
    patterns_count: Amount | None = None,
    parting_height: Amount | None = None,
    parting_height_mm: Amount | None = None,
    open_top: OpenTopChoice | bool | None = None,
    metal: MetalChoice | None = None,
    clearance_rule: ClearanceRuleChoice | None = None,
    sprue: Amount | None = None,
    sprue_mm: Amount | None = None,
    sprue_base: Amount | None = None,
    sprue_base_mm: Amount | None = None,
    riser_kind: RiserKindChoice | None = None,
    riser_diameter: Amount | None = None,
    riser_diameter_mm: Amount | None = None,
    riser_height: Amount | None = None,
    riser_height_mm: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    facing: Amount | None = None,
    facing_mm: Amount | None = None,
    flask_name: str | None = None,
    boards: str | Sequence[Mapping[str, object]] | None = None,
    wall_thickness: Amount | None = None,
    wall_thickness_mm: Amount | None = None,
    frame: Amount | None = None,
    frame_kg: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    spare_pct: Amount | None = None,
    cost_per: Amount | None = None,
    cost_per_kg: Amount | None = None,
    burnt_depth: Amount | None = None,
    burnt_depth_mm: Amount | None = None,
    dry_depth: Amount | None = None,
    dry_depth_mm: Amount | None = None,
) -> Answer[FitResult]:
    """Which flask for this pattern? Raises InputError with everything that is wrong in what was given."""

@overload
def fit(
    *,
    pattern_length_mm: Amount,
    pattern_width_mm: Amount,
    pattern_height_mm: Amount,
    flasks: str | Sequence[Mapping[str, object]] | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    pattern_shape: PatternShapeChoice | None = None,
    pattern_volume: Amount | None = None,
    pattern_volume_cm3: Amount | None = None,
    patterns_count: Amount | None = None,
    parting_height: Amount | None = None,
    parting_height_mm: Amount | None = None,
    open_top: OpenTopChoice | bool | None = None,
    metal: MetalChoice | None = None,
    clearance_rule: ClearanceRuleChoice | None = None,
    sprue: Amount | None = None,
    sprue_mm: Amount | None = None,
    sprue_base: Amount | None = None,
    sprue_base_mm: Amount | None = None,
    riser_kind: RiserKindChoice | None = None,
    riser_diameter: Amount | None = None,
    riser_diameter_mm: Amount | None = None,
    riser_height: Amount | None = None,
    riser_height_mm: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    facing: Amount | None = None,
    facing_mm: Amount | None = None,
    flask_name: str | None = None,
    boards: str | Sequence[Mapping[str, object]] | None = None,
    wall_thickness: Amount | None = None,
    wall_thickness_mm: Amount | None = None,
    frame: Amount | None = None,
    frame_kg: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    spare_pct: Amount | None = None,
    cost_per: Amount | None = None,
    cost_per_kg: Amount | None = None,
    burnt_depth: Amount | None = None,
    burnt_depth_mm: Amount | None = None,
    dry_depth: Amount | None = None,
    dry_depth_mm: Amount | None = None,
) -> Answer[FitResult]:
    """Which flask for this pattern? Raises InputError with everything that is wrong in what was given."""

class FeedResult(TypedDict, total=False):
    """The figures of *feed* by word; one that could not be worked out is not there."""

    riser_diameter_mm: float
    riser_height_mm: float
    riser_volume_cm3: float
    riser_kg: float
    decides: DecidesChoice
    riser_made_mm: float
    riser_made_height_mm: float
    riser_made_kg: float
    modulus_mm: float
    riser_modulus_mm: float
    freezing_diameter_mm: float
    volume_diameter_mm: float
    feed_needed_cm3: float
    shrinkage_cm3: float
    classroom_cm3: float
    neck_mm: float
    neck_least_mm: float
    neck_most_mm: float
    feeding_distance_mm: float
    cope_needed_mm: float
    covered_modulus_mm: float
    covered_diameter_mm: float
    riser_share_pct: float
    gating_with_riser_cm3: float
    gating_with_riser_pct: float
    joint_circle_mm: float
    joint_least_modulus_mm: float
    joint_most_modulus_mm: float
    caine_diameter_mm: float
    naval_riser_cm3: float

def feed(
    *,
    metal: MetalChoice | None = None,
    casting_volume: Amount | None = None,
    casting_volume_cm3: Amount | None = None,
    casting_area: Amount | None = None,
    casting_area_cm2: Amount | None = None,
    modulus: Amount | None = None,
    modulus_mm: Amount | None = None,
    part: PartChoice | None = None,
    part_thickness: Amount | None = None,
    part_thickness_mm: Amount | None = None,
    part_width: Amount | None = None,
    part_width_mm: Amount | None = None,
    part_length: Amount | None = None,
    part_length_mm: Amount | None = None,
    riser_kind: RiserKindChoice | None = None,
    riser_ratio: Amount | None = None,
    riser_height_share: Amount | None = None,
    shrinkage_pct: Amount | None = None,
    feed_efficiency_pct: Amount | None = None,
    shape: ShapeChoice | None = None,
    section: Amount | None = None,
    section_mm: Amount | None = None,
    feed_length: Amount | None = None,
    feed_length_mm: Amount | None = None,
    joint: JointChoice | None = None,
    fillet: Amount | None = None,
    fillet_mm: Amount | None = None,
    cope_depth: Amount | None = None,
    cope_depth_mm: Amount | None = None,
    cope_height: Amount | None = None,
    cope_height_mm: Amount | None = None,
    top_face: Amount | None = None,
    top_face_cm2: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    box: str | Sequence[Amount] | None = None,
    box_mm: str | Sequence[Amount] | None = None,
) -> Answer[FeedResult]:
    """Does it need a riser, and how large? Raises InputError with everything that is wrong in what was given."""

class GateResult(TypedDict, total=False):
    """The figures of *gate* by word; one that could not be worked out is not there."""

    fill_time_s: float
    choke_cm2: float
    sprue_base_mm: float
    sprue_base_stick_mm: float
    sprue_top_mm: float
    sprue_top_stick_mm: float
    runner_cm2: float
    gate_cm2: float
    gate_depth_mm: float
    gate_width_mm: float
    gate_speed_m_s: float
    speed_limit_m_s: float
    gate_for_speed_cm2: float
    reynolds: float
    rule_time_s: float
    freeze_first: bool
    flow_stops_s: float
    wall_freeze_s: float
    flow_length_m: float
    gating_volume_cm3: float
    furnace_temp_c: float
    pour_temp_c: float
    heat_loss_c: float
    loss_per_min: float
    pour_within_min: float

def gate(
    *,
    metal: MetalChoice | None = None,
    fill_volume: Amount | None = None,
    fill_volume_cm3: Amount | None = None,
    head: Amount | None = None,
    head_mm: Amount | None = None,
    gate_place: GatePlaceChoice | None = None,
    fill_height: Amount | None = None,
    fill_height_mm: Amount | None = None,
    thinnest: Amount | None = None,
    thinnest_mm: Amount | None = None,
    gate_ratio: str | None = None,
    gate: Amount | None = None,
    gate_cm2: Amount | None = None,
    fill_time: Amount | None = None,
    fill_time_s: Amount | None = None,
    poured: Amount | None = None,
    poured_kg: Amount | None = None,
    cope_height: Amount | None = None,
    cope_height_mm: Amount | None = None,
    discharge: Amount | None = None,
    sprue_length: Amount | None = None,
    sprue_length_mm: Amount | None = None,
    basin: Amount | None = None,
    basin_mm: Amount | None = None,
    sprue_base: Amount | None = None,
    sprue_base_mm: Amount | None = None,
    sprue_top: Amount | None = None,
    sprue_top_mm: Amount | None = None,
    gates_count: Amount | None = None,
    gate_depth: Amount | None = None,
    gate_depth_mm: Amount | None = None,
    runner_length: Amount | None = None,
    runner_length_mm: Amount | None = None,
    gate_length: Amount | None = None,
    gate_length_mm: Amount | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    pot: Amount | None = None,
    pot_mm: Amount | None = None,
    melt: Amount | None = None,
    melt_kg: Amount | None = None,
    carry: Amount | None = None,
    carry_min: Amount | None = None,
    emissivity: Amount | None = None,
    furnace_temp: Amount | None = None,
    furnace_temp_c: Amount | None = None,
) -> Answer[GateResult]:
    """How wide are sprue, runner and gates, and does the mould fill? Raises InputError with everything that is wrong in what was given."""

class MixResult(TypedDict, total=False):
    """The figures of *mix* by word; one that could not be worked out is not there."""

    sand_kg: float
    clay_kg: float
    clay_step_kg: float
    clay_most_kg: float
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    dried_kg: float
    make_kg: float
    batches: float
    batch_sand_kg: float
    batch_clay_kg: float
    batch_water_kg: float
    sand_l: float
    clay_l: float
    sand_buckets: float
    clay_buckets: float
    standing_kg: float
    standing_moisture_pct_wet: float
    clay_pct_dry: float
    clay_pct_sand: float
    clay_pct_wet: float
    parts_sand: float
    parts_clay: float
    moisture_pct_wet: float
    moisture_pct_dry: float

def mix(
    *,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    make: Amount | None = None,
    make_kg: Amount | None = None,
    sand_on_hand: Amount | None = None,
    sand_on_hand_kg: Amount | None = None,
    clay_on_hand: Amount | None = None,
    clay_on_hand_kg: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    clay_pct_sand: Amount | None = None,
    clay_pct_wet: Amount | None = None,
    parts_sand: Amount | None = None,
    parts_clay: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    metal: MetalChoice | None = None,
    water_per_clay: Amount | None = None,
    mixer: Amount | None = None,
    mixer_kg: Amount | None = None,
    bucket: Amount | None = None,
    bucket_l: Amount | None = None,
    sand_bulk: Amount | None = None,
    sand_bulk_kg: Amount | None = None,
    sand_bulk_kg_l: Amount | None = None,
    clay_bulk: Amount | None = None,
    clay_bulk_kg: Amount | None = None,
    clay_bulk_kg_l: Amount | None = None,
    bulking_pct: Amount | None = None,
) -> Answer[MixResult]:
    """What do I weigh in for new moulding sand? Raises InputError with everything that is wrong in what was given."""

class ShoppingResult(TypedDict, total=False):
    """The figures of *shopping* by word; one that could not be worked out is not there."""

    sand_bags: float
    clay_bags: float
    cost: float
    cost_per_kg: float
    sand_left_kg: float
    clay_left_kg: float

def shopping(
    *,
    sand: Amount | None = None,
    sand_kg: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    clay: Amount | None = None,
    clay_kg: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag_price: Amount | None = None,
    sand_yield_pct: Amount | None = None,
    make: Amount | None = None,
    make_kg: Amount | None = None,
) -> Answer[ShoppingResult]:
    """How many bags do I buy? Raises InputError with everything that is wrong in what was given."""

class TemperResult(TypedDict, total=False):
    """The figures of *temper* by word; one that could not be worked out is not there."""

    verdict: VerdictChoice
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    dried_kg: float
    dry_mix_to_dilute_kg: float
    moisture_pct_wet: float

def temper(
    *,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    sample_wet: Amount | None = None,
    sample_wet_g: Amount | None = None,
    sample_dry: Amount | None = None,
    sample_dry_g: Amount | None = None,
    scale_step: Amount | None = None,
    scale_step_g: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    metal: MetalChoice | None = None,
    sand_kind: SandKindChoice | None = None,
    target_moisture_pct_wet: Amount | None = None,
    strokes_per_100ml: Amount | None = None,
    feel: FeelChoice | None = None,
) -> Answer[TemperResult]:
    """Is the sand ready to mould? Raises InputError with everything that is wrong in what was given."""

class FlaskResult(TypedDict, total=False):
    """The figures of *flask* by word; one that could not be worked out is not there."""

    make_kg: float
    rammed_kg: float
    surplus_kg: float
    fits_length_mm: float
    filler_to_add_l: float
    mix_to_make_kg: float
    drag_kg: float
    cope_kg: float
    both_kg: float
    flask_l: float
    loose_l: float
    beside_mm: float

@overload
def flask(
    *,
    flask_length: Amount,
    flask_width: Amount,
    drag_depth: Amount,
    cope_depth: Amount | None = None,
    cope_depth_mm: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    pattern_volume: Amount | None = None,
    pattern_volume_cm3: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    filler: Amount | None = None,
    filler_l: Amount | None = None,
    pattern_length: Amount | None = None,
    pattern_length_mm: Amount | None = None,
    pattern_width: Amount | None = None,
    pattern_width_mm: Amount | None = None,
    pattern_height: Amount | None = None,
    pattern_height_mm: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    compactability_pct: Amount | None = None,
    spare_pct: Amount | None = None,
    frame: Amount | None = None,
    frame_kg: Amount | None = None,
    metal: MetalChoice | None = None,
) -> Answer[FlaskResult]:
    """Is there enough sand for this flask? Raises InputError with everything that is wrong in what was given."""

@overload
def flask(
    *,
    flask_length_mm: Amount,
    flask_width_mm: Amount,
    drag_depth_mm: Amount,
    cope_depth: Amount | None = None,
    cope_depth_mm: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    pattern_volume: Amount | None = None,
    pattern_volume_cm3: Amount | None = None,
    gating_volume: Amount | None = None,
    gating_volume_cm3: Amount | None = None,
    filler: Amount | None = None,
    filler_l: Amount | None = None,
    pattern_length: Amount | None = None,
    pattern_length_mm: Amount | None = None,
    pattern_width: Amount | None = None,
    pattern_width_mm: Amount | None = None,
    pattern_height: Amount | None = None,
    pattern_height_mm: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    compactability_pct: Amount | None = None,
    spare_pct: Amount | None = None,
    frame: Amount | None = None,
    frame_kg: Amount | None = None,
    metal: MetalChoice | None = None,
) -> Answer[FlaskResult]:
    """Is there enough sand for this flask? Raises InputError with everything that is wrong in what was given."""

class PourResult(TypedDict, total=False):
    """The figures of *pour* by word; one that could not be worked out is not there."""

    charge_kg: float
    crucible_fill_pct: float
    put_on_kg: float
    weights_kg: float
    hold_down_kg: float
    uplift_kg: float
    vents: float
    choke_mm2: float
    scrap_take: list[dict[str, object]]
    scrap_kg: float
    scrap_short_kg: float
    scrap_left_kg: float
    ingot_kg: float
    ingot_cm3: float
    hydrogen_cm3_100g: float

def pour(
    *,
    metal: MetalChoice | None = None,
    casting_volume: Amount | None = None,
    casting_volume_cm3: Amount | None = None,
    projected_area: Amount | None = None,
    projected_area_cm2: Amount | None = None,
    head: Amount | None = None,
    head_mm: Amount | None = None,
    cope: Amount | None = None,
    cope_kg: Amount | None = None,
    crucible: Amount | None = None,
    crucible_l: Amount | None = None,
    gating_pct: Amount | None = None,
    scrap: ScrapChoice | None = None,
    scrap_lots: str | Sequence[Mapping[str, object]] | None = None,
    melt_loss_pct: Amount | None = None,
    spare_pct: Amount | None = None,
    uplift_factor: Amount | None = None,
    core_volume: Amount | None = None,
    core_volume_cm3: Amount | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    fill_time: Amount | None = None,
    fill_time_s: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    sand_kind: SandKindChoice | None = None,
    casting_area: Amount | None = None,
    casting_area_cm2: Amount | None = None,
    box: str | Sequence[Amount] | None = None,
    box_mm: str | Sequence[Amount] | None = None,
    gating_section: Amount | None = None,
    gating_section_mm: Amount | None = None,
) -> Answer[PourResult]:
    """How much metal, and what holds the mould shut? Raises InputError with everything that is wrong in what was given."""

class BurnoutResult(TypedDict, total=False):
    """The figures of *burnout* by word; one that could not be worked out is not there."""

    open_after_min: float
    casting_open_min: float
    solid_after_min: float
    handle_after_min: float
    bin_after_min: float
    freeze_s: float
    water_driven_kg: float
    dry_depth_mm: float
    clay_loss_pct: float
    clay_burnt_kg: float
    clay_burnt_by_rate_kg: float
    burnt_sand_kg: float
    burnt_sand_per_metal: float
    burnt_depth_mm: float
    sand_mean_c: float
    metal_kg: float

def burnout(
    *,
    metal: MetalChoice | None = None,
    casting_volume: Amount | None = None,
    casting_volume_cm3: Amount | None = None,
    casting_area: Amount | None = None,
    casting_area_cm2: Amount | None = None,
    modulus: Amount | None = None,
    modulus_mm: Amount | None = None,
    sand: Amount | None = None,
    sand_kg: Amount | None = None,
    shape: ShapeChoice | None = None,
    box: str | Sequence[Amount] | None = None,
    box_mm: str | Sequence[Amount] | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    clay: ClayChoice | None = None,
    clay_pct_dry: Amount | None = None,
    clay_limit: Amount | None = None,
    clay_limit_c: Amount | None = None,
    flask_sand: Amount | None = None,
    flask_sand_kg: Amount | None = None,
    gating_section: Amount | None = None,
    gating_section_mm: Amount | None = None,
    wall: Amount | None = None,
    wall_mm: Amount | None = None,
    contact: Amount | None = None,
    contact_w_m2k: Amount | None = None,
    sand_heat: SandHeatChoice | None = None,
    activation_kj_mol: Amount | None = None,
) -> Answer[BurnoutResult]:
    """When can you open it, and what did the heat do to the sand? Raises InputError with everything that is wrong in what was given."""

class HeapResult(TypedDict, total=False):
    """The figures of *heap* by word; one that could not be worked out is not there."""

    heap_kg: float
    moisture_pct_wet: float
    mould_moisture_pct_wet: float
    clay_pct_dry: float
    dead_clay_pct_dry: float
    other_fines_pct_dry: float
    dead_fines_pct_dry: float
    casts: float
    last_test_age_days: float
    compactability_read_pct: float
    gfn: float
    permeability: float
    strength_kpa: float
    tin_g: float
    rammed_density_kg_l: float
    strokes_per_100ml: float
    compactability_slope: float
    rammer_kg: float
    rammer_fall_mm: float
    tin_diameter_mm: float

def heap(
    *,
    book: Document,
    now: str | datetime | None = None,
    sand_kind: SandKindChoice | None = None,
) -> Answer[HeapResult]:
    """What is the heap now? Raises InputError with everything that is wrong in what was given."""

class LearnedResult(TypedDict, total=False):
    """The figures of *learned* by word; one that could not be worked out is not there."""

    own_readings: float
    rammed_density_kg_l: float
    loss_a_cast_pct: float
    lid_loss_pct_day: float
    open_loss_pct_day: float
    clay_activity_pct: float
    compactability_slope: float
    dead_fines_a_cast_pct_dry: float

def learned(
    *,
    book: Document,
) -> Answer[LearnedResult]:
    """What have my own readings taught? Raises InputError with everything that is wrong in what was given."""

class TinResult(TypedDict, total=False):
    """The figures of *tin* by word; one that could not be worked out is not there."""

    compactability_now_pct: float
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    dried_kg: float
    moisture_step_pct_wet: float
    moisture_pct_wet: float
    compactability_slope: float
    prior_share_pct: float
    tin_pairs: float
    tin_steps: float
    pairs_to_go: float
    ram_energy_kj_m2: float
    matching_fall_mm: float

def tin(
    *,
    height_before: Amount | None = None,
    height_before_mm: Amount | None = None,
    height_after: Amount | None = None,
    height_after_mm: Amount | None = None,
    compactability_now_pct: Amount | None = None,
    compactability_again_pct: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    target_compactability_pct: Amount | None = None,
    since_mulling: Amount | None = None,
    since_mulling_h: Amount | None = None,
    metal: MetalChoice | None = None,
    sand_kind: SandKindChoice | None = None,
    compactability_slope: Amount | None = None,
    step_sand: Amount | None = None,
    step_sand_g: Amount | None = None,
    step_water: Amount | None = None,
    step_water_g: Amount | None = None,
    compactability_wetter_pct: Amount | None = None,
    rammer: Amount | None = None,
    rammer_kg: Amount | None = None,
    rammer_fall: Amount | None = None,
    rammer_fall_mm: Amount | None = None,
    tin_diameter: Amount | None = None,
    tin_diameter_mm: Amount | None = None,
    net: Amount | None = None,
    net_g: Amount | None = None,
    book: Document | None = None,
    now: str | datetime | None = None,
) -> Answer[TinResult]:
    """How much water does the tin test call for? Raises InputError with everything that is wrong in what was given."""

class DryResult(TypedDict, total=False):
    """The figures of *dry* by word; one that could not be worked out is not there."""

    water_to_lose_kg: float
    full_container_kg: float
    dried_kg: float
    layer_mm: float
    spread_m2: float
    drying_min: float
    left_min: float
    turns: float
    turn_every_min: float
    dry_out_kg: float
    burner_mj: float
    dry_mix_to_dilute_kg: float
    dry_mix_in_time_kg: float
    mixed_min: float
    drying_rate: float
    moisture_pct_wet: float

def dry(
    *,
    moisture_pct_wet: Amount,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    metal: MetalChoice | None = None,
    drying_place: DryingPlaceChoice | None = None,
    air_temp: Amount | None = None,
    air_temp_c: Amount | None = None,
    humidity_pct: Amount | None = None,
    container: Amount | None = None,
    container_kg: Amount | None = None,
    spread: Amount | None = None,
    spread_m2: Amount | None = None,
    layer: Amount | None = None,
    layer_mm: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    sand_kind: SandKindChoice | None = None,
    wind: Amount | None = None,
    wind_m_s: Amount | None = None,
    below_temp: Amount | None = None,
    below_temp_c: Amount | None = None,
    spread_density: Amount | None = None,
    spread_density_kg: Amount | None = None,
    spread_density_kg_l: Amount | None = None,
    drying_rate: Amount | None = None,
    dried_for: Amount | None = None,
    dried_for_h: Amount | None = None,
    lost_so_far: Amount | None = None,
    lost_so_far_kg: Amount | None = None,
    ready_in: Amount | None = None,
    ready_in_h: Amount | None = None,
    dry_mix_on_hand: Amount | None = None,
    dry_mix_on_hand_kg: Amount | None = None,
) -> Answer[DryResult]:
    """How do you dry a heap that is too wet? Raises InputError with everything that is wrong in what was given."""

class RebondResult(TypedDict, total=False):
    """The figures of *rebond* by word; one that could not be worked out is not there."""

    first_clay_kg: float
    clay_kg: float
    sand_kg: float
    mix_kg: float
    additive_kg: float
    plan: list[dict[str, object]]
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    dried_kg: float
    discard_kg: float
    heap_after_kg: float
    dead_fines_after_pct_dry: float
    gfn_after: float
    cost: float
    binding: BindingChoice
    dilute_kg: float
    dilute_added_kg: float
    dilute_cost: float
    dump_added_kg: float
    dump_cost: float

@overload
def rebond(
    *,
    heap: Amount,
    moisture_pct_wet: Amount,
    clay_pct_dry: Amount,
    target_clay_pct_dry: Amount,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    target: Amount | None = None,
    target_kg: Amount | None = None,
    dead_fines_limit_pct_dry: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    clay_bag_price: Amount | None = None,
    materials: str | Sequence[Mapping[str, object]] | None = None,
    bin: Amount | None = None,
    bin_kg: Amount | None = None,
    heap_gfn: Amount | None = None,
    gfn_low: Amount | None = None,
    gfn_high: Amount | None = None,
    additive_pct_dry: Amount | None = None,
) -> Answer[RebondResult]:
    """What does the used sand need? Raises InputError with everything that is wrong in what was given."""

@overload
def rebond(
    *,
    heap_kg: Amount,
    moisture_pct_wet: Amount,
    clay_pct_dry: Amount,
    target_clay_pct_dry: Amount,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    target: Amount | None = None,
    target_kg: Amount | None = None,
    dead_fines_limit_pct_dry: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    clay_bag_price: Amount | None = None,
    materials: str | Sequence[Mapping[str, object]] | None = None,
    bin: Amount | None = None,
    bin_kg: Amount | None = None,
    heap_gfn: Amount | None = None,
    gfn_low: Amount | None = None,
    gfn_high: Amount | None = None,
    additive_pct_dry: Amount | None = None,
) -> Answer[RebondResult]:
    """What does the used sand need? Raises InputError with everything that is wrong in what was given."""

class ForecastResult(TypedDict, total=False):
    """The figures of *forecast* by word; one that could not be worked out is not there."""

    casts_until_limit: float
    clay_pct_dry: list[float]
    dead_clay_pct_dry: list[float]
    steady_clay_pct_dry: float
    steady_dead_clay_pct_dry: float
    make_up_pct: float
    sand_kg: float
    clay_kg: float
    cost: float

def forecast(
    *,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    clay_burnt_share: Amount | None = None,
    new_sand_share: Amount | None = None,
    burnt_kept_share: Amount | None = None,
    make_up: MakeUpChoice | bool | None = None,
    casts: Amount | None = None,
    dead_clay_pct_dry: Amount | None = None,
    dead_clay_limit_pct_dry: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    clay_bag_price: Amount | None = None,
    book: Document | None = None,
) -> Answer[ForecastResult]:
    """What happens to the heap if I go on like this? Raises InputError with everything that is wrong in what was given."""

class FacingResult(TypedDict, total=False):
    """The figures of *facing* by word; one that could not be worked out is not there."""

    facing_rammed_kg: float
    backing_kg: float
    facing_layer_mm: float
    dry_depth_mm: float
    facing_share_pct: float
    facing_joins_kg: float
    facing_lost_kg: float
    facing_end_clay_pct_dry: float
    facing_end_dead_fines_pct_dry: float
    backing_end_clay_pct_dry: float
    backing_end_dead_fines_pct_dry: float
    new_grain_pct: float
    backing_gfn_after: float
    facing_sand_kg: float
    facing_clay_kg: float
    facing_water_kg: float
    backing_sand_kg: float
    backing_clay_kg: float
    backing_water_kg: float
    backing_discard_kg: float

@overload
def facing(
    *,
    casting_volume: Amount,
    casting_area: Amount,
    flask_sand: Amount,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    metal: MetalChoice | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    facing: Amount | None = None,
    facing_mm: Amount | None = None,
    casts: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    dead_fines_limit_pct_dry: Amount | None = None,
    make_up: MakeUpChoice | bool | None = None,
    facing_clay_pct_dry: Amount | None = None,
    facing_from_backing_pct_dry: Amount | None = None,
    sand_lost: Amount | None = None,
    sand_lost_kg: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    heap_gfn: Amount | None = None,
    facing_gfn: Amount | None = None,
    shape: ShapeChoice | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    sand_heat: SandHeatChoice | None = None,
) -> Answer[FacingResult]:
    """How much facing does this mould need, and where do both sands end? Raises InputError with everything that is wrong in what was given."""

@overload
def facing(
    *,
    casting_volume_cm3: Amount,
    casting_area_cm2: Amount,
    flask_sand_kg: Amount,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    metal: MetalChoice | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    facing: Amount | None = None,
    facing_mm: Amount | None = None,
    casts: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    dead_fines_limit_pct_dry: Amount | None = None,
    make_up: MakeUpChoice | bool | None = None,
    facing_clay_pct_dry: Amount | None = None,
    facing_from_backing_pct_dry: Amount | None = None,
    sand_lost: Amount | None = None,
    sand_lost_kg: Amount | None = None,
    rammed_density: Amount | None = None,
    rammed_density_kg: Amount | None = None,
    rammed_density_kg_l: Amount | None = None,
    heap_gfn: Amount | None = None,
    facing_gfn: Amount | None = None,
    shape: ShapeChoice | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    sand_heat: SandHeatChoice | None = None,
) -> Answer[FacingResult]:
    """How much facing does this mould need, and where do both sands end? Raises InputError with everything that is wrong in what was given."""

class SeasonResult(TypedDict, total=False):
    """The figures of *season* by word; one that could not be worked out is not there."""

    keep_casts: float
    now_share_pct: float
    then_share_pct: float
    equal_share_pct: float
    equal_replace_kg: float
    habit_casts_until_limit: float
    keep_cost_per_cast: float
    equal_cost_per_cast: float
    habit_cost_per_cast: float
    season_sand_kg: float
    season_clay_kg: float
    season_discard_kg: float
    season_ways: list[dict[str, object]]

def season(
    *,
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    sand_moisture_pct_wet: Amount | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    clay_burnt_share: Amount | None = None,
    new_sand_share: Amount | None = None,
    casts: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    dead_fines_limit_pct_dry: Amount | None = None,
    burnt_kept_share: Amount | None = None,
    lost_share: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
    sand_bag: Amount | None = None,
    sand_bag_kg: Amount | None = None,
    sand_bag_price: Amount | None = None,
    clay_bag: Amount | None = None,
    clay_bag_kg: Amount | None = None,
    clay_bag_price: Amount | None = None,
    waste_price: Amount | None = None,
    water_price: Amount | None = None,
    book: Document | None = None,
) -> Answer[SeasonResult]:
    """Do I dump the heap, dilute it or keep it? Raises InputError with everything that is wrong in what was given."""

class CarbonResult(TypedDict, total=False):
    """The figures of *carbon* by word; one that could not be worked out is not there."""

    additive_per_sand: float
    additive_to_add_kg: float
    first_additive_kg: float
    additive_burnt_kg: float
    additive_season_kg: float
    co_kg: float
    co_l: float
    co_air_m3: float
    additive_ways: list[dict[str, object]]

def carbon(
    *,
    metal: MetalChoice | None = None,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    carbon_additive: CarbonAdditiveChoice | None = None,
    carbon_gauge: CarbonGaugeChoice | None = None,
    carbon_target_pct: Amount | None = None,
    carbon_now_pct: Amount | None = None,
    carbon_test: Amount | None = None,
    carbon_test_c: Amount | None = None,
    cast_metal: Amount | None = None,
    cast_metal_kg: Amount | None = None,
    casts: Amount | None = None,
    casting_volume: Amount | None = None,
    casting_volume_cm3: Amount | None = None,
    casting_area: Amount | None = None,
    casting_area_cm2: Amount | None = None,
    shape: ShapeChoice | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    sand_heat: SandHeatChoice | None = None,
    carbon_wear: Amount | None = None,
    additive_volatiles_pct: Amount | None = None,
    additive_loss_pct: Amount | None = None,
) -> Answer[CarbonResult]:
    """Does the sand need carbon, and how much? Raises InputError with everything that is wrong in what was given."""

class BlendResult(TypedDict, total=False):
    """The figures of *blend* by word; one that could not be worked out is not there."""

    clay_kg: float
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    plain_sand_kg: float
    make_kg: float
    lots_share_pct: float
    moisture_pct_wet: float
    clay_pct_dry: float
    dead_fines_pct_dry: float
    dead_fines_after_pct_dry: float
    retained: dict[str, float]
    gfn: float

def blend(
    *,
    lots: str | Sequence[Mapping[str, object]],
    clay: ClayChoice | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
    make: Amount | None = None,
    make_kg: Amount | None = None,
    target_clay_pct_dry: Amount | None = None,
    target_moisture_pct_wet: Amount | None = None,
) -> Answer[BlendResult]:
    """What do several sands make together? Raises InputError with everything that is wrong in what was given."""

class BenchResult(TypedDict, total=False):
    """The figures of *bench* by word; one that could not be worked out is not there."""

    moisture_pct_wet: float
    washed_pct_dry: float
    clay_pct_dry: float
    permeability: float
    compactability_pct: float
    tin_rammed: TinRammedChoice
    ram_energy_kj_m2: float
    matching_fall_mm: float
    water_sensitivity: float
    strength_kpa: float
    swell_ml: float
    rammed_density_kg_l: float
    jar_fines_pct: float
    squeeze: SqueezeChoice
    shatter_pct: float
    hardness: float
    loss_on_ignition_pct_dry: float
    volatiles_pct_dry: float
    strokes_per_100ml: float
    stroke_ml: float
    dose_strokes: float
    plan_repeats: float
    plan_sample_g: float
    plan_step_g: float
    plan_work_min: float
    history_mean: float
    history_within: float
    ordinary: OrdinaryChoice

def bench(
    *,
    test: TestChoice,
    sample_wet: Amount | None = None,
    sample_wet_g: Amount | None = None,
    sample_dry: Amount | None = None,
    sample_dry_g: Amount | None = None,
    sample: Amount | None = None,
    sample_g: Amount | None = None,
    clay_washed: Amount | None = None,
    clay_washed_g: Amount | None = None,
    left: Amount | None = None,
    left_g: Amount | None = None,
    titre: Amount | None = None,
    titre_ml: Amount | None = None,
    calibration: Amount | None = None,
    calibration_ml: Amount | None = None,
    calibration_clay: Amount | None = None,
    calibration_clay_g: Amount | None = None,
    pressure: Amount | None = None,
    pressure_cm: Amount | None = None,
    time: Amount | None = None,
    time_s: Amount | None = None,
    specimen: SpecimenChoice | None = None,
    height_before: Amount | None = None,
    height_before_mm: Amount | None = None,
    height_after: Amount | None = None,
    height_after_mm: Amount | None = None,
    rammer: Amount | None = None,
    rammer_kg: Amount | None = None,
    rammer_fall: Amount | None = None,
    rammer_fall_mm: Amount | None = None,
    moisture_first_pct_wet: Amount | None = None,
    moisture_second_pct_wet: Amount | None = None,
    compactability_first_pct: Amount | None = None,
    compactability_second_pct: Amount | None = None,
    load: Amount | None = None,
    load_kg: Amount | None = None,
    load_n: Amount | None = None,
    strength: Amount | None = None,
    strength_kpa: Amount | None = None,
    swell: Amount | None = None,
    swell_ml: Amount | None = None,
    tin: Amount | None = None,
    tin_ml: Amount | None = None,
    tin_diameter: Amount | None = None,
    tin_diameter_mm: Amount | None = None,
    tin_height: Amount | None = None,
    tin_height_mm: Amount | None = None,
    net: Amount | None = None,
    net_g: Amount | None = None,
    flask_net: Amount | None = None,
    flask_net_kg: Amount | None = None,
    flask_inside: Amount | None = None,
    flask_inside_l: Amount | None = None,
    flask_length: Amount | None = None,
    flask_length_mm: Amount | None = None,
    flask_width: Amount | None = None,
    flask_width_mm: Amount | None = None,
    drag_depth: Amount | None = None,
    drag_depth_mm: Amount | None = None,
    jar_sand: Amount | None = None,
    jar_sand_mm: Amount | None = None,
    jar_fines: Amount | None = None,
    jar_fines_mm: Amount | None = None,
    squeeze: SqueezeChoice | None = None,
    hardness: Amount | None = None,
    hardness_scale: HardnessScaleChoice | None = None,
    volatiles_at: VolatilesAtChoice | None = None,
    strokes: Amount | None = None,
    sprayed: Amount | None = None,
    sprayed_g: Amount | None = None,
    dose: Amount | None = None,
    dose_ml: Amount | None = None,
    scale_step: Amount | None = None,
    scale_step_g: Amount | None = None,
    manner: MannerChoice | None = None,
    repeats: Amount | None = None,
    wanted_error: Amount | None = None,
    history: str | Sequence[Amount] | None = None,
) -> Answer[BenchResult]:
    """What does this test show? Raises InputError with everything that is wrong in what was given."""

class FeelResult(TypedDict, total=False):
    """The figures of *feel* by word; one that could not be worked out is not there."""

    feel_doses: FeelDosesChoice
    moisture_pct_wet: float
    feel_pairs: float
    feel_inside_pct: float
    feel_gain: float
    verdict: VerdictChoice
    first_water_kg: float
    water_most_kg: float
    water_kg: float
    water_to_lose_kg: float
    dried_kg: float

def feel(
    *,
    feel: FeelChoice,
    heap: Amount | None = None,
    heap_kg: Amount | None = None,
    metal: MetalChoice | None = None,
    sand_kind: SandKindChoice | None = None,
    target_moisture_pct_wet: Amount | None = None,
    book: Document | None = None,
    now: str | datetime | None = None,
) -> Answer[FeelResult]:
    """How much water does a handful that feels like this hold? Raises InputError with everything that is wrong in what was given."""

class ReadingsResult(TypedDict, total=False):
    """The figures of *readings* by word; one that could not be worked out is not there."""

    readings_outside: list[str]
    readings_drifting: list[str]
    readings_count: dict[str, float]
    readings_mean: dict[str, float]
    readings_low: dict[str, float]
    readings_high: dict[str, float]
    scrap_causes: dict[str, float]

def readings(
    *,
    book: Document,
) -> Answer[ReadingsResult]:
    """Are my readings as usual, or does something drift? Raises InputError with everything that is wrong in what was given."""

class FinenessResult(TypedDict, total=False):
    """The figures of *fineness* by word; one that could not be worked out is not there."""

    gfn: float
    gfn_estimate: float
    mean_um: float
    screens: list[str]
    gaps: list[str]
    passing: dict[str, float]
    surface_cm2_g: float
    washed_pct_dry: float
    sieve_loss_pct: float

def fineness(
    *,
    retained: str | Mapping[Any, Amount] | Sequence[tuple[str | int, Amount]],
    clay_washed: Amount | None = None,
    clay_washed_g: Amount | None = None,
    sample: Amount | None = None,
    sample_g: Amount | None = None,
    scale_step: Amount | None = None,
    scale_step_g: Amount | None = None,
    unnamed_sieves: UnnamedSievesChoice | None = None,
) -> Answer[FinenessResult]:
    """How fine is the sand? Raises InputError with everything that is wrong in what was given."""

class MatchResult(TypedDict, total=False):
    """The figures of *match* by word; one that could not be worked out is not there."""

    take: list[dict[str, object]]
    make_kg: float
    gfn: float
    gfn_off: float
    retained: dict[str, float]
    screens: list[str]
    gaps: list[str]
    fullest_pct: float

def match(
    *,
    lots: str | Sequence[Mapping[str, object]],
    target_gfn: Amount,
    make: Amount | None = None,
    make_kg: Amount | None = None,
    gfn_leeway: Amount | None = None,
) -> Answer[MatchResult]:
    """Which blend comes nearest to the grain I want? Raises InputError with everything that is wrong in what was given."""

class EstimateResult(TypedDict, total=False):
    """The figures of *estimate* by word; one that could not be worked out is not there."""

    clay_pct_dry: float
    dead_fines_pct_dry: float
    clay_washed_pct_dry: float
    clay_mulled_pct_dry: float
    agreement: float
    mulling_efficiency_pct: float
    available_bond_pct: float
    working_bond_pct: float
    equilibrium_moisture_pct_wet: float

def estimate(
    *,
    clay_blue_pct_dry: Amount | None = None,
    washed_pct_dry: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    ash_pct_dry: Amount | None = None,
    clay_book_pct_dry: Amount | None = None,
    moisture_pct_wet: Amount | None = None,
    compactability_read_pct: Amount | None = None,
    strength: Amount | None = None,
    strength_kpa: Amount | None = None,
    rammer: Amount | None = None,
    rammer_kg: Amount | None = None,
    rammer_fall: Amount | None = None,
    rammer_fall_mm: Amount | None = None,
    tin_diameter: Amount | None = None,
    tin_diameter_mm: Amount | None = None,
) -> Answer[EstimateResult]:
    """How much live clay is in it? Raises InputError with everything that is wrong in what was given."""

class DiagnoseResult(TypedDict, total=False):
    """The figures of *diagnose* by word; one that could not be worked out is not there."""

    next_test: NextTestChoice
    leading: list[str]
    what_not_to_do: list[str]
    changes_mind: str
    causes: dict[str, float]

def diagnose(
    *,
    symptoms: str | Sequence[str] | None = None,
    moisture_pct_wet: Amount | None = None,
    compactability_read_pct: Amount | None = None,
    tin_rammed: TinRammedChoice | None = None,
    found: str | Sequence[str] | None = None,
    nothing_else: NothingElseChoice | bool | None = None,
    compactability_usual_pct: Amount | None = None,
    rammer: Amount | None = None,
    rammer_kg: Amount | None = None,
    rammer_fall: Amount | None = None,
    rammer_fall_mm: Amount | None = None,
    tin_diameter: Amount | None = None,
    tin_diameter_mm: Amount | None = None,
    rested: Amount | None = None,
    rested_h: Amount | None = None,
    clay_pct_dry: Amount | None = None,
    dead_fines_pct_dry: Amount | None = None,
    permeability: Amount | None = None,
    strength: Amount | None = None,
    strength_kpa: Amount | None = None,
    gfn: Amount | None = None,
    metal: MetalChoice | None = None,
    pour_temp: Amount | None = None,
    pour_temp_c: Amount | None = None,
    riser_to_section: Amount | None = None,
    fill_to_freeze: Amount | None = None,
    gate_speed: Amount | None = None,
    gate_speed_m_s: Amount | None = None,
) -> Answer[DiagnoseResult]:
    """What went wrong? Raises InputError with everything that is wrong in what was given."""

class ChooseResult(TypedDict, total=False):
    """The figures of *choose* by word; one that could not be worked out is not there."""

    usability: UsabilityChoice
    test_first: str
    reasons: list[dict[str, object]]
    yield_pct: float
    usable_kg: float
    buy_kg: float
    live_clay_kg: float

def choose(
    *,
    bag_label: BagLabelChoice | None = None,
    stuff: StuffChoice | None = None,
    vinegar: VinegarChoice | bool | None = None,
    clay_vinegar: ClayVinegarChoice | bool | None = None,
    smoke: SmokeChoice | bool | None = None,
    jar: JarChoice | None = None,
    grain_shape: GrainShapeChoice | None = None,
    pebbles_pct: Amount | None = None,
    swell: Amount | None = None,
    swell_ml: Amount | None = None,
    swollen: SwollenChoice | None = None,
    perfume: PerfumeChoice | bool | None = None,
    bought: Amount | None = None,
    bought_kg: Amount | None = None,
    ground: Amount | None = None,
    ground_kg: Amount | None = None,
    passed: Amount | None = None,
    passed_kg: Amount | None = None,
    wanted: Amount | None = None,
    wanted_kg: Amount | None = None,
    clay_activity_pct: Amount | None = None,
    clay_moisture_pct_wet: Amount | None = None,
) -> Answer[ChooseResult]:
    """Is this usable for moulding sand? Raises InputError with everything that is wrong in what was given."""
