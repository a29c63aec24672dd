"""Is it usable: what a label and a few simple tests say of a sand or a clay, as tables that a foundryman can read and correct.

A judgement is the worst of all that was found. What a label alone can't settle names the tests it must pass first, in their order; until
they are done nothing is decided, unless something found already rules it out. Source: each row's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

SAND, CLAY = "sand", "clay"
USABLE, CARE, NOT_USABLE = "usable", "usable_with_care", "not_usable"
VERDICTS = (USABLE, CARE, NOT_USABLE)
UNKNOWN = "unknown"
YES, NO, NOT_TRIED = "yes", "no", "not_tried"
CLEAR, CLOUDY = "clear", "cloudy"
ROUND, SHARP = "round", "sharp"
GEL, GRIT = "gel", "grit"
MANY_PEBBLES_PCT = 30.0
"""From here so much is left on the pebble sieve that another bag may be cheaper (own choice)."""
SODIUM_ML = 24.0
"""What 2 g of sodium bentonite swell to at least, in 100 mL of water. Source: swell_volumes."""
NEAR_ML = 1.0
"""How far apart two swell tests of one powder may be (own choice)."""
_RANK = {USABLE: 0, CARE: 1, NOT_USABLE: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One thing found: what it says of the stuff, why, and where that is from."""

    says: str
    why: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelKind:
    """What stands on a bag: what it is, what that alone says and why, the tests it must pass first, and which clay it then counts as."""

    key: str
    stuff: str
    label: str
    reason: Reason
    proof: tuple[str, ...] = ()
    clay: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """What comes of it: the verdict or nothing while undecided, the reasons from the worst, and the test to do next if undecided."""

    usability: str
    reasons: tuple[Reason, ...]
    next_test: str


# fmt: off
_KINDS = (
    # key, stuff, label, what the label says, tests it must pass first, counts as, source, why
    ("washed_silica", SAND, "washed or graded silica sand", USABLE, (), "", "practice",
     "Clean quartz of even size is what green sand is made of."),
    ("paving_sand", SAND, "kiln-dried paving sand", USABLE, ("vinegar",), "", "practice",
     "Kiln-dried sand for joints is mostly fine, dry quartz, but some is crushed limestone."),
    ("play_sand", SAND, "play sand", CARE, ("vinegar",), "", "practice",
     "Play sand is often good sand, and nearly always damp: dry it, sieve the pebbles out, and count its water."),
    ("pool_filter_sand", SAND, "pool filter sand", CARE, (), "", "practice",
     "It is clean quartz and coarse: good to thin a fine sand, rough alone."),
    ("builders_sand", SAND, "builder's, masonry or sharp sand", CARE, ("vinegar", "jar"), "", "practice",
     "It comes as it was dug: wash the silt out, dry it, sieve the pebbles out."),
    ("river_sand", SAND, "river or pit sand, dug by yourself", CARE, ("vinegar", "jar"), "", "practice",
     "Dug sand holds silt, roots and mixed rock. Wash it, dry it, sieve it; some minerals melt below quartz."),
    ("beach_sand", SAND, "beach sand", CARE, ("vinegar", "jar"), "", "practice",
     "Beach sand is well rounded, and holds salt and often shell. Wash it in fresh water more than once."),
    ("olivine", SAND, "olivine sand", CARE, (), "", "memory",
     "Olivine makes good moulds and holds little free silica, but is heavier and sharper than quartz: figures here are for quartz."),
    ("zircon", SAND, "zircon sand", CARE, (), "", "memory",
     "Zircon is fine, round and dear, and weighs nearly twice what quartz does: figures here are for quartz. Keep it for facing."),
    ("blasting_grit", SAND, "blasting grit, slag or glass", NOT_USABLE, (), "", "practice",
     "Slag and glass are sharp, of unknown make-up, and some melts or fumes. Leave it."),
    ("jointing_sand", SAND, "polymer jointing sand", NOT_USABLE, (), "", "practice",
     "It holds a glue that sets when it gets wet, and burns to smoke."),
    ("sand_mix", SAND, "sand mix, mortar mix or concrete mix", NOT_USABLE, (), "", "practice",
     "It holds cement, which sets in the heap and burns skin and eyes when wet. Not usable at any price, and no test changes that."),
    ("unknown_sand", SAND, "", CARE, ("vinegar", "jar"), "", "practice",
     "Nobody knows where it is from: look through a lens, sieve it, and try it in a small mould first."),
    ("sodium_bentonite", CLAY, "bagged sodium bentonite", USABLE, (), "sodium_bentonite", "vingas_zrimsek_1964",
     "It swells much and keeps its bond up to about 638 °C."),
    ("calcium_bentonite", CLAY, "bagged calcium bentonite", CARE, (), "calcium_bentonite", "vingas_zrimsek_1964",
     "It bonds well and swells little, but loses its bond at about 316 °C: more burns at each cast."),
    ("drilling_bentonite", CLAY, "drilling bentonite", CARE, ("swell",), "sodium_bentonite", "practice",
     "It is mostly sodium bentonite; some holds polymer, which makes slime and smoke. Read its data sheet."),
    ("pond_bentonite", CLAY, "pond or liner bentonite", USABLE, ("swell",), "sodium_bentonite", "practice",
     "It is sold to swell. Chips and granules must be ground or slaked overnight."),
    ("granules", CLAY, "clay litter granules without scent", CARE, ("swell",), "clay_granules", "granules_data_sheet",
     "Only part of it is live, and it is lumps until ground fine: weigh what is left, and count its water, 9 to 12 %."),
    ("scented_granules", CLAY, "clay litter granules with scent or baking soda", CARE, ("swell",), "clay_granules", "practice",
     "Scent and soda go up in smoke, and soda changes how the clay takes water. Better without."),
    ("absorbent", CLAY, "absorbent granules for oil", CARE, ("swell",), "clay_granules", "practice",
     "Some are bentonite, some burnt clay or fossil earth, which bind nothing."),
    ("other_litter", CLAY, "litter of silica gel, wood or paper", NOT_USABLE, (), "", "practice",
     "It is no clay."),
    ("ball_clay", CLAY, "pottery or ball clay", NOT_USABLE, (), "", "practice",
     "It binds far less than bentonite, takes more water and shrinks: none of the figures here hold for it."),
    ("fire_clay", CLAY, "fire clay", NOT_USABLE, (), "", "practice",
     "It stands heat, but binds far less than bentonite: none of the figures here hold for it."),
    ("cement", CLAY, "cement, lime or plaster", NOT_USABLE, (), "", "practice",
     "It sets hard, burns skin and eyes when wet, and is no clay."),
    ("unknown_clay", CLAY, "", CARE, ("swell",), "clay_granules", "practice",
     "Nobody knows how much of it is live: add it little by little, and try it in a small mould first."),
)

