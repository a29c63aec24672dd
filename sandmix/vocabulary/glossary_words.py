"""The glossary: trade words that people meet on a screen, each with its meaning in one or two sentences.

A meaning is written once. Where the help of a word of the vocabulary already gives it, the term names that word (`meant_by`)
and has no text of its own. The meanings are common usage in foundries and have no source.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A trade word: its name, how else a text writes it, and its meaning, or else the word of the vocabulary whose help has it."""

    name: str
    forms: tuple[str, ...] = ()
    says: str = ""
    meant_by: str = ""

    @property
    def key(self) -> str:
        """The name as a part of an address.

        >>> Term(name="live clay").key
        'live-clay'
        """
        return self.name.replace(" ", "-")

    @property
    def written(self) -> tuple[str, ...]:
        """Every way in which a text writes the term, the name first."""
        return (self.name, *self.forms)


def _term(name: str, says: str, *forms: str) -> Term:
    return Term(name=name, says=says, forms=forms)


def _as(name: str, word: str, *forms: str) -> Term:
    return Term(name=name, meant_by=word, forms=forms)


_SAND = (
    _term("green sand", "Moulding sand made of sand, clay and water. It is used damp, so nothing is baked: that is what green means."),
    _term("heap", "The sand that you keep and use again for every casting."),
    _as("live clay", "clay_pct_dry"),
    _as("dead clay", "dead_clay_pct_dry"),
    _as("dead fines", "dead_fines_pct_dry"),
    _term("bentonite", "A clay that swells in water and bonds the grains of sand. Foundries use the sodium and the calcium kind."),
    _term("seacoal", "Finely ground soft coal in the sand. It burns at the hot metal and gives iron castings a cleaner skin.", "coal dust"),
    _term("crust", "The burnt sand next to a casting. Much of its clay no longer bonds."),
    _term("facing", "Fine fresh sand in a layer on the pattern. It meets the metal."),
    _term("backing", "The ordinary sand that fills the flask behind the facing."),
)
_WATER = (
    _as("moisture", "moisture_pct_wet"),
    _term("wet mass", "Sand with all its water, as it lies on the scale. A percent of the wet mass is a share of that."),
    _term("dry mass", "Sand, clay and fines without the water. A percent of the dry mass is a share of that.", "dry mix"),
    _term("temper", "To bring sand to the water that it needs for moulding, and let the water soak into the clay.", "tempers", "tempered", "tempering"),
    _term("mull", "To knead and press damp sand so that clay and water coat every grain.", "mulls", "mulled", "mulling"),
    _term("riddle", "To shake sand through a coarse sieve, so that lumps and metal stay behind.", "riddles", "riddled", "riddling"),
    _term("ram", "To pack sand around the pattern with blows of a rammer.", "rams", "rammed", "ramming"),
)
_TESTS = (
    _as("compactability", "compactability_pct"),
    _term("permeability", "How easily air passes through rammed sand. Sand with more of it lets gas out faster."),
    _term("green strength", "The pressure that crushes a fresh, damp specimen of rammed sand."),
    _term("grain fineness number", "One number for how fine a sand is, worked out from a sieve test. A larger number means finer sand.", "fineness number", "fineness numbers"),
    _term("loss on ignition", "The share of its mass that dry sand loses when it is heated to bright red. It shows how much coal and other organic matter the sand holds."),
    _term("methylene blue", "A dye that clay takes up as long as it can bond. How much dye a sand takes gives its live clay."),
    _term("swell test", "A pinch of clay stands in water for a day. Good bentonite swells to many times its volume."),
)
_MOULD = (
    _term("flask", "The frame, without a bottom, in which a mould is rammed. It has two halves.", "flasks"),
    _term("cope", "The upper half of the flask and of the mould.", "copes"),
    _term("drag", "The lower half of the flask and of the mould.", "drags"),
    _term("cavity", "The hollow that the pattern leaves in the sand. The metal fills it.", "cavities"),
    _term("parting", "The face where cope and drag meet and the mould opens.", "parting line", "parting face", "partings"),
    _term("parting dust", "A dry powder on the parting and the pattern, so that sand does not stick there.", "parting powder"),
    _term("draft", "The slight slope of upright sides that lets a pattern out of the sand."),
    _term("undercut", "A place where sand hooks behind the pattern, so that the pattern cannot come straight out.", "undercuts"),
    _term("core", "A separate body of sand in the mould that keeps a hollow in the casting.", "cores"),
    _term("core print", "The part of a pattern that presses a seat for the end of a core into the sand.", "core prints"),
    _term("strike off", "To draw a straight bar over the flask, so that the sand is level with its edge.", "struck off", "striking off"),
    _term("vent", "A thin hole pricked into the sand, or the way between its grains, through which gas leaves the mould.", "vents", "venting"),
    _term("shrinkage", "The volume that metal loses while it cools and freezes. The riser makes up for the loss in the liquid."),
    _as("projected area", "projected_area_cm2"),
    _as("uplift", "uplift_kg"),
)
_METAL = (
    _term("head", "The height of the liquid metal above a place in the mould. More head means more pressure.", "head of metal"),
    _term("pouring cup", "The wide opening on top of the sprue that takes the metal from the crucible.", "pouring cups"),
    _term("sprue", "The upright channel through which metal falls into the mould.", "sprues"),
    _term("runner", "The level channel from the foot of the sprue to the gates.", "runners"),
    _term("gate", "The opening through which metal enters the cavity.", "gates"),
    _term("gating", "All channels for the metal: sprue, runners and gates."),
    _as("choke", "choke_mm2", "chokes"),
    _term("riser", "A store of liquid metal on the casting. It freezes last and fills the space that shrinkage leaves.", "risers"),
    _term("neck", "The short link between a riser and the casting."),
    _term("modulus", "The volume of a part divided by the surface that cools it. A part with a larger modulus freezes later.", "moduli"),
    _term("chill", "A piece of metal in the mould that makes the casting freeze faster there.", "chills"),
    _term("charge", "The metal that goes into the crucible for one melt.", "charges"),
    _term("superheat", "How much hotter liquid metal is than the temperature at which it begins to freeze."),
    _term("liquidus", "The temperature at which a cooling metal begins to freeze."),
    _term("solidus", "The temperature at which a cooling metal is solid throughout."),
    _term("dross", "Oxide and dirt on liquid metal. Skim it off before you pour."),
    _term("slag", "Molten oxides that float on liquid iron or bronze, and the glass that they become when they are cold."),
    _term("fettle", "To saw off the gating and clean up a casting.", "fettles", "fettled", "fettling"),
)
_DEFECTS = (
    _term("misrun", "A casting with a part missing, because the metal froze before it filled the mould.", "misruns"),
    _term("cold shut", "A seam in a casting where two streams of metal met too cold to join.", "cold shuts"),
    _term("blow hole", "A smooth round hollow that gas left in a casting.", "blow holes", "blowhole", "blowholes"),
    _term("pin holes", "Many small round holes from gas, in or just under the skin of a casting.", "pin hole", "pinhole", "pinholes"),
    _term("scab", "A rough, raised patch on a casting, where the skin of the mould came loose.", "scabs"),
    _term("penetration", "Metal that ran in between the grains of sand and froze there, so that the casting's skin is rough.", "metal penetration"),
    _term("burn-on", "Sand that stuck firmly to the skin of a casting."),
)

TERMS: dict[str, Term] = {term.key: term for term in (*_SAND, *_WATER, *_TESTS, *_MOULD, *_METAL, *_DEFECTS)}
"""Every trade word by its key."""
