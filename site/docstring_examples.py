"""Extensions of griffe, which reads the docstrings for the pages of the library: how examples and long tables are shown."""

from __future__ import annotations

import re
from typing import Any

import griffe

LONGEST_VALUE = 60
_EXAMPLE = re.compile(r"^(?:>>>|\.\.\.) ?.*(?:\n(?!\s*\n).+)*", re.MULTILINE)


class Examples(griffe.Extension):
    """Puts each run of examples between fences, since Markdown would take them for quotations."""

    def on_instance(self, *, obj: griffe.Object, **_: Any) -> None:
        """Change the docstring of one object."""
        if obj.docstring:
            obj.docstring.value = fenced(obj.docstring.value)


class ShortValues(griffe.Extension):
    """Leaves out the value of an attribute that is longer than a line, such as a table."""

    def on_attribute_instance(self, *, attr: griffe.Attribute, **_: Any) -> None:
        """Change one attribute."""
        if attr.value is not None and len(str(attr.value)) > LONGEST_VALUE:
            attr.value = None


def fenced(text: str) -> str:
    """Return the text of a docstring with a fence around each run of lines that begins with a prompt and ends with an empty line."""
    return _EXAMPLE.sub(lambda found: f"```python\n{found[0]}\n```", text)
