"""The list of materials on hand: what is wrong in it, and what the plan takes from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sandmix.language.words import Quantity
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.recipes.rebond_lp import ADDITIVE, StockMaterial
from sandmix.vocabulary import WORDS

Rows = Sequence[Mapping[str, object]]
MOISTURE_PCT = {"sand": 0.0, "clay": 10.0, "mix": 3.5, ADDITIVE: 0.0}
ACTIVITY_PCT = 100.0
_ASSUMED_AS = {"sand": "sand_moisture_pct_wet", "clay": "clay_moisture_pct_wet", "mix": "moisture_pct_wet"}


def names(rows: Rows) -> tuple[str, ...]:
    """Return what each material is called: its name, else its kind, numbered where that would not tell it apart."""
    kinds = [str(row["kind"]) for row in rows]
    return tuple(
        str(row.get("name") or (kind if kinds.count(kind) == 1 else f"{kind} {1 + kinds[:at].count(kind)}"))
        for at, (row, kind) in enumerate(zip(rows, kinds, strict=True))
    )


def materials(rows: Rows) -> tuple[StockMaterial, ...]:
    """Return the materials as fractions; what is left empty is taken as the words' help says."""
    return tuple(_material(row, name) for row, name in zip(rows, names(rows), strict=True))


def assumed_bands(row: Mapping[str, object]) -> Mapping[str, tuple[float, float]]:
    """Return the bands of what is taken for granted of one material, by the same words and errors as of the one sand and the one clay."""
    kind = str(row["kind"])
    bands = {}
    if row.get("moisture_pct_wet") is None and kind in _ASSUMED_AS:
        word = WORDS[_ASSUMED_AS[kind]]
        assert isinstance(word, Quantity)
        moisture = MOISTURE_PCT[kind]
        bands["moisture_pct_wet"] = word.band(moisture, word.half_width(moisture, assumed=True))
    if row.get("clay_activity_pct") is None and kind == "clay":
        bands["clay_activity_pct"] = CLAYS["sodium_bentonite"].activity_band_pct
    return bands


def faults(rows: Rows, *, window: bool) -> Iterable[tuple[str, str, str]]:
    """Yield what was given, what is allowed and what to do, for each material that can't be as said; *window*: fineness is asked for."""
    called = names(rows)
    for at, (row, name) in enumerate(zip(rows, called, strict=True)):
        if called.index(name) < at:
            yield name, "another name", f"two materials are called “{name}”. Give each a name of its own."
        for given, allowed, said in _wrong(row, window):
            yield given, allowed, f"“{name}”: {said}"


def _wrong(row: Mapping[str, object], window: bool) -> Iterable[tuple[str, str, str]]:
    kind = str(row["kind"])
    clay, dead = row.get("clay_pct_dry"), row.get("dead_fines_pct_dry")
    if kind == "clay" and (clay is not None or dead is not None):
        said = (
            "of a clay only the live share of the dry product is asked, and the rest is dead. Clear its other shares."
        )
        yield _pct(dead if clay is None else clay), "nothing", said
    elif kind == ADDITIVE and clay is not None:
        yield _pct(clay), "nothing", "an additive brings no live clay. Clear that, or call it a fresh mix."
    elif kind == "mix" and clay is None:
        yield "nothing", "0 to 100 %", "the live clay of a fresh mix is needed. Give it, as a share of its dry mass."
    elif _number(clay) + _number(dead) > 100:
        said = f"live clay and dead fines come to {_number(clay) + _number(dead):g} % of it. Together they are at most 100."
        yield _pct(dead), f"at most {100 - _number(clay):g} %", said
    if kind != "clay" and row.get("clay_activity_pct") is not None:
        said = "the live share of the product is asked of a clay alone. Clear it, and give its live clay of dry."
        yield _pct(row["clay_activity_pct"]), "nothing", said
    if row.get("price_per_kg") is not None and row.get("bag_price") is not None:
        said = "its price is said twice, a kilogram and a bag. Keep one and clear the other."
        yield f"{_number(row['price_per_kg']):g} and {_number(row['bag_price']):g}", "one price", said
    elif row.get("bag_price") is not None and row.get("bag_kg") is None:
        said = "a bag's price says nothing without what it holds. Give the bag too, or a price a kilogram."
        yield f"{_number(row['bag_price']):g}", "bag and price", said
    if window and kind in ("sand", "mix") and row.get("gfn") is None:
        said = "its fineness number is needed where a window is asked for. Give it, or clear the window."
        yield "nothing", "3 to 300", said


def _material(row: Mapping[str, object], name: str) -> StockMaterial:
    kind = str(row["kind"])
    live = _number(row.get("clay_pct_dry")) / 100
    dead = min(1 - live, _number(row.get("dead_fines_pct_dry")) / 100)
    if kind == "clay":
        live = _number(row.get("clay_activity_pct"), ACTIVITY_PCT) / 100
        dead = 1 - live
    stock, bag, gfn = row.get("stock_kg"), row.get("bag_price"), row.get("gfn")
    price = row.get("price_per_kg") if bag is None else _number(bag) / _number(row["bag_kg"])
    return StockMaterial(
        name=name,
        kind=kind,
        water=_number(row.get("moisture_pct_wet"), MOISTURE_PCT[kind]) / 100,
        grain=max(0.0, 1 - live - dead) if kind in ("sand", "mix") else 0.0,
        live=live,
        dead=dead,
        stock_kg=float("inf") if stock is None else _number(stock),
        price=None if price is None else _number(price),
        gfn=None if gfn is None else _number(gfn),
    )


def _number(value: object, otherwise: float = 0.0) -> float:
    return float(value) if isinstance(value, (int, float)) else otherwise


def _pct(value: object) -> str:
    return f"{_number(value):g} %"
