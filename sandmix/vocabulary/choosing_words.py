"""The words of choosing materials: the label of a bag, simple tests, and the yield of grinding and sieving."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Choice, Quantity, Sentence, Word, quantities
from sandmix.materials.choosing import (  # fmt: skip
    CARE,
    CLAY,
    CLEAR,
    CLOUDY,
    GEL,
    GRIT,
    KINDS,
    NO,
    NOT_TRIED,
    NOT_USABLE,
    ROUND,
    SAND,
    SHARP,
    UNKNOWN,
    USABLE,
    YES,
)
from sandmix.vocabulary.mass_words import AS_BOUGHT, SCALE, SCALE_NOTE

USABILITIES = {USABLE: "usable", CARE: "usable with care", NOT_USABLE: "not usable"}
_UNTRIED = {NOT_TRIED: "not tried"}


_kg = quantities("kg", low=0.0, high=5000.0, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")
_pct = quantities("%", low=0.0, high=100.0, digits=0, units=("%",), step=5.0)


def _test(name: str, label: str, choices: dict[str, str], help: str) -> Choice:
    return Choice(name=name, label=label, choices=choices | _UNTRIED, default=NOT_TRIED, help=help, source="practice")


CHAPTER: tuple[Word, ...] = (
    Choice(name="stuff", label="What you need it for", choices={SAND: "sand", CLAY: "clay"}, help="Leave empty to go by the label.", source="own"),
    Choice(name="bag_label", label="What the label says", choices={key: kind.label for key, kind in KINDS.items() if kind.label} | {UNKNOWN: "nothing, or none of these"},
           default=UNKNOWN, help="Read the whole label, and the small print for cement, scent, polymer and lime.", source="practice"),
    _test("vinegar", "Sand bubbles in vinegar", {YES: "yes", NO: "no"}, "Put a spoonful of the sand into clear vinegar. It says nothing of a clay."),
    _test("clay_vinegar", "Clay bubbles in vinegar", {YES: "yes", NO: "no"}, "Put a spoonful of the clay into clear vinegar. It says nothing of a sand."),
    _test("smoke", "Smoke when heated", {YES: "yes", NO: "no"}, "Heat a spoonful red-hot in an old tin, outdoors, with the wind at your back."),
    _test("jar", "Jar of water after a minute", {CLEAR: "clear", CLOUDY: "cloudy"}, "Fill a third of a jar, shake it with water and let it stand."),
    _test("grain_shape", "Grain under a lens", {ROUND: "round", SHARP: "sharp"}, "Or rub it between wet fingers: sharp grain scratches."),
    _test("swollen", "Result of the swell test", {GEL: "a gel", GRIT: "grit at the bottom"}, "After a day in water."),
    _test("perfume", "Scent", {YES: "yes", NO: "no"}, "Smell it, and read the label."),
    _pct("pebbles_pct", "Stays on the pebble sieve", "share of the dry sand, by weight", usual=(0.0, 40.0), source="practice",
         help="Use a window screen or a kitchen sieve of about 1 to 1.5 mm."),
    Quantity(name="swell_ml", label="Swollen volume", unit="mL", typical=24.0, basis="2 g in 100 mL of water, after a day", low=0.0, high=100.0, digits=0, step=1.0, source="swell_test",
             help="Sprinkle 2 g of dry powder, a pinch at a time, into 100 mL of water. Read its volume the next day."),
    Choice(name="usability", label="Usable", choices=USABILITIES, help="The worst finding decides.", source="own"),
    Sentence(name="test_first", label="Test first", help="The test that shows whether it is usable.", source="practice"),
    Rows(name="reasons", label="Why", row_label="reason", needed=("why", "usability", "origin"), source="practice",
         each=(
             Text(name="why", label="Why", longest=400),
             Choice(name="usability", label="Usable", choices=USABILITIES),
             Text(name="origin", label="Source", longest=400),
         ), help="The worst finding first."),
    _kg("bought_kg", "Mass bought", AS_BOUGHT, low=0.01, usual=(1.0, 250.0), error=SCALE, error_note=SCALE_NOTE, help="All of it, as it came."),
    _kg("ground_kg", "Mass ground or sieved", AS_BOUGHT, low=0.01, usual=(0.2, 100.0), error=SCALE, error_note=SCALE_NOTE, help="What you put in: all of it, or a part as a trial."),
    _kg("passed_kg", "Mass that passed the sieve", "as it comes from the sieve", usual=(0.1, 100.0), error=SCALE, error_note=SCALE_NOTE, help="What came through and can be used."),
    _kg("wanted_kg", "Needed, ready to use", "ground and sieved", low=0.01, usual=(0.5, 250.0), help="What the mix needs."),
    _pct("yield_pct", "Yield of grinding and sieving", "share of what went in", source="mass_balance", help="Sieved once, with your grinder. Lumps can be ground again."),
    _kg("usable_kg", "Usable part of what you bought", "ground and sieved", high=1e6, help="If the rest gives the same share as the trial."),
    _kg("buy_kg", "Mass to buy", AS_BOUGHT, high=1e9, help="If it gives the same share as the trial."),
    _kg("live_clay_kg", "Live clay expected", "in what passed the sieve", high=1e6, help="A wide range. The wash, the dye test or a mould narrows it."),
)
