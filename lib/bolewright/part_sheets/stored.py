"""The notebooks of ``calcsheets/parts``, made from the kinds and stored executed.

``python -m bolewright.part_sheets.stored --write`` makes them again; a test holds that they are current.
"""

from __future__ import annotations

import sys
import textwrap
from pathlib import Path
from typing import Any

import nbformat

from bolewright.documents.execute import run_sheets
from bolewright.part_sheets.functions import rooms_of
from bolewright.part_sheets.inputs import asked_of
from bolewright.part_sheets.kind import Kind, Step
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.step_words import words_of
from bolewright.paths import shipped

_UNSTORED = "nbval-ignore-output"  # a form has new ids in every run
_USE = """\
Change what stands in quotes in the first cell and run all cells (*Run*, *Run All Cells*), or type into the form: what \
is typed there stands in place of the first cell's, is kept when all cells run again, and lasts until the kernel \
stops. `{switch} = True` loads the {example}: {source}. Every cell under *Calculation* can be changed; what \
it works out counts in the result at the end."""
_PRINT = """\
## Print

The form above prints, or a cell: `part.print_to("{name}.pdf")`, as a page of HTML with `.html`, and for teaching, \
with the numbers blank and a key at the end, `part.print_to("{name}.pdf", blank=True)`. What is printed is worked out \
from the inputs by the `%%worked` cells as they ran; a cell that was changed, added or left out is named on it."""
SWITCH = "published_example"


def notebook_of(kind: Kind) -> Any:
    """The notebook of a kind, not run."""
    asked = asked_of(kind.model)
    lines = [f"{a.name} = {a.default!r}  # {a.title}: {a.help}" for a in asked]
    lines.append(f"{SWITCH} = False  # True: the inputs of the {kind.example.name.lower()} in their place")
    names = ", ".join(f"{a.name}={a.name}" for a in asked)
    opening = textwrap.fill(
        names, 96, initial_indent="    ", subsequent_indent="    ", break_long_words=False
    )
    imports = [_import(room, names) for room, names in rooms_of(kind).items()]
    use = _USE.format(switch=SWITCH, example=kind.example.name.lower(), source=kind.example.source)
    cells = [
        _text(f"# {kind.title}\n\n{kind.about}\n\n{use}"),
        _code("\n".join(lines), "parameters"),
        _code(
            "from bolewright.part_sheets import open_part\n\n"
            f'part = open_part(\n    "{kind.name}", example={SWITCH}, kept=globals().get("part"),\n{opening},\n)',
            "hidden",
        ),
        _code("part.form()", _UNSTORED),
        _code("part.inputs()"),
        _code("part.figures()"),
        _text("## Calculation"),
        _code("part.given()"),
        _code("part.statics()"),
        _code("\n".join([*imports, "", "part.begin(globals())"]), "hidden"),
    ]
    for step in kind.steps:
        cells += [_text(f"### {step.title}\n\n{words_of(step.title)}".rstrip()), _code(_magic(step))]
    cells += [
        _text("## Result"),
        _code("part.result(globals())"),
        _code("part.not_checked()"),
        _text(_PRINT.format(name=kind.name)),
    ]
    made = nbformat.v4.new_notebook(cells=cells)  # type: ignore[no-untyped-call]
    made.metadata = {
        "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
    }
    for number, cell in enumerate(made.cells):
        cell.id = f"{kind.name}-{number:02}"
    return made


def _import(room: str, names: list[str]) -> str:
    wrapped = textwrap.fill(", ".join(names), 96, initial_indent="    ", subsequent_indent="    ")
    return f"from bolewright.{room} import (\n{wrapped},\n)"


def _magic(step: Step) -> str:
    when = f" --when {step.when}" if step.when else ""
    return f"%%worked {step.title}{when}\n{step.text}"


def _text(source: str) -> Any:
    return nbformat.v4.new_markdown_cell(source)  # type: ignore[no-untyped-call]


def _code(source: str, *tags: str) -> Any:
    metadata = {"tags": list(tags)} if tags else {}
    return nbformat.v4.new_code_cell(source, metadata=metadata)  # type: ignore[no-untyped-call]


def executed(folder: Path) -> dict[str, str]:
    """Text of every kind's notebook, run in a folder; the form's output is not kept."""
    paths = []
    for kind in KINDS.values():
        path = folder / f"{kind.name}.ipynb"
        path.write_text(nbformat.writes(notebook_of(kind)), encoding="utf-8")  # type: ignore[no-untyped-call]
        paths.append(path)
    texts = {}
    for path, notebook in zip(paths, run_sheets(paths, {}), strict=True):
        for cell in notebook.cells:
            if _UNSTORED in cell.metadata.get("tags", ()):
                cell.outputs = []
            cell.metadata.pop("execution", None)
        notebook.metadata = notebook_of(KINDS[path.stem]).metadata
        texts[path.name] = nbformat.writes(notebook) + "\n"  # type: ignore[no-untyped-call]
    return texts


def main(arguments: list[str]) -> int:
    """Make the notebooks; with ``--write`` store them, else say which would change. 0 when none would."""
    import tempfile

    where = shipped("calcsheets") / "parts"
    with tempfile.TemporaryDirectory() as folder:
        made = executed(Path(folder))
    changed = [
        name
        for name, text in made.items()
        if not (where / name).exists() or (where / name).read_text("utf-8") != text
    ]
    if "--write" in arguments:
        where.mkdir(exist_ok=True)
        for name in changed:
            (where / name).write_text(made[name], encoding="utf-8")
    sys.stdout.write(f"Changed: {', '.join(changed) or 'none'}\n")
    return 0 if "--write" in arguments or not changed else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
