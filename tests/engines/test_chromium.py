"""The steps in Chromium."""

from __future__ import annotations

from engines import driving
from engines.steps import Steps


class TestInChromium(Steps):
    start = staticmethod(driving.chromium)
    program = "SANDMIX_CHROMIUM"
