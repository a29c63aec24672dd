"""The job *feed*: whether a casting needs a riser, how large, how far it feeds, and what it costs in metal."""

from __future__ import annotations

from sandmix.asking.job import Job, Way, Ways
from sandmix.jobs.feed.figures import finish, needs, run
from sandmix.jobs.feed.form import FeedForm, resolve
from sandmix.jobs.feed.telling import tell

JOB = Job(
    name="feed",
    short="The riser",
    title="Does it need a riser, and how large?",
    answered_with="the riser by freezing and by volume, its neck, how far it feeds, the cope it needs, the metal it costs; or why none is needed",
    group="casting",
    form=FeedForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    ways=(
        Ways(
            name="thickness",
            label="How thick it is",
            options=(
                Way(name="surface", label="from its surface", words=("casting_area_cm2",)),
                Way(
                    name="part",
                    label="its thickest part",
                    words=("part", "part_thickness_mm", "part_width_mm", "part_length_mm"),
                ),
                Way(name="modulus", label="a modulus", words=("modulus_mm",)),
            ),
        ),
    ),
    answers=(
        "riser_diameter_mm",
        "riser_height_mm",
        "riser_volume_cm3",
        "riser_kg",
        "decides",
        "riser_made_mm",
        "riser_made_height_mm",
        "riser_made_kg",
        "modulus_mm",
        "riser_modulus_mm",
        "freezing_diameter_mm",
        "volume_diameter_mm",
        "feed_needed_cm3",
        "shrinkage_cm3",
        "classroom_cm3",
        "neck_mm",
        "neck_least_mm",
        "neck_most_mm",
        "feeding_distance_mm",
        "cope_needed_mm",
        "covered_modulus_mm",
        "covered_diameter_mm",
        "riser_share_pct",
        "gating_with_riser_cm3",
        "gating_with_riser_pct",
        "joint_circle_mm",
        "joint_least_modulus_mm",
        "joint_most_modulus_mm",
        "caine_diameter_mm",
        "naval_riser_cm3",
    ),
    needs=needs,
    example={
        "metal": "tin_bronze",
        "casting_volume_cm3": "88 cm³",
        "casting_area_cm2": "200 cm²",
        "riser_kind": "side",
        "cope_depth_mm": "90 mm",
        "box_mm": "140 x 55 x 12 mm",
    },
    story="The back plate of the door pull in tin bronze, in a flask with a cope of 90 mm.",
)