_RULES = (
    # stuff, test, what was found, what that says, source, why
    (SAND, "vinegar", YES, NOT_USABLE, "practice", "It bubbles in vinegar: shell or limestone, which gasses under hot metal."),
    (SAND, "vinegar", NO, USABLE, "practice", "No bubbles in vinegar: no shell or limestone to speak of."),
    (CLAY, "vinegar", YES, CARE, "practice", "It bubbles in vinegar: it holds limestone or soda, so less of it is clay."),
    (CLAY, "vinegar", NO, USABLE, "practice", "No bubbles in vinegar: no limestone or soda to speak of."),
    (SAND, "jar", CLEAR, USABLE, "practice", "The jar is clear after a minute: little silt."),
    (SAND, "jar", CLOUDY, CARE, "practice", "The jar is still cloudy after a minute: fines that drink water and bind nothing. Wash it."),
    (SAND, "grain_shape", ROUND, USABLE, "practice", "Round grain packs well and wants the least clay."),
    (SAND, "grain_shape", SHARP, CARE, "practice", "Sharp grain wants more clay and water and packs less evenly."),
    (CLAY, "swollen", GEL, USABLE, "practice", "It stands as a gel."),
    (CLAY, "swollen", GRIT, CARE, "practice", "Grit lies at the bottom: grind it finer and sieve it, since grit binds nothing."),
    (CLAY, "perfume", YES, CARE, "practice", "It smells of scent: that goes up in smoke at the mould. Pour outdoors, upwind."),
    (CLAY, "perfume", NO, USABLE, "practice", "No scent."),
)

_SWELL = (
    # from mL of 2 g in 100 mL, what that says, source, why
    (SODIUM_ML, USABLE, "swell_volumes", "It swells as sodium bentonite does, to 24 mL or more."),
    (16.0, CARE, "own", "It swells less than sodium bentonite and more than calcium: part is something else, or too coarse."),
    (5.0, CARE, "swell_volumes", "It swells about as calcium bentonite does, to some 8 mL: its bond is gone at about 316 °C."),
    (0.0, NOT_USABLE, "own", "It hardly swells: no bentonite to speak of. If it was not ground to powder, grind it and do the test again."),
)

NEXT_TESTS = {
    "vinegar": "Vinegar: a spoonful in clear vinegar. Bubbles mean shell or limestone.",
    "jar": "Jar: shake a third of a jar of it with water, let it stand, and look after a minute whether the water is clear.",
    "swell": (
        "Swell: grind some to powder, let 2 g fall into 100 mL of water a pinch at a time, ten minutes apart, and read its height after a day."
    ),
}
# fmt: on

