"""``python3 -m sandmix``: works from a bare checkout."""

import os
import sys

from .cli import main

try:
    status = main()
    sys.stdout.flush()
except BrokenPipeError:
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    status = 0
raise SystemExit(status)
