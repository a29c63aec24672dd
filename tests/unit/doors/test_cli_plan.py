"""The plan on the command line: the day as a table, and one casting that is kept in a file."""

import json
import subprocess
from pathlib import Path

import pytest

from sandmix.book import book
from sandmix.casting import casting
from sandmix.doors import cli, terminal
from sandmix.doors.facade import call
from sandmix.jobs import JOBS

SMALL = '[{"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 90}]'
STRAP = ("--box", "160 x 90 x 30 mm", "--casting-volume", "300 cm³", "--flasks", SMALL)
HEAP = ("--heap", "45kg", "--moisture-pct-wet", "2.3 %")
MIX = ("--record", "mixed", "--make-kg", "45", "--clay-pct-dry", "7", "--moisture-pct-wet", "3.4", "--at", "2026-05-02")


@pytest.fixture
def run(capsys, tmp_path, monkeypatch):
    """Run a command in an empty folder and return its exit status, its output and its errors."""
    monkeypatch.chdir(tmp_path)

    def run(*arguments):
        status = cli.main(arguments)
        printed = capsys.readouterr()
        return status, printed.out, printed.err

    return run


def kept(path):
    return casting.read(json.loads(Path(path).read_text("utf-8")))


def kept_entries(path):
    return [event["kind"] for event in book.read(json.loads(Path(path).read_text("utf-8"))).events]


class TestTheDay:
    def rows(self, out):
        lines = out.splitlines()
        start = lines.index("The day, step by step") + 1
        return lines[start : lines.index("", start)]

    def test_is_a_table_of_steps_with_state_and_main_figure(self, run):
        status, out, _ = run("plan", *STRAP, *HEAP)
        answer = json.loads(run("plan", "--json", *STRAP, *HEAP)[1])
        head, *rows = self.rows(out)
        assert status == 0
        assert head.split() == ["step", "state", "main", "figure,", "or", "what", "is", "missing"]
        for row, step in zip(rows, answer["steps"], strict=True):
            mark = ">" if answer["headline"].startswith(f"Next: {step['label'].lower()}") else " "
            assert row.startswith(f"{mark} {step['label']}")
            assert step["stands"]["word"] in row
            lead = step.get("lead")
            begins = "It begins with" if step["job"] == "heap" else "Still needed: "
            assert (f"{lead['label']}: {lead['text']}" if lead else begins) in row
            assert not lead or lead["then"] in row

    def test_keeps_to_the_width_of_a_page_and_says_why_the_pour_must_wait(self, run):
        _, out, _ = run("plan", *STRAP, "--heap", "45kg", "--moisture-pct-wet", "7 %")
        rows = self.rows(out)
        assert all(len(row) <= terminal.WIDTH for row in rows)
        assert "Locked: “Test and temper” says stop." in " ".join(" ".join(rows).split())

    def test_is_read_with_the_book_of_a_file(self, run):
        run("heap", "--book", "heap.json", *MIX)
        _, out, _ = run("plan", *STRAP, "--book", "heap.json", "--now", "2026-05-02")
        assert any("Fill the flask" in row and "Sand left over" in row for row in self.rows(out))
        assert run("forecast", "--book", "heap.json", "--clay-burnt-share", "2 %", "--new-sand-share", "2 %")[0] == 0

    def test_a_book_may_still_be_typed_in(self, run):
        assert run("plan", *STRAP, "--book", "[]")[0] == 0

    def test_a_missing_book_is_refused(self, run):
        status, out, err = run("plan", *STRAP, "--book", "none.json")
        assert (status, out, err) == (2, "", "There is no file none.json. Record a first entry to create it.\n")

    @pytest.mark.parametrize("moisture", ["2.3 %", "3.4 %", "7 %", ""])
    def test_has_its_state_where_other_answers_have_a_stop(self, run, moisture):
        """The state stands alone in its line between the headline and the main figure."""
        given = (*STRAP, "--heap", "45kg", *(("--moisture-pct-wet", moisture) if moisture else ()))
        answer = json.loads(run("plan", "--json", *given)[1])
        _, out, _ = run("plan", *given)
        assert answer["state"]["word"] in ("go", "care", "missing", "stop")
        above = out[: out.index("The day, step by step")]
        assert [part for part in above.split("\n\n") if part == f"  {answer['state']['word'].upper()}"]

    def test_names_the_option_for_what_is_missing(self, run):
        _, out, _ = run("plan", *STRAP, "--heap", "45kg")
        flat = " ".join(out.split())
        assert flat.startswith("Next: test and temper. Still needed: moisture (--moisture-pct-wet). MISSING ")
        assert "such as the new sand (--book)." in flat
        assert "Still needed: moisture and live clay (--moisture-pct-wet, --clay-pct-dry)." in flat
        door = json.loads(run("plan", "--json", *STRAP, "--heap", "45kg")[1])
        assert "--" not in json.dumps([door["headline"], [step["line"] for step in door["steps"]]])


