"""Each step of a plan opens as a page of its casting."""

from __future__ import annotations

import json
import re

import checkout
from sandmix.doors.facade import call

OWN_PAGE = "heap"
"""The heap book reads its casting by itself."""


def test_the_page_of_each_step_knows_its_casting() -> None:
    inputs = {"box_mm": "160 x 90 x 30 mm", "two_sands": "yes"}
    steps = {step["job"] for step in json.loads(call(json.dumps({"job": "plan", "inputs": inputs})))["steps"]}
    script = (checkout.ROOT / "site/docs/app/casting-job.js").read_text(encoding="utf-8")
    [listed] = re.findall(r"^const JOBS = (\[.*?\]);", script, re.MULTILINE | re.DOTALL)
    assert steps - {OWN_PAGE} <= set(re.findall(r'"(\w+)"', listed))
    assert {"feed", "gate", "mix", "facing"} <= steps
