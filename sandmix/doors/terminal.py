"""What a terminal is given: lines that fit into it, and no character that it would obey instead of showing it."""

from __future__ import annotations

import json
import shutil
from typing import Any

WIDTH = 96
"""The longest line, where the terminal is wider or there is none."""
NARROWEST = 20
UNSHOWN = "\N{REPLACEMENT CHARACTER}"


def width() -> int:
    """Return how long a line may be: as long as the terminal is wide, and never longer than a page."""
    return max(NARROWEST, min(WIDTH, shutil.get_terminal_size((WIDTH, 0)).columns))


def clean(text: str) -> str:
    r"""Return text of any origin as one line in which a terminal finds nothing to obey.

    >>> clean("a\tpattern \x1b[31mred")
    'a pattern �[31mred'
    """
    if text.isprintable():
        return text
    return "".join(letter if letter.isprintable() else " " if letter.isspace() else UNSHOWN for letter in text)


def clean_lines(text: str) -> str:
    """Return the same for text of several lines, which stay apart."""
    return "\n".join(map(clean, text.split("\n")))


def clean_all(value: Any) -> Any:
    """Return plain data in which every text is clean."""
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, dict):
        return {clean(name): clean_all(part) for name, part in value.items()}
    return [clean_all(part) for part in value] if isinstance(value, list) else value


def clean_json(text: str) -> str:
    r"""Return the same JSON, with an escape for each character that a terminal might obey.

    >>> clean_json('{"name": "\x9b31m"}')
    '{"name": "\\u009b31m"}'
    """
    if text.replace("\n", "").isprintable():
        return text
    return "".join(letter if letter.isprintable() or letter == "\n" else json.dumps(letter)[1:-1] for letter in text)
