import subprocess
import sys

from shoptui.cli.terminal_names import free_name

SAY = "import sys; from pathlib import Path; from shoptui.cli.terminal_names import free_name; "
SAY += "print(free_name(Path(sys.argv[1])), flush=True); sys.stdin.read()"


def start(store):
    return subprocess.Popen(
        [sys.executable, "-c", SAY, str(store)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )


def test_the_name_is_the_same_again_and_another_beside_it(tmp_path):
    first = start(tmp_path)
    name = first.stdout.readline().strip()
    second = start(tmp_path)
    assert second.stdout.readline().strip() == f"{name} 2"
    first.kill()
    first.communicate()
    third = start(tmp_path)
    assert third.stdout.readline().strip() == name, "what was killed lets go of its name"
    for each in (second, third):
        each.communicate("")


def test_one_process_has_one_name(tmp_path):
    assert free_name(tmp_path) == free_name(tmp_path)
    assert "@" in free_name(tmp_path)
