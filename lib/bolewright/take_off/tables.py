"""The take-off as plain tables: numbers as numbers, lengths both in inches and as a tape reads them."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.take_off.connections import connection_schedule
from bolewright.take_off.take_off import TakeOff
from bolewright.take_off.weights import board_measure
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

Value = str | int | float | None


@dataclass(frozen=True)
class DataTable:
    """A named table: a header, and rows of text, numbers and empty cells."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


def take_off_tables(take_off: TakeOff) -> tuple[DataTable, ...]:
    """All tables of a take-off, in the order of the work; a cost table only where there are prices; the last says what
    none of them counts.
    """
    tables = [
        _cut_list(take_off),
        _buying_list(take_off),
        _sticks(take_off),
        _hardware(take_off),
        _connections(take_off),
        _concrete(take_off),
        _weights(take_off),
    ]
    if take_off.cost:
        tables.append(_cost(take_off))
    return (*tables, _uncounted(take_off))


def _cut_list(take_off: TakeOff) -> DataTable:
    columns = (
        "mark",
        "part",
        "section",
        "species",
        "grade",
        "treatment",
        "long point",
        "long point in",
        "short point",
        "short point in",
        "start",
        "end",
        "count",
        "weight of one lb",
        "board feet",
    )
    rows = []
    for line in take_off.lines:
        cut, lumber = line.cut, line.cut.lumber
        feet = line.count * board_measure(parse_section(lumber.section), cut.long)
        rows.append(
            (
                line.marks,
                cut.use.value,
                lumber.section,
                lumber.species,
                lumber.grade,
                lumber.treatment,
                feet_inches(cut.long),
                cut.long,
                feet_inches(cut.short),
                cut.short,
                *cut.ends,
                line.count,
                round(cut.weight, 1),
                round(feet, 2),
            )
        )
    return DataTable("Cut list", columns, tuple(rows))


def _buying_list(take_off: TakeOff) -> DataTable:
    columns = (
        "section",
        "species",
        "grade",
        "treatment",
        "length",
        "length in",
        "count",
        "board feet",
        "price of one",
        "delivered",
        "waste of this lumber %",
    )
    rows: list[tuple[Value, ...]] = []
    for purchase in take_off.purchases:
        lumber = purchase.lumber
        named = (lumber.section, lumber.species, lumber.grade, lumber.treatment)
        waste = round(100 * purchase.waste, 1)
        for offer, count in purchase.counts:
            feet = round(count * board_measure(parse_section(lumber.section), offer.length), 2)
            far = "delivered" if offer.delivered else None
            length = feet_inches(offer.length)
            rows.append((*named, length, offer.length, count, feet, offer.price, far, waste))
        for cut in purchase.too_long:
            length = feet_inches(cut.buy)
            rows.append((*named, length, cut.buy, 1, None, None, f"no stick is so long: {cut.label}", None))
    return DataTable("Buying list", columns, tuple(rows))


def _sticks(take_off: TakeOff) -> DataTable:
    columns = ("lumber", "stick", "length in", "piece", "cut to", "cut to in", "left of the stick in")
    rows = [
        (
            purchase.lumber.name,
            stick.number,
            stick.offer.length,
            cut.label,
            feet_inches(cut.buy),
            cut.buy,
            round(stick.left, 4) if i == len(stick.cuts) - 1 else None,
        )
        for purchase in take_off.purchases
        for stick in purchase.sticks
        for i, cut in enumerate(stick.cuts)
    ]
    return DataTable("Sticks", columns, tuple(rows))


def _hardware(take_off: TakeOff) -> DataTable:
    columns = ("item", "size", "count", "where", "material", "counted by")
    rows = tuple((i.name, i.size, i.count, i.where, i.material, i.source) for i in take_off.hardware)
    return DataTable("Hardware", columns, rows)


def _connections(take_off: TakeOff) -> DataTable:
    """Every joint once; a row for each limit state that asks something of it."""
    columns = (
        *("number", "joint", "places", "parts", "fastener", "how many", "pattern", "protection", "by"),
        *("asked by", "of part", "demand", "allowed", "unit", "ratio", "combination", "clause"),
    )
    rows: list[tuple[Value, ...]] = []
    for joint in connection_schedule(take_off.results):
        parts = ", ".join(joint.parts)
        own = (joint.number, joint.kind, len(joint.parts), parts, joint.fastener, joint.each)
        head: tuple[Value, ...] = (*own, joint.pattern, joint.protection, joint.basis)
        if not joint.governing:
            rows.append((*head, "nothing", None, None, None, None, None, None, None))
        for check in joint.governing:
            sizes = (round(check.demand, 3), round(check.capacity, 3)) if check.has_sizes else (None, None)
            case = (
                check.unit.label or None,
                check.shown_ratio,
                check.combination or None,
                check.clause or None,
            )
            rows.append((*head, check.limit_state, check.part, *sizes, *case))
    return DataTable("Connections", columns, tuple(rows))


def _concrete(take_off: TakeOff) -> DataTable:
    concrete = take_off.concrete
    columns = ("post", "hole", "width in", "dig in", "concrete cu ft", "gravel cu ft", "bags")
    rows: list[tuple[Value, ...]] = [
        (
            hole.post,
            hole.shape,
            hole.width,
            hole.dig,
            round(hole.concrete_volume, 3),
            round(hole.gravel_volume, 3),
            None,
        )
        for hole in concrete.holes
    ]
    total = (round(concrete.volume, 3), round(concrete.gravel, 3), None)
    ordered = (round(concrete.ordered, 3), round(concrete.gravel_ordered, 3), concrete.bags)
    rows += [("all, as drawn", None, None, None, *total), ("all, to order", None, None, None, *ordered)]
    return DataTable("Concrete", columns, tuple(rows))


def _weights(take_off: TakeOff) -> DataTable:
    columns = ("mark", "part", "sticks", "weight lb", "people to lift")
    rows = tuple(
        (lift.mark, lift.use.value, lift.plies, round(lift.weight, 1), lift.people) for lift in take_off.lifts
    )
    return DataTable("Weights", columns, rows)


def _cost(take_off: TakeOff) -> DataTable:
    cost = take_off.cost
    assert cost is not None
    columns = ("item", "count", f"price of one {cost.currency}".strip(), f"total {cost.currency}".strip())
    rows: list[tuple[Value, ...]] = [
        (line.item, line.count, line.each, round(line.total, 2)) for line in cost.lines
    ]
    rows.append(("all that has a price", None, None, round(cost.total, 2)))
    rows += [(f"{name}: no price given", None, None, None) for name in cost.unpriced]
    rows += [(f"{name}: a price that nothing asks for", None, None, None) for name in cost.unused]
    return DataTable("Cost", columns, tuple(rows))


def _uncounted(take_off: TakeOff) -> DataTable:
    columns = ("not counted", "parts", "number", "length in", "why")
    rows = tuple(
        (
            item.what,
            item.marks or None,
            item.number,
            None if item.length is None else round(item.length, 4),
            item.why,
        )
        for item in take_off.uncounted
    )
    return DataTable("Not counted", columns, rows)
