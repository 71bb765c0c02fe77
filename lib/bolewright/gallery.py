"""Static pages of what the program makes: ``python -m bolewright.gallery --out DIR [--packages NAME ...]``.

Every kind of part sheet as its published example, every project that ships, the demonstration's calculation sheets,
each as a picture with its verdict and one click from its source; and the functions. The pages ask for nothing from
elsewhere.
"""

from __future__ import annotations

import argparse
import math
import sys
import tempfile
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path

import nbformat
import pypdfium2

from bolewright import __version__, api_page
from bolewright.drawings.files import SHEET_HEIGHT_MM
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.part_sheets.document import write
from bolewright.part_sheets.kind import Kind
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet
from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.results.verdict import verdict
from bolewright.rendering.laying import PAGE_WIDTH_MM
from bolewright.rendering.numbers import used
from bolewright.rendering.svg import to_svg
from bolewright.sheets.equation_cells import CELLS, PROJECT
from bolewright.sheets.sheet import open_sheet
from bolewright.status import Status
from bolewright.usage import Parser

# A page of letter paper at this scale is 850 pixels wide: its text can be read.
SCALE = 850 / 612
PARTS, PROJECTS, SHEETS, PICTURES = "parts", "projects", "sheets", "pictures"
SAYS = (
    "Pictures of what the program makes from its own examples. Nothing here is a design: places, trees, loads and "
    "ratings of the projects are invented. No sheet is an approval; local code, a licensed engineer and a qualified "
    "arborist stand over them."
)


@dataclass(frozen=True)
class Shown:
    """One picture: where it lies, what it shows, its verdict, and the links under it (words, place)."""

    title: str
    picture: str
    verdict: str
    links: tuple[tuple[str, str], ...]


def make(out: Path, *, packages: Collection[str] = ()) -> Path:
    """Write the pages into a folder; the path of the first one. ``packages`` names projects whose package is added."""
    for folder in (PARTS, PROJECTS, SHEETS):
        (out / folder).mkdir(parents=True, exist_ok=True)
    parts = [_part(kind, out) for kind in KINDS.values()]
    projects = [_project(path, out, package=path.stem in packages) for path in project_files()]
    sheets = [_sheet(name, topic, out) for name, (topic, _) in sorted(CELLS.items())]
    (out / "functions.html").write_text(api_page.html(), encoding="utf-8")
    index = out / "index.html"
    index.write_text("\n".join(_page(projects, sheets, parts)) + "\n", encoding="utf-8")
    return index


def readme_pictures(out: Path) -> tuple[Path, Path]:
    """The two pictures of README.md: the demonstration's plan of framing, and the first page of a beam's sheet."""
    out.mkdir(parents=True, exist_ok=True)
    plan, page = out / "plan.svg", out / "beam-sheet.png"
    path = shipped("calcsheets") / "lookout.toml"
    plan.write_text(
        _plan(find_results(parse_project(path.read_text(encoding="utf-8"), path.name))), encoding="utf-8"
    )
    kind = KINDS["beam"]
    with tempfile.TemporaryDirectory() as folder:
        pdf = write(part_sheet(kind, kind.example.inputs), Path(folder) / "beam.pdf")
        page_picture(pdf, page)
    return plan, page


def project_files() -> list[Path]:
    """The projects that ship, by name."""
    return sorted(shipped("calcsheets").glob("*.toml"))


def _part(kind: Kind, out: Path) -> Shown:
    """A kind's published example: sheet, first page as a picture, notebook."""
    sheet = part_sheet(kind, kind.example.inputs)
    trunk = f"{PARTS}/{kind.name}"
    for suffix in (".html", ".pdf"):
        write(sheet, out / f"{trunk}{suffix}")
    page_picture(out / f"{trunk}.pdf", out / f"{trunk}.png")
    notebook = shipped("calcsheets") / PARTS / f"{kind.name}.ipynb"
    (out / f"{trunk}.ipynb").write_bytes(notebook.read_bytes())
    links = (("sheet", f"{trunk}.html"), ("PDF", f"{trunk}.pdf"), ("notebook", f"{trunk}.ipynb"))
    return Shown(f"{kind.title}: {kind.example.source}", f"{trunk}.png", sheet.verdict, links)


