"""How the library is built: the order of its chapters, what a file may use, and what every declaration must have.

A rule is one test, which lists everything that breaks it.
"""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path

import sandmix
from sandmix.asking.form import asks
from sandmix.asking.job import GROUPS
from sandmix.doors.describe import describe
from sandmix.doors.spelling import options_of
from sandmix.jobs import JOBS
from sandmix.language.sources import SOURCES
from sandmix.vocabulary import WORDS

FOLDER = Path(sandmix.__file__).parent
GUIDE = FOLDER.parent / "DEVELOPERS.md"
TREES = {file: ast.parse(file.read_text("utf-8")) for file in sorted(FOLDER.rglob("*.py"))}
MOST_LINES = 400
MOST_FILES = 12
LARGE_CHAPTERS = {"vocabulary", "jobs"}
WAYS_IN = {"__init__", "__main__", "ask", "facade"}
KEPT_OUT = {
    "time", "datetime", "random", "secrets", "uuid", "tempfile", "pathlib", "os", "shutil", "io", "socket", "subprocess", "urllib",
}  # fmt: skip
ALLOWED_IMPORTS = {
    "__main__.py": {"os", "io"},
    "document_file.py": {"os", "time", "pathlib"},
    "terminal.py": {"shutil"},
    "watch.py": {"time"},
    "timestamps.py": {"datetime"},
}
UNIT_ENDINGS = {
    "kg": "_kg", "g": "_g", "mm": "_mm", "cm³": "_cm3", "L": "_l", "kg/L": "_kg_l", "%": "_pct",
    "cm²": "_cm2", "mm²": "_mm2", "°C": "_c", "s": "_s", "min": "_min", "W/m²K": "_w_m2k",
    "µm": "_um", "cm²/g": "_cm2_g", "h": "_h", "kPa": "_kpa", "kJ/m²": "_kj_m2",
    "mL": "_ml", "cm": "_cm", "N": "_n", "m/s": "_m_s", "m²": "_m2", "MJ": "_mj",
}  # fmt: skip
PERCENT_BASES = ("_dry", "_wet", "_sand", "")


def chapters() -> dict[str, list[str]]:
    """The order of the chapters and of the files in each, from the table of the contributors' guide; *plan* calls the other jobs."""
    rows = re.findall(r"^\| `(\w+)/` \| ([^|]+) \|", GUIDE.read_text("utf-8"), flags=re.MULTILINE)
    jobs = ["shared", *(job for job in JOBS if job != "plan"), "plan"]
    return {chapter: re.findall(r"`(\w+)`", files) for chapter, files in rows} | {"jobs": jobs}


CHAPTERS = chapters()


def named(file: Path) -> str:
    return str(file.relative_to(FOLDER))


def imports_of(file: Path) -> list[str]:
    """The dotted modules that *file* imports; a name that is a module of the library is part of them."""
    found = []
    for node in ast.walk(TREES[file]):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            inside = FOLDER.parent.joinpath(*node.module.split("."))
            for alias in node.names:
                is_module = (inside / alias.name).is_dir() or (inside / f"{alias.name}.py").exists()
                found.append(f"{node.module}.{alias.name}" if is_module else node.module)
    return found


def place_of(parts: tuple[str, ...]) -> tuple[int, int]:
    """The place of a module in the table, by chapter and by file; a chapter's own __init__ stands after its files."""
    chapter, files = parts[0], CHAPTERS[parts[0]]
    return list(CHAPTERS).index(chapter), files.index(parts[1]) if len(parts) > 1 and parts[1] in files else len(files)


def chapter_files() -> list[tuple[Path, tuple[str, ...]]]:
    """Each file in a chapter, with the dotted parts of its module."""
    parts = {file: file.relative_to(FOLDER).with_suffix("").parts for file in TREES}
    return [
        (file, tuple(part for part in inner if part != "__init__")) for file, inner in parts.items() if len(inner) > 1
    ]