KINDS = {
    key: LabelKind(
        key=key,
        stuff=stuff,
        label=label,
        reason=Reason(says=says, why=why, source=source),
        proof=proof,
        clay=clay,
    )
    for key, stuff, label, says, proof, clay, source, why in _KINDS
}
"""All that is known of labels, by key; the two without a label stand for no label at all."""

TESTS = tuple(dict.fromkeys(test for _, test, *_ in _RULES))
"""The tests that find one of a few named things."""


def kind_of(stuff: str, bag_label: str) -> LabelKind:
    """Return what is known of a bag; one whose label says nothing is an unknown sand or clay."""
    return KINDS[f"unknown_{stuff}" if bag_label == UNKNOWN else bag_label]


def swell_reason(swell_ml: float) -> Reason:
    """Return what the swollen volume of 2 g in 100 mL of water says of a clay.

    >>> swell_reason(30).says, swell_reason(8).says, swell_reason(3).says
    ('usable', 'usable_with_care', 'not_usable')
    """
    return next(Reason(says=says, why=why, source=source) for least, says, source, why in _SWELL if swell_ml >= least)


def clay_of(kind: LabelKind, swell_ml: float | None) -> str:
    """Return which clay of a mix it then counts as; one sold as sodium bentonite that swells less counts as calcium bentonite.

    >>> clay_of(KINDS["pond_bentonite"], 8), clay_of(KINDS["granules"], 8), clay_of(KINDS["fire_clay"], None)
    ('calcium_bentonite', 'clay_granules', '')
    """
    if kind.clay == "sodium_bentonite" and swell_ml is not None and swell_ml < SODIUM_ML:
        return "calcium_bentonite"
    return kind.clay


def is_near_a_border(swell_ml: float) -> bool:
    """Return whether one mL more or less could say another thing."""
    return any(least and abs(swell_ml - least) < NEAR_ML for least, *_ in _SWELL)


def pebble_reason(pebbles_pct: float) -> Reason:
    """Return what is said of a sand of which *pebbles_pct* stays on a sieve for pebbles."""
    if pebbles_pct >= MANY_PEBBLES_PCT:
        why = f"{pebbles_pct:g} % stays on the pebble sieve: dear sand once they are out."
        return Reason(says=CARE, why=why, source="own")
    return Reason(says=USABLE, why=f"{pebbles_pct:g} % stays on the pebble sieve: sieve it out.", source="practice")


def judge(
    stuff: str,
    bag_label: str,
    found: Mapping[str, str],
    *,
    swell_ml: float | None = None,
    pebbles_pct: float | None = None,
) -> Judgement:
    """Return what is to be thought of a *stuff*, from its label and what the tests *found*, by test.

    >>> judge("clay", "granules", {}).next_test.split(":")[0]
    'Swell'
    >>> judge("clay", "granules", {}, swell_ml=28).usability
    'usable_with_care'
    >>> judge("sand", "sand_mix", {"vinegar": "no", "jar": "clear"}).usability
    'not_usable'
    """
    kind = kind_of(stuff, bag_label)
    reasons = [kind.reason, *_found(stuff, found)]
    if swell_ml is not None and stuff == CLAY:
        reasons.append(swell_reason(swell_ml))
    if pebbles_pct is not None and stuff == SAND:
        reasons.append(pebble_reason(pebbles_pct))
    ranked = tuple(sorted(reasons, key=lambda reason: -_RANK[reason.says]))
    worst = ranked[0].says
    open_tests = [test for test in kind.proof if not _is_done(test, found, swell_ml)]
    if worst == NOT_USABLE or not open_tests:
        return Judgement(usability=worst, reasons=ranked, next_test="")
    return Judgement(usability="", reasons=ranked, next_test=NEXT_TESTS[open_tests[0]])


def _found(stuff: str, found: Mapping[str, str]) -> Iterable[Reason]:
    for of, test, what, says, source, why in _RULES:
        if of == stuff and found.get(test) == what:
            yield Reason(says=says, why=why, source=source)


def _is_done(test: str, found: Mapping[str, str], swell_ml: float | None) -> bool:
    if test == "swell":
        return swell_ml is not None or found.get("swollen") == GEL
    return found.get(test, NOT_TRIED) != NOT_TRIED


def yield_pct(ground_kg: float, passed_kg: float) -> float:
    """Return how much of what was ground or sieved came through, in percent.

    >>> yield_pct(2.0, 1.3)
    65.0
    """
    return 100 * passed_kg / ground_kg
