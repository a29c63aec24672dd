"""What the checks against sources share: asking a job as any door does."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from sandmix.doors.facade import call


@pytest.fixture(scope="session")
def ask() -> Callable[..., dict[str, Any]]:
    """Ask a job by name, its inputs as keywords, and return the whole answer."""

    def ask(job: str, **inputs: object) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs})))

    return ask


@pytest.fixture(scope="session")
def result(ask: Callable[..., dict[str, Any]]) -> Callable[..., dict[str, Any]]:
    """Ask a job that must answer, and return its figures."""

    def result(job: str, **inputs: object) -> dict[str, Any]:
        answer = ask(job, **inputs)
        assert answer["ok"], answer
        return answer["result"]

    return result
