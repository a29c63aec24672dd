"""The same source builds the same bytes."""

from __future__ import annotations

import sys
from hashlib import sha256
from pathlib import Path

from provision import CACHE, Venv
from serve import build_site


def bytes_of(folder: Path) -> dict[str, str]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): sha256(path.read_bytes()).hexdigest() for path in files}


def test_another_build_gives_the_same_bytes(built, tmp_path):
    venv = Venv(folder=CACHE / "venv")
    assert Path(sys.prefix).resolve() == venv.folder.resolve()
    first, second = bytes_of(built), bytes_of(build_site(venv, tmp_path / "another"))
    assert "sw.js" in first
    assert first == second
