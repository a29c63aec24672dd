"""The steps in Firefox."""

from __future__ import annotations

from engines import driving
from engines.steps import Steps


class TestInFirefox(Steps):
    start = staticmethod(driving.firefox)
    program = "SANDMIX_FIREFOX"
