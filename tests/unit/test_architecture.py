"""How the library is built: which room may look into which, and what every declaration must have."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

import sandmix
from sandmix.cli import options
from sandmix.describe import describe
from sandmix.form import asks
from sandmix.jobs import JOBS
from sandmix.sources import SOURCES
from sandmix.vocabulary import WORDS

ROOMS = [
    "errors",
    "units",
    "amounts",
    "sources",
    "wording",
    "words",
    "moments",
    "texts",
    "tables",
    "series",
    "uploads",
    "mesh",
    "materials",
    "metals",
    "molten",
    "fineness",
    "stack",
    "openings",
    "ailments",
    "findings",
    "bench_tests",
    "choosing",
    "body",
    "pattern",
    "flask",
    "clearance",
    "vocabulary",
    "sand",
    "scatter",
    "doubt",
    "bench",
    "estimates",
    "mix",
    "temper",
    "pour",
    "fit",
    "walls",
    "cutting",
    "parting",
    "laying",
    "conduction",
    "casting",
    "cooling",
    "burnout",
    "shopping",
    "rebond",
    "programme",
    "bring_back",
    "blend",
    "nearest",
    "forecast",
    "diagnosis",
    "telling_apart",
    "cautions",
    "strip",
    "shell",
    "section",
    "pen",
    "drawing",
    "projection",
    "form",
    "reclaim",
    "events",
    "kept",
    "heap",
    "crust",
    "measuring",
    "outcomes",
    "ledger",
    "book",
    "forms",
    "job",
    "jobs",
    "answer",
    "describe",
    "facade",
    "bookfile",
    "cli",
]
ROOF = 400
FOLDER = Path(sandmix.__file__).parent
FILES = sorted(FOLDER.rglob("*.py"))
UNWANTED = {
    "time",
    "datetime",
    "random",
    "secrets",
    "uuid",
    "tempfile",
    "pathlib",
    "os",
    "shutil",
    "io",
    "socket",
    "subprocess",
    "urllib",
}
UNIT_ENDINGS = {
    "kg": "_kg", "g": "_g", "mm": "_mm", "cm3": "_cm3", "L": "_l", "kg/L": "_kg_l", "%": "_pct",
    "cm2": "_cm2", "mm2": "_mm2", "°C": "_c", "s": "_s", "min": "_min", "W/m²K": "_w_m2k",
    "µm": "_um", "cm²/g": "_cm2_g", "h": "_h", "kPa": "_kpa",
    "mL": "_ml", "cm": "_cm", "N": "_n",
}  # fmt: skip
PERCENT_BASES = ("_dry", "_wet", "_sand", "")


def room_of(file: Path) -> str:
    return file.relative_to(FOLDER).parts[0].removesuffix(".py")


def imports_of(file: Path) -> list[str]:
    """The dotted modules that *file* imports, those of the library as sandmix.ROOM."""
    package = ["sandmix", *file.relative_to(FOLDER).parent.parts]
    found = []
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            start = package[: len(package) - node.level + 1] if node.level else []
            module = [*start, *(node.module or "").split(".")] if node.module else start
            names = [alias.name for alias in node.names] if len(module) == 1 and module == ["sandmix"] else [""]
            found += [".".join([*module, name]).rstrip(".") for name in names]
    return found


def own_rooms(file: Path) -> set[str]:
    rooms = {name.split(".")[1] for name in imports_of(file) if name.startswith("sandmix.")}
    return {room for room in rooms if room in ROOMS}


@pytest.mark.parametrize(
    "file", [file for file in FILES if room_of(file) in ROOMS], ids=lambda file: str(file.relative_to(FOLDER))
)
def test_a_room_looks_only_into_rooms_before_it(file):
    here = ROOMS.index(room_of(file))
    assert {room for room in own_rooms(file) if ROOMS.index(room) > here} == set()


def test_every_room_stands_in_the_list():
    assert {room_of(file) for file in FILES} - {"__init__", "__main__"} == set(ROOMS)


def test_the_way_in_opens_no_job():
    assert own_rooms(FOLDER / "__init__.py") <= {"errors", "sand"}


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(FOLDER)))
def test_a_file_has_at_most_400_lines(file):
    if room_of(file) != "vocabulary":
        assert len(file.read_text("utf-8").splitlines()) <= ROOF


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(FOLDER)))
def test_nothing_beyond_the_standard_library_is_imported(file):
    tops = {name.split(".")[0] for name in imports_of(file)} - {"sandmix", "__future__"}
    assert tops <= sys.stdlib_module_names
    allowed = {"__main__.py": {"os", "io"}, "bookfile.py": {"os", "time", "pathlib"}}.get(file.name, set())
    assert not tops & (UNWANTED - allowed)


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(FOLDER)))
def test_no_clock_no_dice_and_no_files(file):
    calls = {
        node.func.id
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    files = {"open"} if file.name == "bookfile.py" else set()
    assert not calls & ({"open", "hash", "id", "eval", "exec", "__import__", "input"} - files)


@pytest.mark.parametrize("word", WORDS.values(), ids=lambda word: word.name)
def test_a_word_has_a_label_a_source_and_lawful_bounds(word):
    assert word.label and word.label[0].isupper()
    assert word.source in SOURCES
    if hasattr(word, "low"):
        assert word.low < word.high
        assert word.default is None or word.low <= word.default <= word.high
        assert word.usual is None or word.low <= word.usual[0] < word.usual[1] <= word.high
        assert not word.units or word.units[0] == word.unit
        assert bool(word.error.half_width(1.0, assumed=True)) <= bool(word.error_note), "a doubt is explained in words"


@pytest.mark.parametrize("word", [word for word in WORDS.values() if hasattr(word, "unit")], ids=lambda word: word.name)
def test_a_words_unit_is_the_last_part_of_its_name(word):
    if word.unit:
        endings = [UNIT_ENDINGS[word.unit] + base for base in (PERCENT_BASES if word.unit == "%" else ("",))]
        assert word.name.endswith(tuple(endings))
    else:
        assert not word.name.endswith(("_kg", "_g", "_mm", "_l", "_cm3", "_pct")) or word.name == "cost_per_kg"


@pytest.mark.parametrize(
    "word", [word for word in WORDS.values() if getattr(word, "unit", "") == "%"], ids=lambda word: word.name
)
def test_a_percent_names_its_basis(word):
    assert word.basis


@pytest.mark.parametrize("job", JOBS.values(), ids=lambda job: job.name)
class TestEveryJob:
    def test_is_told_in_full(self, job):
        assert job.title.endswith("?")
        assert job.short
        assert job.story.endswith(".")
        assert job.example

    def test_asks_words_by_their_own_names(self, job):
        for name, part in asks(job.form).items():
            assert part.word.name == name
            assert part.word is WORDS[name]

    def test_answers_words_that_exist_once_each(self, job):
        assert set(job.answers) <= WORDS.keys()
        assert len(set(job.answers)) == len(job.answers)

    def test_its_ways_ask_what_the_form_asks(self, job):
        for ways in job.ways:
            for way in ways.options:
                assert set(way.words) <= asks(job.form).keys()

    def test_its_example_fills_the_form(self, job):
        assert job.example.keys() <= asks(job.form).keys()

    def test_its_options_do_not_clash(self, job):
        spelled = [option for name in asks(job.form) for option in options(name)]
        assert len(spelled) == len(set(spelled))
        assert not set(spelled) & {"--json", "--no-doubt", "--help"}


def test_the_description_holds_all_words_jobs_and_sources():
    told = describe()
    assert set(told["words"]) == set(WORDS)
    assert [job["name"] for job in told["jobs"]] == list(JOBS)
    assert set(told["sources"]) == set(SOURCES)
    assert {word["kind"] for word in told["words"].values()} <= {
        "quantity",
        "count",
        "choice",
        "flag",
        "upload",
        "text",
        "list",
        "sizes",
        "rows",
        "moment",
        "data",
        "table",
        "picks",
    }
