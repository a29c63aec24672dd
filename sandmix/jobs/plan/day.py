"""The steps of a casting day in their order, each with the inputs that its job takes over from what was given and from the steps before it.

Nothing is computed here that a job computes. What one step carries on to another is a sum, a share or a conversion of its figures.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sandmix.asking.form import Filled
from sandmix.book.book import Book, read, with_event
from sandmix.jobs.burnout import JOB as BURNOUT
from sandmix.jobs.fit import JOB as FIT
from sandmix.jobs.fit.form import TO_MAKE, names_of
from sandmix.jobs.flask import JOB as FLASK
from sandmix.jobs.heap import JOB as HEAP
from sandmix.jobs.mix import JOB as MIX
from sandmix.jobs.plan.casting import Carrier
from sandmix.jobs.plan.form import PlanForm, ResolvedPlan
from sandmix.jobs.plan.steps import Inputs, Step, amount, ask_job
from sandmix.jobs.pour import JOB as POUR
from sandmix.jobs.rebond import JOB as REBOND
from sandmix.jobs.shopping import JOB as SHOPPING
from sandmix.jobs.temper import JOB as TEMPER
from sandmix.language.errors import InputError
from sandmix.materials.metals import METALS
from sandmix.mould.walls import CUP_MM
from sandmix.vocabulary import default_of

SAMPLE = ("sample_wet_g", "sample_dry_g", "scale_step_g")
HEAP_WORDS = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")
FLASK_SIZES = ("flask_length_mm", "flask_width_mm", "drag_depth_mm", "cope_depth_mm")
LEAST_SIZES = ("least_length_mm", "least_width_mm", "least_drag_mm", "least_cope_mm")


def resolve(filled: Filled[PlanForm]) -> Filled[ResolvedPlan]:
    """Work out the steps; raises InputError with what is wrong with the book. Each step has its own uncertainty, the plan adds none."""
    steps = tuple(Day(Carrier(filled=filled)).steps())
    return filled.into(ResolvedPlan, {"steps": steps}, without=filled.bands)


@dataclass(slots=True)
class Day:
    """One casting day, worked out step by step."""

    carrier: Carrier
    book: Book | None = field(init=False)
    heap: Inputs = field(init=False)
    """What is known of the heap today: as given, else as the book has it."""

    def __post_init__(self) -> None:
        """Read the book, if there is one."""
        form = self.form
        self.book = None if form.book is None else read(form.book)
        of_book: Inputs = {}
        if self.book is not None:
            now = ask_job(HEAP, self._of_the_book(self.book), "")
            if now.problems:
                raise InputError(list(now.problems))
            of_book = {name: value for word in HEAP_WORDS for name, value in now.carried(word).items()}
            of_book |= now.carried("mould_moisture_pct_wet", "moisture_pct_wet")
        self.heap = of_book | self.carrier.several(*HEAP_WORDS)

    @property
    def form(self) -> PlanForm:
        """What was given."""
        return self.carrier.filled.form

    @property
    def target_pct_wet(self) -> float:
        """The moisture to work at: as given, else that of the metal."""
        given = self.form.target_moisture_pct_wet
        return METALS[self.form.metal].target_moisture_pct_wet if given is None else given

    def steps(self) -> Iterable[Step]:
        """Yield the steps in the order of the day."""
        fit = self._fit()
        flask = self._flask(fit)
        yield fit
        made = self._sand_to_make(fit, flask)
        mix = None
        if made:
            mix = self._mix(made)
            yield mix
            yield self._shopping(mix)
        sand = self.heap.get("heap_kg") or (mix.carried("make_kg", "heap_kg").get("heap_kg") if mix else None)
        temper = self._temper(sand)
        yield temper
        yield flask
        yield self._pour(temper, flask)
        yield self._burnout(sand, flask, mix)
        yield self._heap()
        yield self._rebond(flask)

    def _of_heap(self, word: str) -> Inputs:
        """What is known of the heap under this word, if it is."""
        return {word: self.heap[word]} if word in self.heap else {}

    def _fit(self) -> Step:
        carrier = self.carrier
        volume = {} if carrier.is_block else carrier.volume("pattern_volume_cm3")
        flasks: Inputs = {"flasks": [dict(row) for row in self.form.flasks]} if self.form.flasks else {}
        given = carrier.several("metal", "patterns_count", "gating_volume_cm3", "frame_kg")
        why = "The flask decides how much sand is needed, so it comes before mixing and buying."
        if carrier.is_block:
            why += " Only the sizes of the casting are known: it is taken as a block."
        return ask_job(FIT, carrier.sides() | volume | flasks | self._of_heap("heap_kg") | given, why)

    def _flask(self, fit: Step) -> Step:
        carrier = self.carrier
        sizes, why = self._taken(fit)
        given = carrier.several("metal", "gating_volume_cm3", "frame_kg")
        sides = carrier.sides() if self.form.count == 1 else {}
        volume = carrier.volume("pattern_volume_cm3", self.form.count)
        return ask_job(FLASK, sizes | volume | sides | self._of_heap("heap_kg") | given, why)

    def _taken(self, fit: Step) -> tuple[Inputs, str]:
        """The sizes of the flask that is used, and which one it is."""
        rows: Sequence[Mapping[str, Any]] = self.form.flasks or ()
        name = fit.figure("flask_taken")
        if name == TO_MAKE:
            sizes = zip(FLASK_SIZES, LEAST_SIZES, strict=True)
            made = {theirs: value for theirs, ours in sizes for value in fit.carried(ours, theirs).values()}
            return made, "This is the flask to make that the step before works out."
        for of_row, row in zip(names_of(rows, "flask"), rows, strict=True):
            if name in (None, of_row):
                why = "Its sizes are those of the flask on hand that fits best."
                if name is None:
                    why = "The sizes of the casting are not known, so the first flask on hand is taken, unchecked."
                return {word: {"value": row[word], "unit": "mm"} for word in FLASK_SIZES}, f"Flask “{of_row}”. {why}"
        return {}, "No flask is known yet."

    def _sand_to_make(self, fit: Step, flask: Step) -> Inputs:
        """The sand that has to be made: what is short, or all of it where there is no heap; nothing where there is enough."""
        step = flask if flask.answer else fit
        if "heap_kg" not in self.heap:
            return step.carried("make_kg")
        surplus = step.figure("surplus_kg")
        return step.carried("surplus_kg", "make_kg", times=-1.0) if isinstance(surplus, float) and surplus < 0 else {}

    def _mix(self, made: Inputs) -> Step:
        target = amount("clay_pct_dry", self.form.target_clay_pct_dry) | self._target("moisture_pct_wet")
        why = "The heap is too small for the flask: this much is missing."
        if "heap_kg" not in self.heap:
            why = "There is no heap yet: all the sand for the flask has to be made."
        return ask_job(MIX, _without_range(made) | target | self.carrier.several("clay"), why)

    def _shopping(self, mix: Step) -> Step:
        needed = _without_range(mix.carried("sand_kg") | mix.carried("clay_kg"))
        bags = ("sand_bag_kg", "clay_bag_kg", "sand_bag_price", "clay_bag_price", "sand_yield_pct")
        return ask_job(SHOPPING, needed | self.carrier.several(*bags), "Whole bags for what has to be mixed.")

    def _temper(self, sand: object) -> Step:
        test = self.carrier.several(*SAMPLE)
        if not {"sample_wet_g", "sample_dry_g"} & test.keys():
            test = self._of_heap("moisture_pct_wet")
        target = self.carrier.several("metal", "target_moisture_pct_wet")
        heap = {} if sand is None else {"heap_kg": sand}
        return ask_job(
            TEMPER, heap | test | target, "Sand that is too wet throws the metal back: test it before you mould."
        )

    def _pour(self, temper: Step, flask: Step) -> Step:
        carrier, count = self.carrier, self.form.count
        given = carrier.several("metal", "crucible_l", "pour_temp_c") | carrier.surface() | self._box()
        given.pop("modulus_mm", None)
        tested = temper.carried("moisture_pct_wet")
        why = "All castings of the mould together. The moisture is that of the last test."
        if not (cope := self._cope(flask)):
            why += " No cope is known, so no weights are worked out."
        metal = carrier.volume(times=count) | self._gating_pct() | carrier.from_above(count)
        return ask_job(POUR, metal | cope | tested | given, why)

    def _cope(self, flask: Step) -> Inputs:
        """What lies on the metal, and the head up to the top of the pouring cup.

        It is the cope less pattern and gating, which may all be in it, plus its half of the frame.
        """
        depth = flask.inputs.get("cope_depth_mm")
        mass = flask.figure("cope_kg")
        if not isinstance(depth, dict) or not depth.get("value") or not isinstance(mass, float):
            return {}
        drag, full_l = flask.figure("drag_kg"), flask.figure("flask_l")
        assert isinstance(drag, float) and isinstance(full_l, float)
        inside_cm3 = float(_value(self.carrier.volume(times=self.form.count))) + (self.form.gating_volume_cm3 or 0.0)
        missing_kg = inside_cm3 / 1000 * (mass + drag) / full_l
        wood_kg = (self.form.frame_kg or 0.0) / 2
        head = amount("head_mm", float(depth["value"]) + CUP_MM)
        return head | flask.carried("cope_kg", less=missing_kg - wood_kg)

    def _gating_pct(self) -> Inputs:
        gating_cm3 = self.form.gating_volume_cm3
        if gating_cm3 is None:
            return {}
        return amount("gating_pct", 100 * gating_cm3 / float(_value(self.carrier.volume(times=self.form.count))))

    def _box(self) -> Inputs:
        return {} if self.form.box_mm is None else {"box_mm": list(self.form.box_mm)}

    def _burnout(self, sand: object, flask: Step, mix: Step | None) -> Step:
        carrier = self.carrier
        whole = {} if sand is None else {"sand_kg": sand}
        clay = self._of_heap("clay_pct_dry")
        if not clay and mix is not None and "heap_kg" not in self.heap:
            clay = mix.carried("clay_pct_dry")
        of_flask = flask.carried("rammed_kg", "flask_sand_kg")
        given = carrier.several("metal", "pour_temp_c", "clay") | carrier.surface() | self._box()
        inputs = carrier.volume() | whole | clay | of_flask | self._target("moisture_pct_wet") | given
        return ask_job(BURNOUT, inputs, "One casting, in the sand of its flask at its moisture for moulding.")

    def _heap(self) -> Step:
        why = "Record the cast in the book: then the next plan starts from the heap as it is."
        return ask_job(HEAP, {} if self.book is None else self._of_the_book(self.book), why)

    def _rebond(self, flask: Step) -> Step:
        heap, why = dict(self.heap), "The heap as given. With a book it is the heap after this cast."
        if self.book is not None:
            after = self._after(self.book, self.cast(flask))
            heap |= {
                name: value for word in HEAP_WORDS for name, value in (after.carried(word) if after else {}).items()
            }
            why = "The heap as the book has it after this cast."
            if after is None:
                why = "The heap as it is: this cast cannot be recorded as it stands."
        target = amount("target_clay_pct_dry", self.form.target_clay_pct_dry) | self._target("target_moisture_pct_wet")
        bags = ("clay", "sand_bag_kg", "clay_bag_kg", "sand_bag_price", "clay_bag_price")
        return ask_job(REBOND, heap | target | self.carrier.several(*bags), why)

    def _after(self, book: Book, cast: Mapping[str, Any]) -> Step | None:
        """The heap of the book after the cast, or None where the book would not take such an entry."""
        try:
            return ask_job(HEAP, self._of_the_book(with_event(book, cast)), "")
        except InputError:
            return None

    def cast(self, flask: Step) -> dict[str, Any]:
        """Return this cast as an entry of the book, at the time given, or else at that of the last entry."""
        form, carrier = self.form, self.carrier
        last = self.book.events[-1]["at"] if self.book and self.book.events else "2000-01-01"
        cm3 = float(_value(carrier.volume(times=form.count)))
        gating = form.gating_volume_cm3
        poured_cm3 = cm3 + (default_of("gating_pct") / 100 * cm3 if gating is None else gating)
        kilograms = poured_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3
        surface = carrier.surface()
        modulus = {"modulus_mm": surface["modulus_mm"]} if "modulus_mm" in surface else {}
        if not modulus and "casting_area_cm2" in surface:
            area_cm2 = float(_value({"casting_area_cm2": surface["casting_area_cm2"]}))
            modulus = {"modulus_mm": 10 * cm3 / form.count / area_cm2}
        sand = flask.carried("rammed_kg", "flask_sand_kg")
        temperature = carrier.several("pour_temp_c")
        return (
            {"kind": "poured", "at": form.now or last, "metal": form.metal, "metal_kg": kilograms}
            | modulus
            | sand
            | temperature
        )

    def _target(self, onward: str) -> Inputs:
        return amount(onward, self.target_pct_wet)

    def _of_the_book(self, book: Book) -> Inputs:
        return {"book": book.to_dict()} | ({} if self.form.now is None else {"now": self.form.now})


def _value(inputs: Inputs) -> Any:
    """The value of the only amount in *inputs*."""
    [given] = inputs.values()
    assert isinstance(given, dict)
    return given["value"]


def _without_range(inputs: Inputs) -> Inputs:
    """The same amounts as wishes, without a measuring error."""
    return {
        word: {part: value for part, value in given.items() if part != "doubt"} if isinstance(given, dict) else given
        for word, given in inputs.items()
    }
