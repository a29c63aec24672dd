"""The form of *feed*: the casting or the part of it that is fed, and the riser."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.cooling.burnout import shape_n
from sandmix.cooling.opening import ball_modulus_mm
from sandmix.feeding import sections
from sandmix.feeding.distance import BAR, PLATE
from sandmix.feeding.modulus import HEIGHT_SHARES
from sandmix.jobs.shared.heated import impossible_surface, too_small_a_box
from sandmix.language.errors import Problem
from sandmix.materials.shrinkage import EXPANDS_PCT, SHRINKAGES
from sandmix.maths.uncertainty import Ends

_SLACK = 1.01
_FLAT_N = 0.3
"""Below this the sand around a casting is nearly as wide outside as at its face (own choice)."""
GATES_SHARE = (0.15, 0.30, 0.50)
"""Sprue, runners and gates without the riser, over the casting's volume: least, usual, most (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedForm(Form):
    """A casting by volume and surface, or the modulus of the part that is fed, and what the riser is to be."""

    metal: str = ask("metal", first=True, help="Sets how much it shrinks until it is solid, and how it freezes.")
    casting_volume_cm3: float | None = ask("casting_volume_cm3", first=True)
    casting_area_cm2: float | None = ask(
        "casting_area_cm2",
        first=True,
        help=(
            "Take this for an even thickness. If one part is thicker, enter the sizes of that part instead: it freezes last. “The pattern” finds "
            "volume and surface."
        ),
    )
    modulus_mm: float | None = ask("modulus_mm", first=True, label="Modulus of the part that is fed")
    part: str | None = ask("part", first=True)
    part_thickness_mm: float | None = ask("part_thickness_mm", first=True)
    part_width_mm: float | None = ask("part_width_mm", first=True)
    part_length_mm: float | None = ask("part_length_mm", first=True)
    riser_kind: str = ask("riser_kind", first=True)
    riser_ratio: float = ask("riser_ratio")
    riser_height_share: float | None = ask("riser_height_share")
    shrinkage_pct: float | None = ask("shrinkage_pct")
    feed_efficiency_pct: float = ask("feed_efficiency_pct")
    shape: str | None = ask(
        "shape", label="Nearest shape of that part", help="Sets how far a riser feeds. Leave empty for a plate."
    )
    section_mm: float | None = ask("section_mm")
    feed_length_mm: float | None = ask("feed_length_mm")
    joint: str | None = ask("joint")
    fillet_mm: float = ask("fillet_mm")
    cope_depth_mm: float | None = ask(
        "cope_depth_mm",
        help="The upper half of the flask, to see whether the riser fits into it. 0 for an open-top mould.",
    )
    cope_height_mm: float = ask(
        "cope_height_mm",
        default=0.0,
        label="Casting above the parting line",
        help="How far it stands up into the cope. 0 where all of it lies in the drag.",
    )
    top_face_cm2: float | None = ask("top_face_cm2")
    gating_volume_cm3: float | None = ask(
        "gating_volume_cm3",
        blank=True,
        label="Gating without the riser",
        help="Sprue, runners and gates. Leave empty for 30 % of the casting (own choice).",
    )
    box_mm: Sequence[float] | None = ask("box_mm", help="Its three sides, as 200 x 100 x 20. For a comparison only.")

    @property
    def part_modulus_mm(self) -> float | None:
        """The modulus of the part that is fed: as given, or from its sizes; None where neither is given."""
        if self.modulus_mm is not None or self.part is None:
            return self.modulus_mm
        return sections.modulus_mm(self.part, self.part_thickness_mm, self.part_width_mm, self.part_length_mm)

    @property
    def modulus(self) -> float | None:
        """The modulus in mm: that of the part, or from volume and surface; None where neither is given."""
        if self.part_modulus_mm is not None:
            return self.part_modulus_mm
        volume_cm3, area_cm2 = self.casting_volume_cm3, self.casting_area_cm2
        return None if volume_cm3 is None or area_cm2 is None else 10 * volume_cm3 / area_cm2

    @rule
    def something_can_be_computed(self) -> Iterable[Problem]:
        if self.modulus is None and self.casting_volume_cm3 is None:
            yield self.wrong(
                "casting_volume_cm3",
                "volume and surface, or volume and modulus",
                (
                    "nothing can be computed yet. Enter the volume of the casting and its total surface, or the sizes of "
                    "its thickest part."
                ),
            )

    @rule
    def the_part_has_its_sizes(self) -> Iterable[Problem]:
        words = ("part_thickness_mm", "part_width_mm", "part_length_mm")
        given = [word for word in words if getattr(self, word) is not None]
        if self.part is None and given and self.modulus_mm is None:
            yield self.wrong(
                "part", "one of the parts", "sizes are given, and not of what. Choose what the thickest part is."
            )
        missing = words[: sections.SECTIONS[self.part].sizes] if self.part else ()
        for word in missing:
            if word not in given:
                yield self.wrong(word, "a size", "this size of the thickest part is missing. Enter it.")

    @rule
    def a_casting_can_have_the_surface(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is not None and self.casting_area_cm2 is not None:
            yield from impossible_surface(self, self.casting_volume_cm3, self.casting_area_cm2)

    @rule
    def a_casting_can_have_the_modulus(self) -> Iterable[Problem]:
        modulus_mm = self.part_modulus_mm
        if self.casting_volume_cm3 is None or modulus_mm is None:
            return
        most_mm = ball_modulus_mm(self.casting_volume_cm3)
        if modulus_mm > _SLACK * most_mm:
            yield self.wrong(
                "part_thickness_mm" if self.modulus_mm is None else "modulus_mm",
                f"at most {most_mm:.3g} mm for that volume",
                (
                    f"no part of a casting of {self.casting_volume_cm3:g} cm³ can have a modulus of {modulus_mm:.4g} mm: even "
                    f"a ball of that volume has only {most_mm:.3g} mm. Check the volume, the modulus and their units."
                ),
            )

    @rule
    def a_riser_gives_more_than_it_shrinks(self) -> Iterable[Problem]:
        shrinkage_pct = SHRINKAGES[self.metal].pct if self.shrinkage_pct is None else self.shrinkage_pct
        if self.feed_efficiency_pct <= shrinkage_pct:
            yield self.wrong(
                "feed_efficiency_pct",
                f"more than {shrinkage_pct:g} %",
                (
                    f"a riser that can give {self.feed_efficiency_pct:g} % of its metal and shrinks by {shrinkage_pct:g} % itself has "
                    f"nothing left for the casting. Enter more than {shrinkage_pct:g} %, or check the shrinkage."
                ),
            )

    @rule
    def the_covered_face_is_part_of_the_surface(self) -> Iterable[Problem]:
        if (
            self.top_face_cm2 is not None
            and self.casting_area_cm2 is not None
            and self.top_face_cm2 >= self.casting_area_cm2
        ):
            yield self.wrong(
                "top_face_cm2",
                f"less than {self.casting_area_cm2:g} cm²",
                (
                    f"a flat face of {self.top_face_cm2:g} cm² is as large as the casting's total surface of "
                    f"{self.casting_area_cm2:g} cm². Enter only the face that lies under the riser."
                ),
            )

    @rule
    def the_box_holds_the_casting(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is not None and self.box_mm is not None:
            yield from too_small_a_box(self, self.casting_volume_cm3, self.box_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedFeed(FeedForm):
    """The same, with a height and a shrinkage that are always there. ``expands`` says that the metal's own expansion stands for a riser."""

    riser_height_share: float
    shrinkage_pct: float
    expands: bool

    @property
    def thickness_mm(self) -> float | None:
        """The thickness of the part that is fed: as given, or that of a plate or a round bar of the modulus."""
        known = self.part_thickness_mm if self.section_mm is None else self.section_mm
        if known is not None or self.modulus is None:
            return known
        return (4 if self.shape == BAR else 2) * self.modulus

    @property
    def is_flat(self) -> bool:
        """Whether the part is a wide plate: it is named so, or its box says so."""
        if self.shape is not None or self.box_mm is None or self.modulus is None:
            return self.shape == PLATE
        return shape_n(min(self.box_mm) / 2, self.modulus)[0] < _FLAT_N


def resolve(filled: Filled[FeedForm]) -> Filled[ResolvedFeed]:
    """Take the usual height of the kind of riser, the shrinkage of the metal and the usual gating where nothing is given, with their ranges."""
    form = filled.form
    values: dict[str, object] = {"expands": False}
    bands: dict[str, Ends] = {}
    if form.riser_height_share is None:
        values["riser_height_share"] = HEIGHT_SHARES[form.riser_kind]
    if form.shrinkage_pct is None:
        row = SHRINKAGES[form.metal]
        values |= {"shrinkage_pct": row.pct, "expands": form.metal in EXPANDS_PCT}
        bands["shrinkage_pct"] = (row.low_pct, row.high_pct)
    if form.gating_volume_cm3 is None and form.casting_volume_cm3 is not None:
        least, usual, most = (share * form.casting_volume_cm3 for share in GATES_SHARE)
        values["gating_volume_cm3"], bands["gating_volume_cm3"] = usual, (least, most)
    return filled.into(ResolvedFeed, values, bands=bands)
