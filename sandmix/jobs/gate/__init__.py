"""The job *gate*: how wide sprue, runner and gates must be, and whether the metal fills the mould before it freezes."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.gate.figures import finish, needs, run
from sandmix.jobs.gate.form import GateForm, resolve
from sandmix.jobs.gate.telling import tell

JOB = Job(
    name="gate",
    short="Sprue and gates",
    title="How wide are sprue, runner and gates, and does the mould fill?",
    answered_with="filling time, choke, sprue, runner and gates, the speed in the gates, and whether the thinnest wall fills",
    group="casting",
    form=GateForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "fill_time_s",
        "choke_cm2",
        "sprue_base_mm",
        "sprue_base_stick_mm",
        "sprue_top_mm",
        "sprue_top_stick_mm",
        "runner_cm2",
        "gate_cm2",
        "gate_depth_mm",
        "gate_width_mm",
        "gate_speed_m_s",
        "speed_limit_m_s",
        "gate_for_speed_cm2",
        "reynolds",
        "rule_time_s",
        "freeze_first",
        "flow_stops_s",
        "wall_freeze_s",
        "flow_length_m",
        "gating_volume_cm3",
        "furnace_temp_c",
        "pour_temp_c",
        "heat_loss_c",
        "loss_per_min",
        "pour_within_min",
    ),
    needs=needs,
    example={
        "metal": "aluminium",
        "fill_volume_cm3": "380 cm³",
        "head_mm": "120 mm",
        "gate_place": "parting",
        "fill_height_mm": "25 mm",
        "cope_height_mm": "10 mm",
        "thinnest_mm": "5 mm",
        "gate_ratio": "1:4:4",
        "fill_time_s": "2 s",
        "gates_count": "4",
        "gate_depth_mm": "4 mm",
        "runner_length_mm": "250 mm",
        "gate_length_mm": "20 mm",
    },
    story="Four coat hooks on one board, with a gate for each at the parting and 120 mm of metal over them.",
)