def page_picture(pdf: Path, png: Path, page: int = 0) -> None:
    """A page of a PDF as a picture."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        document[page].render(scale=SCALE).to_pil().convert("L").save(png, optimize=True)
    finally:
        document.close()


def _project(path: Path, out: Path, *, package: bool) -> Shown:
    """A project: its plan of framing, its verdict, its file and, if wanted, its package."""
    text = path.read_text(encoding="utf-8")
    results = find_results(parse_project(text, path.name))
    picture = f"{PROJECTS}/{path.stem}.svg"
    (out / picture).write_text(_plan(results), encoding="utf-8")
    (out / PROJECTS / path.name).write_text(text, encoding="utf-8")
    links = [("project file", f"{PROJECTS}/{path.name}")]
    if package:
        from bolewright.sheets.package import make_package

        folder = out / PROJECTS / path.stem
        make_package(path, folder)
        links += [(name, f"{PROJECTS}/{path.stem}/{name}") for name in ("package.html", "package.pdf")]
    return Shown(results.project.title.project, picture, verdict(results), tuple(links))


def _sheet(name: str, topic: str, out: Path) -> Shown:
    """A calculation sheet of the demonstration: its parts highlighted in plan, its verdict, its notebook."""
    sheet = open_sheet(shipped("calcsheets") / PROJECT, topic)
    picture, notebook = f"{SHEETS}/{name}.svg", f"{SHEETS}/{name}.ipynb"
    (out / picture).write_text(sheet.plan().svg, encoding="utf-8")
    text = (shipped("calcsheets") / f"{name}.ipynb").read_bytes()
    (out / notebook).write_bytes(text)
    title = nbformat.reads(text.decode("utf-8"), 4).cells[0].source.partition("\n")[0].lstrip("# ")  # type: ignore[no-untyped-call]
    return Shown(
        f"{int(name[:2])} {title}", picture, _worst(sheet.checks), (("calculation sheet", notebook),)
    )


def _worst(checks: list[Check]) -> str:
    """How many checks a sheet holds, which fail or are open, and the one that governs."""
    counts = {status: sum(c.status is status for c in checks) for status in Status}
    failing, left = counts[Status.FAILS], counts[Status.NOT_CHECKED]
    most = checks[0]
    share = f" with {used(most.ratio)} of allowable" if math.isfinite(most.ratio) else ""
    return (
        f"{len(checks)} checks, {failing or 'none'} over what is allowed, {left or 'none'} open. "
        f"{most.part}: {most.limit_state} governs{share}."
    )


def _plan(results: Results) -> str:
    drawing = plan_of_framing(results, Measures.IMPERIAL)
    return to_svg(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, Measures.IMPERIAL.scales)


_STYLE = """
body { margin: 0 auto; padding: 1rem; max-width: 72rem; color: #1f2a30; font: 1rem/1.45 Charter, Georgia, serif; }
h1 { font-size: 1.8rem; } h2 { font-size: 1.3rem; border-top: 2px solid; padding-top: .4rem; margin-top: 2rem; }
.shown { display: grid; gap: 1.5rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 21rem), 1fr)); }
figure { margin: 0; }
figcaption { margin-top: .4rem; } img { width: 100%; border: 1px solid #aab4b9; background: #fff; }
"""


def _page(projects: list[Shown], sheets: list[Shown], parts: list[Shown]) -> Iterator[str]:
    title = f"Bolewright {__version__}: what it makes"
    yield '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title><style>{_STYLE}</style></head><body><main><h1>{title}</h1><p>{SAYS}</p>"
    yield '<p><a href="functions.html">The functions</a>, each with its clause.</p>'
    for heading, shown in (
        ("Whole platforms", projects),
        ("Calculation sheets of the demonstration", sheets),
        ("Sheets of single parts", parts),
    ):
        yield f'<h2>{heading}</h2><div class="shown">'
        yield from (line for one in shown for line in _figure(one))
        yield "</div>"
    yield "</main></body></html>"


def _figure(shown: Shown) -> Iterator[str]:
    links = " · ".join(f'<a href="{escape(place)}">{escape(words)}</a>' for words, place in shown.links)
    title = escape(shown.title)
    yield f'<figure><a href="{escape(shown.links[0][1])}"><img src="{escape(shown.picture)}" alt="{title}"></a>'
    yield f"<figcaption><strong>{title}</strong><br>{escape(shown.verdict)}<br>{links}</figcaption></figure>"


def main(arguments: list[str] | None = None) -> int:
    """Make the pages and say where they are."""
    parser = Parser(prog="python -m bolewright.gallery", description=__doc__)
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the pages")
    parser.add_argument(
        "--packages",
        nargs="+",
        default=[],
        metavar="NAME",
        help="projects whose whole package is added, such as lookout",
    )
    parser.add_argument("--readme", action="store_true", help="store the two pictures of README.md anew")
    given = parser.parse_args(arguments)
    if given.out is None and not given.readme:
        parser.error("--out or --readme is wanted")
    if unknown := set(given.packages) - {path.stem for path in project_files()}:
        names = ", ".join(path.stem for path in project_files())
        parser.error(f"--packages {sorted(unknown)[0]}: no project ships by that name; there are {names}")
    if given.readme:
        readme_pictures(shipped("calcsheets") / PICTURES)
    if given.out is not None:
        print(make(given.out, packages=given.packages))
    return 0


if __name__ == "__main__":
    sys.exit(main())
