"""Compile at build time what `dataclasses` compiles each time a class is made: two fifths of the time to import the library in a browser.

`dataclasses` writes the methods of a class as a text, which it compiles. `noted()` collects these texts; `module()` is a module of their code, by
which the changed `dataclasses` finds it. A text that nobody noted is compiled as ever. `changed()` also leaves out the docstring that
`dataclasses` works out where a class has none, as here, where no docstring is kept. Runs inside Pyodide, and imports at its top only what
Pyodide itself has imported by then.
"""

from __future__ import annotations

from collections.abc import Callable
from types import CodeType
from typing import Any

PLACE = "dataclasses.py"
MODULE = "_dataclass_code.py"
CHANGES = (
    ("        exec(txt, self.globals, ns)\n", "        exec(_METHODS.get(_key(txt), txt), self.globals, ns)\n"),
    ("    if not getattr(cls, '__doc__'):\n", "    if False:\n"),
)
"""The lines of `dataclasses` that are changed, each of which must be there once."""
ADDED = """

from zlib import crc32 as _crc32
from _dataclass_code import METHODS as _METHODS


def _key(txt):
    return _crc32(txt.encode()), len(txt)
"""


def noted() -> list[str]:
    """The list in which `dataclasses` notes, from now on, each text that it compiles."""
    import builtins
    import dataclasses

    texts: list[str] = []

    def run(text: str, *places: dict[str, Any]) -> None:
        texts.append(text)
        builtins.exec(text, *places)  # noqa: S102  the text is what dataclasses itself would run

    vars(dataclasses)["exec"] = run
    return texts


def changed(source: bytes) -> bytes:
    """The source of `dataclasses` that finds its methods compiled; raises ValueError if it is not the one that this file knows."""
    text = source.decode()
    for before, after in CHANGES:
        if text.count(before) != 1:
            raise ValueError(f"dataclasses has changed: “{before.strip()}” is there {text.count(before)} times.")
        text = text.replace(before, after)
    return (text + ADDED).encode()


def module(texts: list[str], slimmed: Callable[[CodeType], CodeType]) -> bytes:
    """The source of a module that holds the code of these texts; raises ValueError where two texts have one key."""
    import marshal

    return f"import marshal\n\nMETHODS = marshal.loads({marshal.dumps(compiled(texts, slimmed))!r})\n".encode()


def compiled(texts: list[str], slimmed: Callable[[CodeType], CodeType]) -> dict[tuple[int, int], CodeType]:
    """The code of each text, by its key."""
    import zlib

    by_key = {(zlib.crc32(text.encode()), len(text)): text for text in texts}
    if len(by_key) != len({*texts}):
        raise ValueError("Two texts of dataclasses have one key. Take a longer one.")
    return {
        key: slimmed(compile(text, "<dataclass>", "exec", dont_inherit=True, optimize=2))
        for key, text in sorted(by_key.items())
    }
