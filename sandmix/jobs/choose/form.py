"""The form of *choose*: what a bag says, what simple tests found, and how much is left after grinding and sieving."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, as_far_as_right, ask, rule
from sandmix.language.errors import Problem
from sandmix.materials import choosing
from sandmix.materials.sands_and_clays import CLAYS

WEIGHED = ("bought_kg", "ground_kg", "passed_kg", "wanted_kg")
_NOT_FOR = {
    choosing.SAND: ("clay_vinegar", "swollen", "perfume", "swell_ml"),
    choosing.CLAY: ("vinegar", "smoke", "jar", "grain_shape", "pebbles_pct"),
}
_TESTS = {
    "swollen": "the swell test",
    "swell_ml": "the swell test",
    "perfume": "scent",
    "vinegar": "the vinegar test of a sand",
    "clay_vinegar": "the vinegar test of a clay",
    "smoke": "smoke of a heated sand",
    "jar": "the jar test",
    "grain_shape": "the grain shape",
    "pebbles_pct": "the pebble sieve",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChooseForm(Form):
    """A sand or a clay: its label, the tests, and what was weighed before and after grinding and sieving."""

    bag_label: str = ask("bag_label", first=True)
    stuff: str | None = ask("stuff", first=True)
    vinegar: str = ask("vinegar", first=True)
    clay_vinegar: str = ask("clay_vinegar", first=True)
    smoke: str = ask("smoke")
    jar: str = ask("jar")
    grain_shape: str = ask("grain_shape")
    pebbles_pct: float | None = ask("pebbles_pct")
    swell_ml: float | None = ask("swell_ml", first=True)
    swollen: str = ask("swollen")
    perfume: str = ask("perfume")
    bought_kg: float | None = ask("bought_kg")
    ground_kg: float | None = ask("ground_kg")
    passed_kg: float | None = ask("passed_kg")
    wanted_kg: float | None = ask("wanted_kg", exact=True)
    clay_activity_pct: float | None = ask(
        "clay_activity_pct",
        help="Only for clay. Leave empty for 95 to 100 % (bagged bentonite) or 50 to 85 % (all others).",
    )
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")

    @property
    def what(self) -> str:
        """Sand or clay: as given, else by the label."""
        return self.stuff or choosing.KINDS[self.bag_label].stuff

    @property
    def kind(self) -> choosing.LabelKind:
        """What is known about the label."""
        return choosing.kind_of(self.what, self.bag_label)

    @property
    def found(self) -> dict[str, str]:
        """What the tests found, by test."""
        return {test: getattr(self, test) for test in choosing.TESTS}

    @rule
    def the_label_says_what_it_is(self) -> Iterable[Problem]:
        if self.bag_label == choosing.UNKNOWN and self.stuff is None:
            yield self.wrong("stuff", "sand or clay", "the label does not say what it is. Choose sand or clay.")
        elif self.bag_label != choosing.UNKNOWN and self.stuff not in (None, self.kind.stuff):
            kind = self.kind
            yield self.wrong(
                "stuff",
                kind.stuff,
                f"“{kind.label}” is a {kind.stuff}. Enter {kind.stuff}, or choose another label.",
            )

    @rule
    def each_part_is_less_than_its_whole(self) -> Iterable[Problem]:
        for part, whole in (("passed_kg", "ground_kg"), ("ground_kg", "bought_kg")):
            yield from as_far_as_right(self._is_more(part, whole))

    def _is_more(self, part: str, whole: str) -> Iterable[Problem]:
        less, more = getattr(self, part), getattr(self, whole)
        if less is not None and more is not None and less > more:
            yield self.wrong(
                part,
                f"at most {more:g} kg",
                f"{less:g} kg is more than the {more:g} kg it came from. Check whether the two are swapped.",
            )


def judged(form: ChooseForm) -> choosing.Judgement:
    """Return the judgement of the form's sand or clay."""
    return choosing.judge(form.what, form.bag_label, form.found, swell_ml=form.swell_ml, pebbles_pct=form.pebbles_pct)


def idle_tests(form: ChooseForm) -> list[str]:
    """Return the tests that were done but mean nothing for this material."""
    empty = (None, choosing.NOT_TRIED)
    return list(dict.fromkeys(_TESTS[word] for word in _NOT_FOR[form.what] if getattr(form, word) not in empty))


def resolve(filled: Filled[ChooseForm]) -> Filled[ChooseForm]:
    """Fill in the live share of a clay, with its band, where none is given."""
    form = filled.form
    clay = form.kind.clay
    if form.clay_activity_pct is not None or not clay:
        return filled
    band = CLAYS[clay].activity_band_pct
    return filled.resolved({"clay_activity_pct": band[1]}, bands={"clay_activity_pct": band})
