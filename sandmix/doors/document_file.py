"""A heap book or a casting as a file: read as a whole and replaced as a whole, so that a crash at any byte leaves the old one or the new one.

One writer at a time: a lock on a file next to it, which the system releases when its holder ends.
"""

from __future__ import annotations

import errno
import json
import os
import os.path
import stat
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sandmix.language.errors import SandmixError
from sandmix.language.texts import RepeatedKeyError, is_deeper, is_finite, parsed

LARGEST_BYTES = 20_000_000
LARGEST_UPLOAD_BYTES = 256_000_000
WAIT_S = 10.0
TRIES_A_SECOND = 20
WRITABLE = stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH
NO_FILE = "it isn't a file, but a folder, a device or a pipe"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of document: its name, how its file is created, and which of its lists is written with one row a line."""

    name: str
    to_create: str
    rows: str = ""


BOOK = Kind(name="heap book", to_create="Record a first entry to create it.", rows="events")
CASTING = Kind(name="casting", to_create="Give a first figure of the casting, such as its --box, to create it.")
KINDS = {"book": BOOK, "casting": CASTING}
"""The kinds by the word that asks for such a document."""


def now_text() -> str:
    """Return this machine's clock as text, in UTC."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


def is_typed(given: str) -> bool:
    """Return whether a document is not a file: it is typed in as JSON, or there is none."""
    return not given or given.lstrip().startswith(("[", "{"))


def is_file(given: object) -> bool:
    """Return whether what was given for a document names a file: a path, or a text that is no JSON."""
    return hasattr(given, "__fspath__") or (isinstance(given, str) and not is_typed(given))


def is_there(path: str) -> bool:
    """Return whether there is a file or a folder at *path*."""
    try:
        Path(path).stat()
    except OSError:
        return False
    return True


def stamp(path: str) -> tuple[int, ...] | None:
    """Return what changes with the file at *path*: its place on the disk, its size and its time; None if there is none."""
    try:
        found = Path(path).stat()
    except (OSError, ValueError):
        return None
    return found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns


def read(path: str, kind: Kind = BOOK) -> Any:
    """Return what the file at *path* holds, as plain data; raises SandmixError if it is missing or not JSON."""
    try:
        content = _content(path, LARGEST_BYTES)
        if content is None:
            raise SandmixError(
                f"{path} is larger than {LARGEST_BYTES} bytes, too large for a {kind.name}. Nothing was changed."
            )
        text = content.decode("utf-8-sig")
        if is_deeper(text):
            raise ValueError("nested too deeply")
        document = parsed(text)
    except FileNotFoundError:
        raise SandmixError(f"There is no file {path}. {kind.to_create}") from None
    except UnicodeDecodeError:
        raise SandmixError(f"{path} can't be read: it isn't text in UTF-8. Nothing was changed.") from None
    except OSError as error:
        raise SandmixError(f"{path} can't be read: {error.strerror or error}. Nothing was changed.") from None
    except RepeatedKeyError as error:
        raise SandmixError(
            f"{path} gives “{error}” twice in one place: it was edited by hand or is damaged. Leave one of them out. Nothing was changed."
        ) from None
    except ValueError:
        raise SandmixError(f"{path} isn't JSON: it is damaged, or another kind of file. Nothing was changed.") from None
    if not is_finite(document):
        raise SandmixError(
            f"{path} holds a number that is far too large, such as 1e999: it was edited by hand or is damaged. Correct it. Nothing was changed."
        )
    return document


def bytes_of(path: str) -> bytes:
    """Return the bytes of a file that a command names, such as a shape; raises SandmixError if it can't be read."""
    try:
        content = _content(path, LARGEST_UPLOAD_BYTES)
    except FileNotFoundError:
        raise SandmixError(f"{path} can't be read: there is no such file. Check its name and its folder.") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise SandmixError(f"{path} can't be read: {why}. Name another file.") from None
    if content is None:
        raise SandmixError(f"{path} is larger than {LARGEST_UPLOAD_BYTES} bytes. Save it with fewer facets.")
    return content


def _content(path: str, most: int) -> bytes | None:
    """The bytes of a plain file, or None if there are more than *most*; raises OSError. A device or a pipe might never end."""
    if not stat.S_ISREG(Path(path).stat().st_mode):
        raise OSError(errno.EINVAL, NO_FILE)
    with Path(path).open("rb") as file:
        content = file.read(most + 1)
    return content if len(content) <= most else None


def check_writable(path: str) -> None:
    """Raise SandmixError if the file at *path* is one that its own permissions protect, or no plain file; replacing it would lose it."""
    if not is_there(path):
        return
    mode = Path(path).stat().st_mode
    if not stat.S_ISREG(mode):
        raise SandmixError(f"{path} can't be written: {NO_FILE}. Nothing was changed. Name another file.")
    if not mode & WRITABLE or not os.access(path, os.W_OK):
        raise SandmixError(f"{path} is read-only. Nothing was changed. Allow writing to it, or name another file.")


def change(path: str, changed: Callable[[Any], Mapping[str, Any] | None], kind: Kind = BOOK) -> None:
    """Replace the document at *path* with what *changed* returns for it, with no other writer in between.

    *changed* gets None if there is no such file yet, and returns None to leave the file as it is. Raises SandmixError.
    """
    path = os.path.realpath(path)
    check_writable(path)
    with _locked(path):
        document = changed(read(path, kind) if is_there(path) else None)
        if document is not None:
            _replace(path, _lined(document, kind))


def _lined(document: Mapping[str, Any], kind: Kind) -> str:
    """The document as text, one row of its list, or else one of its parts, per line."""
    if kind.rows:
        head = {name: value for name, value in document.items() if name != kind.rows}
        start = json.dumps(head, ensure_ascii=False)[:-1]
        rows = ",\n".join(json.dumps(row, ensure_ascii=False, allow_nan=False) for row in document[kind.rows])
        text = f'{start}, "{kind.rows}": [\n{rows}\n]}}\n'
    else:
        parts = (
            f"{json.dumps(name)}: {json.dumps(value, ensure_ascii=False, allow_nan=False)}"
            for name, value in document.items()
        )
        text = "{" + ",\n ".join(parts) + "}\n"
    return text.encode("utf-8", "replace").decode("utf-8")


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
    except OSError as error:
        with suppress(OSError):
            new.unlink(missing_ok=True)
        raise SandmixError(
            f"{path} can't be written: {error.strerror or error}. What was in it is unchanged."
        ) from None
    with suppress(OSError):  # a file system that can't do this has the file in its place all the same
        _sync_folder(Path(path).parent)


def _copy_permissions(path: str, new: Path) -> None:
    """Give a file the owner and permissions of the one at *path*, if there is one and the system allows it."""
    if not is_there(path):
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
        handle = os.open(lock, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o666)
    except OSError as error:
        raise SandmixError(f"{path} can't be written: {error.strerror or error}. Nothing was changed.") from None
    try:
        with suppress(OSError):  # another person's lock has their permissions
            _copy_permissions(path, Path(lock))
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