def test_a_file_imports_only_from_earlier_chapters_and_earlier_files():
    back = []
    for file, inner in chapter_files():
        for module in imports_of(file):
            seen = tuple(module.split(".")[1:])
            if (
                module.startswith("sandmix.")
                and seen[0] in CHAPTERS
                and inner[:2] != seen[:2]
                and place_of(seen) > place_of(inner)
            ):
                back.append(f"{named(file)} imports {module}")
    assert back == []


def test_inside_a_job_the_form_comes_first_and_the_telling_last():
    order = {"form": 0, "figures": 1, "telling": 2}
    back = []
    for file, inner in chapter_files():
        if inner[0] == "jobs" and len(inner) == 3 and inner[2] in order:
            back += [
                f"{named(file)} imports {module}"
                for module in imports_of(file)
                if module.startswith(f"sandmix.jobs.{inner[1]}.")
                and order.get(module.split(".")[3], -1) > order[inner[2]]
            ]
    assert back == []


def test_imports_are_absolute():
    relative = [
        f"{named(file)}:{node.lineno}"
        for file, tree in TREES.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.level
    ]
    assert relative == []


def test_the_guide_lists_every_chapter_and_every_file():
    found: dict[str, set[str]] = {}
    for _, inner in chapter_files():
        found.setdefault(inner[0], set()).update(inner[1:2])
    listed = {chapter: set(files) for chapter, files in CHAPTERS.items()}
    unlisted = [f"{chapter}/{name}" for chapter in found for name in found[chapter] - listed.get(chapter, set())]
    assert sorted(unlisted) == [], "add these files to the table of chapters in DEVELOPERS.md (a job: to ORDER)"
    gone = [f"{chapter}/{name}" for chapter in listed for name in listed[chapter] - found.get(chapter, set())]
    assert sorted(gone) == [], "the table of chapters in DEVELOPERS.md (or ORDER) lists files that are not there"
    assert {file.stem for file in FOLDER.glob("*.py")} == WAYS_IN


def test_a_chapter_has_at_most_12_files():
    assert [
        chapter for chapter, files in CHAPTERS.items() if len(files) > MOST_FILES and chapter not in LARGE_CHAPTERS
    ] == [], "put the functions into a file that is there, or begin a chapter of its own"


def test_the_package_itself_imports_no_job():
    assert {module for module in imports_of(FOLDER / "__init__.py") if module.startswith("sandmix")} <= {
        "sandmix.language.errors",
        "sandmix.materials.sand",
        "sandmix.ask",  # for the types; tests/unit/python/test_ask.py checks that it is imported when it is first used
    }


def test_a_file_has_at_most_400_lines():
    long = {named(file): len(file.read_text("utf-8").splitlines()) for file in TREES}
    assert {name: lines for name, lines in long.items() if lines > MOST_LINES} == {}


def test_only_the_standard_library_without_clocks_chance_and_files_is_imported():
    wrong = []
    for file in TREES:
        tops = {module.split(".")[0] for module in imports_of(file)} - {"sandmix", "__future__"}
        kept_out = KEPT_OUT - ALLOWED_IMPORTS.get(file.name, set())
        wrong += [
            f"{named(file)} imports {top}" for top in tops if top not in sys.stdlib_module_names or top in kept_out
        ]
    assert wrong == []


def test_nothing_opens_files_evaluates_text_compares_by_identity_or_asks_a_clock():
    wrong = []
    for file, tree in TREES.items():
        functions = [node.func for node in ast.walk(tree) if isinstance(node, ast.Call)]
        called = {function.id for function in functions if isinstance(function, ast.Name)}
        called |= {f".{function.attr}" for function in functions if isinstance(function, ast.Attribute)}
        kept_out = {"open", "hash", "id", "eval", "exec", "__import__", "input", ".now", ".today", ".utcnow"} - (
            {"open"} if file.name == "document_file.py" else set()
        )
        wrong += [f"{named(file)} calls {name}" for name in called & kept_out]
    assert wrong == []


