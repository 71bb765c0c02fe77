"""The commands ``verify`` and ``compare``."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from bolewright.usage import refuse


def add(commands: Any) -> None:
    """Add both to the command line."""
    verify = commands.add_parser(
        "verify", help="check a package again from its PDF alone: what stands, what moved, what was altered"
    )
    verify.add_argument("file", type=Path, metavar="PACKAGE", help="package.pdf, or a package's folder")
    verify.add_argument(
        "--take-out", type=Path, metavar="FOLDER", help="write the files attached to it there"
    )
    verify.set_defaults(run=_verify)
    compare = commands.add_parser(
        "compare",
        help="what differs between two project files or packages: values, parts, ratios, loads, prices",
    )
    compare.add_argument("a", type=Path, metavar="A", help="project file, package.pdf or a package's folder")
    compare.add_argument("b", type=Path, metavar="B", help="the newer one")
    compare.add_argument("--out", type=Path, metavar="FILE", help="write it as a sheet, .pdf or .html, too")
    compare.set_defaults(run=_compare)


def _verify(given: argparse.Namespace) -> int:
    from bolewright.evidence.source import EvidenceError, ProjectError, attached, open_evidence
    from bolewright.evidence.verify import lines, verify
    from bolewright.platform.layout.layout import LayoutError

    try:
        package = open_evidence(given.file)
        if package.pdf is None:
            return refuse(f"bolewright verify: {given.file} is a project file: check is the command for it.")
        if given.take_out is not None:
            for path in _taken_out(given.take_out, attached(package.pdf, package.name)):
                print(path)
        found = verify(package)
    except (EvidenceError, LayoutError) as error:
        return refuse(f"bolewright verify: {error}")
    except ProjectError as error:
        return refuse(*error.sentences)
    print(*lines(found), sep="\n")
    return 0 if found.stands else 1


def _taken_out(folder: Path, files: dict[str, bytes]) -> list[Path]:
    """Write attached files by their bare names; none that is there is written over."""
    from bolewright.evidence.source import EvidenceError

    written = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            path = folder / Path(name.replace("\\", "/")).name
            with path.open("xb") as file:
                file.write(data)
            written.append(path)
    except FileExistsError as error:
        raise EvidenceError(
            f"{error.filename} exists already and was left as it is: give another folder."
        ) from None
    except (OSError, ValueError) as error:
        raise EvidenceError(f"{folder} can't be written: {error}.") from None
    return written


def _compare(given: argparse.Namespace) -> int:
    from bolewright.documents.content import PackageError
    from bolewright.evidence.compare import compare, lines, written
    from bolewright.evidence.source import EvidenceError, ProjectError, open_evidence
    from bolewright.platform.layout.layout import LayoutError

    if given.out is not None and given.out.suffix.lower() not in (".pdf", ".html"):
        return refuse(f"bolewright compare: --out: {given.out} is neither a .pdf nor an .html file.")
    try:
        found = compare(open_evidence(given.a), open_evidence(given.b))
        print(*lines(found), sep="\n")
        if given.out is not None:
            given.out.write_bytes(written(found, given.out))
            print(given.out)
    except (EvidenceError, LayoutError, PackageError) as error:
        return refuse(f"bolewright compare: {error}")
    except ProjectError as error:
        return refuse(*error.sentences)
    except BrokenPipeError:
        raise
    except OSError as error:
        return refuse(f"bolewright compare: {given.out} can't be written: {error.strerror}.")
    return 0 if found.same else 1
