"""Run the unit tests of the arithmetic inside Pyodide: what another processor or another maths library could change.

`inside.mjs` runs this file with the checkout, the tests' site-packages, and arguments for pytest, which name the tests.
"""

from __future__ import annotations

import os
import sys


def main(words: list[str]) -> int:
    """Return pytest's own exit status: 0 if all tests passed, not 0 if there was none."""
    root, packages, *rest = words
    root = f"/host{root}"
    sys.path[:0] = [root, f"/host{packages}"]
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    os.chdir(root)
    import pytest

    return int(pytest.main(["-q", "-p", "no:cacheprovider", "--color=no", *rest]))
