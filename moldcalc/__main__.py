"""The command line: moldcalc new, check, plan, size, split, open."""

import argparse
import sys
from pathlib import Path
from typing import NoReturn

from moldcalc import __version__
from moldcalc.errors import MoldcalcError
from moldcalc.job import JobFile, demo_names, new_text, open_job
from moldcalc.job.file import write_whole
from moldcalc.laying import lay, open_workbook

DRAWS = 300


class Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence."""

    def error(self, message: str) -> NoReturn:
        print(f"{message[:1].upper()}{message[1:]}. Try: moldcalc --help", file=sys.stderr)
        raise SystemExit(2)


def _parser() -> Parser:
    parser = Parser(prog="moldcalc", description="Plans a large brush-on rubber mold with its sectional shell.")
    parser.add_argument("--version", action="version", version=f"moldcalc {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, parser_class=Parser)
    new = commands.add_parser("new", help="write a new job file with every entry and its help")
    new.add_argument("file", type=Path)
    new.add_argument("--title", default="A mold")
    check = commands.add_parser("check", help="read a job file and say what can't be used in it")
    check.add_argument("file")
    made = commands.add_parser("plan", help="what follows from a job file, as a table")
    made.add_argument("file", help=f"a job file, or a demo: {', '.join(demo_names())}")
    form = made.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="one object a result, to standard output")
    form.add_argument("--csv", action="store_true", help="one line a result, to standard output")
    made.add_argument("--packet", type=Path, metavar="FOLDER", help="write the papers for the bench there")
    made.add_argument("--pdf", action="store_true", help="the packet as PDF too (needs a Chromium-based browser)")
    size = commands.add_parser("size", help="how big a scan is")
    size.add_argument("scan", type=Path, help="STL, OBJ, PLY, OFF, GLB or 3MF")
    size.add_argument("--unit", choices=("mm", "cm", "m", "in", "ft"), help="what one unit of the scan is")
    size.add_argument("--up", choices=("+x", "-x", "+y", "-y", "+z", "-z"), help="which way is up in it")
    size.add_argument("--height", help="as measured on the original, to find the unit: '525 mm'")
    size.add_argument("--json", action="store_true", help="one object a result, to standard output")
    split = commands.add_parser("split", help="where the shell over a job's scan comes apart")
    split.add_argument("file", help="a job file that names its scan, or a demo")
    split.add_argument("--json", action="store_true", help="sections, order and what locks, to standard output")
    split.add_argument("--keep", action="store_true", help="write the sections into the job too")
    opened = commands.add_parser("open", help="lay the workbook in a folder of yours and open it")
    opened.add_argument("folder", type=Path, nargs="?", default=Path("moldcalc-workbook"))
    opened.add_argument("--app", action="store_true", help="the app view, without code")
    opened.add_argument("--no-browser", action="store_true")
    opened.add_argument("--port", type=int)
    return parser


def _new(options: argparse.Namespace) -> None:
    if options.file.exists():
        raise MoldcalcError(f"{options.file} is there already; nothing was overwritten. Choose another name.")
    if not options.file.parent.is_dir():
        raise MoldcalcError(f"There is no folder {options.file.parent}.")
    write_whole(options.file, new_text(options.title).encode())
    print(f"{options.file} is ready. Change it in any editor, then: moldcalc plan {options.file}")


def _check(options: argparse.Namespace) -> None:
    from moldcalc.plan import plan

    found = open_job(options.file)
    checks = [caution for caution in plan(found).cautions if caution.kind == "check"]
    print(f"{_title(found)}: every entry can be used.")
    for caution in checks:
        print(f"Check ({caution.stage}): {caution.text}")


def _title(found: JobFile) -> str:
    return found.job.start.title or "The job"


def _plan(options: argparse.Namespace) -> None:
    from moldcalc.packet import plan_csv, plan_json, write_packet
    from moldcalc.plan import plan

    if options.pdf and not options.packet:
        raise MoldcalcError("--pdf belongs to --packet FOLDER: say where the packet goes.")
    found = open_job(options.file)
    made = plan(found, DRAWS)
    if options.json:
        print(plan_json(made))
    elif options.csv:
        print(plan_csv(made), end="")
    elif not options.packet:
        print(made.job.start.title)
        print(made.as_text())
        for caution in made.cautions:
            print(f"{'Check' if caution.kind == 'check' else 'Take care'} ({caution.stage}): {caution.text}")
    if options.packet:
        for path in write_packet(made, options.packet, pdf=options.pdf, home=found.home):
            print(path, file=sys.stderr if options.json or options.csv else sys.stdout)


def _size(options: argparse.Namespace) -> None:
    from moldcalc.survey.command import size_said

    print(size_said(options.scan, options.unit, options.up, options.height, options.json))


def _split(options: argparse.Namespace) -> None:
    from moldcalc.survey.command import split_said

    print(split_said(open_job(options.file), options.json, options.keep))


def _open(options: argparse.Namespace) -> int:
    folder = options.folder.expanduser().resolve()
    for note in lay(folder):
        print(note)
    print(f"The workbook is in {folder}")
    return open_workbook(folder, app=options.app, browser=not options.no_browser, port=options.port)


def main(arguments: list[str] | None = None) -> int:
    """Run a command; returns its exit code: 0, or 2 with one sentence on standard error."""
    options = _parser().parse_args(arguments)
    try:
        code = {"new": _new, "check": _check, "plan": _plan, "size": _size, "split": _split, "open": _open}[options.command](options)
    except MoldcalcError as error:
        print(error, file=sys.stderr)
        return 2
    except BrokenPipeError:  # the reader of our output went away, as 'head' does
        sys.stderr.close()
        return 0
    return code or 0


if __name__ == "__main__":
    sys.exit(main())
