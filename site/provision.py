"""Set up everything that building, serving and testing need, on a machine that has only Python.

The pinned packages go into one virtual environment in `site/.cache`, which git ignores. A stamp there
holds the hash of each installed list of packages, so that a second set-up takes no time.
Nothing outside the checkout changes, except that root on Debian gets two packages by apt:
`python3-venv`, if Python came without its own installer, and a Chromium, for the browser tests.
"""

from __future__ import annotations

import fcntl
import hashlib
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

OLDEST_PYTHON = (3, 11)
OLDEST_NODE = 20
ROOT = Path(__file__).resolve().parent.parent
CACHE = ROOT / "site" / ".cache"
SITE_PACKAGES = ROOT / "site" / "requirements.txt"
NODE_PACKAGES = ROOT / "site" / "requirements-node.txt"
TEST_PACKAGES = ROOT / "tests" / "requirements.txt"
MACHINE_AUTHORITIES = Path("/etc/ssl/certs/ca-certificates.crt")
SHELL = "chromium-headless-shell"
"""Chromium without its window and all that belongs to one: the same pages and storage for a third less work."""
WHOLE = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
LINES_KEPT = 4
COLUMNS_KEPT = 160


def refuse_old_python(version: tuple[int, int]) -> None:
    """Stop with a plain message before any code runs that needs a newer Python."""
    if version < OLDEST_PYTHON:
        given, oldest = (".".join(map(str, each)) for each in (version, OLDEST_PYTHON))
        sys.stderr.write(
            f"This is Python {given}. sandmix needs Python {oldest} or newer: "
            f"run the same command with a newer one, such as python{oldest}.\n"
        )
        raise SystemExit(2)


refuse_old_python(sys.version_info[:2])


class Fault(Exception):
    """A problem that a person can solve: what it is and what to do, as text for the terminal."""

    def __init__(self, message: str, *, status: int = 1) -> None:
        super().__init__(message)
        self.status = status


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """What set-up needs from the machine, so that a test can stand in for it."""

    root: bool
    debian: bool
    has_ensurepip: Callable[[], bool]
    which: Callable[[str], str | None]
    run: Callable[[Sequence[str]], subprocess.CompletedProcess[str]]
    say: Callable[[str], None]


def this_machine() -> Machine:
    """The machine that this program runs on."""
    return Machine(
        root=os.geteuid() == 0,
        debian=Path("/etc/debian_version").exists() and shutil.which("apt-get") is not None,
        has_ensurepip=lambda: find_spec("ensurepip") is not None,
        which=shutil.which,
        run=_run,
        say=lambda text: print(text, flush=True),
    )


