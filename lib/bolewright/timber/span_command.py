"""The command ``bolewright spans``: a greatest-span table of joists, beams or posts, as text or CSV."""

from __future__ import annotations

import argparse
import csv
import io
import sys
from collections.abc import Sequence
from pathlib import Path

from bolewright.reference import CONFIDENCE
from bolewright.signs import plain
from bolewright.timber.adjustment import Service, asks_incising, factors, incising_words
from bolewright.timber.basis import LoadType
from bolewright.timber.post_heights import PostRow, post_heights
from bolewright.timber.sections import Section
from bolewright.timber.span_arguments import (
    DEFAULT_SIZES,
    JOISTS,
    POSTS,
    add_arguments,
    incised,
    number,
    quantity,
    sections,
    share,
    stocks,
    values,
)
from bolewright.timber.span_published import Beside
from bolewright.timber.span_tape import SpanTape
from bolewright.timber.spans import (
    Rounding,
    SpanLimits,
    SpanLoads,
    SpanRow,
    Stock,
    beam_spans,
    joist_spans,
)
from bolewright.units import INCH, POUND, PSF, SQUARE_FOOT

__all__ = ["add_arguments", "run"]


def run(args: argparse.Namespace) -> int:
    """Print the table; 0, or 2 after one sentence on standard error when an argument makes no sense."""
    try:
        header, rows, notes = _table(args)
    except ValueError as error:
        print(f"bolewright spans: {plain(str(error)).rstrip(' .')}.", file=sys.stderr)
        return 2
    text = _as_csv(header, rows) if args.format == "csv" else _as_text(header, rows, notes)
    if args.out is None:
        print(text, end="")
        return 0
    try:
        Path(args.out).write_text(text, encoding="utf-8")
    except OSError as error:
        print(
            f"bolewright spans: --out {plain(str(args.out))} cannot be written: {error.strerror}.",
            file=sys.stderr,
        )
        return 2
    return 0


_Cells = list[str]


def _table(args: argparse.Namespace) -> tuple[_Cells, list[_Cells], list[str]]:
    sizes = sections(args.sizes or DEFAULT_SIZES[args.of])
    stock = stocks(args, sizes)
    if args.of == POSTS and len(stock) != 1:
        raise ValueError("--of posts takes one --species")
    loads = SpanLoads(
        live=quantity("--live", args.live, PSF, above_zero=True),
        dead=quantity("--dead", args.dead, PSF),
        overhang_point=quantity("--overhang-load", args.overhang_load, POUND),
        live_kind=LoadType.SNOW if args.snow else LoadType.LIVE,
    )
    service = Service(wet=not args.dry, incised=incised(args, stock, sizes))
    longest = quantity(
        "--longest", args.longest or ("14 ft" if args.of == POSTS else "18 ft"), INCH, above_zero=True
    )
    rounding = Rounding(args.rounding or ("down" if args.of == POSTS else "nearest"))
    beside = Beside.asked(args, stock, loads, service)
    if args.of == POSTS:
        return _posts(args, stock, sizes, loads, service, longest, rounding, beside)
    return _spans(args, stock, sizes, loads, service, longest, rounding, beside)


def _spans(
    args: argparse.Namespace,
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    loads: SpanLoads,
    service: Service,
    longest: float,
    rounding: Rounding,
    beside: Beside,
) -> tuple[_Cells, list[_Cells], list[str]]:
    if not 0 <= args.live_dead_share <= 1:
        raise ValueError(f"--live-dead-share is {args.live_dead_share:g}, but a share from 0 to 1 is wanted")
    limits = beside.own_rules(
        SpanLimits(
            live=_limit("--live-limit", args.live_limit),
            total=_limit("--total-limit", args.total_limit),
            live_dead_share=args.live_dead_share,
            overhang_tip=number("--overhang-limit", args.overhang_limit),
            longest=longest,
            rounding=rounding,
        )
    )
    C_r = None if args.c_r is None else number("--c-r", args.c_r, least=1.0, most=1.15)
    if args.of == JOISTS:
        widths = values("--spacings", args.spacings, INCH)
        rows = joist_spans(stock, sizes, widths, loads=loads, service=service, limits=limits, C_r=C_r)
    else:
        widths = values("--joist-spans", args.joist_spans, INCH)
        if not 0 <= args.joist_overhang <= 1:
            raise ValueError(
                f"--joist-overhang is {args.joist_overhang:g}, but a share from 0 to 1 is wanted"
            )
        rows = beam_spans(
            stock,
            sizes,
            widths,
            joist_overhang_share=args.joist_overhang,
            loaded_on_top=args.loaded_on_top,
            loads=loads,
            service=service,
            limits=limits,
            C_r=C_r,
        )
    tape = SpanTape(args.metric, rounding)
    width_name = f"{'spacing' if args.of == JOISTS else 'joist_span'}_{tape.unit}"
    header = [
        "size",
        width_name,
        "span",
        f"span_{tape.unit}",
        "governs",
        "overhang",
        f"overhang_{tape.unit}",
        "overhang_governs",
        f"bearing_{tape.unit}",
        "weakest",
        "confidence",
        *beside.header(),
    ]
    deflection = [
        f"live{f' + {limits.live_dead_share:g} dead' if limits.live_dead_share else ''} span/{limits.live:g}"
        if limits.live is not None
        else "",
        f"total with creep span/{limits.total:g}" if limits.total is not None else "",
    ]
    tip = tape.force(loads.overhang_point)
    quarter = ", rounded down" if limits.share_down else ""
    notes = [
        *_common_notes(stock, sizes, loads, service, [row.confidence for row in rows], tape),
        f"Deflection: {', '.join(word for word in deflection if word) or 'not limited'}; overhang tip "
        f"overhang/{limits.overhang_tip:g} under {tip} at its end, overhang at most a quarter of "
        f"the span{quarter}.",
        f"{tape.rounded}; span_{tape.unit} is before rounding. bearing_{tape.unit} is what each end needs at "
        "that span; the code's least bearing may be more.",
        "Simple spans, full uniform load, top edge held by decking or joists, blocked over supports.",
    ]
    if C_r is not None:
        notes.append(f"C_r = {C_r:g} as given, not what NDS 2018 4.3.9 gives.")
    cells = [[*_span_cells(row, tape), *beside.span_cells(row, limits, C_r)] for row in rows]
    return header, cells, [*notes, *beside.notes()]


