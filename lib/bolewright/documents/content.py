"""What goes into a package: the title block, and sheets as sequences of text and blocks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from bolewright.rendering.blocks import Block, Cell
from bolewright.status import Status

NOT_AN_APPROVAL = (
    "Calculations for review, not an approval. Local code, frost depth and permits rule; a licensed engineer "
    "and a qualified arborist decide."
)
EMPTY_AREA = (
    "Left empty by the program that made these sheets, for the reviewer and the licensed engineer. What "
    "stands in it was put there by them."
)
ATTACHED_PROJECT = "project.toml"


@dataclass(frozen=True)
class Attachment:
    """A file that travels inside the PDF."""

    name: str
    data: bytes
    mime: str
    says: str


class SheetError(ValueError):
    """A sheet that can't be run or read; one sentence that names the sheet and the cell."""


class PackageError(ValueError):
    """A package that can't be made or written; one sentence."""


class Paper(Enum):
    """Paper size: the name the typesetter knows, and width and height in millimetres."""

    LETTER = ("us-letter", 215.9, 279.4)
    A4 = ("a4", 210.0, 297.0)


@dataclass(frozen=True)
class Markdown:
    """Text of a markdown cell, or of a cell that displays markdown or LaTeX."""

    text: str


@dataclass(frozen=True)
class Html:
    """HTML that a user's cell displays, such as a data frame; only its text and tables are carried over."""

    text: str


@dataclass(frozen=True)
class Preformatted:
    """Text printed as it stands, in a fixed-width face."""

    text: str


@dataclass(frozen=True)
class Picture:
    """A PNG or JPEG picture that a user's cell displays."""

    data: bytes
    suffix: str
    alt: str = "Picture displayed by a cell of this sheet"


@dataclass(frozen=True)
class Vector:
    """SVG that a user's cell displays without a block's caption and description."""

    svg: str
    alt: str = "Drawing displayed by a cell of this sheet"


@dataclass(frozen=True)
class Index:
    """Words with the places in the package that they stand at; printed in columns with their pages."""

    title: str
    entries: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Review:
    """Room for the reviewer's remarks, stamp and signature; it is left empty."""


REVIEW = Review()
Content = Markdown | Html | Preformatted | Picture | Vector | Index | Review | Block


@dataclass(frozen=True)
class SheetContent:
    """One calc sheet: its title, its number as printed, and what stands on it, in order.

    ``attachments`` are the pictures its markdown cells carry, by the name they use. One that ``follows`` begins on the
    page where the sheet before it ends; the sections of one that is ``listed`` stand in the contents. ``place`` is a
    name by which others lead to where it begins.
    """

    title: str
    number: str
    items: tuple[Content, ...]
    attachments: tuple[tuple[str, Picture], ...] = ()
    follows: bool = False
    listed: bool = False
    place: str = ""

    @property
    def heading(self) -> str:
        """Number and title, as contents and title block name the sheet."""
        return f"{self.number}  {self.title}".strip()


@dataclass(frozen=True)
class Outcome:
    """How many checks fail, could not be made, and pass: loud on the cover and in every title block."""

    fails: int
    open: int
    passes: int
    demonstration: bool = False

    @property
    def status(self) -> Status:
        """The worst there is."""
        if self.fails:
            return Status.FAILS
        return Status.NOT_CHECKED if self.open else Status.PASSES

    @property
    def words(self) -> str:
        """The outcome in one line.

        >>> Outcome(23, 4, 90).words, Outcome(0, 0, 190).words
        ('23 of 117 checks FAIL, 4 are OPEN, 90 hold', 'No check fails of 190, none is open')
        """
        count = self.fails + self.open + self.passes
        shown = "DEMONSTRATION: " if self.demonstration else ""
        if self.status is Status.PASSES:
            return f"{shown}No check fails of {count}, none is open"
        fails = f"{self.fails} of {count} checks FAIL" if self.fails else f"No check fails of {count}"
        return f"{shown}{fails}, {self.open} {'is' if self.open == 1 else 'are'} OPEN, {self.passes} hold"

    @property
    def advice(self) -> str:
        """What follows from it."""
        if self.status is Status.FAILS:
            return "Do not build from these sheets. The summary says what fails and by how much."
        if self.status is Status.NOT_CHECKED:
            return "Not done yet: a check that could not be made counts as open, never as passed. See the summary."
        return "What it rests on and what is not calculated stands in the summary. Nobody has approved it."


@dataclass(frozen=True)
class TitleBlock:
    """What stands on every sheet. ``fingerprint`` is the short one of project file and version.

    ``single`` is a sheet by itself, without cover and contents; ``pages`` are places in another document that it refers
    to, with their pages there. ``supersedes`` names the package that this one takes the place of,
    ``governing`` the check nearest to its limit, and leads to it. ``size`` makes text of sheets larger than that of the
    package, ``grey`` leaves colour out.
    """

    project: str
    site: str
    revision: str
    date: date
    prepared_by: str
    checked_by: str
    fingerprint: str
    subtitle: str = "Calculation package"
    paper: Paper = Paper.LETTER
    outcome: Outcome | None = None
    single: bool = False
    version: str = ""
    supersedes: str = ""
    pages: tuple[tuple[str, int], ...] = ()
    governing: Cell | None = None
    size: float = 1.0
    grey: bool = False


@dataclass(frozen=True)
class Extract:
    """Sheets as a document of their own beside the package, which is named where they lead to it.

    ``subtitle``, ``size`` and ``grey`` as for :class:`TitleBlock`.
    """

    sheets: tuple[SheetContent, ...]
    subtitle: str = ""
    size: float = 1.0
    grey: bool = False
