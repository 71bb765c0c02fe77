"""``bolewright part``: a single part from the shell, or many at once from a CSV."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path

from bolewright.documents.content import PackageError, Paper
from bolewright.documents.in_si import with_si
from bolewright.part_sheets.document import SUFFIXES, write
from bolewright.part_sheets.inputs import Asked, PartError, asked_of
from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import PartSheet, part_sheet, size
from bolewright.rendering.numbers import ratio
from bolewright.status import Status
from bolewright.units import shown
from bolewright.usage import Parser, refuse

PROG = "bolewright part"
RATIOS = "ratios.csv"
_MOST_ROWS = 500


def run(arguments: Sequence[str]) -> int:
    """Run ``bolewright part`` with what stands behind it; the exit code.

    0: no limit of the sheet is exceeded, 1: one is, or is open, 2: bad input.
    """
    words = list(arguments)
    if not words or words[0] in ("--list", "--help", "-h"):
        print("\n".join(_list()))
        return 0 if words else 2
    if words[0] not in KINDS:
        return refuse(
            f"{PROG}: there is no kind of part {shown(words[0])}; the kinds are {', '.join(KINDS)}."
        )
    kind = KINDS[words[0]]
    given = _parser(kind).parse_args(words[1:])
    texts = {
        a.name: getattr(given, a.name) for a in asked_of(kind.model) if getattr(given, a.name) is not None
    }
    if given.example:
        texts = {**kind.example.inputs, **texts}
    paper = Paper[given.paper.upper()]
    try:
        if given.from_ is not None:
            form = Form(given.blank, paper, given.metric)
            return _many(kind, given.from_, given.out, texts, form, html=given.html)
        sheet = part_sheet(kind, texts)
        said = _said(sheet)
        print("\n".join([with_si(line) for line in said] if given.metric else said))
        if given.out is not None:
            print(write(sheet, given.out, blank=given.blank, paper=paper, metric=given.metric))
    except PartError as error:
        return refuse(*_sentences(kind, error))
    except PackageError as error:
        return refuse(f"{PROG}: --out: {error}.")
    return 0 if sheet.status is Status.PASSES else 1


@dataclass(frozen=True)
class Form:
    """How sheets are written: with the numbers left blank, on which paper, with SI beside."""

    blank: bool
    paper: Paper
    metric: bool


def _list() -> list[str]:
    lines = [f"usage: {PROG} KIND [options]", "", "A calculation sheet of one part. The kinds:", ""]
    lines += [f"  {kind.name:<14} {kind.title}" for kind in KINDS.values()]
    lines += [
        "",
        f"{PROG} KIND --help lists what a kind asks for.",
        f"{PROG} KIND --from rows.csv --out FOLDER",
    ]
    return [*lines, "  makes one sheet a row, and a table of their ratios."]


def _parser(kind: Kind) -> Parser:
    parser = Parser(prog=f"{PROG} {kind.name}", description=kind.about, allow_abbrev=False)
    parser.add_argument(
        "--out", type=Path, metavar="FILE", help="the sheet to write: .pdf or .html; a folder with --from"
    )
    parser.add_argument(
        "--from", dest="from_", type=Path, metavar="ROWS.csv", help="many at once: one row a part"
    )
    parser.add_argument("--html", action="store_true", help="with --from: HTML in place of PDF")
    parser.add_argument("--blank", action="store_true", help="leave the numbers blank, with a key at the end")
    parser.add_argument(
        "--example", action="store_true", help=f"the {kind.example.name.lower()}: {kind.example.source}"
    )
    parser.add_argument(
        "--paper", choices=("letter", "a4"), default="letter", help="paper size (default: letter)"
    )
    parser.add_argument("--metric", action="store_true", help="with SI beside every quantity and equation")
    asked = parser.add_argument_group("inputs")
    for one in asked_of(kind.model):
        asked.add_argument(f"--{one.name.replace('_', '-')}", dest=one.name, metavar="TEXT", help=_help(one))
    return parser


def _help(one: Asked) -> str:
    parts = [one.help]
    if one.choices and len(one.choices) < 12:
        parts.append(f"One of: {', '.join(one.choices)}.")
    if one.allowed:
        parts.append(f"Allowed: {one.allowed}.")
    if one.default:
        parts.append(f"Default: {one.default}.")
    return " ".join(parts).replace("%", "%%")


def _said(sheet: PartSheet) -> list[str]:
    rows = [
        (
            j.limit.words,
            "open" if j.says else ratio(j.ratio),
            f"{size(j.demand)} of {size(j.capacity)}" if j.capacity is not None else size(j.demand),
        )
        for j in sheet.limits
    ]
    wide = max(len(row[0]) for row in rows)
    return [*(f"{name:<{wide}}  {value:>6}  {sizes}".rstrip() for name, value, sizes in rows), sheet.verdict]


def _sentences(kind: Kind, error: PartError, where: str = "", columns: Collection[str] = ()) -> list[str]:
    """The faults, each with what was typed: the column of a table, else the option."""
    names = [asked.name for asked in asked_of(kind.model)]
    titles = {name: name if name in columns else f"--{name.replace('_', '-')}" for name in names}
    return [
        f"{where}{titles[name]}: {said}" if name else f"{where}{said}" for name, said in error.faults.items()
    ]


def _many(
    kind: Kind,
    source: Path,
    out: Path | None,
    shared: dict[str, str],
    form: Form,
    *,
    html: bool,
) -> int:
    """One sheet a row, after every row was found usable; else nothing is written."""
    if out is None:
        return refuse(f"{PROG} {kind.name}: --out is wanted: the folder that the sheets go to.")
    if out.suffix.lower() in SUFFIXES:
        return refuse(f"{PROG} {kind.name}: --out: {out} names a file: with --from give a folder.")
    if out.exists() and not out.is_dir():
        return refuse(f"{PROG} {kind.name}: --out: {out} is no folder.")
    try:
        rows = _rows(source)
    except (OSError, UnicodeDecodeError, csv.Error, ValueError) as error:
        said = error.strerror if isinstance(error, OSError) else error
        return refuse(f"{PROG} {kind.name}: --from: {source} can't be read: {said}.")
    sheets: dict[str, PartSheet] = {}
    faults: list[str] = []
    for number, row in enumerate(rows, 2):
        where = f"{source.name}, line {number}: "
        typed = {name: text for name, text in row.items() if text.strip()}
        texts = {**shared, **typed}
        texts.setdefault("mark", f"row {number - 1}")
        name = re.sub(r"[^\w.-]+", "_", texts["mark"]).strip("._") or f"row_{number - 1}"
        if name in sheets:
            faults.append(f"{where}the part {shown(texts['mark'])} is listed twice: give each row its own.")
            continue
        try:
            sheets[name] = part_sheet(kind, texts)
        except PartError as error:
            faults += _sentences(kind, error, where, typed.keys() | (row.keys() - shared.keys()))
    if faults:
        return refuse(*faults, f"Nothing was written: mend {source.name} first.")
    for name, sheet in sheets.items():
        print(f"{sheet.texts['mark']}: {sheet.verdict}")
        to = out / f"{name}{'.html' if html else '.pdf'}"
        write(sheet, to, blank=form.blank, paper=form.paper, metric=form.metric)
    table = out / RATIOS
    table.write_text(_table(kind, list(sheets.values())), encoding="utf-8")
    print(f"{len(sheets)} sheets and {table}")
    return 0 if all(sheet.status is Status.PASSES for sheet in sheets.values()) else 1


def _rows(source: Path) -> list[dict[str, str]]:
    text = source.read_text(encoding="utf-8-sig")
    heading = text.partition("\n")[0]
    reader = csv.DictReader(
        io.StringIO(text), delimiter=";" if ";" in heading and "," not in heading else ","
    )
    rows = []
    for row in reader:
        if None in row:
            raise ValueError(f"line {reader.line_num} has more cells than the heading")
        rows.append({name.strip().replace("-", "_"): text or "" for name, text in row.items()})
    if not rows:
        raise ValueError("it has no row under its heading")
    if len(rows) > _MOST_ROWS:
        raise ValueError(f"it has {len(rows)} rows, at most {_MOST_ROWS} go at once")
    return rows


def _harmless(text: str) -> str:
    """A text that a spreadsheet does not take for a formula."""
    return f"'{text}" if text.startswith(("=", "+", "-", "@")) else text


def _table(kind: Kind, sheets: list[PartSheet]) -> str:
    """The table of ratios: a row a part, a column a limit state."""
    limits = [limit.words for limit in kind.limits]
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(["part", "verdict", "governing", "ratio", *limits])
    for sheet in sheets:
        ratios = {j.limit.words: "open" if j.says else ratio(j.ratio) for j in sheet.limits}
        most = sheet.governing
        table.writerow(
            [
                _harmless(sheet.texts["mark"]),
                {Status.PASSES: "within", Status.FAILS: "over", Status.NOT_CHECKED: "open"}[sheet.status],
                most.limit.words,
                ratios[most.limit.words],
                *(ratios.get(name, "") for name in limits),
            ]
        )
    return text.getvalue()
