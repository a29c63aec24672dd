"""The README's commands and its Python example, run as they are printed there."""

from __future__ import annotations

import doctest
import re
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"


def run(command: str, folder: Path) -> str:
    """Run a command of the README from the given folder and return what it prints."""
    words = [sys.executable, *shlex.split(command)[1:]]
    return subprocess.run(
        words, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=True
    ).stdout


def test_the_python_example_gives_the_answer_that_is_printed():
    assert doctest.testfile(str(README), module_relative=False).failed == 0


def test_each_command_prints_what_the_readme_shows(tmp_path):
    commands = re.findall(r"^\$ (.+)\n((?:(?!\$ |```).*\n)*)", README.read_text("utf-8"), re.MULTILINE)
    assert len(commands) == 5
    for command, shown in commands:
        assert run(command, tmp_path).startswith(shown)
