"""The door for the command line, the browser and other programs: JSON text in, JSON text out.

`call` never raises and never returns NaN, infinity or a negative mass to add. What is wrong comes back as problems in words.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, replace

from sandmix.asking.answer import Answer, answer
from sandmix.asking.form import asks
from sandmix.asking.job import AnyJob
from sandmix.asking.unit_sentences import in_wished_units, sentences_in
from sandmix.book import book
from sandmix.casting import casting
from sandmix.casting.casting import Casting
from sandmix.doors.describe import describe
from sandmix.jobs import JOBS
from sandmix.jobs.heap.past import confirmation
from sandmix.language import units
from sandmix.language.errors import InputError, Problem
from sandmix.language.shown_units import read_wish, showing
from sandmix.language.texts import RepeatedKeyError, is_deeper, parsed
from sandmix.language.uploads import BYTES, LONGEST_UPLOAD, Upload
from sandmix.language.wording import list_of, plain, shown_given, with_half_width
from sandmix.language.words import Quantity
from sandmix.vocabulary import WORDS

LONGEST_TEXT = 8_000_000
MOST_PROBLEMS = 50


def call(text: str, uploads: Mapping[str, bytes] | None = None) -> str:
    """Return the answer to the request *text*, as JSON text.

    A request is ``{"job": name, "inputs": {word: value}}``; the page “JSON door” describes it. *uploads* maps names to bytes that an Upload
    word may refer to. Raises nothing.

    >>> json.loads(call('{"job": "temper", "inputs": {"heap_kg": 25, "moisture_pct_wet": 2}}'))["result"]["verdict"]
    'temper'
    """
    try:
        return _text(_answer(_request(text, uploads or {}), uploads or {}))
    except InputError as error:
        return _text(_refused(*error.problems))
    except MemoryError:
        return _text(
            _refused(_whole("this request", "it needs more memory than there is. Send a file with fewer facets."))
        )
    except Exception as fault:
        words = f"this is a fault in sandmix ({type(fault).__name__}), not in your figures. Nothing is lost. Report what you typed."
        return _text(_refused(_whole("this request", words)) | {"fault": repr(fault)})


def _text(answer: Answer) -> str:
    """JSON text that can be written to any file: half a character (a lone surrogate) becomes ?."""
    return json.dumps(answer, allow_nan=False, ensure_ascii=False).encode("utf-8", "replace").decode("utf-8")


def _refused(*problems: Problem) -> Answer:
    """A refusal with its problems: at most `MOST_PROBLEMS`, then one that counts the rest."""
    more = len(problems) - MOST_PROBLEMS
    rest = (
        [_whole(f"{len(problems)} problems", f"there are {more} more problems. Mend these first.")] if more > 0 else []
    )
    return {"ok": False, "problems": [asdict(problem) for problem in (*problems[:MOST_PROBLEMS], *rest)]}


def convert(inputs: Mapping[str, object]) -> Answer:
    """Return an amount of a word in another of its units, with its ± if it has one, as text for its input box; raises InputError."""
    word = WORDS.get(str(inputs.get("word")))
    to = inputs.get("to")
    if not isinstance(word, Quantity):
        raise InputError(
            [_whole(shown_given(inputs.get("word")), "only a quantity can be converted. Name a word that is one.")]
        )
    allowed = units.same_dimension(word.unit)
    unit = units.named(to, word.unit)
    if unit is None:
        raise InputError(
            [
                Problem(
                    word=word.name,
                    given=shown_given(to),
                    allowed=", ".join(allowed),
                    message=f"{word.label}: “{shown_given(to)}” doesn't fit here. Use {list_of(allowed)}.",
                )
            ]
        )
    read = word.read(inputs.get("given"))
    assert isinstance(read.value, float)
    if read.value in word.names.values():
        return {"ok": True, "job": "convert", "text": word.show(read.value)}
    value = units.convert(read.value, word.unit, unit)
    width = units.convert(read.half_width or 0.0, word.unit, unit) - units.convert(0.0, word.unit, unit)
    text = with_half_width(value, width) if width > 0 else plain(value)
    return {"ok": True, "job": "convert", "text": text}


def record(inputs: Mapping[str, object]) -> Answer:
    """Return an event with its id and outcome, to be appended to the book that came with it; raises InputError.

    A casting that came along is returned as it is after the book took over its figures.
    """
    event = inputs.get("event")
    if not isinstance(event, Mapping):
        words = 'the event isn\'t an object. Send one such as {"kind": "poured", "at": "2026-05-09"}, together with the book.'
        raise InputError([_whole(shown_given(event), words)])
    of = _casting(inputs["casting"]) if "casting" in inputs else None
    written = book.record(book.read(inputs.get("book", [])), event)
    said = list(written["outcome"]["said"])
    after = {"casting": of.with_entry(written).to_dict()} if of else {}
    return {"ok": True, "job": "record", "event": written, "headline": confirmation(written), "remarks": said, **after}


def read_book(inputs: Mapping[str, object]) -> Answer:
    """Return a book of any version in this version, each event with its outcome; raises InputError with what is wrong in it."""
    return {"ok": True, "job": "read_book", "book": book.read(inputs.get("book")).to_dict()}


def read_casting(inputs: Mapping[str, object]) -> Answer:
    """Return a casting in this version; raises InputError with what is wrong in it."""
    return {"ok": True, "job": "read_casting", "casting": _casting(inputs.get("casting")).to_dict()}


def again(inputs: Mapping[str, object]) -> Answer:
    """Return a new casting of the same pattern, begun at the time ``at``, with the name ``name`` if there is one; raises InputError."""
    whole = _casting(inputs.get("casting"))
    name = inputs.get("name", whole.name)
    new = whole.to_dict() | {"name": name, "begun": inputs.get("at", "")}
    return {"ok": True, "job": "again", "casting": _casting(new).again().to_dict()}


def _casting(data: object) -> Casting:
    """The casting that *data* holds, with no figure that the plan doesn't ask for."""
    return casting.read(data, asks(JOBS["plan"].form))


