"""Draw a word that holds several things as cards and small boxes: a table has a box for each key, rows have a card for each row.

One hidden box holds the whole as text; that text is what is stored, linked and sent.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from draw_tag import Markup, join, symbol, tag

Word = Mapping[str, Any]
ROWS_AT_FIRST = {"lots": 2}

FOLLOWS = {"cope_depth_mm": "drag_depth_mm"}
"""Boxes that take over what another box of their row says, until they have something of their own: most flasks have two halves of one depth."""


def parts(ask: Word, word: Word, help_button: Markup) -> Markup:
    """The boxes of a table or of rows, and the hidden one that holds the whole."""
    name, label = ask["word"], ask["label"]
    whole = tag("input", id=f"field-{name}", name=name, type="text", autocomplete="off", spellcheck="false",
                aria_label=f"{label}, as text", aria_describedby=f"problem-{name}", data_input=name)  # fmt: skip
    title = tag("div", tag("span", label, class_="parts-label", id=f"label-{name}"), class_="field-said")
    rows = word["kind"] == "rows"
    drawn = _rows(name, word) if rows else _table(word, data_table=True)
    return join(
        tag("div", title, help_button, class_="field-head"),
        tag("span", whole, class_="box", data_whole=True, hidden=True),
        tag(
            "div",
            drawn,
            role="group",
            aria_labelledby=f"label-{name}",
            data_parts=name,
            aria_describedby=f"hint-{name} problem-{name}",
        ),
        tag("p", "Without JavaScript you cannot enter anything here.", class_="hint without-script"),
        _helps(word) if rows else None,
    )


def in_words(word: Word, value: object) -> str:
    """The input of a worked example in words."""
    if word["kind"] == "table":
        return "; ".join(f"{word['keys'].get(key, key)}: {part}" for key, part in _pairs(value))
    rows: list[dict[str, object]] = json.loads(str(value))
    each = {part["name"]: part for part in word["each"]}
    return "; ".join(
        f"{_capital(word['row_label'])} {at}: "
        + ", ".join(_part_in_words(each[key], part) for key, part in row.items())
        for at, row in enumerate(rows, start=1)
    )


def _part_in_words(word: Word, value: object) -> str:
    if word["kind"] == "table":
        inner = ", ".join(f"{word['keys'].get(key, key)} {part}" for key, part in _pairs(value))
        return f"{_lower(word)} ({inner})"
    unit = f" {word['unit']}" if word.get("unit") and not isinstance(value, str) else ""
    return f"{_lower(word)} {value}{unit}"


def _pairs(value: object) -> list[tuple[str, object]]:
    if isinstance(value, Mapping):
        return list(value.items())
    return [(key.strip(), part.strip()) for key, _, part in (pair.partition(":") for pair in str(value).split(";"))]


def _rows(name: str, word: Word) -> Markup:
    label, least = word["row_label"], max(1, word["fewest"])
    add = tag(
        "button",
        f"Add {_one(label)}",
        type="button",
        class_="deed quiet",
        data_add=True,
    )
    held = tag("div", class_="part-rows", data_rows=name, data_first=max(least, ROWS_AT_FIRST.get(name, 1)), data_least=least,
               data_most=word["most"], data_called=_capital(label), data_left_out="left out while empty")  # fmt: skip
    return join(held, tag("template", _row(word), data_row_template=True), add)


def _row(word: Word) -> Markup:
    """One card: what every row needs, other figures, a name, folded tables. A card that comes filled in is folded to one line (rows.js)."""
    each = sorted(word["each"], key=lambda part: (part["name"] not in word["needed"], part["kind"] == "text"))
    tables = [part for part in each if part["kind"] == "table"]
    return tag(
        "fieldset",
        tag("legend", data_row_name=True),
        tag(
            "button",
            tag("span", data_row_said=True),
            symbol("on"),
            type="button",
            class_="row-unfold",
            data_unfold_row=True,
        ),
        tag("div", *(_cell(part) for part in each if part["kind"] != "table"), class_="cells"),
        *(_folded(part) for part in tables),
        tag("button", "Remove", type="button", class_="deed quiet", data_remove=True, data_sure="Tap again to remove"),
        class_="part-row",
        data_row=True,
    )


def _folded(word: Word) -> Markup:
    table = _table(word, data_table=word["name"], data_said=_lower(word))
    return tag("details", tag("summary", word["label"], symbol("on")), table, class_="more")


def _table(word: Word, **marks: object) -> Markup:
    """A small box for each key; and two boxes for each key of a person's own, if those are allowed."""
    cells = [
        _cell({"name": key, "label": label, "kind": "quantity", "unit": word["unit"], "as_key": True})
        for key, label in word["keys"].items()
    ]
    own = _own_keys(word["own"], word["each_label"], word["unit"]) if word["own"] else None
    return tag("div", tag("div", *cells, class_="cells"), own, **marks)


def _own_keys(own: Word, held: str, unit: str) -> Markup:
    """Rows for keys of a person's own, each with its amount, and the button that adds one."""
    key = {"name": "key", "label": own["key_label"], "kind": "text", "unit": own["unit"]}
    remove = tag("button", "Remove", type="button", class_="deed quiet", data_remove_own=True, data_sure="Tap again")
    row = tag(
        "div",
        tag("div", tag("b", data_own_name=True, aria_hidden="true"), remove, class_="own-key-head"),
        tag(
            "div", _cell(key), _cell({"name": "held", "label": held, "kind": "quantity", "unit": unit}), class_="cells"
        ),
        role="group",
        class_="own-key",
        data_own=True,
        data_bare=own["bare"],
        data_called=_capital(own["label"]),
    )
    rows = tag("div", class_="own-keys", data_own_keys=True)
    add = tag("button", _capital(_one(own["label"])), type="button", class_="deed quiet", data_add_own=True)
    return join(rows, tag("template", row, data_own_template=True), add)


def _cell(word: Word) -> Markup:
    basis = (" ", tag("span", word["basis"], class_="basis")) if word.get("basis") else ()
    label = tag("span", tag("b", word["label"]), *basis, class_="cell-said")
    if word["kind"] == "choice":
        options = [tag("option", "not chosen", value="")]
        options += [tag("option", choice["label"], value=choice["value"]) for choice in word["choices"]]
        return tag(
            "label", label, tag("select", *options, data_part=word["name"], data_said=_lower(word)), class_="cell"
        )
    number = word["kind"] in ("quantity", "count") and not word.get("names")
    box = tag("input", type="text", inputmode="decimal" if number else None, autocomplete="off", enterkeyhint="next",
              spellcheck="false", data_part=word["name"], data_unit=word.get("unit") or None, data_follows=FOLLOWS.get(word["name"]),
              data_said=word["label"] if word.get("as_key") else _lower(word))  # fmt: skip
    unit = tag("span", word["unit"], class_="unit") if word.get("unit") else None
    return tag("label", label, tag("span", box, unit, class_="box"), class_="cell")


def _helps(word: Word) -> Markup | None:
    """The help for the boxes of a row, once for all rows."""
    helped = [part for part in word["each"] if part["help"]]
    terms = [join(tag("dt", part["label"]), tag("dd", part["help"])) for part in helped]
    title = tag("summary", "Help for these boxes", symbol("on"))
    return tag("details", title, tag("dl", *terms), class_="more part-helps") if terms else None


def _lower(word: Word) -> str:
    label = str(word["label"])
    return label[:1].lower() + label[1:]


def _one(label: str) -> str:
    return f"{'an' if label[0] in 'aeiou' else 'a'} {label}"


def _capital(label: str) -> str:
    return label[:1].upper() + label[1:]
