"""sandmix: green sand for a home foundry, carried through its whole life.

Everything is `Sand`, every job is a verb on it, every quantity is a word. ``ask`` has each job as a function, and ``facade.call`` is the door
for all but Python.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.materials.sand import Sand

if TYPE_CHECKING:
    from types import ModuleType

    from sandmix import ask

__version__ = "0.1.0"
__all__ = ["InputError", "Problem", "Sand", "SandmixError", "__version__", "ask"]


def __getattr__(name: str) -> ModuleType:
    """The module `sandmix.ask`, imported when it is first used: the browser and the command line do without it."""
    if name == "ask":
        from importlib import import_module

        return import_module("sandmix.ask")
    raise AttributeError(f"module 'sandmix' has no attribute '{name}'")
