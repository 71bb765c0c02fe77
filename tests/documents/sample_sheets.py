"""Handwritten sheets with the hard cases: long equations, a wide table, text that means something elsewhere."""

from datetime import date

from bolewright.documents.content import Html, Markdown, Preformatted, SheetContent, TitleBlock
from bolewright.rendering.blocks import (
    Cell,
    Equations,
    Figure,
    KeyValues,
    Statement,
    StatementKind,
    Table,
)
from bolewright.rendering.drawing import (
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Layer,
    Leader,
    Line,
    Mark,
    Polygon,
)
from bolewright.rendering.palette import Status
from bolewright.rendering.svg import to_svg

UGLY = "Lookout <b>#1</b> $5 @ref \\alpha \"q\" & 'single' [x](y) *star* _u_ `tick` // c /* d */ {x} ~ <l>"

COLUMN_STABILITY = r"""F_{cE} &= \frac{0.822 \cdot E'_{min}}{\left(\frac{l_e}{d}\right)^{2}}
 = \frac{0.822 \cdot \text{580,000}~\mathrm{psi}}{\left(\frac{84.00~\mathrm{in}}{5.500~\mathrm{in}}\right)^{2}}
 = \text{2,044}~\mathrm{psi} \\
\alpha_c &= \frac{F_{cE}}{F^{*}_c} = \frac{\text{2,044}}{920.0} = 2.222 \\
\beta_c &= \frac{1 + \alpha_c}{2 \cdot c} = \frac{1 + 2.222}{2 \cdot 0.8000} = 2.014 \\
C_P &= \beta_c - \sqrt{\beta_c^{2} - \frac{\alpha_c}{c}}
 = 2.014 - \sqrt{2.014^{2} - \frac{2.222}{0.8000}} = 0.8868 \\"""

K_3 = (
    r"k_3 = -1 + \sqrt{\frac{2 \cdot \left(1 + R_e\right)}{R_e} + "
    r"\frac{2 \cdot F_{yb} \cdot \left(2 + R_e\right) \cdot D^{2}}{3 \cdot F_{em} \cdot l_s^{2}}}"
    r" = -1 + \sqrt{\frac{2 \cdot \left(1 + 1.000\right)}{1.000} + \frac{2 \cdot \text{45,000}~\mathrm{psi} "
    r"\cdot \left(2 + 1.000\right) \cdot \left(0.7500~\mathrm{in}\right)^{2}}{3 \cdot 5{,}600~\mathrm{psi} "
    r"\cdot \left(1.500~\mathrm{in}\right)^{2}}} = 1.831"
)

GROUP_ACTION = (
    r"C_g = \left[\frac{m \cdot \left(1 - m^{2 \cdot n}\right)}{n \cdot \left(\left(1 + R_{EA} \cdot m^{n}"
    r"\right) \cdot \left(1 + m\right) - 1 + m^{2 \cdot n}\right)}\right] \cdot \left[\frac{1 + R_{EA}}{1 - m}"
    r"\right] = \left[\frac{0.8123 \cdot \left(1 - 0.8123^{2 \cdot 6}\right)}{6 \cdot \left(\left(1 + 0.7500 "
    r"\cdot 0.8123^{6}\right) \cdot \left(1 + 0.8123\right) - 1 + 0.8123^{2 \cdot 6}\right)}\right] \cdot "
    r"\left[\frac{1 + 0.7500}{1 - 0.8123}\right] = 0.9043"
)

ENDLESS_SUM = (
    "M = "
    + " + ".join(rf"w_{{{i}}} \cdot \frac{{L_{{{i}}}^{{2}}}}{{8}}" for i in range(1, 25))
    + r" = \text{8,888,400}"
)

UNBREAKABLE = r"q = \frac{" + r" \cdot ".join([r"\text{1,234,567}~\mathrm{psi}"] * 14) + "}{2} = 1.000"


