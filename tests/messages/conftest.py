"""What the message tests share: asking a job as any door does."""

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
def messages(ask: Callable[..., dict[str, Any]]) -> Callable[..., list[str]]:
    """The texts with which a job is refused."""

    def messages(job: str, **inputs: object) -> list[str]:
        answer = ask(job, **inputs)
        assert not answer["ok"], answer["headline"]
        assert "fault" not in answer
        return [problem["message"] for problem in answer["problems"]]

    return messages
