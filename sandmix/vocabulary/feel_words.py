"""The words of “Judge a handful”: the word for it, and what a person's own pairs of word and test show."""

from __future__ import annotations

from sandmix.bench.feel import FEELS
from sandmix.bench.feel_check import LEAST_PAIRS, LEAST_WORDS
from sandmix.language.words import Choice, Quantity, Word, quantities

MAY_DOSE = {
    "yes": "yes: your own tests bear the word out, and its range decides",
    "wide": "no: the range is too wide to decide",
    "not_yet": "no: it is not tested enough on your own sand",
    "no": "no: it contradicts what is known",
}
_number = quantities("", low=0.0, high=1000.0, digits=0, source="own")

CHAPTER: tuple[Word, ...] = (
    Choice(name="feel", label="Feel of a handful", choices=FEELS, source="feel_words",
           help="Squeeze a handful once, as hard as you can, and open the hand. Always judge it the same way: weak sand holds, but breaks at a touch; the next word breaks clean."),
    _number("feel_pairs", "Own pairs", basis="handfuls judged and tested in the same entry",
            help=f"At least {LEAST_PAIRS}, with at least {LEAST_WORDS} different words, before a word may dose water."),
    Quantity(name="feel_inside_pct", label="Own tests inside their range", unit="%", basis="share of your pairs, each predicted from the others", low=0.0, high=100.0, digits=0, source="own",
             help="Nineteen in twenty should be."),
    Quantity(name="feel_gain", label="Gain from your own pairs", unit="", basis="mean logarithm of the density at the test, above that of the usual words", low=-1e6, high=1e6, digits=2, source="own",
             help="Above 0, your own pairs tell more than the usual words alone."),
    Choice(name="feel_doses", label="May the word dose water?", choices=MAY_DOSE, source="own",
           help="A word for a handful doses only if your own tests bear it out and its range decides."),
)
