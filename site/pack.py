"""Build the sandmix package as a wheel: the same sources give the same bytes, with the metadata that pip would write."""

from __future__ import annotations

import base64
import hashlib
import re
import tomllib
import zipfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
FIRST_DATE = (1980, 1, 1, 0, 0, 0)
"""The oldest date a zip archive can hold. Every entry gets it, so that the bytes do not depend on the clock."""


def wheel(folder: Path, root: Path = ROOT) -> Path:
    """Write the wheel of the checkout at `root` into `folder` and return its path."""
    project = tomllib.loads((root / "pyproject.toml").read_text("utf-8"))["project"]
    project["version"] = version(root)
    name = f"{project['name']}-{project['version']}"
    path = folder / f"{name}-py3-none-any.whl"
    contents = sources(root) | metadata(project, f"{name}.dist-info")
    contents[f"{name}.dist-info/RECORD"] = record(contents, f"{name}.dist-info/RECORD")
    with zipfile.ZipFile(path, "w") as archive:
        for entry, data in contents.items():
            archive.writestr(zipfile.ZipInfo(entry, FIRST_DATE), data, zipfile.ZIP_DEFLATED, 9)
    return path


def sources(root: Path = ROOT) -> dict[str, bytes]:
    """Every file of the package by its path in the wheel, in a fixed order."""
    files = (path for path in (root / "sandmix").rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in sorted(files)}


def version(root: Path = ROOT) -> str:
    """The version, as the package itself gives it."""
    found = re.search(r'^__version__ = "(.+)"$', (root / "sandmix/__init__.py").read_text("utf-8"), re.MULTILINE)
    if not found:
        raise ValueError("sandmix/__init__.py gives no __version__, which the name of the wheel needs.")
    return found[1]


def metadata(project: dict[str, Any], folder: str) -> dict[str, bytes]:
    """What an installer and `importlib.metadata` read: name, version, and how the wheel was made."""
    about = [
        "Metadata-Version: 2.4",
        f"Name: {project['name']}",
        f"Version: {project['version']}",
        f"Summary: {project['description']}",
        f"Requires-Python: {project['requires-python']}",
    ]
    made = ["Wheel-Version: 1.0", "Generator: sandmix", "Root-Is-Purelib: true", "Tag: py3-none-any"]
    return {f"{folder}/METADATA": lines(about), f"{folder}/WHEEL": lines(made)}


def record(contents: dict[str, bytes], own: str) -> bytes:
    """The list of all entries with their hashes; the list itself has none."""
    return lines([*(f"{entry},sha256={digest(data)},{len(data)}" for entry, data in contents.items()), f"{own},,"])


def digest(data: bytes) -> str:
    """A hash as wheels write it: URL-safe base64 without padding."""
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode("ascii")


def lines(texts: list[str]) -> bytes:
    """Lines of text as the bytes of a file."""
    return "".join(f"{text}\n" for text in texts).encode("utf-8")
