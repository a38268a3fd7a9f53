"""The torque record of a build."""

import argparse

from shoptui.cli.opening import build_of, opened
from shoptui.cli.output import as_csv, as_json, write, write_data
from shoptui.jobs.torque_record import COLUMNS, as_values, record_of, rows
from shoptui.jobs.torque_sheet import as_markdown, as_text


def readings(arguments: argparse.Namespace) -> int:
    """Print every joint of what is on, with its sheet and its readings."""
    with opened(arguments) as shop:
        build = build_of(shop, arguments.build)
        found = record_of(shop, build, only_open=arguments.open)
        match arguments.format:
            case "json":
                write_data(as_json(as_values(shop, found)) + "\n")
            case "csv":
                write_data(as_csv(COLUMNS, rows(shop, found)))
            case "md":
                write(as_markdown(shop, build, found))
            case _:
                write(as_text(shop, build, found))
    return 0
