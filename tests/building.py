"""The wheel and the sdist, as the project's build backend makes them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

BUILD = "import sys, hatchling.build as backend; print(getattr(backend, sys.argv[1])(sys.argv[2]))"


def built(kind: str, root: Path, out: Path) -> Path:
    """What the project's build backend makes of a folder, without the day or the time; *kind* is wheel or sdist."""
    environment = {name: value for name, value in os.environ.items() if name != "SOURCE_DATE_EPOCH"}
    told = subprocess.run(
        [sys.executable, "-c", BUILD, f"build_{kind}", str(out)],
        cwd=root,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    return out / told.stdout.split()[-1]
