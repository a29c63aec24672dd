"""The jobs as functions of Python: the same answer as by the JSON door, keywords with and without units, files, and all problems at once."""

from __future__ import annotations

import datetime
import inspect
import json
import subprocess
import sys
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest
from shapes import binary, cube

import sandmix
from sandmix import InputError, ask, facade
from sandmix.doors import document_file, printing
from sandmix.jobs import JOBS

ROOT = Path(sandmix.__file__).parents[1]
BOOK = {
    "format": "sandmix book",
    "version": 2,
    "name": "The hall",
    "events": [
        {"kind": "mixed", "at": "2027-03-06T10:00:00Z", "make_kg": "45 kg", "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
    ],
}  # fmt: skip
VOID = {"br", "hr", "img", "input", "link", "meta"}


def by_door(job, inputs):
    return json.loads(facade.call(json.dumps({"job": job, "inputs": dict(inputs)})))


def temper(**more):
    return ask.temper(heap="45 kg", sample_wet="400 g", sample_dry="391 g", **more)


def problems(call):
    with pytest.raises(InputError) as refused:
        call()
    return {problem.word: problem.message for problem in refused.value.problems}


class Tags(HTMLParser):
    """The tags of a page that are open, those that it has, its attributes and its text."""

    def __init__(self, text):
        super().__init__()
        self.open, self.tags, self.attributes, self.text = [], set(), set(), ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


@cache
def example(job):
    return getattr(ask, job)(**JOBS[job].example)


EACH_JOB = pytest.mark.parametrize(
    "job", [job if job in ("temper", "diagnose", "heap") else pytest.param(job, marks=pytest.mark.full) for job in JOBS]
)


@EACH_JOB
def test_a_job_gives_the_answer_of_the_json_door(job):
    answer = example(job)
    told = by_door(job, JOBS[job].example)
    assert answer.to_dict() == told
    assert (answer.job, answer.headline, answer.result) == (job, told["headline"], told["result"])
    assert answer.state == (told["state"]["word"], told["state"]["tone"])
    assert (answer.remarks, answer.cautions, answer.sources) == (told["remarks"], told["cautions"], told["sources"])
    assert {word: list(ends) for word, ends in answer.ranges.items()} == told["doubt"]
    assert [figure._asdict() for figure in answer.figures] == told["shown"]
    assert [one._asdict() for one in answer.to_do] == told["todo"]


@EACH_JOB
def test_a_notebook_shows_the_figures_and_every_caution_without_scripts_and_styles(job):
    answer = example(job)
    page = Tags(answer._repr_html_())
    assert page.open == []
    assert page.tags <= {"p", "strong", "ul", "li", "table", "caption", "thead", "tbody", "tr", "th", "td"}
    assert page.attributes <= {"scope"}
    texts = [answer.headline, *answer.cautions, *(figure.text for figure in answer.figures)]
    assert [text for text in texts if text not in page.text] == []


def test_text_of_a_person_is_escaped_in_a_notebook():
    name = "<script>a & 1</script>"
    flask = {"name": name, "flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}
    page = ask.fit(**{**JOBS["fit"].example, "flasks": [flask]})._repr_html_()
    assert "<script" not in page
    assert "&lt;script&gt;a &amp; 1&lt;/script&gt;" in page


def test_the_text_of_an_answer_is_what_the_command_line_prints(monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    assert str(temper()) == printing.table(temper().to_dict(), 60)


def test_a_word_can_be_written_without_its_unit():
    whole = ask.temper(heap_kg="45 kg", sample_wet_g="400 g", sample_dry_g="391 g")
    assert temper() == whole
    assert temper() != temper(metal="grey_iron")
    assert temper() != "another thing"


def test_numbers_of_an_array_and_an_input_of_none_are_read():
    assert ask.temper(heap=np.float64(45), sample_wet=np.int64(400), sample_dry=np.array(391), metal=None) == temper()


def test_changing_what_an_answer_gives_does_not_change_the_answer():
    answer = temper()
    answer.result.clear()
    answer.to_dict()["result"].clear()
    assert answer.result["verdict"] == "temper"


def test_everything_that_is_wrong_is_named_at_once():
    told = problems(lambda: ask.temper(heap="much", heap_kg=3, feel={1}, moisture_pct_wet=float("nan"), heep=3))
    assert told["heap_kg"] == "Sand in the heap: this is given twice, as heap and heap_kg. Give it once."
    assert told["moisture_pct_wet"].startswith("Moisture now: “nan” isn't a number.")
    assert told["feel"].startswith("Feel of a handful: “{1}” isn't one of the choices.")
    assert told["heep"].startswith("“heep” isn't an input of this job.")
    assert len(told) == 4


def test_a_refusal_says_what_the_json_door_says():
    inputs = {"heap_kg": "much", "sample_wet_g": 400}
    door = {problem["word"]: problem["message"] for problem in by_door("temper", inputs)["problems"]}
    assert problems(lambda: ask.temper(**inputs)) == door


def test_a_value_that_holds_itself_is_refused():
    turns: list[object] = []
    turns.append(turns)
    assert set(problems(lambda: ask.blend(lots=turns))) == {"lots"}


def test_a_fault_of_the_program_is_no_input_error(monkeypatch):
    def broken(*_, **__):
        raise ZeroDivisionError

    monkeypatch.setattr("sandmix.python.functions.answer", broken)
    with pytest.raises(ZeroDivisionError):
        temper()


class TestFiles:
    @pytest.fixture
    def book(self, tmp_path):
        path = tmp_path / "heap.json"
        path.write_text(json.dumps(BOOK), "utf-8")
        return path

    def test_a_book_is_read_from_its_file_and_the_time_is_now(self, book, monkeypatch):
        monkeypatch.setattr(document_file, "now_text", lambda: "2027-03-08T10:00:00Z")
        told = by_door("heap", {"book": BOOK, "now": "2027-03-08T10:00:00Z"})
        assert ask.heap(book=book).to_dict() == ask.heap(book=str(book)).to_dict() == told
        assert book.read_text("utf-8") == json.dumps(BOOK)

    def test_a_book_can_be_given_as_data_or_as_json(self):
        now = datetime.datetime(2027, 3, 8, 10, tzinfo=datetime.UTC)
        told = by_door("heap", {"book": BOOK, "now": now.isoformat()})
        assert ask.heap(book=BOOK, now=now).to_dict() == ask.heap(book=json.dumps(BOOK), now=now).to_dict() == told

    def test_a_casting_is_read_and_not_written(self, tmp_path):
        path = tmp_path / "door pull.json"
        casting = {"format": "sandmix casting", "version": 1, "name": "Door pull", "begun": "2027-03-08T10:00:00Z"}
        path.write_text(json.dumps(casting), "utf-8")
        assert ask.plan(casting=path, box="140 x 55 x 12 mm").job == "plan"
        assert path.read_text("utf-8") == json.dumps(casting)
        assert [*tmp_path.iterdir()] == [path]

    def test_a_shape_is_read_from_its_file_or_from_its_bytes(self, tmp_path):
        path = tmp_path / "block.stl"
        path.write_bytes(binary(cube(20)))
        by_name, by_bytes = (ask.pattern(mesh=given, measured="pattern") for given in (path, path.read_bytes()))
        assert by_name == by_bytes
        assert by_name.result["pattern_volume_cm3"] == pytest.approx(8)

    def test_files_that_are_missing_are_named_with_the_other_problems(self):
        told = problems(lambda: ask.pattern(mesh="none.stl", box=[1, 2]))
        assert (
            told["mesh"]
            == "File of the shape: none.stl can't be read: there is no such file. Check its name and its folder."
        )
        assert told["box_mm"].startswith("Sizes: 3 sizes are needed.")
        assert "There is no file none.json" in problems(lambda: ask.heap(book="none.json"))["book"]


def test_flasks_can_be_typed_in_short_as_on_the_command_line():
    short = "wide: 380 x 260 x 95 + 90 mm"
    long = [{"name": "wide", "flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}]
    inputs = {word: value for word, value in JOBS["fit"].example.items() if word != "flasks"}
    assert ask.fit(flasks=short, **inputs).result == ask.fit(flasks=long, **inputs).result


def test_a_function_has_the_signature_and_the_description_of_its_form():
    names = [*inspect.signature(ask.temper).parameters]
    assert names[:2] == ["heap", "heap_kg"]
    assert "heap or heap_kg: Sand in the heap, with its water; 0.05 to 5000 kg" in ask.temper.__doc__
    assert "flask_length or flask_length_mm: Flask length, inside; 10 to 3000 mm; required" in ask.flask.__doc__
    assert ask.temper.__name__ == "temper"
    assert set(JOBS) < set(dir(ask))


def test_a_job_that_there_is_not_is_named():
    with pytest.raises(AttributeError, match="There is no job “tempr”"):
        _ = ask.tempr
    with pytest.raises(AttributeError, match="nothing"):
        _ = sandmix.nothing


def test_only_the_job_that_is_asked_is_imported():
    code = (
        "import sys, sandmix; before = 'sandmix.ask' in sys.modules; sandmix.ask.shopping(sand=40, clay=3, sand_bag=25, clay_bag=10); "
        "print(before, *sorted(name for name in sys.modules if name.startswith('sandmix.jobs.') and name.endswith('.telling')))"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "sandmix.jobs.shopping.telling"]
