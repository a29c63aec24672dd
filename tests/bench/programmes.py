"""Compare the job rebond with SciPy's linear programme on 2,000 random heaps, and 2,000 with a list of materials.

`python3 tests/bench/programmes.py [CASES]` runs the two comparisons of `tests/against`, which take 200 cases each in a test run.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
FILES = ("tests/against/test_linear_programme.py", "tests/against/test_stock_programme.py")


def main() -> int:
    """Run both comparisons with the number of cases given."""
    cases = sys.argv[1] if len(sys.argv) > 1 else "2000"
    command = [sys.executable, "-m", "pytest", "-q", "--durations=10", *FILES]
    return subprocess.run(command, cwd=ROOT, env={**os.environ, "SANDMIX_CASES": cases}, check=False).returncode


if __name__ == "__main__":
    raise SystemExit(main())