def test_a_word_has_a_label_a_source_and_consistent_bounds():
    wrong = []
    for word in WORDS.values():
        rules = {
            "its label begins with a capital letter": word.label[:1].isupper(),
            f"its source “{word.source}” is a key of language/sources.py": word.source in SOURCES,
        }
        if hasattr(word, "low"):
            rules |= {
                "low is below high": word.low < word.high,
                "the default is within the limits": word.default is None or word.low <= word.default <= word.high,
                "the usual range is within the limits": word.usual is None
                or word.low <= word.usual[0] < word.usual[1] <= word.high,
                "the first of its units is its own": not word.units or word.units[0] == word.unit,
            }
        wrong += [f"{word.name}: {rule}" for rule, holds in rules.items() if not holds]
    assert wrong == [], "each of these must be so"


def test_the_error_of_every_word_is_explained():
    quantities = [word for word in WORDS.values() if hasattr(word, "error")]
    assert [
        word.name for word in quantities if word.error.half_width(1.0, assumed=True) and not word.error_note
    ] == [], "a word with an error says in its error_note how large it is and where it is from"


def test_a_words_unit_is_the_last_part_of_its_name():
    wrong = []
    for word in (word for word in WORDS.values() if hasattr(word, "unit")):
        endings = (
            tuple(UNIT_ENDINGS[word.unit] + base for base in (PERCENT_BASES if word.unit == "%" else ("",)))
            if word.unit
            else ()
        )
        unitless = not word.name.endswith(("_kg", "_g", "_mm", "_l", "_cm3", "_pct")) or word.name == "cost_per_kg"
        if not (word.name.endswith(endings) if word.unit else unitless):
            allowed = " or ".join(endings) if word.unit else "no unit"
            wrong.append(f"{word.name} is in “{word.unit}”, so its name ends in {allowed}")
    assert wrong == []


def test_a_percent_names_its_basis():
    assert [word.name for word in WORDS.values() if getattr(word, "unit", "") == "%" and not word.basis] == []


def test_every_job_has_the_texts_for_menus_and_tables():
    assert [
        job.name
        for job in JOBS.values()
        if not (job.title.endswith("?") and job.short and job.answered_with and job.story.endswith("."))
    ] == [], "a title ends in a question mark, a story in a full stop, and short and answered_with are not empty"


def test_the_jobs_stand_group_by_group_in_the_order_of_the_menu():
    groups = [job.group for job in JOBS.values()]
    assert list(dict.fromkeys(groups)) == list(GROUPS)
    assert groups == sorted(groups, key=list(GROUPS).index), "in ORDER a job stands next to the others of its group"


def test_every_input_of_a_job_is_a_declared_word():
    assert [
        (job.name, name)
        for job in JOBS.values()
        for name, part in asks(job.form).items()
        if part.word is not WORDS.get(name)
    ] == []


def test_every_answer_of_a_job_is_a_declared_word_once():
    assert [
        job.name
        for job in JOBS.values()
        if not set(job.answers) <= WORDS.keys() or len(set(job.answers)) < len(job.answers)
    ] == []


def test_the_ways_and_the_example_of_a_job_use_words_of_its_form():
    used = {
        job.name: {*job.example, *(word for ways in job.ways for way in ways.options for word in way.words)}
        for job in JOBS.values()
    }
    assert {
        name: words - asks(JOBS[name].form).keys()
        for name, words in used.items()
        if words - asks(JOBS[name].form).keys()
    } == {}


def test_the_options_of_a_job_do_not_clash():
    for job in JOBS.values():
        spelled = [option for options in options_of(asks(job.form)).values() for option in options]
        assert sorted(spelled) == sorted({*spelled} - {"--json", "--no-doubt", "--help"}), job.name


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
