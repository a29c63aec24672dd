"""The heap book as a file: read as a whole and replaced as a whole, so that a crash at any byte leaves the old book or the new one.

One writer at a time: a lock on a file next to it, which the system releases when its holder ends.
"""

from __future__ import annotations

import json
import os
import os.path
import stat
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from sandmix.language.errors import SandmixError
from sandmix.language.texts import is_deeper

LARGEST_BYTES = 20_000_000
LARGEST_UPLOAD_BYTES = 256_000_000
WAIT_S = 10.0
TRIES_A_SECOND = 20


def now_text() -> str:
    """Return this machine's clock as text, in UTC."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


def read(path: str) -> Any:
    """Return what the file at *path* holds, as plain data; raises SandmixError if it is missing or not JSON."""
    try:
        if Path(path).stat().st_size > LARGEST_BYTES:
            raise SandmixError(
                f"{path} is larger than {LARGEST_BYTES} bytes, too large for a heap book. Nothing was changed."
            )
        with Path(path).open(encoding="utf-8") as file:
            text = file.read()
        if is_deeper(text):
            raise ValueError("nested too deeply")
        return json.loads(text)
    except FileNotFoundError:
        raise SandmixError(f"There is no file {path}. Record a first entry to create it.") from None
    except (OSError, UnicodeDecodeError) as error:
        why = getattr(error, "strerror", None) or error
        raise SandmixError(f"{path} can't be read: {why}. Nothing was changed.") from None
    except ValueError:
        raise SandmixError(f"{path} isn't JSON: it is damaged, or another kind of file. Nothing was changed.") from None


def bytes_of(path: str) -> bytes:
    """Return the bytes of a file that a command names, such as a shape; raises SandmixError if it can't be read."""
    try:
        if Path(path).stat().st_size > LARGEST_UPLOAD_BYTES:
            raise SandmixError(f"{path} is larger than {LARGEST_UPLOAD_BYTES} bytes. Save it with fewer facets.")
        return Path(path).read_bytes()
    except FileNotFoundError:
        raise SandmixError(f"{path} can't be read: there is no such file. Check its name and its folder.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise SandmixError(f"{path} can't be read: {why}. Name another file.") from None


def change(path: str, changed: Callable[[Any], Mapping[str, Any]]) -> None:
    """Replace the book at *path* with what *changed* returns for it (for None if there is none yet), with no other writer in between."""
    path = os.path.realpath(path)
    with _locked(path):
        book = changed(read(path) if Path(path).exists() else None)
        _replace(path, _lined(book))


def _lined(book: Mapping[str, Any]) -> str:
    """The book as text, one event per line."""
    head = {name: value for name, value in book.items() if name != "events"}
    start = json.dumps(head, ensure_ascii=False)[:-1]
    events = ",\n".join(json.dumps(event, ensure_ascii=False, allow_nan=False) for event in book["events"])
    return f'{start}, "events": [\n{events}\n]}}\n'.encode("utf-8", "replace").decode("utf-8")


def _replace(path: str, text: str) -> None:
    """Write a new file, make sure it is on the disk, then move it to the old one's place, with the old one's permissions."""
    new = Path(f"{path}.new")
    try:
        new.unlink(missing_ok=True)
        with new.open("w", encoding="utf-8") as file:
            _copy_permissions(path, new)
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        new.replace(path)
        _sync_folder(Path(path).resolve().parent)
    except OSError as error:
        raise SandmixError(f"{path} can't be written: {error}. The old book is unchanged.") from None


def _copy_permissions(path: str, new: Path) -> None:
    """Give a file the owner and permissions of the one at *path*, if there is one and the system allows it."""
    if not Path(path).exists():
        return
    old = Path(path).stat()
    for owner in (old.st_uid, -1) if hasattr(os, "chown") else ():
        with suppress(PermissionError):
            os.chown(new, owner, old.st_gid)
            break
    new.chmod(stat.S_IMODE(old.st_mode))


def _sync_folder(folder: Path) -> None:
    """Make sure that the folder's entry is on the disk too, where the system can do that."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def _locked(path: str) -> Iterator[None]:
    lock = f"{path}.lock"
    try:
        handle = os.open(lock, os.O_RDWR | os.O_CREAT, 0o600)
    except OSError as error:
        raise SandmixError(f"{path} can't be written: {error}. Nothing was changed.") from None
    try:
        for _ in range(int(WAIT_S * TRIES_A_SECOND)):
            if _lock(handle):
                break
            time.sleep(1 / TRIES_A_SECOND)
        else:
            raise SandmixError(f"Another program is writing {path}. Nothing was changed. Try again.")
        yield
    finally:
        os.close(handle)


def _lock(handle: int) -> bool:
    """Whether the lock was taken; on a system without such locks the last writer wins."""
    try:
        import fcntl
    except ImportError:
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
