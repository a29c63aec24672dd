"""Whether a sand or a clay is usable, by its label and a few simple tests, as tables that a foundryman can read and correct.

The worst finding decides. A label that is not enough names the tests that the material must pass first, in order; until they are done
nothing is decided, unless a finding already rules the material out. Source: each row names its own.
"""

from __future__ import annotations

import math
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
"""From this share of pebbles on, another bag may be cheaper (own choice)."""
SODIUM_ML, MOST_ML = 24.0, 36.0
"""The volumes to which 2 g of sodium bentonite swell, in 100 mL of water. Source: swell_volumes."""
NEAR_ML = 1.0
"""How much two swell tests of one powder may differ (own choice)."""
OWN_FIGURES = {
    "natural_sand": (
        "The stop limits for water here are for washed sand with bentonite. For natural sand no limit is known here, and the figures for clay and "
        "water do not hold for it either. Go by its own tests: squeeze a handful, work it as dry as it still holds, vent it well, and pour a small "
        "open mould first."
    ),
    "used_sand": (
        "Its binder is unknown, so no limit for water, heat or clay is known here. Test a small heap by itself, vent it well, pour a small open "
        "mould first, and do not mix it into your own heap before that."
    ),
    "fire_clay": (
        "No figure for clay, water or burning here holds for it. Find its own: mix a few kilograms, and squeeze, shatter and pour a small mould "
        "before you make a heap."
    ),
}
"""What to do with materials whose figures are not those of washed sand with bentonite, by label (own rule)."""
_RANK = {USABLE: 0, CARE: 1, NOT_USABLE: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One finding: what follows from it, why, and its source."""

    usability: str
    why: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelKind:
    """One label: what it is, what follows from the label alone and why, the tests it must pass first, and which clay it then counts as."""

    key: str
    stuff: str
    label: str
    reason: Reason
    proof: tuple[str, ...] = ()
    clay: str = ""

    @property
    def has_own_figures(self) -> bool:
        """Whether its clay share, water and stop limits are not those of washed sand with bentonite, and not known here."""
        return self.key in OWN_FIGURES


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """The verdict (empty while undecided), the reasons from the worst on, and the test to do next if undecided."""

    usability: str
    reasons: tuple[Reason, ...]
    next_test: str


# fmt: off
_KINDS = (
    # key, stuff, label, usability by the label, tests it must pass first, counts as, source, why
    ("washed_silica", SAND, "washed or graded silica sand", USABLE, (), "", "practice",
     "Green sand is made of clean quartz of even size."),
    ("paving_sand", SAND, "kiln-dried paving sand", USABLE, ("vinegar",), "", "practice",
     "Kiln-dried sand for joints is mostly fine, dry quartz, but some is crushed limestone."),
    ("play_sand", SAND, "play sand", CARE, ("vinegar",), "", "practice",
     "Play sand is often good sand but almost always damp. Dry it, sieve the pebbles out, and count its water."),
    ("pool_filter_sand", SAND, "pool filter sand", CARE, (), "", "practice",
     "It is clean, coarse quartz: good to mix into a finer sand, but too rough alone."),
    ("builders_sand", SAND, "builder's, masonry or sharp sand", CARE, ("vinegar", "jar"), "", "practice",
     "It is sold as it was dug. Wash the silt out, dry it, and sieve the pebbles out."),
    ("river_sand", SAND, "river or pit sand, dug by yourself", CARE, ("vinegar", "jar"), "", "practice",
     "Dug sand contains silt, roots and mixed rock, and some minerals melt at lower temperatures than quartz. Wash it, dry it and sieve it."),
    ("beach_sand", SAND, "beach sand", CARE, ("vinegar", "jar"), "", "practice",
     "Beach sand is well rounded, but it contains salt and often shell. Wash it in fresh water more than once."),
    ("natural_sand", SAND, "natural moulding sand, dug with its own clay", CARE, (), "", "memory",
     "It brings its own clay, usually 12 to 18 % of the dry mass, and works at about 6 to 8 % water: far too wet for washed sand with bentonite."),
    ("used_sand", SAND, "used foundry sand, binder unknown", CARE, ("smoke", "jar"), "", "practice",
     "It was bound with clay, resin, oil or water glass, and nothing shows which. Ask the foundry. Hot resin and coal dust give off fumes."),
    ("olivine", SAND, "olivine sand", CARE, (), "", "memory",
     "Olivine makes good moulds and contains little free silica, but it is heavier and sharper than quartz. The figures here are for quartz."),
    ("zircon", SAND, "zircon sand", CARE, (), "", "memory",
     "Zircon is fine, round and expensive, and weighs almost twice as much as quartz. The figures here are for quartz. Keep it for facing."),
    ("blasting_grit", SAND, "blasting grit, slag or glass", NOT_USABLE, (), "", "practice",
     "Slag and glass are sharp and of unknown composition, and some kinds melt or give off fumes. Do not use it."),
    ("jointing_sand", SAND, "polymer jointing sand", NOT_USABLE, (), "", "practice",
     "It contains a glue that sets when it gets wet and burns to smoke."),
    ("sand_mix", SAND, "sand mix, mortar mix or concrete mix", NOT_USABLE, (), "", "practice",
     "It contains cement, which sets in the heap and burns skin and eyes when wet. Never use it; no test changes that."),
    ("unknown_sand", SAND, "", CARE, ("vinegar", "jar"), "", "practice",
     "Its origin is unknown. Look at it through a lens, sieve it, and try it in a small mould first."),
    ("sodium_bentonite", CLAY, "bagged sodium bentonite", USABLE, (), "sodium_bentonite", "vingas_zrimsek_1964",
     "It swells strongly and keeps its bond up to about 638 °C."),
    ("calcium_bentonite", CLAY, "bagged calcium bentonite", CARE, (), "calcium_bentonite", "vingas_zrimsek_1964",
     "It bonds well and swells little, but it loses its bond at about 316 °C, so more of it burns at each cast."),
    ("drilling_bentonite", CLAY, "drilling bentonite", CARE, ("swell",), "sodium_bentonite", "practice",
     "It is mostly sodium bentonite, but some kinds contain polymer, which makes slime and smoke. Read its data sheet."),
    ("pond_bentonite", CLAY, "pond or liner bentonite", USABLE, ("swell",), "sodium_bentonite", "practice",
     "It is sold because it swells. Chips and granules must be ground or soaked in water overnight."),
    ("granules", CLAY, "clay litter granules without scent", CARE, ("swell",), "clay_granules", "granules_data_sheet",
     "Only part of it is live, and it must be ground fine. Weigh what is left after sieving, and count its water (9 to 12 % of the mass as bought)."),
    ("scented_granules", CLAY, "clay litter granules with scent or baking soda", CARE, ("swell",), "clay_granules", "practice",
     "Scent and soda burn to smoke, and soda changes how the clay takes up water. A kind without them is better."),
    ("absorbent", CLAY, "absorbent granules for oil", CARE, ("swell",), "clay_granules", "practice",
     "Some kinds are bentonite; others are burnt clay or diatomaceous earth, which do not bond."),
    ("other_litter", CLAY, "litter of silica gel, wood or paper", NOT_USABLE, (), "", "practice",
     "It is not clay."),
    ("ball_clay", CLAY, "pottery or ball clay", NOT_USABLE, (), "", "practice",
     "It bonds far less than bentonite, needs more water and shrinks. The figures here do not apply to it."),
    ("fire_clay", CLAY, "fire clay", CARE, (), "", "memory",
     "It stands more heat than bentonite but bonds far less, so a mould needs about twice as much of it or more, and more water."),
    ("cement", CLAY, "cement, lime or plaster", NOT_USABLE, (), "", "practice",
     "It sets hard, burns skin and eyes when wet, and is not a bonding clay."),
    ("unknown_clay", CLAY, "", CARE, ("swell",), "clay_granules", "practice",
     "Its live share is unknown. Add it little by little, and try it in a small mould first."),
)

_RULES = (
    # stuff, test, result, usability, source, why
    (SAND, "vinegar", YES, NOT_USABLE, "practice", "It bubbles in vinegar: it contains shell or limestone, which gives off gas under hot metal."),
    (SAND, "vinegar", NO, USABLE, "practice", "No bubbles in vinegar: hardly any shell or limestone."),
    (CLAY, "clay_vinegar", YES, CARE, "practice", "It bubbles in vinegar: it contains limestone or soda, so less of it is clay."),
    (CLAY, "clay_vinegar", NO, USABLE, "practice", "No bubbles in vinegar: hardly any limestone or soda."),
    (SAND, "jar", CLEAR, USABLE, "practice", "The water in the jar is clear after a minute: little silt."),
    (SAND, "jar", CLOUDY, CARE, "practice", "The water in the jar is still cloudy after a minute: its fines take up water and do not bond. Wash it."),
    (SAND, "smoke", YES, NOT_USABLE, "practice", "It smokes or smells when heated: it contains resin, oil, glue or coal, and its fumes are unknown."),
    (SAND, "smoke", NO, USABLE, "practice", "No smoke when heated: hardly any resin, oil or coal."),
    (SAND, "grain_shape", ROUND, USABLE, "practice", "Round grains pack well and need the least clay."),
    (SAND, "grain_shape", SHARP, CARE, "practice", "Sharp grains need more clay and water and pack less evenly."),
    (CLAY, "swollen", GEL, USABLE, "practice", "It forms a gel."),
    (CLAY, "swollen", GRIT, CARE, "practice", "Grit lies at the bottom and does not bond. Grind the clay finer and sieve it."),
    (CLAY, "perfume", YES, CARE, "practice", "It is scented, and the scent burns to smoke at the mould. Pour outdoors and stand upwind."),
    (CLAY, "perfume", NO, USABLE, "practice", "No scent."),
)

SWELL_SCALE = (
    # from mL of 2 g in 100 mL, usability, source, why
    (math.nextafter(MOST_ML, math.inf), CARE, "own", "It swells more than sodium bentonite. Check the mass that went in, and the label for polymer."),
    (SODIUM_ML, USABLE, "swell_volumes", "It swells to 24 mL or more, like sodium bentonite, which keeps its bond up to about 638 °C."),
    (16.0, CARE, "own", "It swells less than sodium and more than calcium bentonite. Part of it is something else, or too coarse."),
    (5.0, CARE, "swell_volumes", "It swells about as much as calcium bentonite (around 8 mL), which loses its bond at about 316 °C."),
    (0.0, NOT_USABLE, "own", "It hardly swells, so it contains hardly any bentonite. If it was not ground to powder, grind it and test again."),
)
"""What the swelling of a clay shows, for *choose* and for the test of *bench* alike."""

NEXT_TESTS = {
    "vinegar": "Vinegar: put a spoonful into clear vinegar. Bubbles mean shell or limestone.",
    "smoke": (
        "Smoke: heat a spoonful red-hot in an old tin, outdoors, with the wind at your back. Smoke or a smell means resin, oil or coal. Let it "
        "cool before you touch it."
    ),
    "jar": "Jar: fill a third of a jar with it, add water and shake. After a minute, see whether the water is clear.",
    "swell": (
        "Swell: grind some to powder. Drop 2 g into 100 mL of water, a pinch every ten minutes. Read its volume after a day."
    ),
}
# fmt: on

KINDS = {
    key: LabelKind(
        key=key,
        stuff=stuff,
        label=label,
        reason=Reason(usability=usability, why=why, source=source),
        proof=proof,
        clay=clay,
    )
    for key, stuff, label, usability, proof, clay, source, why in _KINDS
}
"""What is known about each label, by key; the two with an empty label stand for sand and clay without one."""

TESTS = tuple(dict.fromkeys(test for _, test, *_ in _RULES))
"""The tests that have one of a few named results."""


def kind_of(stuff: str, bag_label: str) -> LabelKind:
    """Return what is known about a bag; without a label it is an unknown sand or clay."""
    return KINDS[f"unknown_{stuff}" if bag_label == UNKNOWN else bag_label]


def swell_reason(swell_ml: float) -> Reason:
    """Return what follows from the volume to which 2 g of a clay swell in 100 mL of water.

    >>> [swell_reason(ml).usability for ml in (30, 8, 3)]
    ['usable', 'usable_with_care', 'not_usable']
    """
    return next(
        Reason(usability=usability, why=why, source=source)
        for least, usability, source, why in SWELL_SCALE
        if swell_ml >= least
    )


def clay_of(kind: LabelKind, swell_ml: float | None) -> str:
    """Return the clay that it counts as in a mix; what is sold as sodium bentonite but swells less counts as calcium bentonite.

    >>> clay_of(KINDS["pond_bentonite"], 8), clay_of(KINDS["granules"], 8), clay_of(KINDS["fire_clay"], None)
    ('calcium_bentonite', 'clay_granules', '')
    """
    if kind.clay == "sodium_bentonite" and swell_ml is not None and swell_ml < SODIUM_ML:
        return "calcium_bentonite"
    return kind.clay


def is_near_a_border(swell_ml: float) -> bool:
    """Return whether one mL more or less could change the verdict."""
    return any(least and abs(swell_ml - least) < NEAR_ML for least, *_ in SWELL_SCALE)


def pebble_reason(pebbles_pct: float) -> Reason:
    """Return what follows where *pebbles_pct* of a sand stays on the pebble sieve."""
    if pebbles_pct >= MANY_PEBBLES_PCT:
        why = f"{pebbles_pct:g} % stays on the pebble sieve. Once the pebbles are out, this is expensive sand."
        return Reason(usability=CARE, why=why, source="own")
    return Reason(
        usability=USABLE, why=f"{pebbles_pct:g} % stays on the pebble sieve. Sieve the pebbles out.", source="practice"
    )


def judge(
    stuff: str,
    bag_label: str,
    found: Mapping[str, str],
    *,
    swell_ml: float | None = None,
    pebbles_pct: float | None = None,
) -> Judgement:
    """Return the judgement of a sand or clay from its label and from what each test *found*.

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
    ranked = tuple(sorted(reasons, key=lambda reason: -_RANK[reason.usability]))
    worst = ranked[0].usability
    open_tests = [test for test in kind.proof if not _is_done(test, found, swell_ml)]
    if worst == NOT_USABLE or not open_tests:
        return Judgement(usability=worst, reasons=ranked, next_test="")
    return Judgement(usability="", reasons=ranked, next_test=NEXT_TESTS[open_tests[0]])


def _found(stuff: str, found: Mapping[str, str]) -> Iterable[Reason]:
    for of, test, result, usability, source, why in _RULES:
        if of == stuff and found.get(test) == result:
            yield Reason(usability=usability, why=why, source=source)


def _is_done(test: str, found: Mapping[str, str], swell_ml: float | None) -> bool:
    if test == "swell":
        return swell_ml is not None or found.get("swollen") == GEL
    return found.get(test, NOT_TRIED) != NOT_TRIED


def yield_pct(ground_kg: float, passed_kg: float) -> float:
    """Return the share, in percent, of what was ground or sieved that passed the sieve.

    >>> yield_pct(2.0, 1.3)
    65.0
    """
    return 100 * passed_kg / ground_kg
