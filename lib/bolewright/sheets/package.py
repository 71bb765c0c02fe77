"""Makes the calc package of a project file: runs the sheets, sets PDF and HTML, writes the results beside them."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path

from bolewright import __version__
from bolewright.documents.content import (
    Attachment,
    Extract,
    Outcome,
    PackageError,
    Paper,
    SheetContent,
    SheetError,
    TitleBlock,
)
from bolewright.documents.in_si import si_beside
from bolewright.documents.notebook import sheet_of
from bolewright.documents.package import build
from bolewright.documents.transaction import PackageFolder, package_folder
from bolewright.drawings.files import drawing_files
from bolewright.paths import shipped
from bolewright.platform.file.reading import read_text
from bolewright.platform.results.results import Results, fingerprint, to_json
from bolewright.setting_out.data import setting_out_data
from bolewright.sheets.about import ABOUT_NAME, About, superseded
from bolewright.sheets.brief import brief_sheets, nearest
from bolewright.sheets.direct import run_shipped
from bolewright.sheets.drawings import measures_of
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.opening import results_from
from bolewright.sheets.shortening import following, numbered_equations, shortened
from bolewright.sheets.site import site_sheets
from bolewright.sheets.symbols import index_sheet, symbols_sheet
from bolewright.status import Status
from bolewright.take_off.export import take_off_files

RESULTS_NAME = "results.json"
BRIEF_NAME = "brief.pdf"
SITE_NAME = "site.pdf"
SITE_SIZE = 1.3  # of text that is read at arm's length: 11 pt in tables (common practice)
LAST = "91"  # number of the last sheet: symbols and documents
SETTING_OUT_NAME = "setting_out.json"


@dataclass(frozen=True)
class Made:
    """A package that was made: its files, the results in it, and in sentences what of the user's stayed beside."""

    files: tuple[Path, ...]
    results: Results
    kept: tuple[str, ...] = ()


def sheet_files(folder: Path | None = None) -> list[Path]:
    """The calc sheets in load-path order: those that ship, or a user's own copies in ``folder``."""
    where = folder if folder is not None else shipped("calcsheets")
    found = sorted(where.glob("[0-9]*.ipynb")) if where.is_dir() else []
    if not found:
        raise SheetError(f"there are no calc sheets (numbered .ipynb files) in {where}")
    return found


def make_package(
    project: Path,
    out_dir: Path,
    *,
    sheets: Path | None = None,
    paper: Paper = Paper.LETTER,
    tape: Tape = Tape.FEET,
    full: bool = False,
    supersedes: str | None = None,
    progress: Callable[[str], None] = lambda words: None,
) -> Made:
    """Write ``package.pdf``, ``package.html`` and ``results.json`` of a project file into a folder.

    ``tape`` is the builder's: setting-out and take-off sheets and drawings are in its lengths; with a metric one the
    calculations and the brief have SI beside. ``full`` works out every
    check line by line, also where its formulas stand on an earlier sheet. ``supersedes`` says which package this one
    takes the place of; None finds it in the folder.

    Raises ProjectError or LayoutError for a file that can't be used, SheetError for a sheet that fails,
    PackageError when the package can't be set or written; each in sentences, and then nothing was written.
    """
    text = read_text(project)
    results = results_from(text, project.name)
    notebooks = sheet_files(sheets)
    title = results.project.title
    shipped_ones = [path.read_bytes() for path in sheet_files()]
    about = About(
        project.name,
        fingerprint(text),
        title.revision,
        title.date.isoformat(),
        paper,
        tape,
        own_sheets=[path.read_bytes() for path in notebooks] != shipped_ones,
        full=full,
    )
    with package_folder(out_dir, (project, *notebooks)) as folder:
        before = superseded(out_dir, about) if supersedes is None else supersedes
        return _made(project, text, results, notebooks, folder, replace(about, supersedes=before), progress)


