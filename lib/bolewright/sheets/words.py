"""Words that stand on the sheets: what a sheet is about, its cautions, the cautions of the whole package."""

from __future__ import annotations

from bolewright.platform.limit_states.check import Topic

CAUTIONS: dict[Topic, tuple[str, ...]] = {
    Topic.DECKING: (
        "Boards are checked as sound, full-size lumber: cull boards with large edge knots or splits.",
        "Composite and thin boards follow their maker's span table, not this sheet.",
    ),
    Topic.JOISTS: (
        "A notch or hole not shown here changes the check; cut none without running it again.",
        "Joists stand unbraced until the decking is on: nobody walks on them before.",
    ),
    Topic.BEAMS: (
        "Plies are nailed or bolted together before load; splice only over a support.",
        "A tall, narrow beam on a cap can overturn before its joists hold it: brace it first.",
    ),
    Topic.HANGERS: (
        "A rated load holds only with the maker's fasteners, all holes filled, and for the skew it was tested at.",
        "Screws take the place of nails only where the maker says so.",
        "Connectors and fasteners must suit the treatment of the lumber; do not mix stainless and zinc.",
    ),
    Topic.TREE_BOLTS: (
        "A qualified arborist looks at the tree first. Dead, hollow or lightning-struck wood carries nothing.",
        "Bolts this thick lie outside the NDS tables: the wood checks are extrapolated, engineer to confirm.",
        "A bracket that only rests can lift off: give it a hold-down clip good for 200 lb or the uplift, whichever is "
        "more.",
        "Hole chips must come out sound and light all the way; brown or soft chips mean stop.",
    ),
    Topic.POSTS: (
        "Posts are braced in two directions until the whole frame is tied together.",
        "Ground-contact treatment (UC4B) for the part in soil or concrete; cut ends are treated again.",
    ),
    Topic.FOOTINGS: (
        "Presumptive values are for undisturbed ground of that class: fill, peat and soft clay carry less or nothing.",
        "Look at the bottom of the hole before the concrete goes in; call for the location of buried lines first.",
        "Local frost depth and permit rules stand over these numbers.",
    ),
    Topic.BRACES: (
        "A brace works from the day its bolts are tight at both ends: brace before the decking goes on, with "
        "no hole more than 1/16 in wider than its bolt.",
        "Bolts keep their distances: 7 diameters from a brace's end, 4 between them; fill gaps between plies tightly.",
    ),
    Topic.ACCESS: (
        "The opening of the guard at the head of stairs lies between two posts; a gate there swings off the stairs.",
        "A stringer has its lower edge whole: no saw cut runs past the corner of a notch, no knot lies in the throat.",
        "The foot stands on its pad, above the soil, and may slide as the floor moves; it is no prop of the platform.",
        "Open risers, a ladder and a hatch are climbed and fallen through by children: a gate or a cover that shuts.",
    ),
    Topic.CLEARANCE: (
        "A qualified arborist looks at the tree first, and says whether it may be tied.",
        "Sway is what you saw, or an estimate within a factor of two: watch the trunk in strong wind, at the height of "
        "the bolts.",
        "Measure the girth every year; cut gaps back and set brackets out before the bark touches.",
        "Two trees never hold one platform fast: all but one need a bearing that slides.",
    ),
    Topic.GUARDS: (
        "Posts are not notched, nor moved from the joist or block that takes them; where one is moved, run it again.",
        "The joint is what holds: bolts with plate washers, tied to the joist by rated hardware, every hole filled.",
        "A guard is no ladder and no anchor: nobody sits on it, and nothing hangs from it.",
        "Shake every post each year; replace balusters that are loose.",
    ),
    Topic.STABILITY: (
        "Rated loads of caps, straps, brackets and angles are the maker's, with every hole filled as he says.",
        "A platform racks or topples long before its joists break: no one goes up before it is braced.",
    ),
}

PACKAGE_CAUTIONS = (
    "These sheets are calculations for review. They approve nothing; the reviewed and stamped area is left empty.",
    "Local code, frost depth, zoning and permit rules stand over everything here. Ask before you build: a floor that "
    "is large, or more than 30 in. above the ground, commonly needs a permit, and a guard.",
    "A licensed engineer decides on the structure and a qualified arborist on the tree.",
    "Living trees vary and grow: look at tree, bolts and clearances every year and after each storm. Nobody is on the "
    "platform in high wind.",
    "A guard's post pulls on its foot with 200 lb times its height: a post screwed to a rim alone does not hold. It "
    "wants blocking, two bolts and a hold-down into the joists, by its own calculation.",
    "Work at height: harness and anchor above 6 ft, nobody under a load, power tools tied off.",
    "Until bracing and decking are in place, every part that already stands needs a temporary brace of its own.",
    "Values marked 'from memory' must be confirmed in the printed document; those marked 'judgement' by an engineer.",
)