def next_commands(out):
    """The entries under the heading Next: each its mark, and its command as it is printed, or nothing."""
    lines = out[out.index("\nNext\n") + 6 :].partition("\n\n")[0].splitlines()
    entries = []
    for line in lines:
        if line[2] in ">-":
            entries.append([line[2], line[4:]])
        else:
            entries[-1][1] += "\n" + line
    return [(mark, text[text.index("sandmix ") :] if "sandmix " in text else "") for mark, text in entries]


def as_a_shell_reads(command):
    """The arguments that the command sandmix gets from a shell."""
    script = f"sandmix() {{ printf '%s\\0' \"$@\"; }}\n{command}"
    done = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=True)
    return done.stdout.split("\0")[:-1]


LONG = "; ".join(f"the flask number {at}: 290 x {200 + at} x 90 + 90 mm" for at in range(4))
DAYS = {
    "water to add": (*STRAP, *HEAP),
    "all known": (*STRAP, "--heap", "45kg", "--moisture-pct-wet", "3.4 %", "--clay-pct-dry", "7 %", "--dead-fines-pct-dry", "2 %"),
    "too wet": (*STRAP, "--heap", "45kg", "--moisture-pct-wet", "7 %"),
    "no heap": (*STRAP, "--sand-bag", "25kg", "--clay-bag", "10kg"),
    "no flask fits": ("--box", "400 x 300 x 30 mm", "--flasks", LONG, *HEAP),
    "two sands": (*STRAP, *HEAP, "--clay-pct-dry", "7 %", "--two-sands", "yes", "--with-riser", "yes"),
    "book": (*STRAP, "--book", "heap of the hall.json", "--casting", "a.json", "--now", "2026-05-02"),
    "book, tested": (*STRAP, *HEAP, "--book", "heap of the hall.json", "--casting", "a.json"),
    "book, poured": (*STRAP, *HEAP, "--book", "heap of the hall.json", "--casting", "a.json", "--record", "poured"),
    "typed book": (*STRAP, *HEAP, "--book", '[{"kind": "joined", "at": "2026-05-02", "joined_kg": 45, "moisture_pct_wet": 3, "clay_pct_dry": 7}]'),
}  # fmt: skip


@pytest.fixture
def day(run, request, monkeypatch):
    """The plan of a day as it is printed on 80 columns, and its answer as data."""
    monkeypatch.setenv("COLUMNS", "80")
    run("heap", "--book", "heap of the hall.json", *MIX)
    given = DAYS[request.param]
    _, out, err = run("plan", *given)
    assert err == ""
    again = [part for part in given if part not in ("--record", "poured")]
    return out, json.loads(run("plan", "--json", *again)[1])


@pytest.mark.parametrize("day", DAYS, indirect=True)
class TestWhatComesNext:
    def test_begins_with_the_next_step_which_alone_is_marked(self, day):
        out, answer = day
        marks = [mark for mark, _ in next_commands(out)]
        assert marks == [">"] + ["-"] * (len(marks) - 1)
        [ahead] = [step for step in answer["steps"] if step["next"]]
        title = JOBS[ahead["job"]].title
        assert out[out.index("\nNext\n") :].startswith(f"\nNext\n  > {title}")

    def test_then_lists_later_steps_that_have_an_answer_and_nothing_after_a_stop(self, day):
        out, answer = day
        at = [step["next"] for step in answer["steps"]].index(True)
        later = [step["job"] for step in answer["steps"][at + 1 :] if "lead" in step and not step["locked"]]
        if answer["steps"][at]["state"]["tone"] == "stop":
            later = []
        printed = [command.split()[1] for _, command in next_commands(out)[1:]]
        of_typed_book = {"heap"} if "heap of the hall" not in out else set()
        assert [job for job in later if job not in of_typed_book] == printed

    def test_is_answered_as_the_day_answers_it_when_it_is_copied_into_a_shell(self, day, run):
        """A shell reads what is printed; what it makes of each command is run."""
        out, answer = day
        states = {step["job"]: step["state"] for step in answer["steps"]}
        for _, command in next_commands(out):
            if command:
                status, told, err = run(*as_a_shell_reads(command), "--json")
                assert (status, err) == (0, "")
                assert json.loads(told)["state"] == states[command.split()[1]]

    def test_fits_on_a_screen_of_80_columns(self, day):
        assert max(map(len, day[0].splitlines())) <= 80


