"""Start from requirements: a text of trees, floor and place in, up to three proposals side by side out."""

from __future__ import annotations

import re
from pathlib import Path

import ipywidgets as w

from bolewright.platform.file.reading import ProjectError, read_text, unnamable
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk
from bolewright.workbook.running import Running

HELP = (
    "Trees, floor and place in 10 to 25 lines; up to three proposals come out of it, each sized by all checks: a few "
    "minutes. What is left out is taken by default and named first, with what it can change. A line that begins with "
    "# is left out: take the # away to give its value. Places count from the floor's lower left corner. Nobody has "
    "approved what is proposed, and the arrangement has to be looked at on the tree."
)
# Nothing in it is given yet: what must be given is named when it is asked for.
NEW = """format = 2
project = ""

[floor]
width = ""             # along x, as "10 ft"
depth = ""             # along y
height = ""            # of the floor over the ground

[place]
ground_snow = ""       # from the building department, as "25 psf"
wind_speed = ""        # basic wind speed (ASCE 7-16, 26.5), as "110 mph"
# frost_depth = "30 in"
# soil = "class 4"     # IBC 2021, Table 1806.2
# exposure = "B"       # B among trees or houses, C open, D by wide water
# S_DS = 0.2

[[tree]]               # once for each tree; none for posts alone
mark = "A"
species = ""           # as "white oak"
at = ["", ""]          # middle of the trunk, as ["18 in", "-22 in"]
girth = ""             # over the bark at the floor, by tape
# bark = "3/4 in"
# height = "60 ft"
# sway_seen = "1/4 in"       # to one side, in strong wind
# sway_seen_at = "6 ft"
# may_bear = false

# [rules]
# may_tie = false      # by the arborist's word
# root_zone = 3        # trunk diameters that a hole keeps from a trunk
"""
_WRITTEN = re.compile(r"(.+\.toml) written$")
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Proposer:
    """The pane: the requirements, a button, the proposals side by side, and a button that opens each."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.file = w.Text(description="Requirements", value="requirements.toml")
        self.load = w.Button(description="Load this file")
        self.load.on_click(lambda _: self._load())
        self.text = w.Textarea(description="Text of the requirements", value=NEW, rows=30)
        self.text.add_class("bw-text")
        self.most = w.BoundedIntText(description="Sets of checks at most", value=400, min=1, max=100_000)
        self.running = Running("Propose", self.start)
        self.open = w.HBox()
        self.open.add_class("bw-bar")
        bar = w.HBox([self.file, self.load])
        bar.add_class("bw-bar")
        run = self.running
        self.box = w.VBox(
            [
                w.HTML(f'<p class="bw-help">{HELP}</p>'),
                *(bar, self.text, self.most, run.buttons, run.said, self.open, run.found),
            ]
        )
        self._on_disk = ""

    def shown(self) -> None:
        """Take up the requirements that lie beside the open file, where nothing was typed yet."""
        if self.text.value == NEW and self._path().exists():
            self._load()

    def start(self) -> None:
        """Save the requirements, then search in another process."""
        try:
            path = self._named()
            self._on_disk = storage.save(path, self.text.value, self._on_disk)
        except storage.StorageError as error:
            self.running.say(str(error), wrong=True)
            return
        self.open.children = ()
        out = self._free(path.stem)
        self.running.run(
            ["propose", str(path), "--out", str(out), "--budget", str(self.most.value)], self._done
        )

    def _done(self, code: int, lines: list[str], told: list[str]) -> None:
        if code == 2:
            self.running.say(" ".join(told), wrong=True)
            return
        self.running.show(lines)
        written = [Path(m[1]) for line in told if (m := _WRITTEN.match(line))]
        self.running.say(
            "Proposals were found: open one, and look at it in the form. The file that is open stays on disk."
            if written
            else "No arrangement passed; what is in the way stands below."
        )
        self.open.children = tuple(self._opener(i, path) for i, path in enumerate(written))

    def _opener(self, i: int, path: Path) -> w.Button:
        button = w.Button(description=f"Open proposal {i + 1}: {path.name}")
        button.on_click(lambda _: self._open(path))
        return button

    def _open(self, path: Path) -> None:
        """Open a proposal, the work on the file open before saved first."""
        try:
            if self.desk.unsaved:
                self.desk.save()
            self.desk.open(path)
        except (storage.StorageError, ProjectError) as error:
            self.running.say(str(error), wrong=True)
            return
        self.running.say(f"{path.name} is open.")

    def _load(self) -> None:
        try:
            path = self._named()
            self.text.value = read_text(path)
            self._on_disk = storage.disk_fingerprint(path)
        except (storage.StorageError, ProjectError) as error:
            self.running.say(str(error), wrong=True)
            return
        self.running.say(f"{path.name} loaded.")

    def _path(self) -> Path:
        name = self.file.value.strip()
        return self.desk.folder / (name if name.endswith(".toml") else f"{name}.toml")

    def _named(self) -> Path:
        name = self.file.value.strip()
        if not name or name != Path(name).name:
            raise storage.StorageError(
                f"{name!r} is no file name: give one without a folder, such as requirements.toml."
            )
        if words := unnamable(Path(name)):
            raise storage.StorageError(words)
        if self._path() == self.desk.path:
            raise storage.StorageError(f"{name} is the project file that is open: give another name.")
        return self._path()

    def _free(self, stem: str) -> Path:
        """A name for the proposals that no file has."""
        for letter in _LETTERS:
            if not list(self.desk.folder.glob(f"{stem}-{letter}*.toml")):
                return self.desk.folder / f"{stem}-{letter}.toml"
        raise storage.StorageError(
            f"There are {len(_LETTERS)} sets of proposals of {stem} already: remove some."
        )