VERBS: Mapping[str, Callable[[Mapping[str, object]], Answer]] = {
    "record": record,
    "read_book": read_book,
    "read_casting": read_casting,
    "again": again,
    "convert": convert,
}
"""What the door does besides the jobs."""
_SAID = ("headline", "remarks")
"""What it says of that in sentences: in the units that a request wishes for, while what is kept stays in the library's own."""


def _request(text: object, uploads: object) -> Mapping[str, object]:
    if not isinstance(text, str):
        no_text = 'the request isn\'t text. Send JSON text such as {"job": "temper", "inputs": {}}.'
        raise InputError([_whole(shown_given(text), no_text)])
    if not isinstance(uploads, Mapping) or not all(isinstance(data, BYTES) for data in uploads.values()):
        raise InputError(
            [_whole("the uploads", "they aren't names with their bytes. Send each file as bytes under a name.")]
        )
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > LONGEST_TEXT:
        too_long = f"the request is longer than {LONGEST_TEXT} bytes. Send large files as uploads."
        raise InputError([_whole(f"{size} bytes", too_long)])
    if sum(len(data) for data in uploads.values()) > LONGEST_UPLOAD:
        raise InputError(
            [_whole("the uploads", f"together they are larger than {LONGEST_UPLOAD} bytes. Send less at once.")]
        )
    if is_deeper(text):
        raise InputError([_whole(shown_given(text), "it is nested too deeply. Send one object with job and inputs.")])
    try:
        request = parsed(text)
    except RepeatedKeyError as error:
        twice = f"it gives “{error}” twice in one place. Send each word once."
        raise InputError([_whole(str(error), twice)]) from None
    except ValueError:
        raise InputError(
            [
                _whole(
                    shown_given(text),
                    'the request isn\'t JSON. Send an object such as {"job": "temper", "inputs": {}}.',
                )
            ]
        ) from None
    if not isinstance(request, dict):
        raise InputError([_whole(shown_given(text), "the request isn't an object. Send one with job and inputs.")])
    return request


def _answer(request: Mapping[str, object], uploads: Mapping[str, bytes]) -> Answer:
    name, inputs = request.get("job"), request.get("inputs", {})
    names = [*JOBS, *VERBS, "describe"]
    problems = []
    if not isinstance(name, str) or name not in names:
        problems.append(
            Problem(
                word="job",
                given=shown_given(name),
                allowed=", ".join(names),
                message=f"Job: there is no job “{shown_given(name)}”. Name {list_of(names)}.",
            )
        )
    if not isinstance(inputs, dict):
        problems.append(
            Problem(
                word="inputs",
                given=shown_given(inputs),
                allowed="an object",
                message='Inputs: these aren\'t an object of words and values. Send one such as {"heap_kg": 45}.',
            )
        )
    if problems:
        raise InputError(problems)
    assert isinstance(name, str) and isinstance(inputs, dict)
    if name == "describe":
        return describe()
    wish = read_wish(request.get("shown_in"))
    try:
        if name in VERBS:
            found = VERBS[name](inputs)
            return {**found, **sentences_in({part: found[part] for part in _SAID if part in found}, wish)}
        with showing(wish):
            given = _with_uploads(JOBS[name], inputs, uploads)
            return sentences_in(answer(JOBS[name], given, doubt=request.get("doubt", True) is not False), wish)
    except InputError as error:
        raise InputError(
            [replace(each, message=in_wished_units(each.message, wish)) for each in error.problems]
        ) from None


def _with_uploads(job: AnyJob, inputs: Mapping[str, object], uploads: Mapping[str, bytes]) -> Mapping[str, object]:
    """The inputs, with the bytes of each upload in place of its name, not copied."""
    files: dict[str, object] = {}
    for name, part in asks(job.form).items():
        given = inputs.get(name)
        if isinstance(part.word, Upload) and isinstance(given, dict) and set(given) == {"upload"}:
            files[name] = uploads.get(str(given["upload"]), given)
    return {**inputs, **files}


def _whole(given: str, what_to_do: str) -> Problem:
    return Problem(word="", given=given, allowed="", message=f"Request: {what_to_do}")
