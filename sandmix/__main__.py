"""``python3 -m sandmix``: works from a bare checkout.

The exit status is 0 if answered, 2 if the input was refused, 1 if the answer can't be written, and 130 after Ctrl+C.
"""

import io
import os
import sys
from contextlib import suppress


def main() -> int:
    """Run one command and return its exit status, whatever happens to its streams."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal of few letters still gets its answer
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(encoding="utf-8-sig", errors="replace")
    try:
        return _answered()
    except KeyboardInterrupt:
        return _ended("\nStopped. A file that was being written is as it was, or has the whole entry.", 130)
    except BrokenPipeError:
        return _ended("", 0)
    except OSError as error:
        words = f"The answer can't be written: {error.strerror or error}. If it was an entry, look in the book whether it is there."
        return _ended(words, 1)


def _answered() -> int:
    """The status of the command, after all of its answer is written; raises OSError."""
    from sandmix.doors.cli import main  # it takes a moment, in which Ctrl+C gets its words too

    try:
        status = main()
    except SystemExit as ended:
        status = int(ended.code or 0)
    if sys.stdout is not None:  # it is closed
        sys.stdout.flush()
    return status


def _ended(words: str, status: int) -> int:
    """The status, after a last word to a person; what could not be written is let go, for Python would try once more."""
    with suppress(OSError):
        if words:
            print(words, file=sys.stderr, flush=True)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())
    return status


if __name__ == "__main__":
    raise SystemExit(main())
