"""Masses and volumes: targets, what is on hand, what to weigh, add or lose, and how to measure it out."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.materials.sands_and_clays import DRY_SAND_LOOSE_KG_M3
from sandmix.recipes.temper import FIRST_WATER

AS_IT_LIES = "with its water"
AS_BOUGHT = "as bought, with its water"
SCALE = Error(absolute=0.05, relative=0.005)
SCALE_NOTE = "± 0.05 kg per weighing on a luggage scale, and half a percent"


_kg = quantities("kg", low=0.0, high=5000.0, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")
_g = quantities("g", digits=1, units=("g", "oz"))
_litres = quantities("L", low=0.0, high=10000.0, digits=1, step=1.0, units=("L", "US gal", "imp gal"), source="bulk_density_table")

CHAPTER: tuple[Word, ...] = (
    _kg("make_kg", "Moulding sand to make", AS_IT_LIES, low=0.05, usual=(2.0, 250.0), help="Finished sand, ready to mould."),
    _kg("heap_kg", "Sand in the heap", AS_IT_LIES, low=0.05, usual=(2.0, 250.0), error=SCALE, error_note=SCALE_NOTE, help="Weigh the full bin and subtract the empty bin."),
    _kg("target_kg", "Target mass of the heap", AS_IT_LIES, low=0.05, usual=(2.0, 250.0), help="Leave empty to keep the whole heap: it then grows by what is added."),
    _kg("heap_after_kg", "Heap afterwards", AS_IT_LIES, help="With all that is added, at the target moisture."),
    _kg("sand_on_hand_kg", "Sand on hand", AS_BOUGHT, low=0.01, usual=(1.0, 250.0), error=SCALE, error_note=SCALE_NOTE, help="What you have. Sand or clay decides, whichever is scarcer."),
    _kg("clay_on_hand_kg", "Clay on hand", AS_BOUGHT, low=0.01, usual=(0.1, 50.0), step=0.5, error=SCALE, error_note=SCALE_NOTE, help="What you have. Sand or clay decides, whichever is scarcer."),
    _kg("mixer_kg", "Mixer size", AS_IT_LIES, low=0.1, usual=(3.0, 60.0), help="The most sand that you mix at once. By hand or in a small mixer, 10 to 15 kg is a good batch.", source="practice"),
    _kg("sand_kg", "Sand", "with its water", help="Weigh it as it comes from the bag."),
    _kg("clay_kg", "Clay", AS_BOUGHT, step=0.5, help="Weigh it as it comes from the bag."),
    _kg("water_kg", "Water", "to add, on top of the water already in the materials", help="One litre is one kilogram."),
    _kg("first_water_kg", "First dose of water", "of the water to add", help=f"{100 * FIRST_WATER:.0f} % of the water to add. Mull, let it rest, test, then add the rest.", source="own"),
    _kg("water_most_kg", "Most water in all", "high end of the likely range", rounds_like="water_kg", help="The upper end of the likely range. Do not add more before a new test.", source="own"),
    _kg("water_to_lose_kg", "Water to lose", "by drying, before anything is added", help="The water above the target."),
    _kg("dried_kg", "Weight when dry enough", "the sand alone, without its container", rounds_like="water_to_lose_kg", help="Weigh the sand while it dries. How long that takes depends on the air."),
    _kg("standing_kg", "Mass of the mix", AS_IT_LIES, help="With all its water, also where the materials bring more than the target."),
    _kg("batch_sand_kg", "Sand per batch", AS_BOUGHT),
    _kg("batch_clay_kg", "Clay per batch", AS_BOUGHT),
    _kg("batch_water_kg", "Water per batch", "to add, both doses"),
    Quantity(name="batches", label="Batches", unit="", basis="equal, one mixer load each", low=1, high=1e6, digits=0, help="Whole batches of the same size.", source="geometry"),
    _kg("clay_most_kg", "Most clay in all", AS_BOUGHT, help="For granules of which only half is live. If the sand is still weak then, these granules are not suitable."),
    _kg("clay_step_kg", "Clay per step", AS_BOUGHT, help="Add it, mull, test, then add the next.", source="own"),
    _kg("dry_mix_to_dilute_kg", "Dry mix to dilute it", "bone dry, composed as the heap", help="Instead of drying: dry sand and clay in the same proportion as in the heap."),
    _kg("discard_kg", "Sand to discard", AS_IT_LIES, help="Take it out of the heap before you add anything."),
    _kg("first_clay_kg", "First half of the clay", AS_BOUGHT, help="Add half, mull, test, then add the rest.", source="own"),
    _g("sample_wet_g", "Sample before drying", low=1.0, high=20000.0, usual=(50.0, 2000.0), step=10.0, basis="with its water", help="A handful from the middle of the heap, weighed at once.", source="tjfs_201"),
    _g("sample_dry_g", "Sample after drying", low=0.1, high=20000.0, usual=(45.0, 2000.0), step=1.0, basis="dried at 105 °C until it loses no more", help="Dry it in an oven at 105 °C, or in a pan outdoors, until two weighings agree.", source="tjfs_201"),
    _g("scale_step_g", "Scale resolution", low=0.001, high=100.0, usual=(0.01, 10.0), default=1.0, digits=3, step=1.0, basis="smallest change that it shows", help="A kitchen scale shows 1 g, a luggage scale 10 g.", source="scale_rounding"),
    _litres("sand_l", "Sand, loose", "loose, as bought"),
    _litres("clay_l", "Clay, loose", "loose, as bought"),
    _litres("bucket_l", "Your bucket, level full", low=0.1, high=300.0, usual=(5.0, 20.0), default=10.0, help="What it holds when struck off level.", source="practice"),
    Quantity(name="sand_buckets", label="Level buckets of sand", unit="", low=0, high=1e6, digits=2, basis="struck off level", help="A bucket is a rough measure: the scale is better.", source="bulk_density_table"),
    Quantity(name="clay_buckets", label="Level buckets of clay", unit="", low=0, high=1e6, digits=2, basis="struck off level", help="A bucket is a rough measure: the scale is better.", source="bentonite_data_sheets"),
    Quantity(name="sand_bulk_kg_l", label="Bulk density of dry sand", unit="kg/L", basis="poured loose, struck level", low=0.8, high=2.2, usual=(1.3, 1.7), default=DRY_SAND_LOOSE_KG_M3 / 1000, digits=3, step=0.05,
             units=("kg/L", "lb/ft³"), error=Error(absolute=0.03, assumed=0.11), error_note="± 7 % where assumed", help="Weigh one level bucket of your own.", source="bulk_density_table"),
    Quantity(name="clay_bulk_kg_l", label="Bulk density of the clay", unit="kg/L", basis="poured loose, struck level", low=0.3, high=1.6, usual=(0.59, 1.1), digits=3, step=0.05,
             units=("kg/L", "lb/ft³"), error=Error(absolute=0.03, assumed=0.15), error_note="± 0.15 where assumed", help="0.8 for powder and 1.0 for granules, if you have not weighed a bucket.", source="bentonite_data_sheets"),
    Quantity(name="bulking_pct", label="Bulking of damp sand", unit="%", basis="more volume than the same sand dry", low=0, high=60, usual=(20, 40), default=30.0, digits=0, step=5.0,
             units=("%",), error=Error(absolute=5.0, assumed=12.0), error_note="± 12 points where assumed", help="Damp loose sand takes up 20 to 40 % more space. Counted above half a percent of moisture.", source="memory"),
)
