"""The types of what the library answers, for the type check of the page's JavaScript: `answer-types.d.ts`.

They are read off real answers: the description, every job's worked example, a book, a conversion, and requests that are
refused. The file is written at each check and not committed, so it cannot be out of date: what the library answers today
is what the JavaScript is checked against.

    python3 site/answer_types.py FOLDER
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from sandmix import facade  # noqa: E402  found only once the path is set

NAME = "answer-types.d.ts"
TONES = ("go", "plain", "care", "stop")
DOCUMENTED = frozenset((
    "ok", "job", "headline", "state", "lead", "result", "doubt", "remarks", "cautions", "working", "charts", "drawings", "sources",
))  # fmt: skip
"""The names that the JSON door promises for every answer."""
BY_KEY = frozenset((
    "result", "doubt", "uncertainty", "surer", "drawings", "sources", "inputs", "words", "chapters", "keys", "chances", "rows", "change", "variance",
    "example", "grades", "carried", "figures", "own",
))  # fmt: skip
"""Objects whose keys are data, such as the names of words; all others have fixed names."""
PARTS = {"uncertainty": "contribution", "surer": "step"}
"""What the values of such an object are called where they have a type of their own."""
NAMED = {
    "shown": "Shown",
    "state": "State",
    "lead": "Lead",
    "contribution": "Contribution",
    "step": "Surer",
    "charts": "Chart",
    "series": "Series",
    "band": "Series",
    "limits": "Limit",
    "below": "Panel",
    "x": "Axis",
    "y": "Axis",
    "todo": "ToDo",
    "first": "First",
    "cards": "Card",
    "points": "CardPoint",
    "checklist": "Check",
    "timers": "Timer",
    "timeline": "TimelineEntry",
    "records": "EventLink",
    "kept": "Reading",
    "next": "NextStep",
    "steps": "DayStep",
    "problems": "Problem",
}
"""Which objects get a name of their own, by the key that they stand under."""
NOW = "2027-03-24T10:00:00+00:00"
EVENTS: tuple[dict[str, object], ...] = (
    {"kind": "mixed", "at": "2027-03-06T10:00:00+00:00", "make_kg": "45 kg", "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4},
    {"kind": "poured", "at": "2027-03-13T10:00:00+00:00", "metal": "aluminium", "metal_kg": "1.5 kg", "note": "hooks"},
    {"kind": "measured", "at": "2027-03-20T10:00:00+00:00", "heap_kg": "43.6 kg", "gfn": 60},
)  # fmt: skip
CASTING = {
    "format": "sandmix casting",
    "version": 1,
    "name": "Strap",
    "begun": NOW,
    "own": {"flask": {"spare_pct": "30"}},
}
HEAD = """// Written by site/answer_types.py from what the library answers.

export type Tone = {tones};
export type JobName = {jobs};
/** The book's events are flat objects: the words of their kind, and what the library adds. */
export type BookEvent = Record<string, any>;
export interface BookData {{ format: string; version: number; name: string; events: BookEvent[] }}
/** A casting as it is saved: figures by word, and by job and word. */
export interface CastingData {{
  format: string; version: number; name: string; begun: string; finished: string;
  figures: Record<string, unknown>; own: Record<string, Record<string, unknown>>;
  pattern: {{ name: string; figures: Record<string, unknown> }};
  ticks: Record<string, unknown>[]; clocks: Record<string, unknown>[]; recorded: Record<string, unknown>[];
}}
export interface CastingRead {{ ok: true; job: string; casting: CastingData }}
export interface Refusal {{ ok: false; problems: Problem[]; fault?: string }}
export type Inputs = Record<string, unknown>;
export interface Request {{ job: string; inputs: Inputs }}
"""
TAIL = """
/** What goes with a question that has files: how to stop it, and who hears how many bytes have been read. */
export interface WithFiles {
  files?: Record<string, File>;
  signal?: AbortSignal;
  onRead?: (read: { read: number; of: number }) => void;
}

/** The library as the page asks it; each kind of request has its own answer. */
export interface Ask {
  (request: { job: "record"; inputs: Inputs }): Promise<Recorded | Refusal>;
  (request: { job: "read_book"; inputs: Inputs }): Promise<BookRead | Refusal>;
  (request: { job: "read_casting"; inputs: Inputs }): Promise<CastingRead | Refusal>;
  (request: { job: "again"; inputs: Inputs }): Promise<CastingRead | Refusal>;
  (request: { job: "convert"; inputs: Inputs }): Promise<Converted | Refusal>;
  (request: Request, more?: WithFiles): Promise<Answer | Refusal>;
}
"""


class NoType(Exception):
    """The library's answers do not show what a type needs: what is missing, in words."""


