"""The commands and the examples in Python of the README and of the pages about both, run as they are printed there."""

from __future__ import annotations

import doctest
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from sandmix.doors import cli

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
PAGES = ROOT / "site/docs"
SHELL = re.compile(r"[|>~]|mkdir")
"""What needs a shell."""


def commands(page: Path) -> list[tuple[str, str]]:
    """Each command of a page, and what the page shows of its output."""
    return re.findall(r"^\$ (.+)\n((?:(?!\$ |```).*\n)*)", page.read_text("utf-8"), re.MULTILINE)


@pytest.mark.parametrize("page", [README, PAGES / "python.md"], ids=lambda page: page.name)
def test_the_examples_in_python_give_the_answers_that_are_printed(page, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    ended = doctest.testfile(str(page), module_relative=False)
    assert ended.failed == 0
    assert ended.attempted > 3


def test_the_first_command_of_the_readme_works_with_nothing_installed(tmp_path):
    command, shown = commands(README)[0]
    words = [sys.executable, *shlex.split(command)[1:]]
    around = {"PYTHONPATH": str(ROOT)}
    done = subprocess.run(words, cwd=tmp_path, env=around, capture_output=True, text=True, check=True)
    assert done.stdout.startswith(shown)


@pytest.mark.parametrize(
    ("page", "start", "count"),
    [(README, "python3 -m sandmix ", 5), (PAGES / "command-line.md", "sandmix ", 7)],
    ids=["README.md", "command-line.md"],
)
def test_each_command_prints_what_its_page_shows(page, start, count, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "96")
    found = [(command, shown) for command, shown in commands(page) if not SHELL.search(command)]
    assert len(found) == count
    for command, shown in found:
        assert command.startswith(start)
        assert cli.main(shlex.split(command.removeprefix(start))) == 0, command
        assert capsys.readouterr().out.startswith(shown)


@pytest.mark.full
def test_each_command_that_needs_a_shell_ends_well(tmp_path):
    lines = [command for command, _ in commands(PAGES / "command-line.md") if SHELL.search(command)]
    assert len(lines) == 5
    around = {"PATH": os.environ["PATH"], "HOME": str(tmp_path), "PYTHONPATH": str(ROOT)}
    script = "\n".join((f'sandmix() {{ "{sys.executable}" -m sandmix "$@"; }}', "set -euo pipefail", *lines))
    done = subprocess.run(["bash", "-c", script], cwd=tmp_path, env=around, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert '"verdict": "temper"' in done.stdout
    kept = (
        ".local/share/bash-completion/completions/sandmix",
        ".zfunc/_sandmix",
        ".config/fish/completions/sandmix.fish",
    )
    assert all((tmp_path / name).stat().st_size > 10_000 for name in kept)
