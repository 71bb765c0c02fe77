"""The command line: ``bolewright package | check | size | new | update | propose | workbook | spans | part``.

Exit codes: 0 all is well, 1 a check fails or could not be made, 2 bad input or usage, 3 a fault of the program.
"""

from __future__ import annotations

import argparse
import difflib
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from bolewright import __version__
from bolewright.unforeseen import EXIT as FAULT
from bolewright.unforeseen import unforeseen
from bolewright.usage import Parser, refuse

if TYPE_CHECKING:
    from bolewright.platform.results.results import Results

_METRIC = "amounts in SI, or not; where neither is said, as most of the file's own quantities are written"
_NEAR = 0.8  # how alike two file names are before one may be the other mistyped

Run = Callable[[argparse.Namespace], int]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    given = None if words[:1] == ["part"] else _parser().parse_args(words)
    try:
        if given is None:  # its options come from the kind of part that is named first
            from bolewright.part_sheets import command

            return command.run(words[1:])
        run: Run = given.run
        return run(given)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130
    except Exception as error:  # the last net: whatever it is, nobody is shown a traceback
        refuse(unforeseen(error, words))
        return FAULT


def _parser() -> argparse.ArgumentParser:
    parser = Parser(
        prog="bolewright",
        description="Calculation sheets for raised timber platforms on tree bolts and posts. "
        "The sheets are for review; they approve nothing.",
    )
    parser.add_argument("--version", action="version", version=f"bolewright {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    package = commands.add_parser("package", help="make the calc package: PDF, HTML and results.json")
    package.add_argument("file", type=Path, metavar="FILE", help="project file (.toml)")
    package.add_argument(
        "--out", type=_folder, default=Path("build"), metavar="FOLDER", help="where to (default: build)"
    )
    package.add_argument(
        "--paper", choices=("letter", "a4"), default="letter", help="paper size (default: letter)"
    )
    package.add_argument(
        "--metric",
        action=argparse.BooleanOptionalAction,
        help="setting out, take-off and drawings in SI, calculations and brief with it beside, "
        f"{_METRIC.partition(', ')[2]}",
    )
    package.add_argument(
        "--full",
        action="store_true",
        help="every check line by line, also where its formulas stand on an earlier sheet",
    )
    package.add_argument(
        "--sheets", type=Path, metavar="FOLDER", help="your own copy of the calc sheets to run"
    )
    package.set_defaults(run=_package)

    check = commands.add_parser("check", help="check a project file and print the summary")
    check.add_argument("file", type=Path, metavar="FILE", help="project file (.toml)")
    check.add_argument("--json", action="store_true", help="print the results as JSON instead")
    check.add_argument("--metric", action=argparse.BooleanOptionalAction, help=_METRIC)
    check.add_argument(
        "--changes",
        action="store_true",
        help="list what would make each check pass that fails or is open, every change tried for real",
    )
    check.add_argument(
        "--apply", type=_count, metavar="N", help="write change N of that list into FILE, remarks kept"
    )
    check.add_argument(
        "--explain",
        metavar="MARK",
        help="what the file says of a part, worked out, and how its checks come out",
    )
    check.set_defaults(run=_check)

    from bolewright.sizing import command as sizing

    size = commands.add_parser("size", help="keep the arrangement, choose sizes that pass at the least cost")
    sizing.add_arguments(size)
    size.set_defaults(run=sizing.run)
    from bolewright.evidence import command as evidence

    evidence.add(commands)
    from bolewright.changes import update

    update.add(commands)
    from bolewright.proposing import command as proposing

    proposing.add(commands)
    new = commands.add_parser("new", help="start a project file: empty, with every key explained")
    new.add_argument("file", type=Path, metavar="FILE", help="project file to make")
    new.add_argument(
        "--copy-demonstration",
        action="store_true",
        help="a copy of the demonstration: its verdict says so, and its invented values are listed until confirmed",
    )
    new.set_defaults(run=_new)

    workbook = commands.add_parser("workbook", help="open the workbook: form, live checks, sheets, package")
    workbook.add_argument(
        "file", type=Path, nargs="?", metavar="FILE", help="project file (default: the demo)"
    )
    workbook.add_argument(
        "--new", action="store_true", help="start a new project in FILE, which must not exist"
    )
    workbook.add_argument("--page", action="store_true", help="a plain page in place of JupyterLab")
    workbook.add_argument(
        "--phone",
        action="store_true",
        help="the page for a phone or tablet in this computer's network: prints its address and a code to scan",
    )
    workbook.add_argument(
        "--address", metavar="A", help="the same at this address of this computer, such as 192.168.1.20"
    )
    workbook.add_argument("--no-browser", action="store_true", help="print the address, open nothing")
    workbook.add_argument(
        "--lay-out",
        action="store_true",
        help="put sheets, notebooks and project files into the folder and stop: for a hub that starts the server",
    )
    workbook.add_argument("--port", type=_port, default=8866, metavar="N", help="port (default: 8866)")
    workbook.set_defaults(run=_workbook)

    from bolewright.timber import span_command

    spans = commands.add_parser("spans", help="print a table of greatest spans")
    span_command.add_arguments(spans)
    spans.set_defaults(run=span_command.run)
    commands.add_parser("part", help="a sheet of one part: beam, post, footing, joint ... (part --list)")
    return parser


def _port(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= 65_535):
        raise argparse.ArgumentTypeError(f"{text!r} is no port: a whole number from 1 to 65535 is wanted")
    return int(text)


def _count(text: str) -> int:
    if not (text.isdecimal() and int(text) > 0):
        raise argparse.ArgumentTypeError(f"{text!r} is no number of a change: one from the list of --changes")
    return int(text)


def _folder(text: str) -> Path:
    if not text.strip() or "\0" in text:
        raise argparse.ArgumentTypeError(f"{text!r} is no folder: a name such as build is wanted")
    return Path(text)


def _tell(sentences: Sequence[str]) -> None:
    """Say something before the results, apart from them."""
    from bolewright.signs import sentence

    for words in sentences:
        print(sentence(words), file=sys.stderr)


def _check(given: argparse.Namespace) -> int:
    from bolewright import errata
    from bolewright.metric import is_metric
    from bolewright.platform.file.reading import ProjectError, layout_sentences, parse_project, read_text
    from bolewright.platform.layout.layout import LayoutError
    from bolewright.platform.results.results import to_json
    from bolewright.platform.results.summary import summary_lines
    from bolewright.setting_out.complete import complete_results

    try:
        if os.path.isdir(given.file):
            _tell(errata.of_package(given.file))
        text = read_text(given.file)
        _tell(errata.of_file(text))
        results = complete_results(parse_project(text, given.file.name))
    except ProjectError as error:
        return refuse(*error.sentences)
    except LayoutError as error:
        return refuse(*layout_sentences(text, given.file.name, error.sentences))
    metric = is_metric(text) if given.metric is None else given.metric
    if given.explain is not None:
        from bolewright.platform.results.explain import explain_lines

        found = explain_lines(results, text, given.explain, metric=metric)
        if not found:
            return refuse(f"{given.file.name}: no part has the mark {given.explain}.")
        print(*found, sep="\n")
        return 0 if results.all_pass else 1
    if given.apply is not None:
        return _apply(given.file, text, given.apply, results)
    print(to_json(results, text) if given.json else "\n".join(summary_lines(results, metric=metric)))
    if given.changes and not given.json:
        from bolewright.workbook.advise import help_for, help_lines

        print("", *help_lines(help_for(text, given.file.name, results)), sep="\n")
    return 0 if results.all_pass else 1


def _apply(file: Path, text: str, number: int, results: Results) -> int:
    """Write a change of the list into the file, and check again."""
    from bolewright.platform.file.reading import parse_project, read_text
    from bolewright.platform.results.verdict import verdict
    from bolewright.setting_out.complete import complete_results
    from bolewright.workbook.advise import apply, help_for
    from bolewright.workbook.storage import StorageError

    found = help_for(text, file.name, results)
    if number not in found.offers:
        most = max(found.offers, default=0)
        allowed = f"the list has 1 to {most}" if most else "nothing that was tried would help"
        return refuse(f"bolewright check: --apply: there is no change {number}: {allowed}.")
    try:
        print(*apply(file, text, number, found), sep="\n")
    except StorageError as error:
        return refuse(str(error))
    after = complete_results(parse_project(read_text(file), file.name))
    print(verdict(after))
    return 0 if after.all_pass else 1


def _package(given: argparse.Namespace) -> int:
    from bolewright import errata
    from bolewright.documents.content import PackageError, Paper, SheetError
    from bolewright.documents.transaction import KEPT, FolderError
    from bolewright.metric import is_metric
    from bolewright.platform.file.reading import ProjectError, read_text
    from bolewright.platform.layout.layout import LayoutError
    from bolewright.platform.results.verdict import verdict
    from bolewright.sheets.lengths import Tape
    from bolewright.sheets.package import make_package, sheet_files

    def say(words: str) -> None:
        print(f"  {words}", flush=True)

    if given.sheets is not None:
        try:
            sheet_files(given.sheets)
        except SheetError as error:
            return refuse(f"bolewright package: --sheets: {error}")
    try:
        text = read_text(given.file)
        _tell((*errata.of_package(given.out), *errata.of_file(text)))
        metric = is_metric(text) if given.metric is None else given.metric
        made = make_package(
            given.file,
            given.out,
            sheets=given.sheets,
            paper=Paper[given.paper.upper()],
            tape=Tape.METRIC if metric else Tape.FEET,
            full=given.full,
            progress=say,
        )
    except ProjectError as error:
        return refuse(*error.sentences)
    except FolderError as error:
        return refuse(f"bolewright package: --out: {error}")
    except (LayoutError, SheetError, PackageError) as error:
        return refuse(f"{given.file.name}: {error}")
    for path in made.files:
        if path.parent == given.out:
            print(path)
    folders = sorted({path.parent for path in made.files} - {given.out})
    for folder in folders:
        print(f"{folder}/ ({sum(path.parent == folder for path in made.files)} drawings)")
    for sentence in made.kept:
        print(f"{KEPT}{sentence}")
    print(verdict(made.results))
    return 0


def _new(given: argparse.Namespace) -> int:
    from bolewright.errata import STAMP
    from bolewright.paths import shipped
    from bolewright.workbook.blank import blank_project

    if refusal := _no_place(given.file):
        return refuse(refusal)
    if given.copy_demonstration:
        text = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
        what = "is a copy of the demonstration, whose numbers are invented: change it line by line"
    else:
        text = blank_project()
        what = "has every key with its meaning and no value: write yours"
    try:
        with given.file.open("x", encoding="utf-8") as file:
            file.write(f"{STAMP}{__version__}\n{text}")
    except FileExistsError:
        return refuse(f"{given.file} exists already and was left as it is: give another name.")
    except OSError as error:
        return refuse(f"{given.file} can't be written: {error.strerror}.")
    print(f"{given.file} {what}, then run")
    print(f"  bolewright check {given.file}")
    return 0


def _no_place(file: Path) -> str:
    """Why no project file can stand at a path; empty when one can."""
    from bolewright.platform.file.reading import unnamable

    if words := unnamable(file):
        return words
    try:
        if file.is_dir():
            return f"{file} is a folder: give a project file in it, such as {file / 'mine.toml'}."
        if not file.parent.is_dir():
            return f"There is no folder {file.parent} for {file.name}: make it first, or give another path."
    except OSError as error:
        return f"{file} can't be opened: {error.strerror}."
    return ""


def _not_meant(file: Path, *, new: bool) -> str:
    """Why a workbook is not opened on a path: one that is there already, or a name that looks mistyped."""
    if file.exists():
        return f"{file} exists already: leave --new out to open it, or give another name." if new else ""
    if new:
        return ""
    names = [path.name for path in file.parent.glob("*.toml") if path.name.count(".") == 1]
    near = difflib.get_close_matches(file.name, names, n=1, cutoff=_NEAR)
    if not near and file.with_name(f"{file.name}.toml").name in names:
        near = [f"{file.name}.toml"]
    if not near:
        return ""
    return (
        f"There is no file {file}; the nearest is {file.with_name(near[0])}. "
        f"bolewright workbook {file} --new starts a new project there."
    )


def _workbook(given: argparse.Namespace) -> int:
    from bolewright.documents.content import PackageError
    from bolewright.platform.file.reading import ProjectError, read_text
    from bolewright.workbook import launch, network

    if given.file is not None and (refusal := _no_place(given.file) or _not_meant(given.file, new=given.new)):
        return refuse(refusal)
    try:
        if given.file is not None and given.file.exists():
            read_text(given.file)
        elif given.file is not None:
            print(f"{given.file} did not exist: a new project is started there, empty.")
        address = network.own_address(given.address) if given.address else launch.HERE
        if given.phone and not given.address:
            address = network.local_address()
        path = launch.prepare(given.file)
        if given.lay_out:
            print(f"The workbook lies in {path.parent}: open {launch.NOTEBOOK} or {launch.EXPLORER} there.")
            return 0
        if not (given.page or given.phone or given.address):
            return launch.run(launch.in_lab(path, given.port, browser=not given.no_browser))
        start = launch.as_page(path, network.free_port(address, given.port), address=address)
    except ProjectError as error:
        return refuse(*error.sentences)
    except (PackageError, network.NetworkError) as error:
        return refuse(str(error))
    elsewhere = address != launch.HERE
    print(launch.words(start.link, elsewhere=elsewhere), flush=True)
    return launch.run(start, opened=None if given.no_browser or elsewhere else launch.open_here)


if __name__ == "__main__":
    sys.exit(main())
