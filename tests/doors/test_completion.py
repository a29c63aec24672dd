"""Completion in the shells themselves: in bash and zsh a person's keys on a terminal, in fish what it offers.

The tests of zsh and fish are there only where the shell is.
"""

from __future__ import annotations

import os
import pty
import select
import shutil
import subprocess
import time
from pathlib import Path

import pytest

from sandmix.asking.form import asks
from sandmix.doors import cli, completion
from sandmix.doors.commands import OTHER_COMMANDS, options_for
from sandmix.jobs import JOBS
from sandmix.materials.metals import METALS

TIMEOUT_S = 30
OFFERED = """
source "$1"; shift
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _sandmix; printf '%s\\n' "${COMPREPLY[@]}"
"""
STARTS = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], ""),
    "zsh": (["zsh", "-f", "-i"], "unsetopt zle_bracketed_paste; PS1='> '; autoload -U compinit; compinit -u -D\n"),
}


@pytest.fixture(scope="module")
def scripts(tmp_path_factory):
    folder = tmp_path_factory.mktemp("completion")
    for shell in completion.SHELLS:
        (folder / shell).write_text(completion.script(shell), "utf-8")
    return folder


def offered(scripts: Path, *typed: str) -> list[str]:
    """What bash offers after what was typed; the last word is the one to complete."""
    words = ["bash", "--norc", "-c", OFFERED, "bash", str(scripts / "bash"), *typed]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return done.stdout.split()


def typed_on_a_terminal(shell: str, setup: str, keys: str, expected: str, folder: Path) -> str:
    """What *shell* shows on a terminal after *keys*, up to the text that is expected, or all that it shows in the time there is."""
    command, before = STARTS[shell]
    process, terminal = pty.fork()
    if not process:  # pragma: no cover  this is the shell
        os.chdir(folder)
        os.execvpe(command[0], command, {"PATH": os.environ["PATH"], "TERM": "xterm", "HOME": str(folder)})
    shown, marked, ends = "", False, time.monotonic() + TIMEOUT_S
    os.write(terminal, f"{before}{setup}\necho rea''dy\n".encode())
    try:
        while time.monotonic() < ends:
            if select.select([terminal], [], [], 0.2)[0]:
                shown += os.read(terminal, 65536).decode("utf-8", "replace")
            if not marked and "\nready" in shown.replace("\r", "\n"):
                marked, shown = True, ""
                os.write(terminal, keys.encode())
            if marked and expected in shown:
                break
    finally:
        os.close(terminal)
        os.waitpid(process, 0)
    return shown


class TestBash:
    def test_offers_all_commands(self, scripts):
        assert set(JOBS) | set(OTHER_COMMANDS) <= set(offered(scripts, "sandmix", ""))
        assert offered(scripts, "sandmix", "tem") == ["temper"]

    def test_offers_the_options_that_are_not_given_yet(self, scripts):
        assert offered(scripts, "sandmix", "temper", "--sam") == ["--sample-wet", "--sample-dry"]
        assert "--heap" in offered(scripts, "sandmix", "temper", "")
        assert offered(scripts, "sandmix", "temper", "--sample-wet", "400g", "--sam") == ["--sample-dry"]

    def test_offers_what_can_be_chosen(self, scripts):
        assert offered(scripts, "sandmix", "temper", "--metal", "") == list(METALS)
        assert offered(scripts, "sandmix", "temper", "--metal", "=", "tin") == ["tin_bronze"]
        assert offered(scripts, "sandmix", "temper", "--metal", "=") == list(METALS)
        assert offered(scripts, "sandmix", "heap", "--record", "pou") == ["poured"]
        assert offered(scripts, "sandmix", "completion", "") == list(completion.SHELLS)

    def test_offers_nothing_for_a_number_or_a_name(self, scripts):
        assert offered(scripts, "sandmix", "temper", "--heap-kg", "") == []
        assert offered(scripts, "sandmix", "heap", "--note", "") == []

    def test_a_person_presses_tab(self, scripts, tmp_path):
        (tmp_path / "hall heap.json").write_text("[]")
        shown = typed_on_a_terminal(
            "bash", f"source '{scripts / 'bash'}'", "sandmix hea\t--bo\tha\t", r"hall\ heap.json", tmp_path
        )
        assert r"sandmix heap --book hall\ heap.json" in shown


if shutil.which("zsh"):

    @pytest.mark.full
    @pytest.mark.parametrize(
        ("keys", "expected"),
        [
            ("sandmix tempe\t", "sandmix temper"),
            ("sandmix temper --met\ttin\t", "=tin_bronze"),
            ("sandmix heap --book hal\t", "hall.json"),
        ],
    )
    def test_zsh_completes_what_a_person_types(scripts, tmp_path, keys, expected):
        (tmp_path / "hall.json").write_text("[]")
        assert expected in typed_on_a_terminal("zsh", f"source '{scripts / 'zsh'}'", keys, expected, tmp_path)


if shutil.which("fish"):

    class TestFish:
        @pytest.fixture
        def fish(self, scripts, tmp_path):
            def offers(typed):
                code = f"source '{scripts / 'fish'}'; complete -C '{typed}'"
                around = os.environ | {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
                done = subprocess.run(
                    ["fish", "--no-config", "-c", code],
                    cwd=tmp_path,
                    env=around,
                    capture_output=True,
                    text=True,
                    check=True,
                )
                assert done.stderr == ""
                return dict(line.partition("\t")[::2] for line in done.stdout.splitlines())

            return offers

        def test_offers_commands_options_and_choices(self, fish):
            assert fish("sandmix tem") == {"temper": JOBS["temper"].title}
            assert fish("sandmix temper --sam").keys() == {"--sample-wet", "--sample-dry"}
            assert fish("sandmix temper --sample-w")["--sample-wet"] == asks(JOBS["temper"].form)["sample_wet_g"].label

        @pytest.mark.full
        def test_offers_choices_and_files(self, fish, tmp_path):
            (tmp_path / "hall.json").write_text("[]")
            assert fish("sandmix temper --metal ti").keys() == {"tin_bronze"}
            assert "hall.json" in fish("sandmix heap --book ha")
            assert fish("sandmix completion z").keys() == {"zsh"}


def test_the_command_prints_the_script(capsys):
    assert cli.main(["completion", "fish"]) == 0
    assert capsys.readouterr().out == completion.script("fish")


def test_another_shell_is_refused_in_words(capsys):
    with pytest.raises(SystemExit):
        cli.main(["completion", "csh"])
    assert "bash" in capsys.readouterr().err


@pytest.mark.parametrize("shell", completion.SHELLS)
def test_each_script_has_every_option_of_every_command(shell):
    text = completion.script(shell)
    spelled = {option.spellings[0] for job in JOBS.values() for option in options_for(job)}
    assert [name for name in spelled if name.removeprefix("--") not in text] == []
