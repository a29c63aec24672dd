"""The book as a file: complete before and after, whatever happens in between."""

import json
import os
import stat
from pathlib import Path

import pytest

from sandmix.doors import document_file
from sandmix.language.errors import SandmixError
from sandmix.language.timestamps import seconds_of

OLD = {"format": "sandmix book", "version": 1, "name": "Mine", "events": [{"id": "e1", "note": "old"}]}
NEW = {**OLD, "events": [*OLD["events"], {"id": "e2", "note": "new, with a ü"}]}


class Crash(BaseException):
    """The power is gone."""


@pytest.fixture
def path(tmp_path):
    file = tmp_path / "heap.json"
    document_file.change(str(file), lambda _: OLD)
    return str(file)


def crash(*_, **__):
    raise Crash


def test_a_missing_book_is_created(tmp_path):
    given = []
    path = str(tmp_path / "heap.json")
    document_file.change(path, lambda data: given.append(data) or NEW)
    assert given == [None]
    assert document_file.read(path) == NEW


def test_an_existing_book_is_passed_on_and_replaced(path):
    given = []
    document_file.change(path, lambda data: given.append(data) or NEW)
    assert given == [OLD]
    assert document_file.read(path) == NEW


def test_a_book_without_events_can_be_written(tmp_path):
    path = str(tmp_path / "heap.json")
    document_file.change(path, lambda _: {**OLD, "events": []})
    assert document_file.read(path)["events"] == []


def test_each_event_is_one_line(path):
    document_file.change(path, lambda _: NEW)
    lines = Path(path).read_text("utf-8").splitlines()
    assert [json.loads(line.rstrip(","))["id"] for line in lines[1:-1]] == ["e1", "e2"]
    assert "ü" in lines[2]


@pytest.mark.parametrize("fails", ["fsync", "replace"])
def test_a_disk_that_fails_leaves_the_old_book(path, monkeypatch, fails):
    def broken(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync") if fails == "fsync" else (Path, "replace")), broken)
    with pytest.raises(SandmixError, match=r"No space left on device.*What was in it is unchanged\.$"):
        document_file.change(path, lambda _: NEW)
    monkeypatch.undo()
    assert document_file.read(path) == OLD


def test_a_crash_at_any_byte_of_writing_leaves_the_old_book_and_the_next_write_is_whole(path, monkeypatch):
    whole = json.dumps(NEW)
    plain_open = Path.open

    def torn(size):
        def opened(file, mode="r", **how):
            handle = plain_open(file, mode, **how)
            if "w" not in mode:
                return handle
            write = handle.write

            def part(text):
                write(text[:size])
                handle.flush()
                raise Crash

            return _With(handle, part)

        return opened

    for size in range(len(whole)):
        monkeypatch.setattr(Path, "open", torn(size))
        with pytest.raises(Crash):
            document_file.change(path, lambda _: NEW)
        monkeypatch.undo()
        assert document_file.read(path) == OLD
    document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == NEW


class _With:
    def __init__(self, handle, write):
        self.handle, self.write = handle, write

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.handle.close()


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_crash_before_the_new_one_is_in_place_leaves_the_old_one(path, monkeypatch, step):
    monkeypatch.setattr(*((os, "fsync") if step == "fsync" else (Path, "replace")), crash)
    with pytest.raises(Crash):
        document_file.change(path, lambda _: NEW)
    monkeypatch.undo()
    assert document_file.read(path) == OLD


def test_a_crash_after_that_leaves_the_new_one(path, monkeypatch):
    monkeypatch.setattr(document_file, "_sync_folder", crash)
    with pytest.raises(Crash):
        document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == NEW


def test_the_new_file_is_on_the_disk_before_it_is_moved_into_place(path, monkeypatch):
    done = []
    plain_fsync, plain_replace = os.fsync, Path.replace
    monkeypatch.setattr(os, "fsync", lambda handle: done.append("on the disk") or plain_fsync(handle))
    monkeypatch.setattr(Path, "replace", lambda *paths: done.append("in place") or plain_replace(*paths))
    document_file.change(path, lambda _: NEW)
    assert done[:2] == ["on the disk", "in place"]


def test_a_refused_change_writes_nothing_and_releases_the_lock(path):
    def refused(_):
        raise SandmixError("no")

    with pytest.raises(SandmixError):
        document_file.change(path, refused)
    assert document_file.read(path) == OLD
    document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == NEW


def test_a_book_behind_a_link_is_the_one_that_is_written(path, tmp_path):
    link = tmp_path / "link.json"
    link.symlink_to(path)
    document_file.change(str(link), lambda _: NEW)
    assert link.is_symlink()
    assert document_file.read(path) == NEW


def test_half_a_character_is_written_as_a_question_mark(path):
    document_file.change(path, lambda _: {**OLD, "events": [{"id": "e1", "note": "\udcff"}]})
    assert document_file.read(path)["events"][0]["note"] == "?"


def write(path, content):
    Path(path).write_bytes(content)


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "isn't JSON"),
        (b"{", "isn't JSON"),
        (b"[" * 200_000, "isn't JSON"),
        (b'{"a": ' + b"1" * 10_000 + b"}", "isn't JSON"),
        (b"\xff\xfe\x00", "can't be read"),
        (b"PK\x03\x04", "isn't JSON"),
        (b'{"events": [{"kind": "measured", "heap_gfn": 1e999}]}', "heap.json holds a number that is far too large"),
        (b'{"name": "a", "events": [{"id": "e1", "kind": "rain", "kind": "lost"}]}', "gives “kind” twice in one place"),
    ],
)
def test_a_file_that_is_not_a_book_is_refused_and_unchanged(path, content, message):
    write(path, content)
    for work in (lambda: document_file.read(path), lambda: document_file.change(path, lambda _: NEW)):
        with pytest.raises(SandmixError, match=message) as refused:
            work()
        assert str(refused.value).endswith("Nothing was changed.")
    assert Path(path).read_bytes() == content


