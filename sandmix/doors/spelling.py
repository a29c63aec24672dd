"""How words are spelled where a person types them: as options of the command line and as keywords in Python.

An option is the word without its unit, with dashes for underscores: ``--heap`` for ``heap_kg``. Words in % or N keep their whole name.
The whole word always works, with dashes or underscores. In Python the same spellings are keywords: ``heap`` and ``heap_kg``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from sandmix.asking.form import Ask, asks
from sandmix.book.events import KINDS
from sandmix.language.tables import Rows, Table
from sandmix.language.texts import is_finite, of_text

_UNITS = (
    "_m_s", "_kg", "_g", "_l", "_ml", "_mm", "_cm", "_mm2", "_cm2", "_m2", "_cm3", "_c", "_s", "_min", "_h", "_kpa", "_w_m2k", "_mj",
)  # fmt: skip
"""The units that an option drops from the end of its word: all but percent and newton (beside ``load_kg`` stands ``load_n``)."""
NEAR = 0.75
"""How like a name must be to be suggested: the letters in common, in their order, as a share of all in both (own choice)."""
SHORTEST_START = 3
"""So many letters of a longer name are enough to suggest it (own choice)."""
_FLASK_SIZES = ("flask_length_mm", "flask_width_mm", "drag_depth_mm", "cope_depth_mm")
FLASKS = "“small: 290 x 200 x 90 + 90 mm; large: …” (length, width, drag and cope inside)"
"""How flasks are typed in short, as the help shows it."""
_SIZE = r"\d+(?:[.,]\d+)?"
_FLASK = re.compile(
    rf"(?:(?P<name>[^:]*?)\s*:)?\s*(?P<length>{_SIZE})\s*[x×]\s*(?P<width>{_SIZE})\s*[x×]\s*(?P<drag>{_SIZE})"
    rf"(?:\s*\+\s*(?P<cope>{_SIZE}))?\s*(?P<unit>mm|cm|in)?",
    re.IGNORECASE,
)


def option(word: str) -> str:
    """Return the option for *word*, as help shows it.

    >>> option("heap_kg"), option("moisture_pct_wet"), option("rammed_density_kg_l"), option("wind_m_s")
    ('--heap', '--moisture-pct-wet', '--rammed-density', '--wind')
    """
    return options(word)[0]


def options(word: str) -> tuple[str, ...]:
    """Return all spellings of the option for *word*, the shortest first: its units may be left off, one after the other."""
    stems = [word]
    while unit := next((unit for unit in _UNITS if stems[-1].endswith(unit)), ""):
        stems.append(stems[-1].removesuffix(unit))
    return tuple(_dashed(stem) for stem in reversed(stems))


def options_of(words: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Return the spellings for all *words* of one command; one that is the whole name of another word belongs to that word."""
    whole = {word: _dashed(word) for word in words}
    return {
        word: tuple(said for said in options(word) if said == whole[word] or said not in whole.values())
        for word in whole
    }


def event_options() -> dict[str, tuple[str, ...]]:
    """Return the spellings for the words of all kinds of event, by which *heap* records one."""
    return options_of(event_words())


def event_words() -> dict[str, Ask]:
    """Return the words of all kinds of event; where several kinds ask for a word, the first says how."""
    return {word: part for kind in reversed([*KINDS.values()]) for word, part in asks(kind.form).items()}


def _dashed(name: str) -> str:
    return "--" + name.replace("_", "-")


def keywords_of(words: Iterable[str]) -> dict[str, str]:
    """Return, by each keyword of Python, the word of one job that it means.

    >>> keywords_of(["heap_kg", "moisture_pct_wet"])
    {'heap': 'heap_kg', 'heap_kg': 'heap_kg', 'moisture_pct_wet': 'moisture_pct_wet'}
    """
    return {
        said.removeprefix("--").replace("-", "_"): word
        for word, spellings in options_of(words).items()
        for said in spellings
    }


def flasks_of(text: str) -> list[dict[str, str]]:
    """Return the flasks of a text such as ``small: 290 x 200 x 90 + 90 mm``, several with ; between them; none if it is not written so.

    Length, width and depth of the drag; after the + the depth of the cope, if it has one.

    >>> flasks_of("small: 290 x 200 x 90 + 85 mm")[0]["cope_depth_mm"], flasks_of("[]")
    ('85 mm', [])
    """
    found = [_FLASK.fullmatch(part.strip()) for part in text.strip(" ;").split(";")]
    rows = []
    for one in found:
        if one is None:
            return []
        *sides, cope = one.group("length", "width", "drag", "cope")
        sizes = zip(_FLASK_SIZES, (*sides, cope or "0"), strict=True)
        rows.append({"name": one["name"] or ""} | {word: f"{size} {one['unit'] or 'mm'}" for word, size in sizes})
    return rows


def typed(word: str, value: str) -> str:
    """Return the value of a word as a person types it here: flasks in short, if each has its four sizes in mm.

    >>> typed("flasks", '[{"flask_length_mm": 290.0, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 85}]')
    '290 x 200 x 90 + 85 mm'
    """
    rows = of_text(value) if word == "flasks" else None
    if not isinstance(rows, list) or not all(isinstance(row, dict) and _has_sizes(row) for row in rows):
        return value
    return "; ".join(
        (f"{row['name']}: " if row.get("name") else "")
        + "{:g} x {:g} x {:g} + {:g} mm".format(*(row[size] for size in _FLASK_SIZES))
        for row in rows
    )


def _has_sizes(row: Mapping[str, object]) -> bool:
    """Whether a flask has four sizes in mm, and a name that can be written in short."""
    return all(isinstance(row.get(size), (int, float)) for size in _FLASK_SIZES) and not {":", ";"} & {
        *str(row.get("name", ""))
    }


def content_of(part: Ask | None, given: object) -> object:
    """Return what was typed for a table or list, written in JSON or by hand, as data; anything else stays as it is, to be read or refused."""
    if part is None or not isinstance(given, str) or not isinstance(part.word, (Table, Rows)):
        return given
    data = (flasks_of(given) if part.word.name == "flasks" else None) or of_text(given)
    return data if is_finite(data) else given


def quoted(value: str) -> str:
    """Return a value as a shell reads it as one, if it holds no dollar sign and no quotes of both kinds."""
    return f"'{value}'" if '"' in value else f'"{value}"'


def nearest(given: str, names: Iterable[str]) -> str:
    """Return a question after the name that begins with what was given or is most like it, or nothing. Dashes before a name don't count.

    >>> nearest("pored", ("poured", "mixed")), nearest("--grail", ("--again", "--flasks"))
    (' Did you mean poured?', '')
    """
    stem, by_stem = given.lstrip("-"), {name.lstrip("-"): name for name in names}
    longer = [known for known in by_stem if len(stem) >= SHORTEST_START and known.startswith(stem)]
    near = sorted(longer, key=len) or get_close_matches(stem, by_stem, n=1, cutoff=NEAR)
    return f" Did you mean {by_stem[near[0]]}?" if near else ""
