"""How set-up deals with machines that lack something; a scripted machine stands in for each."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pytest

import provision
from provision import Fault, Machine, Venv, bring_browser, has_node, refuse_old_python, set_up


@dataclass(slots=True, kw_only=True)
class Script:
    """A scripted machine: what it has, what fails on it, and the commands it was given."""

    root: bool = False
    debian: bool = True
    ensurepip: bool = True
    has: set[str] = field(default_factory=lambda: {"node", "npm"})
    node_version: str = "v20.11.0\n"
    fails: dict[str, str] = field(default_factory=dict)
    apt_brings: bool = True
    did: list[str] = field(default_factory=list)
    printed: list[str] = field(default_factory=list)

    def run(self, command: Sequence[str]) -> subprocess.CompletedProcess[str]:
        line = " ".join(command)
        self.did.append(line)
        for part, output in self.fails.items():
            if part in line:
                return subprocess.CompletedProcess(line, 1, stdout=output)
        if "-m venv" in line:
            Venv(folder=Path(command[-1])).python.parent.mkdir(parents=True)
            Venv(folder=Path(command[-1])).python.touch()
        if "apt-get install" in line and self.apt_brings:
            self.has.add(command[-1])
            self.ensurepip = self.ensurepip or command[-1] == "python3-venv"
        return subprocess.CompletedProcess(line, 0, stdout=self.node_version if "node --version" in line else "")

    def machine(self) -> Machine:
        return Machine(
            root=self.root,
            debian=self.debian,
            has_ensurepip=lambda: self.ensurepip,
            which=lambda name: f"/usr/bin/{name}" if name in self.has else None,
            run=self.run,
            say=self.printed.append,
        )

    def installs(self) -> list[str]:
        return [line.split()[-1].removeprefix(f"{provision.ROOT}/") for line in self.did if "pip install" in line]


def test_a_fresh_machine_installs_the_pinned_packages_by_their_hashes(tmp_path: Path) -> None:
    script = Script()
    venv = set_up(script.machine(), cache=tmp_path)
    assert venv.folder == tmp_path / "venv"
    assert script.installs() == ["site/requirements.txt"]
    assert all("--require-hashes" in line for line in script.did if "pip install" in line)


def test_the_packages_for_tests_are_installed_only_for_tests(tmp_path: Path) -> None:
    script = Script()
    set_up(script.machine(), tests=True, cache=tmp_path)
    assert script.installs() == ["site/requirements.txt", "tests/requirements.txt"]


def test_a_second_set_up_installs_nothing(tmp_path: Path) -> None:
    set_up(Script().machine(), tests=True, cache=tmp_path)
    second = Script()
    set_up(second.machine(), tests=True, cache=tmp_path)
    assert not any("venv " in line or "pip install" in line for line in second.did)
    assert second.printed == []


def test_a_list_of_packages_that_changed_is_installed_again(tmp_path: Path) -> None:
    venv = set_up(Script().machine(), tests=True, cache=tmp_path)
    (venv.folder / "installed-tests-requirements").write_text("the hash of another list")
    second = Script()
    set_up(second.machine(), tests=True, cache=tmp_path)
    assert second.installs() == ["tests/requirements.txt"]


def test_an_interrupted_installation_is_repeated(tmp_path: Path) -> None:
    with pytest.raises(Fault):
        set_up(Script(fails={"pip install": "killed"}).machine(), cache=tmp_path)
    second = Script()
    set_up(second.machine(), cache=tmp_path)
    assert second.installs() == ["site/requirements.txt"]


@pytest.mark.parametrize("spoil", ["moved", "broken"])
def test_an_environment_that_was_moved_or_lost_its_python_is_replaced(tmp_path: Path, spoil: str) -> None:
    venv = set_up(Script().machine(), cache=tmp_path / "before")
    if spoil == "moved":
        (tmp_path / "before").rename(tmp_path / "after")
        venv = Venv(folder=tmp_path / "after" / "venv")
    else:
        venv.python.unlink()
    second = Script()
    set_up(second.machine(), cache=venv.folder.parent)
    assert any("-m venv" in line for line in second.did)
    assert second.installs() == ["site/requirements.txt"]


@pytest.mark.parametrize(
    ("has", "version", "enough"),
    [
        ({"node", "npm"}, "v20.11.0\n", True),
        ({"node", "npm"}, "v24.0.0\n", True),
        ({"node", "npm"}, "v18.19.0\n", False),
        ({"node", "npm"}, "not a version", False),
        ({"node"}, "v20.11.0\n", False),
        ({"npm"}, "v20.11.0\n", False),
        (set(), "", False),
    ],
)
def test_node_is_installed_if_the_machine_has_none_that_is_new_enough(
    tmp_path: Path, has: set[str], version: str, enough: bool
) -> None:
    script = Script(has=has, node_version=version)
    assert has_node(script.machine()) is enough
    set_up(script.machine(), cache=tmp_path)
    assert ("site/requirements-node.txt" in script.installs()) is not enough


def test_the_commands_of_the_venv_come_first_in_the_path(tmp_path: Path) -> None:
    assert Venv(folder=tmp_path).environment()["PATH"].startswith(f"{tmp_path}/bin:")


@pytest.mark.parametrize("there", [True, False])
def test_node_trusts_the_authorities_of_the_machine_unless_the_environment_names_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: bool
) -> None:
    authorities = tmp_path / "authorities.crt"
    monkeypatch.setattr(provision, "MACHINE_AUTHORITIES", authorities)
    monkeypatch.delenv("NODE_EXTRA_CA_CERTS", raising=False)
    if there:
        authorities.touch()
    assert Venv(folder=tmp_path).environment().get("NODE_EXTRA_CA_CERTS") == (str(authorities) if there else None)
    monkeypatch.setenv("NODE_EXTRA_CA_CERTS", "own")
    assert Venv(folder=tmp_path).environment()["NODE_EXTRA_CA_CERTS"] == "own"


def test_root_on_debian_installs_a_missing_ensurepip_by_apt(tmp_path: Path) -> None:
    script = Script(root=True, ensurepip=False)
    set_up(script.machine(), cache=tmp_path)
    assert any(line.startswith("apt-get install") and line.endswith(" python3-venv") for line in script.did)
    assert script.installs() == ["site/requirements.txt"]


@pytest.mark.parametrize(
    "script",
    [
        Script(root=False, ensurepip=False),
        Script(root=True, debian=False, ensurepip=False),
        Script(root=True, ensurepip=False, apt_brings=False),
        Script(root=True, ensurepip=False, fails={"apt-get install": "E: Unable to locate package"}),
    ],
    ids=["not root", "not Debian", "apt brought nothing", "apt failed"],
)
def test_otherwise_a_missing_ensurepip_stops_with_status_2_and_the_command_to_run(
    tmp_path: Path, script: Script
) -> None:
    with pytest.raises(Fault) as caught:
        set_up(script.machine(), cache=tmp_path)
    assert str(caught.value) == (
        "This Python came without its own installer (ensurepip). Run this once, then the same command again:\n"
        "    sudo apt-get install python3-venv"
    )
    assert caught.value.status == 2
    assert not any("-m venv" in line for line in script.did)
    assert script.root or not any("apt-get" in line for line in script.did)


@pytest.mark.parametrize(
    ("output", "message"),
    [
        ("ERROR: Could not install: [Errno 28] No space left on device", "The disk is full: free about 1 GB"),
        ("WARNING: Retrying (Retry(total=4 ...)) after NewConnectionError", "Set-up needs the network once"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES", "A package differs from the pinned one"),
        ("ERROR: something else", "pip could not install the packages."),
    ],
)
def test_a_failed_download_of_packages_is_explained(tmp_path: Path, output: str, message: str) -> None:
    with pytest.raises(Fault) as caught:
        set_up(Script(fails={"pip install": output}).machine(), cache=tmp_path)
    assert message in str(caught.value)
    assert str(caught.value).endswith(f"    {output}")


def test_an_environment_that_cannot_be_made_is_reported_with_the_last_lines_of_python(tmp_path: Path) -> None:
    output = "\n".join(["first line", *(f"line {number}" for number in range(20)), "x" * 500])
    with pytest.raises(Fault, match="could not make a virtual environment") as caught:
        set_up(Script(fails={"-m venv": output}).machine(), cache=tmp_path)
    assert "first line" not in str(caught.value)
    assert str(caught.value).endswith("    " + "x" * 160)


def test_a_folder_that_cannot_be_written_is_reported(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(Fault, match="Set-up could not write its files: Not a directory"):
        set_up(Script().machine(), cache=tmp_path / "file" / "cache")


def test_an_old_python_is_refused_with_a_message(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        refuse_old_python((3, 9))
    assert caught.value.code == 2
    assert capsys.readouterr().err == (
        "This is Python 3.9. sandmix needs Python 3.11 or newer: "
        "run the same command with a newer one, such as python3.11.\n"
    )
    refuse_old_python((3, 11))
    refuse_old_python((3, 14))


@pytest.mark.parametrize("name", ["chromium", "chromium-browser", "google-chrome"])
def test_an_installed_browser_is_used(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.delenv("SANDMIX_CHROMIUM", raising=False)
    script = Script(root=True, has={name})
    assert bring_browser(script.machine()) == f"/usr/bin/{name}"
    assert not any("apt-get" in line for line in script.did)


def test_a_browser_that_does_not_start_is_skipped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SANDMIX_CHROMIUM", raising=False)
    script = Script(has={"chromium-browser", "google-chrome"}, fails={"chromium-browser --version": "not installed"})
    assert bring_browser(script.machine()) == "/usr/bin/google-chrome"


def test_root_on_debian_installs_a_browser_by_apt(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SANDMIX_CHROMIUM", raising=False)
    script = Script(root=True, has=set())
    assert bring_browser(script.machine()) == "/usr/bin/chromium"
    script = Script(root=True, has=set())
    assert bring_browser(script.machine(), whole=False) == "/usr/bin/chromium-headless-shell"
    missing = "apt-get install --quiet --yes --no-install-recommends chromium-headless-shell"
    script = Script(root=True, has=set(), fails={missing: "Unable to locate package"})
    assert bring_browser(script.machine(), whole=False) == "/usr/bin/chromium"


def test_a_usual_run_takes_what_is_there_before_it_installs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SANDMIX_CHROMIUM", raising=False)
    both = {"chromium", "chromium-headless-shell"}
    assert bring_browser(Script(root=True, has=set(both)).machine(), whole=False) == "/usr/bin/chromium-headless-shell"
    assert bring_browser(Script(root=True, has={"chromium"}).machine(), whole=False) == "/usr/bin/chromium"
    assert bring_browser(Script(root=True, has=set(both)).machine()) == "/usr/bin/chromium"


def test_a_browser_named_in_the_environment_is_never_replaced(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("SANDMIX_CHROMIUM", "mine")
    script = Script(root=True, has={"chromium"})
    with pytest.raises(Fault, match="No Chromium or Chrome was found"):
        bring_browser(script.machine())
    assert not any("apt-get" in line for line in script.did)


def test_without_a_browser_the_message_says_how_to_install_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SANDMIX_CHROMIUM", raising=False)
    with pytest.raises(Fault, match="on Debian: apt-get install chromium"):
        bring_browser(Script(has=set()).machine())


@pytest.mark.parametrize("packages", [provision.SITE_PACKAGES, provision.NODE_PACKAGES, provision.TEST_PACKAGES])
def test_every_package_is_pinned_with_hashes_and_no_address(packages: Path) -> None:
    text = packages.read_text()
    entries = [entry for entry in text.replace("\\\n", "").splitlines() if entry and not entry.lstrip().startswith("#")]
    assert entries
    assert all("==" in entry.split()[0] and "--hash=sha256:" in entry for entry in entries)
    assert "://" not in text


@pytest.mark.parametrize("packages", [provision.SITE_PACKAGES, provision.NODE_PACKAGES, provision.TEST_PACKAGES])
def test_every_package_in_the_short_list_is_pinned(packages: Path) -> None:
    lines = packages.with_suffix(".in").read_text().splitlines()
    listed = [line.split(" ;")[0] for line in lines if not line.startswith(("#", "-c"))]
    pinned = {entry.split()[0] for entry in packages.read_text().splitlines() if "==" in entry}
    assert listed
    assert set(listed) <= pinned


def test_the_real_machine_runs_commands() -> None:
    machine = provision.this_machine()
    assert machine.run([sys.executable, "-c", "print('sand')"]).stdout == "sand\n"
    assert machine.has_ensurepip() in {True, False}
