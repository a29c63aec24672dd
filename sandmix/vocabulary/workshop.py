"""The words whose figures stay the same in one workshop from one day to the next: a person gives them once, for all jobs.

They are what is bought, what tools and vessels hold or show, and the usual recipe. A test, a limit of a metal or a figure of one casting
is none of them.
"""

from __future__ import annotations

WORKSHOP = {
    "Bags and prices": ("sand_bag_kg", "sand_bag_price", "clay_bag_kg", "clay_bag_price", "water_price", "waste_price"),
    "Sand and clay as you buy them": (
        "sand_moisture_pct_wet",
        "clay_moisture_pct_wet",
        "clay_activity_pct",
        "sand_bulk_kg_l",
        "clay_bulk_kg_l",
    ),
    "Tools and vessels": ("scale_step_g", "mixer_kg", "bucket_l", "bin_kg", "crucible_l"),
    "How you work": (
        "target_clay_pct_dry",
        "rammed_density_kg_l",
        "spread_m2",
        "spread_density_kg_l",
        "new_sand_share",
    ),
}
"""The words by the heading under which a person gives them."""
