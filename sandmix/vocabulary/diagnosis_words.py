"""The words of “What went wrong”: signs, readings, results of checks, and causes."""

from __future__ import annotations

from sandmix.defects.causes import CAUSES
from sandmix.defects.findings import CHECKS, TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.language.tables import Picks, Table
from sandmix.language.words import Choice, Error, Names, Quantity, Sentence, Word

FOUND = {outcome: trial.outcomes[outcome] for outcome, trial in CHECKS.items() if outcome not in SYMPTOMS}
NOTHING_ELSE = {"yes": "yes: I looked for the other signs and saw none", "no": "no: I did not look for the others"}
TIN_RAMMED = {
    "standard": "as the standard: 6.35 kg (14 lb) three times through 51 mm, in a tube 51 mm wide, or the same energy per area",
    "own": "in my own way, or I do not know",
}

CHAPTER: tuple[Word, ...] = (
    Picks(name="symptoms", label="What you saw", choices={key: symptom.label for key, symptom in SYMPTOMS.items()},
          help="Pick everything you saw in the sand, the mould and the casting. Two or three different signs tell more than one.", source="practice"),
    Choice(name="nothing_else", label="Nothing else was wrong", choices=NOTHING_ELSE, default="no",
           help="Choose yes only if you looked for the other signs too. Otherwise a sign that you did not pick counts as unknown.", source="own"),
    Picks(name="found", label="What a check showed", choices=FOUND, help="Results of checks that give no number. One result for each check.", source="practice"),
    Quantity(name="rested_h", label="Resting time", unit="h", basis="from adding water to moulding", low=0.0, high=10000.0, usual=(0.0, 200.0), digits=1, step=1.0, units=("h", "min", "day"), error=Error(relative=0.2), error_note="± a fifth: rarely timed",
             help="How long the sand stood after its water was added.", source="practice"),
    Quantity(name="riser_to_section", label="Riser's modulus over the section's", unit="", basis="of the section that it fed", low=0.02, high=20.0, usual=(0.5, 2.0), digits=2, step=0.1, error=Error(relative=0.05), error_note="± 5 %",
             help="Both as they were cast, each volume divided by its cooling surface. “The riser” works them out.", source="riser_modulus"),
    Quantity(name="fill_to_freeze", label="Filling time over freezing time", unit="", basis="of the thinnest wall", low=0.0, high=1000.0, usual=(0.05, 2.0), digits=2, step=0.1, error=Error(relative=0.2), error_note="± a fifth",
             help="How long you poured, divided by the time in which the thinnest wall freezes. “Sprue and gates” works out the second.", source="practice"),
    Choice(name="tin_rammed", label="How the tin was rammed", choices=TIN_RAMMED, default="own",
           help="The standard is three blows of 4.68 kJ/m² together. A tin of your own mostly gets another blow, so its reading shows only a trend.", source="bcira_specimen"),
    Quantity(name="compactability_usual_pct", label="Your usual tin reading", unit="%", basis="height lost in the same tin with the same rammer", low=0.0, high=80.0, usual=(25.0, 65.0), digits=0, step=1.0, units=("%",),
             error=Error(absolute=3.0), error_note="± 3 against your own last reading", help="When the sand was right. Today's reading is then compared with it.", source="practice"),
    Table(name="causes", label="Possible causes, with points out of 100", keys={cause.key: cause.label for cause in CAUSES.values()}, source="own", shown_from=1.0,
          each=Quantity(name="weight_pct", label="Points", unit="%", basis="out of 100 for all causes", low=0.0, high=100.0, digits=0, source="own"),
          help="From the table of signs and your readings. It is a ranking, not a measured probability."),
    Picks(name="leading", label="Leading causes", choices={cause.key: cause.label for cause in CAUSES.values()},
          help="Those with at least half the points of the first, in order.", source="own"),
    Choice(name="next_test", label="Next test", choices={trial.key: trial.label for trial in TRIALS.values()},
           help="The test that best separates the leading causes for the work it takes.", source="own"),
    Names(name="what_not_to_do", label="What not to do now", help="These make it worse while the cause is unknown.", source="practice"),
    Sentence(name="changes_mind", label="What would change this", help="The one result that would put another cause first.", source="own"),
)