def _limit(name: str, text: str) -> float | None:
    return None if text.strip().lower() == "none" else number(name, text)


def _posts(
    args: argparse.Namespace,
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    loads: SpanLoads,
    service: Service,
    longest: float,
    rounding: Rounding,
    beside: Beside,
) -> tuple[_Cells, list[_Cells], list[str]]:
    areas = values("--areas", args.areas, SQUARE_FOOT)
    given = args.eccentricity or beside.default_eccentricity
    off_axis = share("--eccentricity", given, 0.5)
    rows = post_heights(
        stock[0],
        sizes,
        areas,
        eccentricity=off_axis,
        loads=loads,
        service=service,
        longest=longest,
        rounding=rounding,
    )
    tape = SpanTape(args.metric, rounding)
    notes = [
        *_common_notes(stock, sizes, loads, service, [row.confidence for row in rows], tape),
        f"Load {given} of the width off the axis at the top (NDS 2018, 15.4.1)."
        if off_axis
        else "Load on the axis: such heights are about twice those of AWC DCA 6 Table 4 (--basis dca6 says why); a "
        "load a sixth of the width off it (--eccentricity 1/6) comes near them.",
        "Gravity load only, held laterally at both ends (K_e = 1): sway and wind are not in this table.",
        f"{tape.rounded}; height_{tape.unit} is before rounding.",
    ]
    area = "area_m2" if args.metric else "area_ft2"
    header = ["size", area, "height", f"height_{tape.unit}", "confidence", *beside.header()]
    cells = [[*_post_cells(row, tape), *beside.post_cells(row, off_axis, longest, rounding)] for row in rows]
    return header, cells, [*notes, *beside.notes()]


def _common_notes(
    stock: Sequence[Stock],
    sizes: Sequence[Section],
    loads: SpanLoads,
    service: Service,
    confidence: Sequence[str],
    tape: SpanTape,
) -> list[str]:
    woods = "; ".join(
        s.name + ("" if s.service is None else f" ({_service_words(s.service)})") for s in stock
    )
    state = ("wet" if service.wet else "dry") + " service" + _incised_words(service, stock, sizes)
    kind = "snow" if loads.live_kind is LoadType.SNOW else "live"
    codes = "; ".join(f"{code}: {CONFIDENCE[code]}" for code in dict.fromkeys(confidence))
    memory = [
        note for s in stock for size in sizes for note in factors(s.values(size), s.service or service).notes
    ]
    return [
        f"{woods}; {state}; {tape.load(loads.live)} {kind} + {tape.load(loads.dead)} dead.",
        f"NDS 2018, allowable stress design. Design values are {codes}.",
        *dict.fromkeys(memory),
        "Local code and a licensed engineer decide; this table approves nothing.",
    ]


def _service_words(service: Service) -> str:
    return ("wet" if service.wet else "dry") + (", incised" if service.incised else "")


def _incised_words(service: Service, stock: Sequence[Stock], sizes: Sequence[Section]) -> str:
    """What the table counts of incising, with its factor; said too where it counts none and commonly would."""
    if service.incised:
        return f", incised ({incising_words()}; NDS 2018, 4.3.8)"
    asked = any(asks_incising(s.values(size), treated=service.wet) for s in stock for size in sizes)
    return ", not incised" if asked else ""


def _span_cells(row: SpanRow, tape: SpanTape) -> _Cells:
    return [
        row.section.name,
        tape.given(row.width),
        tape.long(row.span, row.exact),
        tape.exact(row.exact),
        row.governs.value,
        tape.down(row.overhang),
        tape.given(row.overhang),
        row.overhang_governs.value,
        tape.exact(row.bearing),
        row.weakest.name,
        row.confidence,
    ]


def _post_cells(row: PostRow, tape: SpanTape) -> _Cells:
    return [
        row.section.name,
        tape.area(row.area),
        tape.long(row.height, row.exact) if row.height else "none",
        tape.exact(row.exact),
        row.confidence,
    ]


def _as_csv(header: _Cells, rows: Sequence[_Cells]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def _as_text(header: _Cells, rows: Sequence[_Cells], notes: Sequence[str]) -> str:
    widths = [max(len(cells[i]) for cells in (header, *rows)) for i in range(len(header))]
    lines = [
        "  ".join(cell.ljust(width) for cell, width in zip(cells, widths, strict=True)).rstrip()
        for cells in (header, *rows)
    ]
    return "\n".join([*lines, "", *notes]) + "\n"
