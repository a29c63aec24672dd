"""The sandmix of this checkout, from wherever the build was started."""

from __future__ import annotations

import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent


def door() -> Callable[[str], str]:
    """The library's JSON door: JSON text in, JSON text out."""
    call: Callable[[str], str] = module("sandmix.facade").call
    return call


def version() -> str:
    """The version of the library."""
    number: str = module("sandmix").__version__
    return number


def module(name: str) -> Any:
    """A module of that sandmix."""
    if str(ROOT) not in sys.path:
        sys.path.insert(0, str(ROOT))
    return import_module(name)
