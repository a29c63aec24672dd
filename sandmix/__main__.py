"""``python3 -m sandmix``: works from a bare checkout."""

import io
import os
import sys

from sandmix.doors.cli import main

for stream in (sys.stdout, sys.stderr):
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")  # a terminal of few letters still gets its answer
try:
    status = main()
    if sys.stdout is not None:  # it is closed
        sys.stdout.flush()
except BrokenPipeError:
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    status = 0
raise SystemExit(status)
