"""Answering again each time a file changes: a book that another program writes, or that is replaced by a new file."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence

from sandmix.doors import document_file

PAUSE_S = 0.5
"""How long a change may go unnoticed; a file that is still being written is left alone for as long."""


def changes(paths: Sequence[str], pause: Callable[[], None] = lambda: time.sleep(PAUSE_S)) -> Iterator[None]:
    """Yield at once, and then each time one of the files changed, appeared or went away, and was then left alone for one *pause*.

    Never ends by itself. A file counts as changed by its place on the disk, its size and its time, so one that was replaced counts too.
    """
    answered = last = _stamps(paths)
    yield
    while True:
        pause()
        now = _stamps(paths)
        if now == last != answered:
            answered = now
            yield
        last = now


def _stamps(paths: Sequence[str]) -> list[object]:
    return [document_file.stamp(path) for path in paths]
