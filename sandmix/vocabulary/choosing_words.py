"""The words of choosing: what a bag says, what simple tests find, and what grinding and sieving leave."""

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
    Choice(name="stuff", label="What it is to be", choices={SAND: "sand", CLAY: "clay"}, help="Left empty: as the label says.", source="own"),
    Choice(name="bag_label", label="What the label says", choices={key: kind.label for key, kind in KINDS.items() if kind.label} | {UNKNOWN: "nothing, or none of these"},
           default=UNKNOWN, help="Read it to the end, and the small print for cement, scent, polymer and lime.", source="practice"),
    _test("vinegar", "Bubbles in vinegar", {YES: "yes", NO: "no"}, "A spoonful in clear vinegar."),
    _test("jar", "Jar of water after a minute", {CLEAR: "clear", CLOUDY: "cloudy"}, "A third of a jar, shaken with water and left to stand."),
    _test("grain_shape", "Grain under a lens", {ROUND: "round", SHARP: "sharp"}, "Or rub it between wet fingers: sharp grain scratches."),
    _test("swollen", "What stands in the swell test", {GEL: "a gel", GRIT: "grit at the bottom"}, "After a day in water."),
    _test("perfume", "Scent", {YES: "yes", NO: "no"}, "Smell at it, and read the label."),
    _pct("pebbles_pct", "Stays on the pebble sieve", "share of the dry sand, by weight", usual=(0.0, 40.0), source="practice",
         help="On a window screen or a kitchen sieve, about 1 to 1.5 mm."),
    Quantity(name="swell_ml", label="Swollen volume", unit="mL", basis="2 g in 100 mL of water, after a day", low=0.0, high=100.0, digits=0, step=1.0, source="swell_test",
             help="2 g of dry powder, a pinch at a time, into 100 mL of water: how high it stands the next day."),
    Choice(name="usability", label="Usable", choices=USABILITIES, help="The worst of all that was found.", source="own"),
    Sentence(name="test_first", label="Test first", help="What tells whether it is usable.", source="practice"),
    Rows(name="reasons", label="Why", row_label="reason", needed=("why", "usability", "origin"), source="practice",
         each=(
             Text(name="why", label="Why", longest=400),
             Choice(name="usability", label="It says", choices=USABILITIES),
             Text(name="origin", label="From", longest=400),
         ), help="From the worst."),
    _kg("bought_kg", "Bought", AS_BOUGHT, low=0.01, usual=(1.0, 250.0), error=SCALE, error_note=SCALE_NOTE, help="All of it, as it came."),
    _kg("ground_kg", "Ground or sieved", AS_BOUGHT, low=0.01, usual=(0.2, 100.0), error=SCALE, error_note=SCALE_NOTE, help="What went in: all of it, or a part to try."),
    _kg("passed_kg", "Passed the sieve", "as it comes from the sieve", usual=(0.1, 100.0), error=SCALE, error_note=SCALE_NOTE, help="What came through and can be used."),
    _kg("wanted_kg", "Wanted, ready to use", "ground and sieved", low=0.01, usual=(0.5, 250.0), help="What the mix asks for, as weighed."),
    _pct("yield_pct", "Left after grinding and sieving", "share of what went in", source="mass_balance", help="Sieved once, with the grinder you have. Lumps can go round again."),
    _kg("usable_kg", "Usable of what was bought", "ground and sieved", high=1e6, help="If the rest leaves as much as what was tried."),
    _kg("buy_kg", "To buy for it", AS_BOUGHT, high=1e9, help="If it leaves as much as what was tried."),
    _kg("live_clay_kg", "Live clay expected", "in what passed the sieve", high=1e6, help="A bracket: only the wash and dye test or the mould tells more."),
)
