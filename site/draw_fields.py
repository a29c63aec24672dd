"""Draw a word as a field: label, box, steppers, unit chips, help, and a place for a problem.

Nothing is decided here: label, unit, range and default all come from the library's description.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from typing import Any

import checkout
import draw_pictures
import draw_rows
from draw_tag import Markup, join, symbol, tag

Word = Mapping[str, Any]
Ask = Mapping[str, Any]
FEW = 4
LONG_ENDING = re.compile(r"(?<=\w{4})(ability|itivity|ition|ation)\b")
SOFT_HYPHEN = "\u00ad"
NUMBER = re.compile(r"[\d.]+")


def field(ask: Ask, word: Word, only: Mapping[str, Any] | None = None) -> Markup:
    """One input of a form; *only* names the choice and the values for which it is shown."""
    drawers = {"choice": _choice, "flag": _flag, "rows": _parts, "table": _parts, "picks": _picks, "upload": _upload}
    draw = drawers.get(word["kind"], _box)
    return tag(
        "div",
        draw(ask, word),
        origin(ask["word"]),
        tag("p", hint(ask, word), class_="hint", id=f"hint-{ask['word']}"),
        tag("p", class_="strange", data_strange_words=True, hidden=True)
        if word["kind"] in ("choice", "picks")
        else None,
        tag("p", class_="problem", id=f"problem-{ask['word']}", data_problem=ask["word"], hidden=True),
        class_="field",
        data_field=ask["word"],
        data_kind=word["kind"],
        data_only=only["choice"] if only else None,
        data_only_for=" ".join(only["words"][ask["word"]]) if only else None,
    )


def origin(name: str) -> Markup:
    """Where the figure in a box is from, if it is known elsewhere, and a button to put it back or to have the own one back."""
    words = tag("span", data_slot="origin", id=f"origin-{name}")
    act = tag(
        "button",
        type="button",
        class_="deed quiet",
        data_carried_act=True,
        aria_describedby=f"origin-{name}",
        hidden=True,
    )
    return tag("p", words, " ", act, class_="carried", tabindex="-1", data_carried_line=True, hidden=True)


def way(choice: Mapping[str, Any], asks: Mapping[str, Ask], words: Mapping[str, Word]) -> Markup:
    """Several ways to give the same thing, as chips; only the fields of the chosen way are open."""
    name = choice["name"]
    chips = [
        chip(f"way-{name}", option["name"], option["label"], at == 0) for at, option in enumerate(choice["options"])
    ]
    panels = [
        tag(
            "div",
            *(field(asks[word], words[word]) for word in option["words"] if word in asks),
            class_="way-panel",
            data_option=option["name"],
            hidden=at > 0,
        )
        for at, option in enumerate(choice["options"])
    ]
    legend = tag("legend", choice["label"])
    return tag("fieldset", legend, tag("div", *chips, class_="chips"), *panels, class_="way", data_way=name)


def hint(ask: Ask, word: Word) -> Markup:
    """The help, the usual range, and the value used if the box is empty; both in each unit of the box, of which the chosen one is shown."""
    units = list(word.get("units") or [word.get("unit", "")])
    known = [
        tag("span", None if at else said, data_in_unit=unit, data_said=said, hidden=at > 0)
        for at, unit in enumerate(units)
        if (said := usual_and_default(ask, word, unit))
    ]
    if len(units) == 1:
        return join(" ".join(part for part in (ask["help"], usual_and_default(ask, word, units[0])) if part))
    return join(ask["help"], " " if ask["help"] and known else None, *known)


def usual_and_default(ask: Ask, word: Word, unit: str) -> str:
    """The range seen in practice and the default in words, in one of the word's units; or nothing."""
    span, default = ask.get("usual") or word.get("usual"), ask.get("default")
    said = []
    if span:
        low, high = (in_unit(end, word, unit, figures=2) for end in span)
        said.append(f"Usual: {low} to {with_unit(high, unit)}.")
    if default is not None and word["kind"] in ("quantity", "count"):
        said.append(f"Left empty: {with_unit(in_unit(default, word, unit), unit)}.")
    return " ".join(said)


@cache
def _converted(name: str, value: float, unit: str, to: str) -> str:
    request = {"job": "convert", "inputs": {"word": name, "given": {"value": value, "unit": unit}, "to": to}}
    return str(json.loads(checkout.door()(json.dumps(request)))["text"])


def in_unit(value: float, word: Word, unit: str, figures: int = 3) -> str:
    """A figure of a word in one of its units, to so many figures where it had to be converted."""
    if unit == word.get("unit", ""):
        return figure(value)
    text = _converted(word["name"], value, word["unit"], unit)
    return figure(float(f"{float(text):.{figures}g}")) if NUMBER.fullmatch(text) else text


