import gc
import os
import traceback

import pytest

# Programs that tests start run the installed package too, not the checkout that they are started in.
os.environ["PYTHONSAFEPATH"] = "1"

# A screen is ten thousand objects: looking for garbage in them as often as usual takes a fifth of the time.
gc.set_threshold(50_000)


def pytest_addoption(parser):
    parser.addoption("--long", action="store_true", help="many rounds of kills and cuts instead of a few")


@pytest.fixture
def long(request):
    return request.config.getoption("--long")


@pytest.fixture
def child():
    """Run a function in a forked process; return its exit status: 0, or 1 if an assertion failed there."""

    def run(function):
        number = os.fork()
        if number == 0:
            try:
                function()
            except BaseException:  # noqa: BLE001 - nothing may get past the fork
                traceback.print_exc()
                os._exit(1)
            os._exit(0)
        return os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])

    return run


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "shop"
