"""The list of materials on hand: the problems in it, and the materials for the plan."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sandmix.materials.sands_and_clays import CLAYS
from sandmix.recipes.rebond_lp import ADDITIVE, StockMaterial
from sandmix.vocabulary import quantity

Rows = Sequence[Mapping[str, object]]
MOISTURE_PCT = {"sand": 0.0, "clay": 10.0, "mix": 3.5, ADDITIVE: 0.0}
ACTIVITY_PCT = 100.0
_ASSUMED_AS = {"sand": "sand_moisture_pct_wet", "clay": "clay_moisture_pct_wet", "mix": "moisture_pct_wet"}


def names(rows: Rows) -> tuple[str, ...]:
    """Return the name of each material: as given, else its kind, with a number if several have the same kind."""
    kinds = [str(row["kind"]) for row in rows]
    return tuple(
        str(row.get("name") or (kind if kinds.count(kind) == 1 else f"{kind} {1 + kinds[:at].count(kind)}"))
        for at, (row, kind) in enumerate(zip(rows, kinds, strict=True))
    )


def materials(rows: Rows) -> tuple[StockMaterial, ...]:
    """Return the materials as fractions; an empty figure has the default that its help names."""
    return tuple(_material(row, name) for row, name in zip(rows, names(rows), strict=True))


def assumed_bands(row: Mapping[str, object]) -> Mapping[str, tuple[float, float]]:
    """Return the bands of the assumed figures of one material, with the same words and errors as for the one sand and the one clay."""
    kind = str(row["kind"])
    bands = {}
    if row.get("moisture_pct_wet") is None and kind in _ASSUMED_AS:
        word = quantity(_ASSUMED_AS[kind])
        moisture = MOISTURE_PCT[kind]
        bands["moisture_pct_wet"] = word.band(moisture, word.half_width(moisture, assumed=True))
    if row.get("clay_activity_pct") is None and kind == "clay":
        bands["clay_activity_pct"] = CLAYS["sodium_bentonite"].activity_band_pct
    return bands


def faults(rows: Rows, *, limits_fineness: bool) -> Iterable[tuple[str, str, str]]:
    """Yield what was given, what is allowed and what to do for each wrong material; *limits_fineness*: each sand needs its fineness."""
    called = names(rows)
    for at, (row, name) in enumerate(zip(rows, called, strict=True)):
        if called.index(name) < at:
            yield name, "another name", f"two materials are called “{name}”. Give each its own name."
        for given, allowed, what_to_do in _wrong(row, limits_fineness):
            yield given, allowed, f"“{name}”: {what_to_do}"


def _wrong(row: Mapping[str, object], limits_fineness: bool) -> Iterable[tuple[str, str, str]]:
    kind = str(row["kind"])
    clay, dead = row.get("clay_pct_dry"), row.get("dead_fines_pct_dry")
    together = _number(clay) + _number(dead)
    if kind == "clay" and (clay is not None or dead is not None):
        what_to_do = (
            "for a clay only the live share of the dry product counts; the rest is dead fines. Clear its other shares."
        )
        yield _pct(dead if clay is None else clay), "nothing", what_to_do
    elif kind == ADDITIVE and clay is not None:
        yield _pct(clay), "nothing", "an additive has no live clay. Clear it, or make the material a fresh mix."
    elif kind == "mix" and clay is None:
        yield "nothing", "0 to 100 %", "the live clay of a fresh mix is missing. Enter it as a share of the dry mass."
    elif together > 100:
        what_to_do = f"live clay and dead fines add up to {together:g} % of its dry mass. Together they can be at most 100 %. Check both."
        yield _pct(dead), f"at most {100 - _number(clay):g} %", what_to_do
    if kind != "clay" and row.get("clay_activity_pct") is not None:
        what_to_do = (
            "only a clay has a live share of the product. Clear it, and enter the live clay as a share of the dry mass."
        )
        yield _pct(row["clay_activity_pct"]), "nothing", what_to_do
    if row.get("price_per_kg") is not None and row.get("bag_price") is not None:
        prices = f"{_number(row['price_per_kg']):g} and {_number(row['bag_price']):g}"
        yield prices, "one price", "its price is given twice, per kilogram and per bag. Clear one of them."
    elif row.get("bag_price") is not None and row.get("bag_kg") is None:
        what_to_do = "the price of a bag needs the mass of a bag. Enter it, or enter a price per kilogram."
        yield f"{_number(row['bag_price']):g}", "bag and price", what_to_do
    if limits_fineness and kind in ("sand", "mix") and row.get("gfn") is None:
        what_to_do = "its fineness number is missing, and the fineness limits need it. Enter it, or clear the limits."
        yield "nothing", "3 to 300", what_to_do


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
