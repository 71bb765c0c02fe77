"""What each step of a part's calculation is about, in a sentence for a learner; it stands above the step's cell."""

from __future__ import annotations

_WORDS: dict[str, str] = {
    # Beam, decking, span
    "Bending": "The greatest moment compresses one edge and stretches the other. The allowed stress is lower "
    "where the compressed edge can move out laterally between points that hold it.",
    "Negative bending": "Over a support and past it the beam bends upwards: the lower edge is in "
    "compression.",
    "Shear": "Fibers slide past each other along the grain, most near a support.",
    "Bearing": "The reaction presses on the side of the grain, over breadth times length of bearing.",
    "Deflection under live load": "A matter of use, not of strength: how far it bends when people come, "
    "against a share of the span.",
    "Deflection under all loads": "Under lasting load timber goes on bending: the dead load's part grows by "
    "the creep factor.",
    "Section, laid flat": "A board lies flat: its breadth is wide, its depth thin.",
    "Bending under the even load": "A strip of the even load on one board, from joist to joist.",
    "One person on one board": "One person in the middle of a single board, which no neighbor helps.",
    # Post
    "Buckling": "A slender post bows out long before it crushes; its effective length over its thickness "
    "says how long before, in each direction.",
    "Column stability, solid post": "The column stability factor brings the allowed stress from crushing "
    "down towards buckling.",
    "Column stability, built-up post": "Plies fastened together slip a little on each other: they buckle "
    "sooner than one piece as thick.",
    "Compression": "Load over area, against the allowed stress with buckling counted.",
    "Side load": "A load across the post bends it, as a beam standing up.",
    "Axial load with bending": "Compression and bending use up one post together, and compression makes "
    "bending worse.",
    # Footing
    "Soil pressure": "The load and the footing's own weight, spread evenly over its area.",
    "Plain concrete": "Concrete is checked by strength: loads are raised by load factors, strength is "
    "lowered by its own.",
    "Bending of the concrete": "The soil bends up what runs out past the post; without steel only the "
    "concrete's tension resists.",
    "One-way shear": "The soil's pressure past a section one thickness off the post shears it straight "
    "through.",
    "Two-way shear": "The post can punch through: shear on a ring half a thickness off its faces.",
    "Uplift": "Only weight holds a footing down, and only 0.6 of it is counted.",
    "Embedded post": "The ground presses back on the post over its depth: how deep it has to go to hold a "
    "lateral force.",
    # Joints
    "Reduction terms": "The yield load is divided down to an allowed one; by more where the load runs across "
    "the grain.",
    "Six yield modes, single shear": "The wood of either member can yield (modes I), the fastener can turn "
    "(II), or bend to one hinge (III) or two (IV). The least load counts.",
    "Four yield modes, double shear": "With a member on both sides the middle or the sides can yield (modes "
    "I), or the fastener bend to hinges (III, IV). The least load counts.",
    "Value of the joint": "The least mode times the factors of the case, times the number of fasteners.",
    "Withdrawal": "A pull along the fastener: so much for each inch of thread or shank in the wood that "
    "holds it.",
    "Head pull-through": "The head may pull through the side member before the thread lets go.",
    # Tree bolt
    "Bearing in green wood": "The stress at which green wood yields under the bolt, from its specific "
    "gravity, wet.",
    "Yield limits": "The bolt may press evenly, turn as a whole, or bend to a hinge inside the wood; the "
    "least counts.",
    "Bending of the bolt": "The load stands out by its lever arm: the steel bends, most a little way inside "
    "the wood.",
    "Shear of the bolt": "Inside the wood the bolt is levered: shear there can exceed the load itself.",
    "Pressure on the wood": "In service the wood is pressed most at its face.",
    "Rated load": "A rating that was typed stands beside the calculation: both have to hold.",
    # Hanger, guard post, notch
    "Load down": "The load against the maker's rating, with the factors that the rating still wants.",
    "Load up": "What lifts the end against the rating for uplift.",
    "Forces": "A push at the top on a long lever, held by two bolts on a short one: the bolts' forces are "
    "several times the push.",
    "Tie of the upper bolt": "The upper bolt is pulled outward: a tie has to bring that pull into a joist.",
    "Notch in the tension edge": "A notch at the end starts a split: the shear strength falls faster than "
    "the depth left.",
}


def words_of(title: str) -> str:
    """The sentence of a step's title; empty where the title says all there is to say."""
    return _WORDS.get(title, "")
