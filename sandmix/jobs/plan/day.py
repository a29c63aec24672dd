"""The steps of a casting day in their order, each with the inputs that its job takes over from what was given and from the steps before it.

Nothing is computed here that a job computes. What one step carries on to another is a sum, a share or a conversion of its figures.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sandmix.asking.form import Filled
from sandmix.asking.job import AnyJob
from sandmix.book.book import Book, read, with_event
from sandmix.casting import casting
from sandmix.casting.casting import HEAP_WORDS, SAMPLE, Casting
from sandmix.casting.layers import ASSUMED, YOURS
from sandmix.jobs.burnout import JOB as BURNOUT
from sandmix.jobs.burnout.form import is_of_the_surface
from sandmix.jobs.facing import JOB as FACING
from sandmix.jobs.fit import JOB as FIT
from sandmix.jobs.fit.form import TO_MAKE, names_of
from sandmix.jobs.flask import JOB as FLASK
from sandmix.jobs.heap import JOB as HEAP
from sandmix.jobs.mix import JOB as MIX
from sandmix.jobs.plan import entry
from sandmix.jobs.plan.carrier import BLOCK_SAID, COMPACT, COMPACT_SAID, Carrier
from sandmix.jobs.plan.form import PlanForm, ResolvedPlan
from sandmix.jobs.plan.heap_today import HeapToday, ask_heap, of_today
from sandmix.jobs.plan.metal_way import OF_THE_METAL, MetalWay, cope_depth_mm
from sandmix.jobs.plan.steps import Carried, Inputs, Step, amount, ask_job, value_of, without_range
from sandmix.jobs.pour import JOB as POUR
from sandmix.jobs.rebond import JOB as REBOND
from sandmix.jobs.shared.flasks import CLOSE
from sandmix.jobs.shopping import JOB as SHOPPING
from sandmix.jobs.temper import JOB as TEMPER
from sandmix.language.errors import InputError
from sandmix.language.timestamps import seconds_of
from sandmix.materials.metals import METALS
from sandmix.mould.walls import CUP_MM

AFTER = "from the heap after this cast"
OF_ONE = ("casting_volume_cm3", "projected_area_cm2")
"""Words of one casting, which *pour* gets for all castings of the mould."""
BAGS = ("sand_bag_kg", "clay_bag_kg", "sand_bag_price", "clay_bag_price")
TAKES: Mapping[str, tuple[str, ...]] = {
    "fit": ("metal", "patterns_count", "gating_volume_cm3", "frame_kg", "flasks", "heap_kg"),
    "feed": ("metal", "casting_volume_cm3", "casting_area_cm2", "modulus_mm", "box_mm"),
    "gate": ("metal", "thinnest_mm", "pour_temp_c"),
    "mix": ("metal", "clay"),
    "shopping": (*BAGS, "sand_yield_pct"),
    "temper": ("metal", "heap_kg", "moisture_pct_wet", *SAMPLE, "target_moisture_pct_wet"),
    "flask": ("metal", "gating_volume_cm3", "frame_kg", "heap_kg"),
    "facing": ("metal", "clay", "pour_temp_c", "heap_kg", "clay_pct_dry"),
    "pour": ("metal", "crucible_l", "pour_temp_c", "casting_area_cm2", "box_mm", *OF_ONE),
    "burnout": (
        "metal",
        "pour_temp_c",
        "clay",
        "clay_pct_dry",
        "casting_volume_cm3",
        "casting_area_cm2",
        "modulus_mm",
        "box_mm",
    ),
    "rebond": (*HEAP_WORDS, "clay", "target_clay_pct_dry", "target_moisture_pct_wet", *BAGS),
}
"""The words that the plan hands on unchanged, by job, whether they are known or not."""
FLASK_SIZES = ("flask_length_mm", "flask_width_mm", "drag_depth_mm", "cope_depth_mm")
LEAST_SIZES = ("least_length_mm", "least_width_mm", "least_drag_mm", "least_cope_mm")


def resolve(filled: Filled[PlanForm]) -> Filled[ResolvedPlan]:
    """Work out the steps; raises InputError with what is wrong with the book. Each step has its own uncertainty, the plan adds none."""
    whole = None if filled.form.casting is None else casting.read(filled.form.casting)
    origins = {} if whole is None else {word: known.origin for word, known in whole.known().items()}
    carrier = Carrier(filled=filled, origins=origins)
    day = Day(carrier, whole)
    steps = tuple(day.steps())
    [flask] = [step for step in steps if step.job is FLASK]
    facing = next((step for step in steps if step.job is FACING), None)
    name = (whole.pattern or whole.name) if whole else ""
    cast = entry.of_cast(carrier, flask, name, facing, gating_cm3=day.metal.gating_cm3)
    found = {
        "steps": steps,
        "cast": cast if day.is_taken else {},
        "poured_ago_min": day.poured_ago_min,
        "worked_since": day.worked_since,
        "assumes": tuple(word for word, origin in origins.items() if origin == ASSUMED),
    }
    return filled.into(ResolvedPlan, found, without=filled.bands)


@dataclass(slots=True)
class Day:
    """One casting day, worked out step by step."""

    carrier: Carrier
    casting: Casting | None = None
    book: Book | None = field(init=False)
    today: HeapToday = field(init=False)
    heap: Inputs = field(init=False)
    """What is known of the heap today: as given, else as the book has it."""
    poured: Mapping[str, Any] | None = field(init=False)
    """The entry of this cast in the book that still counts."""
    metal: MetalWay = field(init=False)
    """The riser, sprue and gates."""
    is_taken: bool = field(init=False, default=True)
    """Whether the book would take the entry of this cast."""

    def __post_init__(self) -> None:
        """Read the book, if there is one."""
        self.book = None if self.form.book is None else read(self.form.book)
        self.poured = self._entry_of_the_cast()
        self.today = of_today(self.book, self.form.now)
        self.heap = self.today.figures | self.carrier.several(*HEAP_WORDS)
        self.metal = MetalWay(self.carrier, self._ask)

    @property
    def form(self) -> PlanForm:
        """What was given."""
        return self.carrier.filled.form

    @property
    def target_pct_wet(self) -> float:
        """The moisture to work at: as given, else that of the metal."""
        given = self.form.target_moisture_pct_wet
        return METALS[self.form.metal].target_moisture_pct_wet if given is None else given

    @property
    def poured_ago_min(self) -> float | None:
        """How many minutes ago the metal was poured, by the entry in the book; None if there is none that still counts."""
        if self.poured is None or self.book is None:
            return None
        now = self.form.now or self.book.events[-1]["at"]
        return (seconds_of(now) - seconds_of(self.poured["at"])) / 60

    @property
    def worked_since(self) -> bool:
        """Whether the book has entries after that of the pour."""
        return self.poured is not None and self.book is not None and self.book.events[-1]["id"] != self.poured["id"]

    def _entry_of_the_cast(self) -> Mapping[str, Any] | None:
        if self.casting is None or self.book is None:
            return None
        entries = self.casting.ids_of("poured") - self.book.undone()
        return next((event for event in reversed(self.book.events) if event["id"] in entries), None)

    def steps(self) -> Iterable[Step]:
        """Yield the steps in the order of the day."""
        fit = self._fit()
        flask = self._flask(fit)
        yield fit
        yield from self.metal.steps(fit, flask)
        made = {} if self.poured else self._sand_to_make(fit, flask)
        mix = None
        if made:
            mix = self._mix(made)
            yield mix
            yield self._shopping(mix)
        sand = self.heap.get("heap_kg") or (mix.carried("make_kg", "heap_kg").get("heap_kg") if mix else None)
        temper = self._temper(sand)
        yield temper
        yield flask
        facing = self._facing(flask)
        if facing:
            yield facing
        yield self._pour(temper, flask)
        yield self._burnout(sand, flask, mix)
        yield self._heap()
        yield self._rebond(flask, facing)

    def _of_heap(self, word: str) -> Inputs:
        """What is known of the heap under this word, if it is."""
        return {word: self.heap[word]} if word in self.heap else {}

    def _fit(self) -> Step:
        carrier = self.carrier
        volume = {} if carrier.is_block else carrier.volume("pattern_volume_cm3")
        flasks = carrier.flasks()
        given = carrier.several("metal", "patterns_count", "frame_kg") | self.metal.gating | self.metal.riser_to_fit()
        why = "The flask decides how much sand is needed, so it comes before mixing and buying."
        if carrier.is_block:
            why += f" {BLOCK_SAID}"
        return self._ask(FIT, carrier.sides() | volume | flasks | self._of_heap("heap_kg") | given, why)

    def _flask(self, fit: Step) -> Step:
        carrier = self.carrier
        sizes, why = self._taken(fit)
        given = carrier.several("metal", "frame_kg") | self.metal.gating
        sides = carrier.sides() if self.form.count == 1 else {}
        volume = carrier.volume("pattern_volume_cm3", self.form.count)
        return self._ask(FLASK, sizes | volume | sides | self._of_heap("heap_kg") | given, why)

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
                    unknown = "The sizes of the casting are not known" if fit.needs else "No flask could be chosen"
                    why = f"{unknown}, so the first flask on hand is taken, unchecked."
                sizes_of_row = {
                    word: Carried(given={"value": row[word], "unit": "mm"}, origin=f"from the flask “{of_row}”")
                    for word in FLASK_SIZES
                }
                return sizes_of_row, f"Flask “{of_row}”. {why}"
        return {}, "No flask is known yet."

    def _sand_to_make(self, fit: Step, flask: Step) -> Inputs:
        """The sand that has to be made: what is short, or all of it where there is no heap.

        Nothing where there is enough, nor where it is close and the heap fills the flask: then only a part of the spare is missing.
        """
        step = flask if flask.answer else fit
        if "heap_kg" not in self.heap:
            return step.carried("make_kg")
        surplus, rammed = step.figure("surplus_kg"), step.figure("rammed_kg")
        heap_kg = value_of("heap_kg", self.heap["heap_kg"])
        if step.state["word"] == CLOSE and isinstance(rammed, float) and rammed <= heap_kg:
            return {}
        return step.carried("surplus_kg", "make_kg", times=-1.0) if isinstance(surplus, float) and surplus < 0 else {}

    def _mix(self, made: Inputs) -> Step:
        target = self._target_clay("clay_pct_dry") | self._target("moisture_pct_wet")
        why = "The heap is too small for the flask: this much is missing."
        if "heap_kg" not in self.heap:
            why = "There is no heap yet: all the sand for the flask has to be made."
        return self._ask(MIX, without_range(made) | target | self.carrier.several("metal", "clay"), why)

    def _shopping(self, mix: Step) -> Step:
        needed = without_range(mix.carried("sand_kg") | mix.carried("clay_kg"))
        bags = self.carrier.several(*BAGS, "sand_yield_pct")
        return self._ask(SHOPPING, needed | bags, "Whole bags for what has to be mixed.")

    def _temper(self, sand: Carried | None) -> Step:
        test = self.carrier.several(*SAMPLE)
        if not {"sample_wet_g", "sample_dry_g"} & test.keys():
            test = self._of_heap("moisture_pct_wet")
        target = self.carrier.several("metal", "target_moisture_pct_wet")
        tested = self.carrier.several(*SAMPLE, "moisture_pct_wet")
        heap = {} if sand is None or (self.today.dried_since and not tested) else {"heap_kg": sand}
        why = "Sand that is too wet throws the metal back: test it before you mould."
        step = self._ask(TEMPER, heap | test | target, why)
        return (
            self._ask(TEMPER, heap | target, why)
            if self.today.untested and not tested and step.state["tone"] != "stop"
            else step
        )

    def _facing(self, flask: Step) -> Step | None:
        """The facing for all castings of the mould; nothing where there is one sand only."""
        if self.form.two_sands != "yes":
            return None
        carrier, count = self.carrier, self.form.count
        rammed, known = flask.figure("rammed_kg"), self.heap.get("heap_kg")
        fills = isinstance(rammed, float) and known is not None and value_of("heap_kg", known) >= rammed
        heap = self._of_heap("heap_kg") if fills else {}
        sand = flask.carried("rammed_kg", "flask_sand_kg") | heap | self._of_heap("clay_pct_dry")
        given = carrier.several("metal", "pour_temp_c", "clay") | self._target("moisture_pct_wet")
        why = "Facing lies against the pattern, and the heap is the backing behind it. What is left of the facing joins the heap."
        return self._ask(FACING, carrier.volume(times=count) | carrier.whole_surface(count) | sand | given, why)

    def _pour(self, temper: Step, flask: Step) -> Step:
        carrier, count = self.carrier, self.form.count
        given = carrier.several("metal", "crucible_l", "pour_temp_c") | carrier.surface() | carrier.sizes()
        given.pop("modulus_mm", None)
        tested = temper.carried("moisture_pct_wet")
        why = "All castings of the mould together. The moisture is that of the last test."
        if not (cope := self._cope(flask)):
            why += " No cope is known, so no weights are worked out."
        metal = carrier.volume(times=count) | self._gating_pct() | carrier.from_above(count)
        return self._ask(POUR, metal | cope | tested | given, why)

    def _cope(self, flask: Step) -> Inputs:
        """What lies on the metal, and the head up to the top of the pouring cup.

        It is the cope less pattern and gating, which may all be in it, plus its half of the frame.
        """
        mass, depth_mm = flask.figure("cope_kg"), cope_depth_mm(flask)
        if not isinstance(mass, float) or not depth_mm:
            return {}
        drag, full_l = flask.figure("drag_kg"), flask.figure("flask_l")
        assert isinstance(drag, float) and isinstance(full_l, float)
        inside_cm3 = self.carrier.cm3(self.form.count) + (self.metal.gating_cm3 or 0.0)
        missing_kg = inside_cm3 / 1000 * (mass + drag) / full_l
        wood_kg = (self.form.frame_kg or 0.0) / 2
        head = amount("head_mm", depth_mm + CUP_MM, origin=flask.origin)
        return head | flask.carried("cope_kg", less=missing_kg - wood_kg)

    def _gating_pct(self) -> Inputs:
        gating_cm3 = self.metal.gating_cm3
        castings_cm3 = self.carrier.cm3(self.form.count)
        if gating_cm3 is None or castings_cm3 <= 0:
            return {}
        gating_pct = 100 * gating_cm3 / castings_cm3
        [carried] = self.metal.gating.values()
        return amount("gating_pct", gating_pct, origin=carried.origin)

    def _burnout(self, sand: Carried | None, flask: Step, mix: Step | None) -> Step:
        carrier = self.carrier
        whole = {} if sand is None else {"sand_kg": sand}
        clay = self._of_heap("clay_pct_dry")
        if not clay and mix is not None and "heap_kg" not in self.heap:
            clay = mix.carried("clay_pct_dry")
        of_flask = flask.carried("rammed_kg", "flask_sand_kg", times=1 / self.form.count)
        surface, of_part = carrier.surface(), self._modulus_of_a_part()
        given = carrier.several("metal", "pour_temp_c", "clay") | (of_part or surface) | carrier.sizes()
        inputs = carrier.volume() | whole | clay | of_flask | self._target("moisture_pct_wet") | given
        inputs |= self.metal.thickest_section()
        share = "the sand of its flask" if self.form.count == 1 else "its share of the flask's sand"
        why = f"One casting, in {share} at its moisture for moulding."
        if "casting_area_cm2" in inputs and inputs["casting_area_cm2"].origin == COMPACT:
            why += f" {COMPACT_SAID}"
        if of_part:
            why += " It goes by the modulus of the thickest part, which is the last to freeze."
        return self._ask(BURNOUT, inputs, why)

    def _modulus_of_a_part(self) -> Inputs:
        """The modulus alone where it is not that of the whole surface but of one part; nothing where they agree or one is not given."""
        surface = self.carrier.surface()
        if not {"casting_area_cm2", "modulus_mm"} <= surface.keys():
            return {}
        modulus_mm, area_cm2 = (value_of(word, surface[word]) for word in ("modulus_mm", "casting_area_cm2"))
        agree = is_of_the_surface(modulus_mm, self.carrier.cm3(), area_cm2)
        return {} if agree else {"modulus_mm": surface["modulus_mm"]}

    def _heap(self) -> Step:
        why = "Record the cast in the book: then the next plan starts from the heap as it is."
        return ask_job(HEAP, {}, why) if self.book is None else ask_heap(self.book, self.form.now, why)

    def _rebond(self, flask: Step, facing: Step | None) -> Step:
        heap, why = dict(self.heap), "The heap as given. With a book it is the heap after this cast."
        if self.book is not None:
            after = self._after(self.book, flask, facing)
            self.is_taken = after is not None
            heap |= _from(AFTER, after.carried_words(HEAP_WORDS)) if after and after.figure("heap_kg") else {}
            why = "The heap as the book has it after this cast."
            if after is None:
                why = "The heap as it is: this cast cannot be recorded as it stands."
        target = self._target_clay("target_clay_pct_dry") | self._target("target_moisture_pct_wet")
        return self._ask(REBOND, heap | target | self.carrier.several("clay", *BAGS), why)

    def _after(self, book: Book, flask: Step, facing: Step | None) -> Step | None:
        """The heap of the book after the cast, or None where the book would not take such an entry."""
        if self.poured:
            return ask_heap(book, self.form.now)
        last = book.events[-1]["at"] if book.events else "2000-01-01"
        at = {"at": self.form.now or last}
        cast = entry.of_cast(self.carrier, flask, facing=facing, gating_cm3=self.metal.gating_cm3)
        try:
            after = with_event(book, {"kind": "poured", **at, **cast})
            for words in entry.offered(facing, "joined")[:1]:
                after = with_event(after, {"kind": "joined", **at, **words})
            return ask_heap(after, self.form.now)
        except InputError:
            return None

    def _target(self, onward: str) -> Inputs:
        given = self.form.target_moisture_pct_wet is not None
        origin = self.carrier.origins.get("target_moisture_pct_wet", YOURS) if given else OF_THE_METAL
        return amount(onward, self.target_pct_wet, origin=origin)

    def _target_clay(self, onward: str) -> Inputs:
        given = "target_clay_pct_dry" not in self.carrier.filled.assumed
        origin = self.carrier.origins.get("target_clay_pct_dry", YOURS) if given else ASSUMED
        return amount(onward, self.form.target_clay_pct_dry, origin=origin)

    def _ask(self, job: AnyJob, inputs: Inputs, why: str) -> Step:
        """The step of *job*, with what the person changed in it."""
        own = self.casting.own.get(job.name) if self.casting else None
        takes = [word for word in TAKES.get(job.name, ()) if self._is_taken(job.name, word)]
        return ask_job(job, inputs, why, own=own, takes=takes)

    def _is_taken(self, job: str, word: str) -> bool:
        """Whether the plan hands its *word* on unchanged to this job today."""
        if job == "pour" and word in OF_ONE:
            return self.form.count == 1
        return job != "rebond" or word not in HEAP_WORDS or self.book is None


def _from(origin: str, inputs: Inputs) -> Inputs:
    return {word: Carried(given=carried.given, origin=origin) for word, carried in inputs.items()}
