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


def run(command: str, folder: Path) -> str:
    """Run a command of the README from the given folder and return what it prints."""
    words = [sys.executable, *shlex.split(command)[1:]]
    return subprocess.run(
        words, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True
    ).stdout


@pytest.mark.parametrize("page", [README, PAGES / "python.md"], ids=lambda page: page.name)
def test_the_examples_in_python_give_the_answers_that_are_printed(page, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    ended = doctest.testfile(str(page), module_relative=False)
    assert ended.failed == 0
    assert ended.attempted > 3


def test_each_command_prints_what_the_readme_shows(tmp_path):
    found = commands(README)
    assert len(found) == 5
    for command, shown in found:
        assert run(command, tmp_path).startswith(shown)


def test_each_command_of_the_page_about_the_command_line_prints_what_the_page_shows(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "96")
    found = [(command, shown) for command, shown in commands(PAGES / "command-line.md") if not SHELL.search(command)]
    assert len(found) == 7
    for command, shown in found:
        name, *arguments = shlex.split(command)
        assert (name, cli.main(arguments)) == ("sandmix", 0), command
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
