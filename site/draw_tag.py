"""HTML as text that is always escaped: the only place that writes angle brackets."""

from __future__ import annotations

from html import escape

VOID = frozenset({"input", "br", "hr", "link", "meta"})


class Markup(str):
    """Text that already is HTML and is not escaped again."""

    __slots__ = ()


def text(value: object) -> Markup:
    """The value as HTML: escaped, unless it already is markup."""
    return value if isinstance(value, Markup) else Markup(escape(str(value)))


def join(*parts: object) -> Markup:
    """The parts joined together; None is left out."""
    return Markup("".join(text(part) for part in parts if part is not None))


def tag(name: str, /, *parts: object, **attributes: object) -> Markup:
    """One element.

    An underscore in an attribute's name becomes a hyphen, and one at its end is dropped (`class_`, `for_`). True gives
    an attribute without a value; False and None leave it out.
    """
    written = "".join(_attribute(key, value) for key, value in attributes.items())
    if name in VOID:
        return Markup(f"<{name}{written}>")
    return Markup(f"<{name}{written}>{join(*parts)}</{name}>")


def symbol(name: str) -> Markup:
    """A small icon, for the eye only: the words are next to it."""
    shape = tag("path", d=SIGNS[name])
    return tag("svg", shape, class_="sign", viewBox="0 0 24 24", aria_hidden="true", focusable="false")


def _attribute(key: str, value: object) -> str:
    if value is None or value is False:
        return ""
    name = key.rstrip("_").replace("_", "-") if key != "viewBox" else key
    return f" {name}" if value is True else f' {name}="{escape(str(value))}"'


SIGNS = {
    "go": "M4 12.5 9.5 18 20 6.5",
    "care": "M12 3 22 20.5H2ZM12 9.5v5M12 17v.6",
    "stop": "M8 2.5h8L21.5 8v8L16 21.5H8L2.5 16V8ZM8 8l8 8M16 8l-8 8",
    "plain": "M5 12h14",
    "up": "M5 15.5 12 8.5 19 15.5",
    "down": "M5 8.5 12 15.5 19 8.5",
    "on": "M8.5 5 15.5 12 8.5 19",
    "back": "M15.5 5 8.5 12 15.5 19",
    "menu": "M3 6h18M3 12h18M3 18h18",
    "look": "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18ZM12 3v18M8.4 4.2v15.6M5 7v10",
    "settings": "M4 7h9M17 7h3M15 4.5v5M4 17h3M11 17h9M9 14.5v5",
    "find": "M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13ZM15.5 15.5 21 21",
}