def write(folder: Path) -> Path:
    """Write the types into *folder* and return the file."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / NAME
    file.write_text(types(), encoding="utf-8")
    return file


def types() -> str:
    """Return the text of the file."""
    description = ask("describe", {})
    jobs = [job["name"] for job in description["jobs"]]
    answers = [ask(job["name"], job["example"]) for job in description["jobs"]]
    recorded, read = book()
    answers.append(ask("plan", {"casting": CASTING, "box_mm": "160 x 90 x 30 mm"}))
    answers.append(ask("heap", {"book": read["book"], "now": NOW}))
    answers.append(ask("flask", description["jobs"][jobs.index("flask")]["example"] | {"heap_kg": "20 kg"}))
    answers.append(ask("temper", description["jobs"][jobs.index("temper")]["example"], doubt=False))
    refusals = [call("temper", {"heap_kg": "much"}), call("nothing", {})]
    check_promises(answers)
    types = Types()
    wholes = {
        "Answer": types.of(answers, "", inside="Answer"),
        "Recorded": types.of([recorded, {part: recorded[part] for part in recorded if part != "casting"}], "", inside="Recorded"),
        "BookRead": types.of([read], "", inside="BookRead"),
        "Converted": types.of([ask("convert", {"word": "heap_kg", "given": "1 kg", "to": "g"})], "", inside="Converted"),
        "Description": types.of([description], "", inside="Description"),
    }  # fmt: skip
    types.of([refusal["problems"] for refusal in refusals], "problems", inside="Refusal")
    head = HEAD.format(tones=one_of(TONES), jobs=one_of(jobs))
    parts = [f"export type {name} = {text};\n" for name, text in {**types.named, **wholes}.items()]
    return "\n".join([head, *parts, TAIL])


def call(job: str, inputs: Mapping[str, object], **more: object) -> dict[str, Any]:
    """Return the answer of the JSON door, whatever it is."""
    answer: dict[str, Any] = json.loads(facade.call(json.dumps({"job": job, "inputs": inputs, **more})))
    return answer


def ask(job: str, inputs: Mapping[str, object], **more: object) -> dict[str, Any]:
    """Return an answer that must not be a refusal."""
    answer = call(job, inputs, **more)
    if not answer["ok"]:
        raise NoType(f"The request that shows what {job} answers is refused: {answer['problems'][0]['message']}")
    return answer


def book() -> tuple[dict[str, Any], dict[str, Any]]:
    """Return the answer to the last event of a short book, and the book as it is read."""
    events: list[dict[str, Any]] = []
    answer: dict[str, Any] = {}
    for event in EVENTS:
        answer = ask("record", {"book": events, "event": event, "casting": CASTING})
        events.append(answer["event"])
    return answer, ask("read_book", {"book": {"format": "sandmix book", "version": 2, "name": "The hall", "events": events}})  # fmt: skip


def check_promises(answers: Iterable[Mapping[str, Any]]) -> None:
    """Check what the door promises; raises NoType with what an answer lacks or says beyond it."""
    for answer in answers:
        missing = DOCUMENTED - {"doubt"} - answer.keys()
        if missing:
            raise NoType(f"The answer of {answer['job']} lacks {', '.join(sorted(missing))}, which the door promises.")
        if answer["state"]["tone"] not in TONES:
            raise NoType(f"The answer of {answer['job']} has the tone {answer['state']['tone']}, which no page knows.")


class Types:
    """Types read off samples; objects that stand under a known key get a name of their own."""

    def __init__(self) -> None:
        self.named: dict[str, str] = {}
        self._samples: dict[str, list[dict[str, Any]]] = {}

    def of(self, samples: Sequence[Any], key: str, *, inside: str) -> str:
        """Return the type that all *samples* of one place have; *key* is what they stand under."""
        kinds = dict.fromkeys(text for sample in samples if (text := self._plain(sample, key, inside)))
        objects = [sample for sample in samples if isinstance(sample, dict)]
        lists = [sample for sample in samples if isinstance(sample, list)]
        if objects:
            kinds[self._object(objects, key, inside)] = None
        if lists:
            kinds[self._list(lists, key, inside)] = None
        return " | ".join(kinds)

    def _plain(self, sample: Any, key: str, inside: str) -> str:
        if key == "ok":
            return json.dumps(sample)
        if key == "tone":
            return "Tone"
        if key == "job" and inside == "NextStep":
            return "JobName"
        names: dict[type, str] = {bool: "boolean", int: "number", float: "number", str: "string", type(None): "null"}
        return names.get(type(sample), "")

    def _list(self, samples: Sequence[list[Any]], key: str, inside: str) -> str:
        parts = [part for sample in samples for part in sample]
        if not parts:
            if NAMED.get(key) in self.named:
                return f"{NAMED[key]}[]"
            if inside in ("Answer", *NAMED.values()):
                raise NoType(f"No answer shows what stands in {key}: add a request to site/answer_types.py that does.")
            return "unknown[]"
        if all(len(sample) == 2 and all(type(part) in (int, float) for part in sample) for sample in samples):
            return "[number, number]"
        text = self.of(parts, key, inside=inside)
        return f"({text})[]" if " | " in text else f"{text}[]"

    def _object(self, samples: Sequence[dict[str, Any]], key: str, inside: str) -> str:
        if key == "event" or key == "events":
            return "BookEvent" if "id" in samples[0] else self._fields(samples, inside)
        if key == "book":
            return "BookData"
        if key == "casting":
            return "CastingData"
        if key in BY_KEY:
            values = [value for sample in samples for value in sample.values()]
            return f"Record<string, {self.of(values, PARTS.get(key, ''), inside=inside) or 'unknown'}>"
        name = NAMED.get(key, "") if inside in ("Answer", "Refusal", *NAMED.values()) else ""
        if not name:
            return self._fields(samples, inside)
        every = self._samples.setdefault(name, [])
        every.extend(samples)
        text = self._fields(every, name)
        if self.named.setdefault(name, text) != text and len(text) > len(self.named[name]):
            self.named[name] = text
        return name

    def _fields(self, samples: Sequence[dict[str, Any]], inside: str) -> str:
        keys = dict.fromkeys(key for sample in samples for key in sample)
        lines = []
        for key in keys:
            values = [sample[key] for sample in samples if key in sample]
            missing = "" if len(values) == len(samples) else "?"
            lines.append(f"{json.dumps(key)}{missing}: {self.of(values, key, inside=inside)};")
        return "{ " + " ".join(lines) + " }"


def one_of(names: Iterable[str]) -> str:
    """Return a type of some texts."""
    return " | ".join(json.dumps(name) for name in names)


if __name__ == "__main__":
    print(write(Path(sys.argv[1])))
