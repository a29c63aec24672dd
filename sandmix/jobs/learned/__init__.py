"""The job *learned*: what a person's own readings have taught, figure by figure, and how much of each is still the general one."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.learned.figures import known, run
from sandmix.jobs.learned.form import LearnedForm, resolve
from sandmix.jobs.learned.telling import tell
from sandmix.vocabulary.learned_words import TAUGHT

JOB = Job(
    name="learned",
    short="What your readings teach",
    title="What have my own readings taught?",
    answered_with="each general figure as it was and as your own readings have made it, and how much is still general",
    group="heap",
    form=LearnedForm,
    resolve=resolve,
    run=run,
    known=known,
    known_from="book",
    tell=tell,
    answers=("own_readings", *TAUGHT),
    example={
        "book": """[
{"kind": "mixed", "at": "2027-03-06", "sand_kg": "41 kg", "clay_kg": "4.2 kg", "clay": "clay_granules", "water_kg": "1.2 kg"},
{"kind": "measured", "at": "2027-03-07", "clay_pct_dry": "6.3 ± 0.5 %"},
{"kind": "calibrated", "at": "2027-03-07", "rammed_density_kg_l": "1.61 ± 0.03 kg/L"},
{"kind": "poured", "at": "2027-03-13", "metal_kg": "1.5 kg", "pattern": "coat hooks", "flask_sand_kg": "22 kg", "sand_lost_kg": "0.6 kg"},
{"kind": "measured", "at": "2027-03-14", "dead_fines_pct_dry": "3.1 ± 0.5 %"},
{"kind": "poured", "at": "2027-03-20", "metal_kg": "1.4 kg", "pattern": "coat hooks", "flask_sand_kg": "22 kg", "sand_lost_kg": "0.7 kg"},
{"kind": "calibrated", "at": "2027-03-20", "rammed_density_kg_l": "1.58 ± 0.03 kg/L"},
{"kind": "poured", "at": "2027-03-27", "metal_kg": "1.9 kg", "pattern": "door pull", "flask_sand_kg": "24 kg", "sand_lost_kg": "0.8 kg"},
{"kind": "measured", "at": "2027-03-28", "dead_fines_pct_dry": "3.6 ± 0.5 %"}]""",
    },
    story="A month of the hall's chest: granules for clay, a flask rammed and weighed twice, three casts with their losses, and tests.",
)
