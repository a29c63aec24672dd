"""What a sign is: what a person sees, and how often it comes with each cause."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sandmix.defects.causes import GRADES


@dataclass(frozen=True, slots=True, kw_only=True)
class Symptom:
    """One sign that a person sees: its family of signs, and how often it comes with each cause, by grade.

    Signs of one family often come together, so they count as one kind of evidence when a cause is called likely.
    """

    key: str
    label: str
    family: str
    chances: Mapping[str, str]
    source: str
    otherwise: str = "hardly"

    def chance(self, cause: str) -> float:
        """Return how often this sign comes with *cause*, as a share of one.

        >>> ball = symptom("clay_balls", "hard little balls of clay in the sand", "mixing", "poorly_mulled")
        >>> ball.chance("poorly_mulled"), ball.chance("no_draft")
        (0.9, 0.01)
        """
        return GRADES[self.chances.get(cause, self.otherwise)]


def symptom(
    key: str, label: str, family: str, *grades: str, source: str = "practice", otherwise: str = "hardly"
) -> Symptom:
    """Return a row; *grades* are the keys of the causes that bring the sign nearly always, often, sometimes and seldom."""
    chances = {cause: grade for grade, causes in zip(GRADES, grades, strict=False) for cause in causes.split()}
    return Symptom(key=key, label=label, family=family, chances=chances, source=source, otherwise=otherwise)
