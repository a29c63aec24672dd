"""sandmix: green sand for a home foundry, carried through its whole life.

Everything is `Sand`, every job is a verb on it, every quantity is a word. ``facade.call`` is the door for all but Python.
"""

from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.materials.sand import Sand

__version__ = "0.1.0"
__all__ = ["InputError", "Problem", "Sand", "SandmixError", "__version__"]