def _run(command: Sequence[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command,
        env={**os.environ, "DEBIAN_FRONTEND": "noninteractive", "PIP_USER": "0"},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        check=False,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Venv:
    """The virtual environment: where it is, and what is installed in it."""

    folder: Path

    @property
    def python(self) -> Path:
        return self.folder / "bin" / "python"

    def environment(self) -> dict[str, str]:
        """The environment variables of this process, with the venv's commands first in the path.

        Node.js knows only its own list of certificate authorities, so it is given the machine's list, which pip uses too:
        a network that inspects its traffic, as in a school or a company, is trusted only there.
        """
        path = os.pathsep.join((str(self.python.parent), os.environ.get("PATH", os.defpath)))
        trusted = {"NODE_EXTRA_CA_CERTS": str(MACHINE_AUTHORITIES)} if MACHINE_AUTHORITIES.exists() else {}
        return trusted | os.environ | {"PATH": path}

    def works(self, machine: Machine) -> bool:
        """Whether it was made in this very folder (its commands contain the path) and its Python still runs."""
        if not self.python.exists() or not _holds(self.folder / "made", str(self.folder)):
            return False
        return machine.run([str(self.python), "-c", "import pip"]).returncode == 0

    def holds(self, packages: Path) -> bool:
        """Whether exactly this list of packages is installed in it."""
        return _holds(self._stamp(packages), _digest(packages))

    def record(self, packages: Path) -> None:
        self._stamp(packages).write_text(_digest(packages))

    def _stamp(self, packages: Path) -> Path:
        return self.folder / f"installed-{packages.parent.name}-{packages.stem}"


def _holds(stamp: Path, text: str) -> bool:
    return stamp.exists() and stamp.read_text() == text


def _digest(packages: Path) -> str:
    return hashlib.sha256(packages.read_bytes()).hexdigest()


def set_up(machine: Machine, *, tests: bool = False, cache: Path = CACHE) -> Venv:
    """The virtual environment with everything the site needs, and the tests' packages on request.

    Raises Fault if something is missing that this cannot install.
    """
    with _disk_errors_explained(), _one_at_a_time(cache, machine):
        venv = Venv(folder=cache / "venv")
        lists = [SITE_PACKAGES]
        if not has_node(machine):
            lists.append(NODE_PACKAGES)
        if tests:
            lists.append(TEST_PACKAGES)
        if not venv.works(machine):
            _make(venv, machine)
        for packages in lists:
            if not venv.holds(packages):
                _install(venv, packages, machine)
        return venv


def has_node(machine: Machine) -> bool:
    """Whether the machine has Node.js with npm, new enough to start Pyodide in the build."""
    node = machine.which("node")
    if node is None or machine.which("npm") is None:
        return False
    version = re.match(r"v(\d+)\.", machine.run([node, "--version"]).stdout)
    return version is not None and int(version[1]) >= OLDEST_NODE


def find_browser(machine: Machine, names: Sequence[str]) -> str | None:
    """The first of these browsers that starts, or the one named in SANDMIX_CHROMIUM, or None."""
    named = os.environ.get("SANDMIX_CHROMIUM")
    for name in (named,) if named else names:
        path = machine.which(name)
        if path is not None and machine.run([path, "--version"]).returncode == 0:
            return path
    return None


def bring_browser(machine: Machine, *, whole: bool = True) -> str:
    """A Chromium or Chrome that starts, installed by apt if root runs this on Debian; unless *whole*, rather the one without a window.

    Raises Fault with what to do if there is none.
    """
    names = WHOLE if whole else (SHELL, *WHOLE)
    browser = find_browser(machine, names)
    if machine.debian and machine.root and "SANDMIX_CHROMIUM" not in os.environ:
        for package in names[: names.index("chromium") + 1]:
            if browser is None:
                _apt_install(package, machine)
                browser = find_browser(machine, names)
    if browser is None:
        raise Fault(
            f"No Chromium or Chrome was found. Install one (on Debian: apt-get install {names[0]}), "
            "or name yours in SANDMIX_CHROMIUM."
        )
    return browser


def _make(venv: Venv, machine: Machine) -> None:
    _bring_ensurepip(machine)
    machine.say("Making a virtual environment in site/.cache/venv.")
    shutil.rmtree(venv.folder, ignore_errors=True)
    made = machine.run([sys.executable, "-m", "venv", str(venv.folder)])
    if made.returncode:
        raise Fault(
            f"Python could not make a virtual environment in site/.cache (it needs about 1 GB of space there):\n{_end_of(made.stdout)}"
        )
    (venv.folder / "made").write_text(str(venv.folder))


def _bring_ensurepip(machine: Machine) -> None:
    if machine.has_ensurepip():
        return
    if machine.debian and machine.root:
        _apt_install("python3-venv", machine)
        if machine.has_ensurepip():
            return
    raise Fault(
        "This Python came without its own installer (ensurepip). Run this once, then the same command again:\n"
        "    sudo apt-get install python3-venv",
        status=2,
    )


def _apt_install(package: str, machine: Machine) -> None:
    machine.say(f"Installing Debian's package {package}.")
    machine.run(["apt-get", "update", "--quiet"])
    done = machine.run(["apt-get", "install", "--quiet", "--yes", "--no-install-recommends", package])
    if done.returncode:
        machine.say(f"apt-get could not install {package}:\n{_end_of(done.stdout)}")


def _install(venv: Venv, packages: Path, machine: Machine) -> None:
    machine.say(f"Installing the packages of {packages.relative_to(ROOT)} (once; a minute or so).")
    options = ["--quiet", "--disable-pip-version-check", "--no-input", "--no-deps", "--require-hashes", "--no-compile"]
    done = machine.run([str(venv.python), "-m", "pip", "install", *options, "--requirement", str(packages)])
    if done.returncode:
        raise Fault(f"{_why_pip_failed(done.stdout)}\n{_end_of(done.stdout)}")
    venv.record(packages)


def _why_pip_failed(output: str) -> str:
    if "No space left on device" in output:
        return "The disk is full: free about 1 GB, then run the same command again."
    if re.search(r"HASH|hashes", output):
        return "A package differs from the pinned one (its hash is not the same), so it was not installed."
    if re.search(r"Retrying|NewConnectionError|name resolution|Network is unreachable|timed out", output):
        return "The packages could not be downloaded. Set-up needs the network once: connect, then run it again."
    return "pip could not install the packages. Its last lines were:"


def _end_of(output: str) -> str:
    return "\n".join(f"    {line[:COLUMNS_KEPT]}" for line in output.strip().splitlines()[-LINES_KEPT:])


@contextmanager
def _disk_errors_explained() -> Iterator[None]:
    try:
        yield
    except OSError as error:
        where = f" ({error.filename})" if error.filename else ""
        raise Fault(f"Set-up could not write its files: {error.strerror}{where}.") from error


@contextmanager
def _one_at_a_time(cache: Path, machine: Machine) -> Iterator[None]:
    """Hold the lock of the set-up, so that two commands started at once do not install at the same time."""
    cache.mkdir(parents=True, exist_ok=True)
    with (cache / "lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            machine.say("Another set-up is running here; waiting for it.")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield
