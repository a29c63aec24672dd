"""The steps in WebKitGTK."""

from __future__ import annotations

from engines import driving
from engines.steps import Steps


class TestInWebKitGTK(Steps):
    start = staticmethod(driving.webkit)
    program = "SANDMIX_WEBKIT"