def test_a_file_whose_name_a_terminal_would_obey_is_in_no_command(run):
    run("heap", "--book", "a\x1b[31m.json", *MIX)
    _, out, _ = run("plan", *STRAP, *HEAP, "--book", "a\x1b[31m.json")
    assert "\x1b" not in out
    assert "heap" not in [command.split()[1] for _, command in next_commands(out)]


class TestACasting:
    def test_is_named_below_the_answer_that_kept_figures_in_it(self, run):
        _, out, _ = run("plan", "--casting", "a.json", *STRAP)
        assert out.endswith("\n\nThe figures are kept in a.json.\n")
        _, out, _ = run("plan", "--casting", "b.json", "--again", "a.json")
        assert out.endswith("\n\nThe figures are kept in b.json.\n")
        assert "kept in" not in run("plan", "--casting", "a.json")[1]
        assert json.loads(run("plan", "--casting", "a.json", *HEAP, "--json")[1])["ok"]

    def test_is_begun_by_its_first_figures_with_the_name_of_its_file(self, run):
        status, _, err = run("plan", "--casting", "coat hooks.json", *STRAP, "--now", "2026-05-02")
        assert (status, err) == (0, "")
        begun = kept("coat hooks.json")
        assert (begun.name, begun.begun) == ("coat hooks", "2026-05-02")
        assert begun.figures == {
            "box_mm": "160 x 90 x 30 mm",
            "casting_volume_cm3": "300 cm³",
            "flasks": json.loads(SMALL),
        }

    def test_is_answered_as_if_all_was_given_at_once(self, run):
        run("plan", "--casting", "a.json", *STRAP)
        _, told, _ = run("plan", "--casting", "a.json", *HEAP, "--json")
        together = json.loads(
            call(
                json.dumps(
                    {
                        "job": "plan",
                        "inputs": {
                            "box_mm": "160 x 90 x 30 mm",
                            "casting_volume_cm3": "300 cm³",
                            "flasks": json.loads(SMALL),
                            "heap_kg": "45kg",
                            "moisture_pct_wet": "2.3 %",
                        },
                    }
                )
            )
        )
        assert json.loads(told)["result"] == together["result"]
        before = Path("a.json").read_bytes()
        assert json.loads(run("plan", "--casting", "a.json", "--json")[1])["result"] == together["result"]
        assert Path("a.json").read_bytes() == before

    def test_keeps_what_is_given_before_it_can_be_answered(self, run):
        status, out, err = run("plan", "--casting", "a.json", "--heap", "45kg")
        assert (status, out) == (2, "")
        assert "nothing is known of the size" in err
        assert err.endswith("The figures are kept in a.json.\n")
        assert kept("a.json").figures == {"heap_kg": "45kg"}

    @pytest.mark.parametrize(
        "wrong", [("--heap", "much"), ("--heap", "-4"), ("--crucible", "3 kg"), ("--patterns-count", "1.5")]
    )
    def test_keeps_nothing_that_cannot_be_read(self, run, wrong):
        run("plan", "--casting", "a.json", *STRAP)
        before = Path("a.json").read_bytes()
        status, out, err = run("plan", "--casting", "a.json", "--sand-bag", "25kg", *wrong)
        assert (status, out) == (2, "")
        assert "kept" not in err
        assert Path("a.json").read_bytes() == before
        assert run("plan", "--casting", "b.json", *STRAP, *wrong)[0] == 2
        assert not Path("b.json").exists()

    def test_forgets_a_figure_that_is_given_empty(self, run):
        run("plan", "--casting", "a.json", *STRAP, *HEAP)
        run("plan", "--casting", "a.json", "--heap", "")
        assert "heap_kg" not in kept("a.json").figures

    def test_and_a_book_answer_together(self, run):
        """45 kg in the book, and the casting has no heap of its own."""
        run("heap", "--book", "heap.json", *MIX)
        run("plan", "--casting", "a.json", *STRAP)
        _, told, _ = run("plan", "--casting", "a.json", "--book", "heap.json", "--now", "2026-05-02", "--json")
        steps = {step["job"]: step for step in json.loads(told)["steps"]}
        assert steps["flask"]["inputs"]["heap_kg"]["value"] == pytest.approx(45)

    def test_without_a_file_and_without_figures_is_refused(self, run):
        status, out, err = run("plan", "--casting", "a.json")
        assert (status, out) == (2, "")
        assert err == "There is no file a.json. Give a first figure of the casting, such as its --box, to create it.\n"

    @pytest.mark.parametrize(
        ("content", "text"),
        [
            ('{"format": "sandmix casting", "version": 2, "name": "later"}', "a newer sandmix wrote it"),
            ('{"format": "sandmix book", "version": 3, "events": []}', "another kind of file"),
            ('{"format": "sandmix casting", "version": 1, "figures": {"heap": 1}}', "no word “heap”"),
            (
                '{"format": "sandmix casting", "version": 1, "own": {"flask": {"heap_kg": 1e999}}}',
                "a.json holds a number that is far too large",
            ),
            ("[", "isn't JSON"),
            ("PK\x03\x04", "isn't JSON"),
        ],
    )
    def test_a_file_that_is_none_is_unchanged(self, run, content, text):
        Path("a.json").write_text(content)
        for figures in (HEAP, ()):
            status, out, err = run("plan", "--casting", "a.json", *STRAP, *figures)
            assert (status, out) == (2, "")
            assert text in err
            assert "fault" not in err
        assert Path("a.json").read_text() == content

    def test_a_book_is_not_read_as_a_casting_nor_a_casting_as_a_book(self, run):
        run("plan", "--casting", "a.json", *STRAP)
        status, _, err = run("heap", "--book", "a.json")
        assert status == 2
        assert "casting" in err

    @pytest.mark.parametrize("path", [r"C:\My castings\coat hooks.json", "./coat hooks.json", "coat hooks"])
    def test_is_named_after_the_last_part_of_its_path(self, run, path):
        run("plan", "--casting", path, *STRAP)
        assert kept(path).name == "coat hooks"

    def test_done_again_is_a_new_file_without_what_was_true_of_one_day(self, run):
        run("plan", "--casting", "may.json", *STRAP, *HEAP, "--now", "2026-05-02")
        before = Path("may.json").read_bytes()
        status, _, err = run("plan", "--casting", "june.json", "--again", "may.json", "--now", "2026-06-02")
        assert (status, err) == (0, "")
        june = kept("june.json")
        assert (june.name, june.begun) == ("june", "2026-06-02")
        assert "heap_kg" not in june.figures and "box_mm" in june.figures
        status, _, err = run("plan", "--casting", "june.json", "--again", "may.json")
        assert status == 2
        assert err == "june.json holds a casting already. Name a new file. Nothing was changed.\n"
        assert Path("may.json").read_bytes() == before

    def test_done_again_needs_a_file(self, run):
        assert "Name it with --casting FILE" in run("plan", "--again", "may.json", *STRAP)[2]


