"""A change of a project file's data, in words and as values."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import Any

from bolewright.platform.file.reading import Location

Data = dict[str, Any]

# Keys of a file that say what a bought piece is rated for: another rating is another piece of hardware, nothing else.
RATINGS = frozenset(
    (
        "cap_lateral",
        "edge_load",
        "foot_tie",
        "rated_load",
        "rated_lateral",
        "rated_uplift",
        "restrains_beam",
        "rotation_tie",
        "lateral_tie",
        "uplift_tie",
    )
)


@dataclass(frozen=True)
class Change:
    """One change of the data: ``words`` as in "2x10 for J", and the values it sets."""

    words: str
    values: tuple[tuple[Location, Any], ...]
    added: tuple[tuple[str, Data], ...] = ()

    def made(self, data: Data) -> Data:
        """The data with the change; what the file does not have itself, as a hatch's headers, follows by itself."""
        changed = copy.deepcopy(data)
        for where, value in self.values:
            node: Any = changed
            try:
                for key in where[:-1]:
                    node = node[key]
            except (IndexError, KeyError):
                continue
            node[where[-1]] = value
        for key, part in self.added:
            changed.setdefault(key, []).append(copy.deepcopy(part))
        return changed

    @property
    def key(self) -> str:
        """What the change does, whatever it is called."""
        return repr((sorted(self.values, key=repr), self.added))

    @property
    def only_rates(self) -> bool:
        """Whether it asks for hardware with other ratings and changes nothing else."""
        return not self.added and all(where[-1] in RATINGS for where, _ in self.values)

    def with_(self, other: Change) -> Change | None:
        """Both changes as one; None where they set the same value or add the same kind of part."""
        mine, its = ({where for where, _ in one.values} for one in (self, other))
        if mine & its or {key for key, _ in self.added} & {key for key, _ in other.added}:
            return None
        return Change(
            f"{self.words} and {other.words[:1].lower()}{other.words[1:]}"
            if other.words.startswith(("A ", "An "))
            else f"{self.words} and {other.words}",
            (*self.values, *other.values),
            (*self.added, *other.added),
        )