def test_a_huge_file_is_refused_before_it_is_read(path, monkeypatch):
    monkeypatch.setattr(document_file, "LARGEST_BYTES", 10)
    monkeypatch.setattr(json, "loads", crash)
    with pytest.raises(SandmixError, match="larger than 10 bytes"):
        document_file.read(path)


def test_a_missing_file_or_folder_is_refused(tmp_path):
    with pytest.raises(SandmixError, match="There is no file"):
        document_file.read(str(tmp_path / "none.json"))
    with pytest.raises(SandmixError, match="can't be written"):
        document_file.change(str(tmp_path / "none" / "heap.json"), lambda _: NEW)


def test_a_folder_is_not_a_book(tmp_path):
    with pytest.raises(SandmixError, match="can't be read"):
        document_file.read(str(tmp_path))


def test_the_time_now_is_a_timestamp():
    assert document_file.now_text().endswith("Z")
    assert seconds_of(document_file.now_text()) > seconds_of("2020-01-01")


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_a_rewritten_book_has_the_same_permissions(path, mode):
    Path(path).chmod(mode)
    document_file.change(path, lambda _: NEW)
    assert stat.S_IMODE(Path(path).stat().st_mode) == mode


def test_a_rewritten_book_has_the_same_owner_or_if_not_allowed_the_same_group(path, monkeypatch):
    asked = []

    def chown(_, owner, group):
        asked.append((owner, group))
        if owner != -1:
            raise PermissionError

    monkeypatch.setattr(os, "chown", chown, raising=False)
    document_file.change(path, lambda _: NEW)
    there = Path(path).stat()
    assert asked == [(there.st_uid, there.st_gid), (-1, there.st_gid)] * 2  # the lock first, then the book
    assert document_file.read(path) == NEW


def test_a_system_without_owners_can_write_a_book(path, monkeypatch):
    monkeypatch.delattr(os, "chown", raising=False)
    document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == NEW


def test_a_book_with_a_byte_order_mark_is_read_and_written_without_it(path):
    write(path, b"\xef\xbb\xbf" + json.dumps(OLD).encode())
    document_file.change(path, lambda data: data)
    assert Path(path).read_bytes().startswith(b"{")
    assert document_file.read(path) == OLD


