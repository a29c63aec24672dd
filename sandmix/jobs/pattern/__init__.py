"""The job *pattern*: how big the casting is, from a file of the shape, its sizes, displaced water, or the mass of the pattern."""

from __future__ import annotations

from sandmix.asking.job import Job, Way, Ways
from sandmix.jobs.pattern.figures import known, run
from sandmix.jobs.pattern.form import PatternForm, resolve
from sandmix.jobs.pattern.telling import tell

_WAYS = Ways(
    name="size",
    label="What do you have?",
    options=(
        Way(name="file", label="a file", words=("mesh", "unit")),
        Way(name="sizes", label="sizes", words=("box_mm", "body", "bore_mm")),
        Way(name="water", label="water", words=("displaced_water_ml",)),
        Way(name="mass", label="its mass", words=("pattern_mass_g", "pattern_material", "infill_pct")),
    ),
)
JOB = Job(
    name="pattern",
    short="The pattern",
    title="How big is the casting?",
    answered_with="volume, surface, box, modulus and projected area, from its file, sizes, displaced water or mass; whether its mesh is closed",
    group="casting",
    form=PatternForm,
    resolve=resolve,
    run=run,
    tell=tell,
    ways=(_WAYS,),
    known=known,
    known_from="mesh",
    answers=(
        "casting_volume_cm3",
        "casting_kg",
        "casting_area_cm2",
        "modulus_mm",
        "box_mm",
        "thickest_mm",
        "thinnest_mm",
        "hot_places",
        "projected_area_cm2",
        "column_cm3",
        "more_head_mm",
        "suggested_way",
        "parting_height_mm",
        "ways_up",
        "pattern_volume_cm3",
        "part_kg",
        "volume_cm3",
        "area_cm2",
        "closed",
        "shells",
        "facets",
        "centre_mm",
    ),
    example={"box_mm": "140 x 55 x 12 mm", "body": "block", "metal": "tin_bronze", "measured": "pattern"},
    story="A limewood back plate for the door pull, measured with a rule, to be cast in tin bronze.",
)
