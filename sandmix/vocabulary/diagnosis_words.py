"""The words of looking for what went wrong: what was seen, what was read, what a check found, and the causes."""

from __future__ import annotations

from sandmix.defects.causes import CAUSES, SYMPTOMS
from sandmix.defects.findings import CHECKS, TRIALS
from sandmix.language.tables import Picks, Table
from sandmix.language.words import Choice, Error, Names, Quantity, Sentence, Word

FOUND = {outcome: trial.outcomes[outcome] for outcome, trial in CHECKS.items() if outcome not in SYMPTOMS}
NOTHING_ELSE = {"yes": "yes: I looked for the rest and saw none of it", "no": "no: I did not look for the rest"}

CHAPTER: tuple[Word, ...] = (
    Picks(name="symptoms", label="What you saw", choices={key: symptom.label for key, symptom in SYMPTOMS.items()},
          help="Pick all that you saw, of the sand, the mould and the casting. Two or three kinds of sign tell more than one.", source="practice"),
    Choice(name="nothing_else", label="Nothing else was wrong", choices=NOTHING_ELSE, default="no",
           help="Only where you looked for the other signs too. Else what is not picked counts as not known.", source="own"),
    Picks(name="found", label="What a check showed", choices=FOUND, help="What came of the checks that have no figure. One outcome of each.", source="practice"),
    Quantity(name="rested_h", label="Rested", unit="h", basis="from the water going in to the moulding", low=0.0, high=10000.0, usual=(0.0, 200.0), digits=1, step=1.0, units=("h", "min", "day"), error=Error(relative=0.2), error_note="± a fifth: nobody times it",
             help="How long the sand stood after its water was added.", source="practice"),
    Table(name="causes", label="Causes and what each weighs", keys={cause.key: cause.label for cause in CAUSES.values()}, source="own", shown_from=1.0,
          each=Quantity(name="weight_pct", label="What it weighs", unit="%", basis="share of all causes", low=0.0, high=100.0, digits=0, source="own"),
          help="By the table of signs and by what was read: a rank, no measured odds."),
    Picks(name="leading", label="Leading causes", choices={cause.key: cause.label for cause in CAUSES.values()},
          help="Those that weigh at least half as much as the first, the heaviest first.", source="own"),
    Choice(name="next_test", label="Test next", choices={trial.key: trial.label for trial in TRIALS.values()},
           help="The test that parts the leading causes best for its effort.", source="own"),
    Names(name="what_not_to_do", label="What not to do now", help="What makes it worse as long as the cause is not known.", source="practice"),
    Sentence(name="changes_mind", label="What would change this", help="The one finding that would put another cause on top.", source="own"),
)
