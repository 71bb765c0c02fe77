"""Size it: the arrangement of the open file kept, its sizes chosen so that everything passes at the least cost."""

from __future__ import annotations

import ipywidgets as w

from bolewright.platform.file.reading import ProjectError, read_text
from bolewright.workbook import storage
from bolewright.workbook.desk import Desk
from bolewright.workbook.running import Running

HELP = (
    "The arrangement stays as it is; sections, plies, spacing, bolts, posts, holes and braces are chosen from what can "
    "be bought so that every check passes. No limit, load or rating is loosened. The file is saved first and not "
    "changed until you take the sizes. Nobody has approved what is found."
)


class Sizer:
    """The pane: what is to be least, what stays, a button, the report, and a button that takes the sizes."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.least = w.Dropdown(
            description="To be least",
            options=[("cost", "cost"), ("wood", "wood"), ("concrete", "concrete")],
        )
        self.only = w.Text(description="Buy only", placeholder="2x8")
        self.keep = w.Text(description="Leave as it is", placeholder="C1, decking")
        self.ratings = w.Checkbox(
            description="Ratings as required: they are written into the file and have to be bought",
            value=False,
        )
        self.most = w.BoundedIntText(description="Sets of checks at most", value=400, min=1, max=100_000)
        self.running = Running("Size it", self.start)
        self.take = w.Button(description="Take these sizes")
        self.take.on_click(lambda _: self._take())
        self.takes = w.HBox()
        self.takes.add_class("bw-bar")
        run = self.running
        self.box = w.VBox(
            [
                w.HTML(f'<p class="bw-help">{HELP}</p>'),
                *(self.least, self.only, self.keep, self.ratings, self.most),
                *(run.buttons, run.said, self.takes, run.found),
            ]
        )
        self._began, self._out = "", desk.path

    def start(self) -> None:
        """Save, then search in another process."""
        desk = self.desk
        try:
            desk.save()
            out = desk.folder / "build" / desk.path.stem / "sized.toml"
            out.parent.mkdir(parents=True, exist_ok=True)
            out.unlink(missing_ok=True)
        except (storage.StorageError, OSError) as error:
            self.running.say(str(error), wrong=True)
            return
        self.takes.children = ()
        self._began, self._out = desk.draft.text, out
        arguments = [
            "size",
            str(desk.path),
            "--out",
            str(out),
            "--least",
            str(self.least.value),
            "--budget",
            str(self.most.value),
            "--progress",
        ]
        for option, typed in (("--only", self.only.value), ("--keep", self.keep.value)):
            for name in filter(None, (part.strip() for part in typed.split(","))):
                arguments += [option, name]
        if self.ratings.value:
            arguments += ["--free-ratings", "--write-ratings"]
        self.running.run(arguments, self._done)

    def _done(self, code: int, lines: list[str], told: list[str]) -> None:
        if code == 2 or not lines:
            self.running.say(" ".join(told) or "No sizes were found.", wrong=True)
            return
        self.running.show([line for line in lines if not line.startswith("Written: ")])
        self.running.say(lines[0])
        if self._out.exists():
            self.takes.children = (self.take,)

    def _take(self) -> None:
        """Put the sizes into the draft, as one step that can be undone."""
        desk = self.desk
        if desk.draft.text != self._began:
            self.running.say(
                "The file was changed since it was sized, so nothing was taken: size it again.", wrong=True
            )
            return
        try:
            desk.take_text(read_text(self._out), "sizes chosen")
        except ProjectError as error:
            self.running.say(str(error), wrong=True)
            return
        self.takes.children = ()
        self.running.say("The sizes are in the form, not saved yet. Undo takes them back.")
