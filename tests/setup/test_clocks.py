"""The clocks of a job begin with what starts them, and only those of the pour begin with the pour."""

from __future__ import annotations

import json

import draw_steps
from sandmix.doors.facade import call

JOBS = json.loads(call('{"job": "describe"}'))["jobs"]


def test_only_the_clocks_after_a_pour_start_with_it() -> None:
    timed = {
        job["name"]
        for job in JOBS
        if json.loads(call(json.dumps({"job": job["name"], "inputs": job["example"]}))).get("timers")
    }
    assert {"dry", "tin", "temper"} <= timed
    assert timed - draw_steps.BEGINS.keys() == {"burnout"}