def figure(value: float) -> str:
    """A number as a person writes it, without trailing zeros."""
    return f"{value:,.10g}".replace(",", "\u2009")


def with_unit(number: str, unit: str) -> str:
    """A number and its unit, kept on one line."""
    return f"{number}\u00a0{unit}" if unit else number


def _box(ask: Ask, word: Word) -> Markup:
    name, label, units = ask["word"], ask["label"], list(word.get("units") or [])
    number = word["kind"] in ("quantity", "count")
    box = tag(
        "input",
        id=f"field-{name}",
        name=name,
        type="text",
        inputmode="decimal" if number and not word.get("names") else None,
        autocomplete="off",
        enterkeyhint="next",
        spellcheck="false",
        aria_describedby=" ".join(f"{part}-{name}" for part in _spoken(word)),
        data_input=name,
        data_unit=word.get("unit"),
        data_step=word.get("step"),
        data_start=f"{ask['start']:.10g}" if "start" in ask else None,
    )
    unit = _unit(name, label, units)
    less = _stepper(name, label, "-1") if number else None
    more = _stepper(name, label, "1") if number else None
    basis = tag("span", word["basis"], class_="basis", id=f"basis-{name}") if word.get("basis") else None
    title = tag("div", tag("label", label, for_=f"field-{name}"), basis, class_="field-said")
    head = tag("div", title, _help(name, label), class_="field-head")
    row = tag("div", less, tag("span", box, unit, class_="box"), more, class_="field-row")
    return join(head, row, _units(name, label, units))


def _spoken(word: Word) -> list[str]:
    """What is spoken with the number of a box: its unit, its basis, where it is from, its help, and what is wrong."""
    own = {"unit": any(word.get("units") or ()), "basis": bool(word.get("basis"))}
    return [*(part for part, has in own.items() if has), "origin", "hint", "problem"]


def _parts(ask: Ask, word: Word) -> Markup:
    return draw_rows.parts(ask, word, _help(ask["word"], ask["label"]))


def _help(name: str, label: str) -> Markup:
    """The button that opens the help of a field; without JavaScript the help is open and the button hidden."""
    roles = {"aria_label": f"{label}: help", "aria_expanded": "false", "aria_controls": f"hint-{name}"}
    return tag("button", tag("span", "?"), type="button", class_="help", data_help=name, **roles)


def _unit(name: str, label: str, units: list[str]) -> Markup | None:
    """The unit after the number: plain text if there is only one, else a button that opens the chips."""
    if not units or not units[0]:
        return None
    if len(units) == 1:
        return tag("span", units[0], class_="unit", id=f"unit-{name}")
    spoken = (tag("span", f"{label}: unit ", class_="unseen"), tag("span", ", change it", class_="unseen"))
    shown = tag("span", units[0], id=f"unit-{name}", data_unit_shown=name)
    roles = {"aria_expanded": "false", "aria_controls": f"units-{name}"}
    return tag(
        "button",
        *(spoken[0], shown, spoken[1], symbol("down")),
        type="button",
        class_="unit unit-open",
        data_unit_open=name,
        **roles,
    )


def _units(name: str, label: str, units: list[str]) -> Markup | None:
    if len(units) < 2:
        return None
    chips = [chip(f"unit-{name}", unit, unit, at == 0) for at, unit in enumerate(units)]
    return tag(
        "div",
        *chips,
        class_="chips units",
        role="radiogroup",
        id=f"units-{name}",
        aria_label=f"Unit: {label}",
        data_units=name,
        hidden=True,
    )


def _choice(ask: Ask, word: Word) -> Markup:
    name, default = ask["word"], ask.get("default") or word.get("default")
    described = f"hint-{name} problem-{name}"
    if draw_pictures.has(name):
        return _tiles(ask, word, default)
    if len(word["choices"]) <= FEW:
        chips = [chip(name, choice["value"], choice["label"], choice["value"] == default) for choice in word["choices"]]
        group = tag("div", *chips, class_="chips", data_input=name)
        return _fieldset(ask, group, described)
    options = [
        tag("option", choice["label"], value=choice["value"], selected=choice["value"] == default)
        for choice in word["choices"]
    ]
    if default is None:
        options.insert(0, tag("option", "not known", value=""))
    box = tag("select", *options, id=f"field-{name}", name=name, data_input=name, aria_describedby=described)
    return join(tag("div", tag("label", ask["label"], for_=f"field-{name}"), class_="field-head"), box)


