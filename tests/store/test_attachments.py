import hashlib
import os

import pytest

from shoptui.store.attachments import CHUNK, LARGEST, AttachmentError, keep, place_in


@pytest.fixture
def shop(tmp_path):
    folder = tmp_path / "shop"
    (folder / "files").mkdir(parents=True)
    return folder


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "dent.jpg"
    path.write_bytes(os.urandom(3 * CHUNK + 17))
    return path


def left_in(shop):
    return [path for path in (shop / "files").rglob("*") if path.is_file()]


def test_its_bytes_lie_under_their_digest_once(shop, photo):
    kept = keep(shop, photo)
    digest = hashlib.sha256(photo.read_bytes()).hexdigest()  # the hash function itself is the library's
    assert (kept.name, kept.kind, kept.size, kept.sha256) == (
        "dent.jpg",
        "image/jpeg",
        3 * CHUNK + 17,
        digest,
    )
    assert place_in(shop, digest).read_bytes() == photo.read_bytes()
    photo = photo.rename(photo.with_name("again.png"))
    assert keep(shop, photo).sha256 == digest
    assert left_in(shop) == [place_in(shop, digest)]


def test_what_is_no_file_is_said(shop, tmp_path):
    empty = tmp_path / "empty.jpg"
    empty.touch()
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    large = tmp_path / "film.mov"
    with large.open("wb") as file:
        file.truncate(3_000_000_000)
    for path, told in (
        (tmp_path / "gone.jpg", "There is no file"),
        (tmp_path, "is a folder"),
        (tmp_path / "empty.jpg" / "x", "There is no file"),
        (empty, "is empty"),
        (pipe, "a device or a pipe"),
        (large, f"film.mov has 3000 MB; at most {LARGEST // 1_000_000} MB"),
        (tmp_path / ("x" * 300), "cannot be read"),
        (tmp_path / "zero\0byte", "cannot be read"),
        (tmp_path / "\x1b[31m", "There is no file"),
    ):
        with pytest.raises(AttachmentError, match=told) as refused:
            keep(shop, path)
        assert str(refused.value).isprintable()
    assert left_in(shop) == []


def test_a_file_that_may_not_be_read(shop, photo, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(AttachmentError, match="permission denied"):
        keep(shop, photo)


@pytest.mark.parametrize("change", ["grow", "shrink", "touch"])
def test_a_file_that_changes_while_it_is_read_is_not_kept(shop, photo, change):
    def go_on(_read, _all):
        size = photo.stat().st_size
        if change == "touch":
            os.utime(photo, ns=(1, 1))
        else:
            os.truncate(photo, size + 5 if change == "grow" else CHUNK)
        return True

    with pytest.raises(AttachmentError, match="changed while it was read"):
        keep(shop, photo, go_on=go_on)
    assert left_in(shop) == []


def test_it_says_how_far_it_is_and_can_be_stopped(shop, photo):
    seen = []

    def go_on(read, all_):
        seen.append((read, all_))
        return len(seen) < 2

    with pytest.raises(AttachmentError, match="Stopped"):
        keep(shop, photo, go_on=go_on)
    assert seen == [(CHUNK, 3 * CHUNK + 17), (2 * CHUNK, 3 * CHUNK + 17)]
    assert left_in(shop) == []


def test_a_full_disk_is_said_and_nothing_is_left(shop, photo, monkeypatch):
    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(AttachmentError, match="no space left on device"):
        keep(shop, photo)
    assert left_in(shop) == []
