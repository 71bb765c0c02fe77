"""Ratings that the sizes ask for: found by raising those that are left out of the search to what is asked of them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from bolewright.changes.change import RATINGS, Data
from bolewright.changes.ways import ways
from bolewright.platform.file.reading import Location, find_faults
from bolewright.platform.layout.layout import LayoutError
from bolewright.setting_out.complete import complete_results
from bolewright.sizing.choices import Values, put
from bolewright.sizing.look import Seen, look
from bolewright.status import Status

_POUNDS = re.compile(r"(\d+(?:\.\d+)?) lb")
_TOGETHER = "together"  # end of the keys of limit states where several ratings' shares add up
_ROUNDS = 16
_SPARE = 2.0  # times what is asked, while sizes are searched
_WHAT = {
    "rated_load": "down",
    "rated_lateral": "lateral",
    "rated_uplift": "up",
    "uplift_tie": "up",
    "foot_tie": "up at its foot",
    "cap_lateral": "laterally at its cap",
    "rotation_tie": "on each side against rotation",
    "lateral_tie": "lateral",
    "edge_load": "at the upper and lower edge",
}
_PIECE = {
    "bolt": "a bracket",
    "connection": "a hanger",
    "post": "a cap and its ties",
    "support": "a tie",
    "beam": "ties",
    "joists": "ties",
    "blocking": "connections",
    "brace": "ends of a brace",
    "diagonal": "a strap",
    "crossed_rods": "ends of a crossed rod",
}


@dataclass(frozen=True)
class Need:
    """What one piece of hardware has to be rated for, beside what the file gives."""

    table: str
    part: str
    pounds: tuple[tuple[str, int, int | None], ...]
    """Key, the rating required, and the file's (None where it gives none)."""

    @property
    def words(self) -> str:
        """As one asks for it in a shop."""
        asked = [
            f"{need:,} lb {'' if self.table in ('diagonal', 'brace', 'crossed_rods') else _WHAT.get(key, '')}".strip()
            for key, need, _ in self.pounds
        ]
        has = [
            f"{key.replace('_', ' ')} {own:,} lb" if own is not None else f"no {key.replace('_', ' ')}"
            for key, _, own in self.pounds
        ]
        piece = _PIECE.get(self.table, "a piece")
        return f"{self.part}: {piece} for {' and '.join(asked)} (the file has {', '.join(has)})"


def pounds(value: Any) -> int | None:
    """A rating as the search writes it, in pounds; the file's own wording through ``read``."""
    found = _POUNDS.fullmatch(str(value).replace(",", ""))
    return round(float(found[1])) if found else None


def raised(data: Data, allowed: set[Location] | None = None, spare: float = 1.0) -> tuple[Values, int]:
    """Values of the ratings with which no check fails or is open for a rating, and the looks it took.

    ``allowed``: ratings that may be raised, every one where None. ``spare`` times what is asked.
    """
    values: dict[Location, Any] = {}
    looks = 0
    for _ in range(_ROUNDS):
        seen = look(_with(data, values))
        looks += 1
        asked = _asked(seen, allowed, set(values))
        fresh = {where: value for where, value in asked.items() if values.get(where) != value}
        if not fresh:
            break
        for where, value in fresh.items():
            want = pounds(value)
            values[where] = value if want is None else f"{_tens(want * spare)} lb"
    return tuple(values.items()), looks


def _asked(seen: Seen, allowed: set[Location] | None, begun: set[Location]) -> dict[Location, Any]:
    """Of every check that asks for a rating, the values it asks for; the greatest of each.

    Where several ratings' shares add up, those that were raised already are raised further, the others stay; and only
    once each is enough by itself.
    """
    asked: dict[Location, Any] = {}
    alone = [miss for miss in seen.misses if not miss.name[0].endswith(_TOGETHER)]
    for miss in alone if any(m.ratings for m in alone) else seen.misses:
        places = {where for where, _ in miss.ratings if where[-1] != "restrains_beam"}
        if allowed is not None and not places <= allowed:
            continue
        both = miss.name[0].endswith(_TOGETHER) and places & begun
        for where, value in miss.ratings:
            if both and where not in begun:
                continue
            now, want = pounds(asked.get(where)), pounds(value)
            if now is None or (want is not None and want > now):
                asked[where] = value
    return asked


def lowered(data: Data, values: Values) -> tuple[Values, int]:
    """Ratings brought down to what is asked of each, rounded up to ten pounds; and the looks it took.

    Every check that rests on a rating says what it asks of it; then all are raised again until all pass.
    """
    if not values:
        return (), 0
    whole = dict(values)
    project, _ = find_faults(_with(data, whole))
    if project is None:
        return values, 1
    changed = _with(data, whole)
    try:
        results = complete_results(project)
    except LayoutError:
        return values, 1
    least: dict[Location, float] = {}
    for check in results.checks:
        if check.status is not Status.PASSES or math.isnan(check.ratio) or not check.rests_on_rating:
            continue
        for way in ways(changed, results, check):
            if not way[0].only_rates:
                continue
            for where, _ in way[0].values:
                own = pounds(whole.get(where))
                if own is not None:
                    least[where] = max(least.get(where, 0.0), own * check.ratio)
            break
    for where, value in least.items():
        whole[where] = f"{max(10, _tens(value))} lb"
    more, looks = raised(_with(data, whole), set(whole))
    return tuple((whole | dict(more)).items()), looks + 1


def _tens(value: float) -> int:
    return math.ceil(value / 10 - 1e-9) * 10


def _with(data: Data, values: dict[Location, Any]) -> Data:
    import copy

    changed = copy.deepcopy(data)
    for where, value in values.items():
        put(changed, where, value)
    return changed


def needs(data: Data, values: Values, given: dict[Location, float]) -> tuple[Need, ...]:
    """What has to be bought with other ratings than the file has, one entry for each piece."""
    found: dict[tuple[str, str], list[tuple[str, int, int | None]]] = {}
    for where, value in values:
        want = pounds(value)
        if want is None or where[-1] not in RATINGS:
            continue
        own = given.get(where)
        if own is not None and own + 1e-9 >= want:
            continue
        table, which, key = str(where[0]), where[1], str(where[-1])
        part = str(data[table][which].get("mark", "J")) if isinstance(which, int) else str(which)
        found.setdefault((table, part), []).append((key, want, None if own is None else round(own)))
    return tuple(Need(table, part, tuple(asked)) for (table, part), asked in found.items())


def given_ratings(data: Data, places: Iterable[Location]) -> dict[Location, float]:
    """What the file gives for some ratings (lb); those that it leaves out are not in it."""
    from bolewright.units import POUND, read

    found: dict[Location, float] = {}
    for where in places:
        node: Any = data
        try:
            for key in where:
                node = node[key]
            found[where] = float(read(str(node), POUND))
        except (KeyError, IndexError, TypeError, ValueError):
            continue
    return found