class TestAnEntryOfThePlan:
    def test_goes_into_the_book_and_the_casting_knows_of_it(self, run):
        files = ("plan", "--casting", "a.json", "--book", "heap.json")
        assert run(*files, *STRAP, "--casting-area", "420 cm²", "--record", "mixed", "--now", "2026-05-02")[::2] == (
            0,
            "",
        )
        [mixed] = book.read(json.loads(Path("heap.json").read_text("utf-8"))).events
        assert (mixed["kind"], mixed["at"]) == ("mixed", "2026-05-02")
        put_in = sum(float(mixed[word].split()[0]) for word in ("sand_kg", "clay_kg", "water_kg"))
        assert put_in == pytest.approx(19.65, abs=0.01)
        run("heap", "--book", "heap.json", "--record", "measured", "--moisture-pct-wet", "3.4", "--now", "2026-05-03")
        status, out, err = run(*files, "--record", "poured", "--now", "2026-05-03")
        assert (status, err) == (0, "")
        assert out.startswith("Next: after the pour.")
        assert [event["kind"] for event in book.read(json.loads(Path("heap.json").read_text("utf-8"))).events] == [
            "mixed",
            "measured",
            "poured",
        ]
        assert [entry["kind"] for entry in kept("a.json").recorded] == ["mixed", "poured"]

    def test_is_named_below_the_answer_with_its_id_in_the_book(self, run):
        """The words are those by which the book calls such an entry."""
        run("heap", "--book", "heap.json", *MIX)
        _, out, _ = run("plan", *STRAP, *HEAP, "--book", "heap.json", "--casting", "a.json", "--record", "poured")
        assert out.endswith(
            "\n\nThe figures are kept in a.json.\nThe entry is recorded in heap.json as e2: a cast was poured.\n"
        )
        told = run("plan", *STRAP, *HEAP, "--book", "heap.json", "--record", "poured", "--json")[1]
        assert json.loads(told)["ok"]
        assert kept_entries("heap.json") == ["mixed", "poured", "poured"]

    def test_that_the_plan_does_not_offer_is_not_recorded(self, run):
        run("heap", "--book", "heap.json", *MIX)
        before = Path("heap.json").read_bytes()
        status, out, err = run("plan", *STRAP, "--book", "heap.json", "--now", "2026-05-02", "--record", "mixed")
        assert (status, out) == (2, "")
        assert (
            err
            == "The plan has no entry “mixed” to record now. It offers none: see its next step. Nothing was recorded.\n"
        )
        assert Path("heap.json").read_bytes() == before

    def test_needs_a_book(self, run):
        assert "Name the file with --book FILE" in run("plan", *STRAP, "--record", "poured")[2]