def _made(
    project: Path,
    text: str,
    results: Results,
    notebooks: list[Path],
    folder: PackageFolder,
    about: About,
    progress: Callable[[str], None],
) -> Made:
    """Run the sheets, set them, and write all into the folder."""
    tape = about.tape

    def tell(number: int, count: int, name: str) -> None:
        progress(f"Sheet {number} of {count}: {name}")

    contents = run(notebooks, str(project.resolve()), tape, tell)
    site = site_sheets(results, Lengths(tape), contents)
    brief, annex = brief_sheets(results, measures_of(tape))
    if about.full:
        contents = numbered_equations([*contents, symbols_sheet(contents, LAST)])
    else:
        contents = shortened(contents)
        contents = following(
            [*contents, index_sheet(contents, LAST, {check.part for check in results.checks})]
        )
    front = [brief, *([annex] if annex else [])]
    if tape is Tape.METRIC:
        contents, front = [si_beside(one) for one in contents], [si_beside(one) for one in front]
    contents = [front[0], *contents, *front[1:]]
    title = results.project.title
    block = TitleBlock(
        project=title.project,
        site=title.site,
        revision=title.revision,
        date=title.date,
        prepared_by=title.prepared_by,
        checked_by=title.checked_by,
        fingerprint=fingerprint(text),
        version=__version__,
        supersedes=about.supersedes,
        governing=nearest(results),
        subtitle=title.note or "Calculation package",
        paper=about.paper,
        outcome=Outcome(
            results.count(Status.FAILS),
            results.count(Status.NOT_CHECKED),
            results.count(Status.PASSES),
            results.project.demonstration,
        ),
    )
    progress("Writing data beside the sheets")
    beside = files_beside(results, text, tape)
    beside[ABOUT_NAME] = about.json()
    attached = evidence(beside[RESULTS_NAME], beside[ABOUT_NAME])
    extracts = {
        BRIEF_NAME: Extract(tuple(front)),
        SITE_NAME: Extract(site, "Site set", SITE_SIZE, grey=True),
    }
    written = build(contents, block, text, folder, progress, beside, attached, extracts).written
    return Made(tuple(written.paths.values()), results, written.said)


def run(
    notebooks: list[Path], project: str, tape: Tape, tell: Callable[[int, int, str], None]
) -> list[SheetContent]:
    """Content of the sheets: those that ship run here, a user's own on a kernel of their own."""
    if notebooks == sheet_files():
        return run_shipped(notebooks, {"project": project, "tape": tape.value}, tell)
    from bolewright.documents.execute import run_sheets  # slow to import, and only a user's sheets need it

    executed = run_sheets(notebooks, {"project": project}, tell, wishes={"tape": tape.value})
    return [sheet_of(notebook, path.stem) for notebook, path in zip(executed, notebooks, strict=True)]


def evidence(results: bytes, about: bytes) -> tuple[Attachment, ...]:
    """What travels in the PDF beside the project file, so that whoever holds the PDF alone can check it again."""
    licence = resources.files("bolewright.documents") / "templates" / "fonts-licences.txt"
    return (
        Attachment(RESULTS_NAME, results, "application/json", "Results that these sheets print"),
        Attachment(
            ABOUT_NAME, about, "application/json", "Program, version and paper that made these sheets"
        ),
        Attachment(
            "licences.txt", licence.read_bytes(), "text/plain", "Licences of the fonts in this document"
        ),
    )


def files_beside(results: Results, text: str, tape: Tape = Tape.FEET) -> dict[str, bytes]:
    """Files that go with the sheets: results and setting-out as data, take-off tables, drawings."""
    setting_out = json.dumps(setting_out_data(results), indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    return {
        RESULTS_NAME: to_json(results, text).encode(),
        SETTING_OUT_NAME: setting_out.encode(),
        **take_off_files(results),
        **drawing_files(results, measures_of(tape)),
    }


def lay_out_workbook(folder: Path) -> Path:
    """Copy the calc sheets and project files that ship into ``folder``; files already there stay as they are."""
    try:
        shipped_in = shipped("calcsheets")
        (folder / "parts").mkdir(parents=True, exist_ok=True)
        for path in sorted([*shipped_in.iterdir(), *(shipped_in / "parts").iterdir()]):
            to = folder / path.relative_to(shipped_in)
            if path.suffix in (".ipynb", ".toml") and not to.exists():
                shutil.copyfile(path, to)
    except OSError as error:
        raise PackageError(f"the folder {folder} can't be written: {error.strerror or error}") from error
    return folder.resolve()