def _fieldset(ask: Ask, group: Markup, described: str) -> Markup:
    return tag(
        "fieldset",
        tag("legend", ask["label"]),
        group,
        class_="choice",
        id=f"field-{ask['word']}",
        aria_describedby=described,
    )


def _picks(ask: Ask, word: Word) -> Markup:
    """Any number of choices: tiles to tick."""
    return _tiles(ask, word, None)


def _tiles(ask: Ask, word: Word, chosen: str | None) -> Markup:
    """One choice or several: a tile each, with its picture if it has one, grouped by where it is seen."""
    name = ask["word"]
    groups = draw_pictures.groups(word)
    parts = [
        _tile_group(title, tag("div", *(_tile(word, choice, chosen) for choice in choices), class_="tiles"), at == 0)
        for at, (title, choices) in enumerate(groups)
    ]
    group = tag("div", *parts, class_="tile-groups", data_input=name)
    described = f"hint-{name} problem-{name}"
    return _fieldset(ask, group, described)


def _tile_group(title: str, tiles: Markup, first: bool) -> Markup:
    """Tiles under a title are folded but for the first group; the title says where something is picked (pictures.css)."""
    if not title:
        return tiles
    return tag("details", tag("summary", title, symbol("on")), tiles, class_="more tile-group", open=first)


def _tile(word: Word, choice: Mapping[str, str], chosen: str | None) -> Markup:
    name, key = word["name"], choice["value"]
    kind = "checkbox" if word["kind"] == "picks" else "radio"
    box = tag("input", type=kind, name=name, value=key, checked=key == chosen)
    picture = tag("span", draw_pictures.of(name, key), class_="tile-picture") if draw_pictures.has(name) else None
    words = tag("span", LONG_ENDING.sub(f"{SOFT_HYPHEN}\\1", choice["label"]), class_="tile-words")
    return tag("label", box, picture, words, class_="tile", data_tile=key)


def _upload(ask: Ask, word: Word) -> Markup:
    """A file, chosen or dropped: its name, the progress of reading it, and a note if a reload has lost it."""
    name = ask["word"]
    picker = tag(
        "input",
        id=f"field-{name}",
        type="file",
        accept=",".join(word["endings"]),
        aria_describedby=f"hint-{name} problem-{name}",
        class_="unseen-file",
        data_upload=name,
        data_most_bytes=str(word["most_bytes"]),
    )
    pick = tag("label", tag("span", "Choose a file", data_pick_words=True), for_=f"field-{name}", class_="deed pick")
    away = tag("button", "Remove it", type="button", class_="deed quiet", data_take_away=True)
    chosen = tag("p", tag("b", data_file_name=True), " ", tag("small", data_file_size=True), class_="chosen-name")
    lost = tag(
        "p",
        "The browser kept the answer, but not the file. Choose the file again to change anything.",
        class_="hint",
        data_file_lost=True,
        hidden=True,
    )
    under_way = tag(
        "div",
        tag("p", data_file_words=True),
        tag("progress", max="1", data_file_progress=True, aria_label=f"{ask['label']}: progress"),
        tag("button", "Cancel", type="button", class_="deed quiet", data_cancel=True),
        class_="under-way",
        data_under_way=True,
        hidden=True,
    )
    return join(
        tag("div", tag("label", ask["label"], for_=f"field-{name}"), class_="field-head"),
        tag(
            "div",
            tag("div", chosen, away, class_="chosen", data_chosen=True, hidden=True),
            lost,
            picker,
            pick,
            tag("p", "or drop it here", class_="drop-words"),
            under_way,
            class_="drop",
        ),
        tag("p", class_="unseen", role="status", data_file_said=True),
        tag("input", type="hidden", name=name, data_input=name),
    )


def _flag(ask: Ask, word: Word) -> Markup:
    name = ask["word"]
    described = f"hint-{name} problem-{name}"
    box = tag(
        "input",
        type="checkbox",
        name=name,
        data_input=name,
        checked=bool(ask.get("default")),
        aria_describedby=described,
    )
    return tag("label", box, tag("span", ask["label"]), class_="flag")


def chip(group: str | None, value: str, label: str, chosen: bool) -> Markup:
    """One choice of several next to each other; without a group the page's script names it."""
    return tag(
        "label", tag("input", type="radio", name=group, value=value, checked=chosen), tag("span", label), class_="chip"
    )


def _stepper(name: str, label: str, by: str) -> Markup:
    sign, meaning = ("−", "less") if by == "-1" else ("+", "more")
    return tag(
        "button", sign, type="button", class_="stepper", data_stepper=name, data_by=by, aria_label=f"{label}: {meaning}"
    )