def test_a_book_in_another_encoding_is_refused_in_words(path):
    write(path, json.dumps(OLD).encode("utf-16"))
    with pytest.raises(SandmixError, match=r"it isn't text in UTF-8\. Nothing was changed\.$"):
        document_file.read(path)


def test_a_read_only_book_is_not_replaced(path):
    Path(path).chmod(0o444)
    before = Path(path).stat()
    with pytest.raises(SandmixError, match=r"heap\.json is read-only\. Nothing was changed\. Allow writing to it"):
        document_file.change(path, lambda _: NEW)
    assert (Path(path).stat().st_ino, document_file.read(path)) == (before.st_ino, OLD)


def test_a_book_that_another_may_write_but_not_this_person_is_not_replaced(path, monkeypatch):
    monkeypatch.setattr(os, "access", lambda _, mode: mode != os.W_OK)
    with pytest.raises(SandmixError, match="is read-only"):
        document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == OLD


@pytest.mark.parametrize("mode", [0o600, 0o664])
def test_the_lock_has_the_permissions_of_the_book(path, mode):
    Path(path).chmod(mode)
    Path(f"{path}.lock").unlink()
    document_file.change(path, lambda _: NEW)
    assert stat.S_IMODE(Path(f"{path}.lock").stat().st_mode) == mode


def test_a_lock_that_is_a_link_is_not_followed(path, tmp_path):
    other = tmp_path / "other.txt"
    other.write_text("mine")
    other.chmod(0o600)
    Path(path).chmod(0o664)
    Path(f"{path}.lock").unlink()
    Path(f"{path}.lock").symlink_to(other)
    with pytest.raises(SandmixError, match=r"can't be written.*Nothing was changed\.$"):
        document_file.change(path, lambda _: NEW)
    assert stat.S_IMODE(other.stat().st_mode) == 0o600


@pytest.fixture(params=["pipe", "device", "folder"])
def odd(request, tmp_path):
    """What has a path, but is no file with an end."""
    if request.param == "device":
        return "/dev/zero"
    path = str(tmp_path / "odd.json")
    os.mkfifo(path) if request.param == "pipe" else Path(path).mkdir()
    return path


def test_what_is_no_file_is_refused_before_it_is_opened(odd):
    for work in (document_file.read, document_file.bytes_of):
        with pytest.raises(SandmixError, match="can't be read: it isn't a file, but a folder, a device or a pipe"):
            work(odd)
    with pytest.raises(SandmixError, match="can't be written: it isn't a file"):
        document_file.change(odd, lambda _: NEW)
    assert not Path(f"{odd}.lock").exists()


def test_a_file_that_is_too_large_is_read_no_further(path, monkeypatch):
    monkeypatch.setattr(document_file, "LARGEST_UPLOAD_BYTES", 10)
    with pytest.raises(SandmixError, match="larger than 10 bytes"):
        document_file.bytes_of(path)


def test_a_failed_write_leaves_no_half_written_file(path, monkeypatch):
    monkeypatch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(SandmixError):
        document_file.change(path, lambda _: NEW)
    assert sorted(file.name for file in Path(path).parent.iterdir()) == ["heap.json", "heap.json.lock"]


def test_a_folder_that_cannot_be_synced_loses_nothing(path, monkeypatch):
    monkeypatch.setattr(document_file, "_sync_folder", lambda _: (_ for _ in ()).throw(OSError(22, "Invalid argument")))
    document_file.change(path, lambda _: NEW)
    assert document_file.read(path) == NEW


@pytest.mark.parametrize("name", ["a" * 300, "none/" * 1000])
def test_a_name_that_no_system_takes_is_refused_in_words(tmp_path, name):
    path = str(tmp_path / name)
    assert not document_file.is_there(path)
    for work in (document_file.read, document_file.bytes_of, lambda path: document_file.change(path, lambda _: NEW)):
        with pytest.raises(SandmixError):
            work(path)


@pytest.mark.parametrize("number", ["NaN", "Infinity"])
def test_a_number_that_is_none_is_no_json(path, number):
    write(path, b'{"events": [%s]}' % number.encode())
    with pytest.raises(SandmixError, match="isn't JSON"):
        document_file.read(path)
