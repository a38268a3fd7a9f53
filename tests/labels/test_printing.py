import pytest

from shoptui.labels import printing
from shoptui.labels.errors import PrintingError


@pytest.fixture
def system(tmp_path, monkeypatch):
    """A system with the printing commands that the test writes, and no others."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))

    def has(name, script):
        (folder / name).write_text(f"#!/bin/sh\n{script}\n")
        (folder / name).chmod(0o755)

    return has


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "labels of rack 3.pdf"
    path.write_bytes(b"%PDF")
    return path


def test_a_file_is_sent_unscaled(system, path, tmp_path):
    system(
        "lp",
        f'for each in "$@"; do echo "$each"; done > {tmp_path}/told; echo "request id is lab-7 (1 file(s))"',
    )
    assert printing.send(path, "lab") == "Sent to lab: request id is lab-7 (1 file(s))."
    assert (tmp_path / "told").read_text().splitlines() == [
        "-d",
        "lab",
        "-o",
        "print-scaling=none",
        "--",
        str(path),
    ]
    assert printing.send(path) == "Sent to the usual queue: request id is lab-7 (1 file(s))."
    assert "-d" not in (tmp_path / "told").read_text()


def test_queues(system):
    assert printing.queues() == ()
    system("lpstat", '[ "$1" = -e ] && printf "lab\\noffice\\n"')
    assert printing.queues() == ("lab", "office")


def test_a_queue_that_refuses(system, path):
    system("lp", 'echo "lp: The printer or class does not exist." >&2; exit 1')
    system("lpstat", "echo office")
    with pytest.raises(PrintingError) as told:
        printing.send(path, "lab")
    assert str(told.value) == (
        "The print queue refused the labels: The printer or class does not exist. Queues there are: office. "
        f"The file lies at {path}; open it and print it at its actual size, not fitted to the page."
    )


def test_no_queue_is_set_up(system, path):
    system("lp", 'echo "lp: Error - no default destination available." >&2; exit 1')
    system("lpstat", "exit 1")
    with pytest.raises(PrintingError, match=r"No queue is set up. The file lies at"):
        printing.send(path)


def test_a_computer_without_queues(system, path):
    with pytest.raises(PrintingError, match=r"has no print queue .* The file lies at .*rack 3.pdf; open it"):
        printing.send(path)


def test_a_queue_that_does_not_answer(system, path, monkeypatch):
    monkeypatch.setattr(printing, "SECONDS", 0.2)
    system("lp", "read forever < /dev/tty || while :; do :; done")
    with pytest.raises(PrintingError, match=r"did not answer within .* seconds. The file lies at"):
        printing.send(path)


def test_what_the_queue_says_does_not_act(system, path):
    system("lp", "printf 'lp: \\033[31mno\\n' >&2; exit 1")
    with pytest.raises(PrintingError) as told:
        printing.send(path)
    assert "\x1b" not in str(told.value)


def test_a_command_that_cannot_run(system, path, tmp_path):
    (tmp_path / "bin" / "lp").write_bytes(b"\x7fELF nothing")
    (tmp_path / "bin" / "lp").chmod(0o755)
    with pytest.raises(PrintingError, match=r"could not be called: .* The file lies at"):
        printing.send(path)
