"""The sheet for the years after: the round over the parts, dates that growth sets, girth to expect, the sign."""

from __future__ import annotations

from bolewright.calculation import Calculation
from bolewright.rendering.blocks import Statement, Table
from bolewright.rendering.numbers import fmt
from bolewright.setting_out.upkeep import (
    ONE_OF_MANY,
    crowd_of_design,
    dues,
    girth_to_expect,
    rounds,
)
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out.opening import SettingOutSheet, caution, hand, note
from bolewright.units import PSF

EMPTY_LINES = 5


class YearsSheet(SettingOutSheet):
    """What is looked at, and when, as long as the platform stands."""

    def round(self) -> Table:
        """Inspection round over every part."""
        rows = tuple((", ".join(look.marks), look.what, look.when, look.then) for look in rounds(self.layout))
        return Table(
            ("part", "look for", "when", "if so"),
            rows,
            "The round, from the tree down to the soil and up again (common practice)",
            "llll",
            (2, 4, 2, 3),
        )

    def dates(self) -> Table | Statement:
        """What growth brings to an end, and in which year."""
        found = dues(self.results)
        if not found:
            return note("No tree of this platform has a gap or a bracket that its growth would close.")
        rows = tuple((due.part, due.what, f"{due.years:.0f}", str(due.year)) for due in found)
        return Table(
            ("part", "comes to an end when", "years from the sheet's date", "about"),
            rows,
            "What growth brings to an end, at the rate in the project file",
            "llrr",
            (1, 3, 0, 0),
        )

    def girths(self) -> Table | Statement:
        """Girth to expect year by year, to be held against the tape."""
        project = self.layout.project
        if not project.trees:
            return note("There is no tree in this project.")
        last = max(1, round(max(tree.service for tree in project.trees)))
        years = sorted({1, 2, 3, 5, last} & set(range(last + 1)))
        first = project.title.date.year
        rows = tuple(
            (tree.mark, *(self.length(girth_to_expect(tree, float(y))) for y in years))
            for tree in project.trees
        )
        return Table(
            ("tree", *(str(first + y) for y in years)),
            rows,
            "Girth to expect over the bark, at the height where it was first measured",
            "l" + "r" * len(years),
        )

    def girth_words(self) -> Statement:
        """How to take the girth, and what to do when it runs ahead."""
        return note(
            "Tape level, on the same painted mark, in the same month. A girth ahead of its column means that the tree "
            "grows faster than assumed: enter the new girth and growth in the project file and make the sheets again.",
            "In the service year of each tree its gaps, slots and brackets are measured, and decking is cut back "
            "where it must be.",
        )

    def sign(self) -> Blocks:
        """What the platform was calculated for, as words for a sign, with the crowd that the live load stands for."""
        loads, calculation = self.layout.project.loads, Calculation()
        calculation.run(crowd_of_design, w_L=loads.live, A=self.layout.deck.area / 144, W_person=ONE_OF_MANY)
        return Blocks(
            (
                *hand(calculation.at(())).items,
                note(
                    f"Calculated for {fmt(loads.live, PSF)} on the whole floor. That is a crowd shoulder to shoulder: "
                    "a sign names fewer, as the owner and the building department decide, and no more than the number "
                    "above.",
                    f"No jumping in step, no dancing, {self._no_swing()} from guard, beam or limb: none of these is in "
                    "the calculation.",
                ),
            )
        )

    def _no_swing(self) -> str:
        """No hammock or swing, but those that the file has."""
        hung = [
            f"{load.note or load.form} ({load.mark})"
            for load in self.layout.project.point_loads
            if load.form in ("swing", "hanging chair", "hammock")
        ]
        return f"no hammock or swing but {', '.join(hung)}," if hung else "no hammock or swing"

    def closed(self) -> Statement:
        """When nobody is up there."""
        return caution(
            "Nobody on the platform when whole trees are in motion (about 32 mph, Beaufort 7, from memory), when "
            "thunder is heard, under ice, or in the days after a storm until the round has been made.",
            "Snow deeper than the one calculated for is cleared from the edges inwards, evenly, by someone tied on.",
        )

    def log(self) -> Table:
        """Lines to write on."""
        columns = ("date", "girth", "least gap to the bark", "what was seen and done", "name")
        return Table(
            columns, ((" ",) * len(columns),) * EMPTY_LINES, "Kept with the sheets", "lllll", (2, 2, 2, 5, 2)
        )

    def service(self) -> Statement:
        """The assumption that the years rest on."""
        metric = self.length.tape is Tape.METRIC
        said = []
        for tree in self.layout.project.trees:
            rate = f"{tree.growth * 25.4:.1f} mm" if metric else f"{tree.growth:g} in."
            said.append(
                f"{tree.mark}: looked at and set back every {tree.service:g} years; its radius grows {rate} a year."
            )
        return note(*said) if said else note("No tree: the round is for the timber and the soil.")
