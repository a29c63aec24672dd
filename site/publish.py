"""Make everything that a version publishes, into one folder: `python3 site/publish.py OUT --tag v1.2.3`.

OUT gets `site/` with the pages for any static host, the same as one zip file, `package/` with the wheel and the sdist, the notes of the
version from the changelog, and a list of SHA-256 sums. Nothing is sent anywhere. Before it builds, it checks that tag, version and
changelog agree and that the checkout holds no change that is not committed, and names all that is wrong at once.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import zipfile
from collections.abc import Iterator, Sequence
from hashlib import sha256
from pathlib import Path

import checkout
from changed_numbers import CHANGELOG, newest
from provision import ROOT, Fault, Venv, set_up, this_machine
from serve import build_site

UNFINISHED = "not published yet"
OLDEST_DATE = (1980, 1, 1, 0, 0, 0)
"""The date of each file in a zip file: the earliest that the format knows, so that two builds give the same bytes."""
BACKEND = "import sys, hatchling.build as backend; [getattr(backend, f'build_{kind}')(sys.argv[1]) for kind in ('wheel', 'sdist')]"


def problems(tag: str, version: str, changelog: str, uncommitted: str) -> Iterator[str]:
    """Everything that keeps this checkout from being published under the tag, in words."""
    if tag != f"v{version}":
        yield f"The tag is {tag}, but sandmix/__init__.py says {version}. Use the tag v{version}, or change the version."
    heading = newest(changelog).partition("\n")[0]
    if not re.match(rf"{re.escape(version)}(,|$)", heading):
        yield f"The newest heading of site/docs/changes.md is “{heading}”. It must be “{version}”, with the date."
    elif UNFINISHED in heading:
        yield f"site/docs/changes.md still says “{heading}”. Write the date in place of “{UNFINISHED}”."
    if uncommitted:
        yield f"These changes are not committed: {', '.join(uncommitted.split())}. Commit or drop them."


def notes(changelog: str) -> str:
    """What the changelog says about its newest version."""
    return f"## {newest(changelog)}".strip() + "\n"


def zipped(folder: Path, archive: Path) -> Path:
    """The folder's files as one zip file, with the same bytes each time."""
    with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as out:
        for file in sorted(path for path in folder.rglob("*") if path.is_file()):
            out.writestr(zipfile.ZipInfo(file.relative_to(folder).as_posix(), OLDEST_DATE), file.read_bytes(),
                         zipfile.ZIP_DEFLATED)  # fmt: skip
    return archive


def packages(venv: Venv, out: Path) -> list[Path]:
    """The wheel and the sdist in the folder; raises Fault if the build backend fails."""
    out.mkdir(parents=True, exist_ok=True)
    made = subprocess.run(
        [venv.python, "-c", BACKEND, str(out)], cwd=ROOT, env=venv.environment(), capture_output=True, text=True, check=False
    )  # fmt: skip
    if made.returncode:
        raise Fault(f"The package was not built: {made.stderr.strip().splitlines()[-1:]}")
    return sorted(out.iterdir())


def sums(files: Sequence[Path], base: Path) -> str:
    """A line for each file, as `sha256sum --check` reads it."""
    return "".join(f"{sha256(file.read_bytes()).hexdigest()}  {file.relative_to(base)}\n" for file in files)


def publish(out: Path, tag: str, address: str) -> None:
    """Do the command's work; raises Fault with everything that is wrong."""
    version: str = checkout.version()
    changelog = CHANGELOG.read_text("utf-8")
    if wrong := [*problems(tag, version, changelog, _uncommitted())]:
        raise Fault("\n".join(wrong))
    if out.exists() and any(out.iterdir()):
        raise Fault(f"{out} is not empty. Name a new folder.")
    venv = set_up(this_machine(), tests=True)
    out.mkdir(parents=True, exist_ok=True)
    out = out.resolve()
    site = build_site(venv, out / "site", address=address)
    files = [zipped(site, out / f"sandmix-site-{version}.zip"), *packages(venv, out / "package")]
    (out / "notes.md").write_text(notes(changelog), encoding="utf-8")
    (out / "SHA256SUMS").write_text(sums(files, out), encoding="utf-8")
    print(f"{out} holds the site, its zip file, the package, notes.md and SHA256SUMS of sandmix {version}.")


def _uncommitted() -> str:
    """The paths with changes that are not committed; none where this is no checkout, such as an unpacked sdist."""
    told = subprocess.run(
        ["git", "-C", str(ROOT), "status", "--porcelain=v1"], capture_output=True, text=True, check=False
    )
    return " ".join(line[3:] for line in told.stdout.splitlines())


def main(arguments: Sequence[str] | None = None) -> int:
    """The command; returns its exit status."""
    parser = argparse.ArgumentParser(prog="site/publish.py", description="Make everything that a version publishes.")
    parser.add_argument("out", type=Path, help="a folder that is new or empty")
    parser.add_argument("--tag", required=True, help="the tag of this version, such as v1.2.3")
    parser.add_argument("--address", default="", help="where the site will be, if not at the root of its host")
    options = parser.parse_args(arguments)
    try:
        publish(options.out, options.tag, options.address)
    except Fault as fault:
        print(fault, file=sys.stderr)
        return fault.status
    return 0


if __name__ == "__main__":
    sys.exit(main())