def plan() -> Drawing:
    joists = [Line((-20, y), (40, y), Layer.JOISTS) for y in range(20, 120, 16)]
    marks = [Mark((0, y), f"J{i}", shift=(5, 0)) for i, y in enumerate(range(20, 120, 16), start=1)]
    return Drawing(
        "Plan",
        (
            Polygon(((-54, -6), (20, -6), (74, 133), (-58, 133)), Layer.DECKING, Fill.WASH),
            Circle((0, 0), 12, Layer.TRUNK, Fill.TRUNK),
            *joists,
            *marks,
            Polygon(((-54, 112), (68, 112), (68, 115), (-54, 115)), Layer.BEAMS, Fill.TIMBER),
            Circle((-36, 114), 10, Layer.FOOTINGS, Fill.CONCRETE),
            Dimension((-36, 133), (48, 133), "7' 0\""),
            Leader((-12, 0), "bur oak", (-14, -10)),
            Arrow((17, 0), 90, text="1,240 lb"),
        ),
        "Plan of the lookout: the oak below, two posts above.",
        north=20.0,
    )


def wide_table() -> Table:
    columns = ("Part", "Limit state", "Demand", "Unit", "Capacity", "Ratio", "Combination", "C_D", "Clause")
    statuses = {0: Status.NOT_CHECKED, 1: Status.FAILS}
    return Table(
        (*columns, "Span", "Reaction", "Status"),
        tuple(
            (
                f"J{i}",
                "bending at midspan" if i % 2 else "deflection, live load",
                f"{900 + i * 37.5:,.1f}",
                "psi",
                f"{1200 + i * 11:,}",
                f"{0.5 + i / 200:.2f}",
                "D + 0.75L + 0.75S",
                "1.15",
                "NDS 2018, 3.3.1",
                "9' 10 3/8\"",
                f"{300 + i}",
                Cell(
                    statuses.get(i % 9, Status.PASSES).value,
                    statuses.get(i % 9, Status.PASSES),
                ),
            )
            for i in range(1, 91)
        ),
        "All joists, governing first",
    )


def sheets() -> tuple[SheetContent, ...]:
    return (
        SheetContent(
            "Summary of ratios",
            "1",
            (
                Statement(StatementKind.FAILURE, ("Joist J40: bending, 1.17 of its capacity.", UGLY)),
                Table(("Part", "Ratio", UGLY), (("J40", "1.17", UGLY), ("P1", "–", "x")), UGLY),
                KeyValues((("Live load", "40 psf"), ("Species", "Southern Pine No.2"), (UGLY, UGLY)), UGLY),
                Statement(StatementKind.CAUTION, ("Work at height kills.",)),
            ),
        ),
        SheetContent(
            "Posts",
            "2",
            (
                Markdown(
                    "The post carries $F_c' A$.\n\n#### Deep heading\n\n| a | b |\n|--|--:|\n| x | 7' 2 1/2\" |"
                ),
                Equations(
                    "Column stability factor C_P", (COLUMN_STABILITY,), "NDS 2018, 3.7.1.5", notes=(UGLY,)
                ),
                Equations("Coefficient k_3", (K_3,), "NDS 2018, Table 12.3.1A"),
                Equations("Group action factor", (GROUP_ACTION,), "NDS 2018, 11.3.6"),
                Equations("Endless sum " + UGLY, (ENDLESS_SUM, UNBREAKABLE), UGLY),
                Figure(to_svg(plan()), "Plan with the post highlighted " + UGLY, "The plan " + UGLY),
                Statement(StatementKind.CLAUSES, ("NDS 2018, 3.7.1: solid columns.", "NDS 2018, 3.6.3.")),
            ),
        ),
        SheetContent(
            "Joists " + UGLY,
            "3",
            (
                wide_table(),
                Markdown(UGLY + "\n\n" + "W" * 200 + "\n\n```\nopen fence " + "z" * 200),
                Preformatted("printed " + "y" * 200 + "\n" + UGLY),
                Html(
                    "<p>frame</p><table><tr><th>h</th></tr><tr><td>2.5</td></tr></table><script>bad()</script>"
                ),
                Statement(StatementKind.NOTE, ("V" * 220, UGLY)),
                Table(
                    ("#", *(f"superlongheading{i}" for i in range(16))),
                    tuple(tuple(f"{row * 1000 + i:,.3f}" for i in range(17)) for row in range(4)),
                    "Too many columns",
                ),
            ),
        ),
    )


TITLE_BLOCK = TitleBlock(
    project=UGLY,
    site="14 Mill Lane, #3 <North> $ & co",
    revision="B",
    date=date(2024, 5, 2),
    prepared_by='Ann "A" B\\uilder',
    checked_by="–",
    fingerprint="b1946ac92492d234",
)
