"""The sandmix of this checkout, from wherever the build was started."""

from __future__ import annotations

import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def door() -> Callable[[str], str]:
    """The library's JSON door: JSON text in, JSON text out."""
    if str(ROOT) not in sys.path:
        sys.path.insert(0, str(ROOT))
    call: Callable[[str], str] = import_module("sandmix.facade").call
    return call
