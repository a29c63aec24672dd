"""The sdist is the checkout: whatever is built from it, the wheel or the site, is built from the same bytes."""

from __future__ import annotations

import subprocess
import tarfile
import tomllib
from hashlib import sha256
from pathlib import Path

import pytest

import pack
from provision import ROOT, TEST_PACKAGES
from tests.building import built


def tracked(root: Path) -> list[str]:
    """The paths of the files that belong to the checkout, also of new ones that are not committed yet."""
    told = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=root,
        capture_output=True,
        text=True,
        check=False,
    )
    if told.returncode:
        pytest.skip("This is no checkout.")
    return sorted(path for path in told.stdout.split("\0") if path and (root / path).is_file())


def contents(folder: Path, paths: list[str]) -> dict[str, str]:
    return {path: sha256((folder / path).read_bytes()).hexdigest() for path in paths}


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sdist of the checkout, unpacked."""
    folder = tmp_path_factory.mktemp("sdist")
    with tarfile.open(built("sdist", ROOT, folder)) as archive:
        for member in archive:
            data = archive.extractfile(member)
            assert data, f"{member.name} is not a plain file"
            path = folder / member.name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data.read())
    return next(path for path in folder.iterdir() if path.is_dir())


def test_the_sdist_holds_the_files_of_the_checkout_and_its_own_metadata(unpacked: Path) -> None:
    paths = tracked(ROOT)
    held = sorted(path.relative_to(unpacked).as_posix() for path in unpacked.rglob("*") if path.is_file())
    assert {"site/serve.py", "site/requirements.txt", "tests/run.py"} <= set(paths)
    assert [path for path in held if path not in paths] == ["PKG-INFO"]
    assert contents(unpacked, paths) == contents(ROOT, paths)


def test_the_wheel_of_the_sdist_has_the_bytes_of_the_wheel_of_the_checkout(unpacked: Path, tmp_path: Path) -> None:
    wheels = []
    for name, root in (("sdist", unpacked), ("checkout", ROOT)):
        (tmp_path / name).mkdir()
        wheels.append(built("wheel", root, tmp_path / name).read_bytes())
    assert wheels[0] == wheels[1]


def test_the_wheel_that_the_site_loads_is_the_same_from_both(unpacked: Path, tmp_path: Path) -> None:
    wheels = []
    for name, root in (("sdist", unpacked), ("checkout", ROOT)):
        (tmp_path / name).mkdir()
        wheels.append(pack.wheel(tmp_path / name, root).read_bytes())
    assert wheels[0] == wheels[1]


def test_the_build_backend_is_the_one_that_is_tested() -> None:
    """Another version could write other bytes."""
    [backend] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["build-system"]["requires"]
    assert backend in TEST_PACKAGES.with_suffix(".in").read_text().splitlines()
