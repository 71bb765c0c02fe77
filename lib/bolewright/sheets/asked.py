"""What each limit state asks, in a sentence for a reader who meets it for the first time."""

from __future__ import annotations

# What is asked alike of several kinds of part, by the name behind the dot of the key.
_ALIKE: dict[str, str] = {
    "incising": "Slits cut for the treatment lower the design values; whether the timber was incised has to "
    "be known.",
    "place": "Two pieces can't take up the same space: more than a little overlap can't be built as drawn.",
    "clash": "Two pieces can't take up the same space: more than a little overlap can't be built as drawn.",
    "bending": "The greatest moment compresses one edge and stretches the other: the stress at the edge "
    "against the adjusted bending value.",
    "negative_bending": "Over a support and past it a member bends upwards: the lower edge is in "
    "compression, and the deck does not hold that edge laterally.",
    "stage_bending": "While it is built, with workers on it, nothing holds the top edge yet: the unbraced "
    "length is longer, the allowed stress lower.",
    "stage_slenderness": "While it is built, a deep and thin member on edge still has to stay within the "
    "bound on R_B.",
    "shear": "Fibers slide past each other along the grain, most near a support: the shear stress against "
    "the adjusted shear value.",
    "bearing": "The reaction presses on the side of the grain, which is soft: breadth times length of "
    "bearing has to be large enough.",
    "bending_lateral": "The stress at the edge with what wind and sway press more on one side of the deck: "
    "of like pieces the worst.",
    "shear_lateral": "The shear stress with what wind and sway press more: of like pieces the worst.",
    "bearing_lateral": "The pressure on the side of the grain with what wind and sway press more: of like "
    "pieces the worst.",
    "framing_bending_lateral": "Bending on the wood that the two holes of a guard's post leave, with what wind "
    "and sway press more.",
    "framing_shear_lateral": "Shear at the bolts of a guard's post with what wind and sway press more.",
    "least_bearing": "The code asks for a least length of bearing, whatever the stress: a short seat is soon "
    "lost to shrinkage or a short cut.",
    "slenderness": "A deep and thin member on edge can buckle laterally: its slenderness R_B has a bound, "
    "whatever the stress.",
    "edge_load": "A connection that keeps a beam upright is pulled at one edge and pressed at the other: "
    "that force against the rating entered.",
    "edge_together": "One load presses or lifts a connection and turns it too: its shares at the edges and down or up "
    "add up; where the edges are rated by themselves, the force there alone, with wind.",
    "live_deflection": "How far it bends under live load, against a share of the span: a matter of use, not "
    "of strength.",
    "total_deflection": "How far it bends under all loads after years: under lasting load timber creeps, wet "
    "timber more.",
    "uplift": "The least load on a seat, with live load only where it lifts: below zero, a tie has to hold "
    "it down.",
    "uplift_lateral": "The least load with wind and sway, in combinations with 0.6 of the dead load too: below "
    "zero, a tie has to hold it down; on a tree bolt a clip holds 200 lb in any case (common practice).",
    "row_tear_out": "Bolts pull along the grain: the strip of wood between a row and the end can shear out.",
    "group_tear_out": "The whole block of wood round the bolts can come out: shear along its sides, tension "
    "across its end.",
    "shear_at_bolts": "Where bolts bring a force in, only a part of the depth counts against shear.",
    "net_tension": "Tension on the wood that the bolt holes leave.",
    "net_compression": "Compression on the wood that the bolt holes leave.",
    "soil": "The load with the footing's own weight, spread over its area, against what the soil may bear.",
    "frost": "The underside has to lie below the depth that frost reaches, or frozen ground lifts it.",
    "rated": "The load against the rating that was entered: no formula here stands in for the maker's or the "
    "engineer's.",
}

_ASKED: dict[str, str] = {
    # Decking
    "decking.bending": "A board spans from joist to joist, lying flat: even load, or one person on a single "
    "board.",
    "decking.end_bending": "The board's end past the last joist is a cantilever: one person stands on its "
    "tip.",
    "decking.span_limit": "No strength is calculated: the board's span against the limit on its maker's "
    "sheet.",
    "decking.load_limit": "No strength is calculated: the load against the one on its maker's sheet.",
    "decking.end_limit": "No strength is calculated: the end past the last joist against the limit on its "
    "maker's sheet.",
    "platform.board_ends": "A board that ends past a joist, and is held by no other, tips when someone steps "
    "on its end.",
    # Joists, beams, blocking
    "joist.lateral": "Boards pass wind and sway to the joists, and these to the beam: what comes through the end that "
    "gets most, in any direction in plan, against the rating entered.",
    "beam.lateral": "The same, through the end of a beam that hangs on another.",
    "blocking.bending_through": "A rim that runs over joists which give bends as one long timber, more than "
    "between two of them.",
    "blocking.bending_through_lateral": "The same with what wind and sway bring.",
    "blocking.fastening": "Fasteners in end grain hold less than in side grain: the reaction against what "
    "they carry.",
    "blocking.fastening_lateral": "The same fasteners with what wind and sway bring.",
    "blocking.bracing": "A piece that keeps others from turning over needs strength for it: a share of the "
    "force in the edge that it holds.",
    "blocking.bracing_edges": "A piece on one side alone holds a member upright by a pull at one edge of its "
    "connection: that force against the rating entered.",
    "beam.bearing_under": "A member rests on the beam and presses on its upper edge.",
    "beam.bearing_under_lateral": "The same with what wind and sway press more, under the worst joist.",
    "beam.plies": "What hangs on one face has to pass into the other plies: through the nails or bolts "
    "between them.",
    "beam.bending_of_ply": "Nails give: the ply that a member hangs on bends more than its even share, until they "
    "have passed on the rest.",
    "beam.torsion": "Loads off its middle line twist the beam: shear of twist and of load add up on one "
    "face.",
    "beam.rotation_hanger": "Loads off its middle line turn the beam in its hanger: that moment against the "
    "rating entered.",
    "beam.bending_lateral": "Braces and joists push on the beam along and across: both bendings, and the "
    "force along it, together.",
    "beam.shear_lateral": "Shear with what the braces bring from wind and sway.",
    "beam.bending_at_bolts": "Bending on the wood that the bolt holes of a brace or a bracket leave.",
    "beam.bolts_below_middle": "A beam that hangs on bolts below its middle can split along its grain above them: "
    "they stand in the middle of its depth or higher.",
    "beam.bearing_lateral": "Wind and sway add load to one seat and take it from another: the bearing of the "
    "most loaded one.",
    "point_load.across": "It pushes across a member, which is weaker lying flat than on edge: both bendings "
    "together.",
    "point_load.compression": "The ropes of a hammock pull both its ends towards each other: the member between is "
    "pressed together, and bent by that off centre.",
    "hanger.rated": "The end's reaction against the rated load of the hanger, entered off its maker's sheet.",
    "hanger.rated_lateral": "The same with what wind and sway bring.",
    # Tree bolts
    "tree_bolt.steel_bending": "The load stands out from the sound wood by the lever arm e: the bolt bends, "
    "most a little way inside the wood.",
    "tree_bolt.steel_shear": "Inside the wood the bolt is levered: shear there can exceed the load itself.",
    "tree_bolt.wood_yield": "The load at which the bolt turns in the wood, or bends to a hinge while the "
    "wood under it crushes, over a safety divisor; the least of the modes counts.",
    "tree_bolt.wood_pressure": "Long before it yields the wood is pressed most at its face: that pressure "
    "against a working value of green wood.",
    "tree_bolt.together": "A load down and a lateral load use up one bracket together: their shares of its "
    "two ratings add up.",
    "tree_bolt.hole": "A hole weakens the trunk: it is held to a share of the sound diameter.",
    "tree_bolt.hole_line": "A bolt bored beside the trunk's axis goes through less wood: how much lies on "
    "its line.",
    "tree_bolt.hole_edge": "A bolt bored beside the trunk's axis nears the side of the trunk: the wood "
    "beside it against an edge distance.",
    "tree_bolt.tips": "Bolts from two sides come near each other inside: wood has to be left between their "
    "tips.",
    "tree_bolt.hole_spacing": "Two holes close together cut off the wood between them: their distance "
    "against a least one.",
    "tree_bolt.steel_biaxial": "Wind and sway bend the bolt in a second direction: one moment from both.",
    "tree_bolt.wood_yield_lateral": "With a lateral load the bolt presses at an angle to the grain, where "
    "wood is weaker.",
    "tree_bolt.wood_pressure_lateral": "Pressure on the wood, down and across at once: the resultant against the "
    "value at its angle to the grain (Hankinson), and the part across against the value across; the worse counts.",
    "tree_bolt.thread": "A nut that ties the bracket pulls on the thread.",
    "tree_bolt.washer": "The washer presses on the side of the grain.",
    "tree_bolt.withdrawal": "A force along the bolt pulls its thread out of the wood.",
    "tree_bolt.rated_lateral": "The load down with wind and sway, against the rated load that was entered.",
    "tree_bolt.bracket_lateral": "The lateral load against the side rating of the bracket that was entered.",
    "tree_bolt.fastening": (
        "What passes between beam and bracket: within the bracket's rating where the file says so, or on bolts by the "
        "yield limit equations."
    ),
    # Trees and what is near them
    "tree.sway": "How far the trunk moves in strong wind at the platform: it has to be known before a gap is "
    "set.",
    "tree.clearance": "The gap has to take the sway, the growth until it is next cut back, and a margin.",
    "tree.clearance_years": "Growth takes up the gap: the years until the trunk touches in a storm.",
    "tree.restraint": "A trunk that is tied to the platform pushes it as it sways: that force has to go "
    "somewhere.",
    "platform.restrained_trunks": "Trunks sway independently: a platform tied to more than one of them is "
    "racked between them.",
    "tree.trunk": "What the platform puts on the trunk bends it, at its foot or at the section that the "
    "holes weaken: which is worse stands in the notes.",
    "tree.trunk_wind": "The same, with the wind on the tree's own crown.",
    "tree.trunk_torsion": "A lateral force beside the trunk's axis twists it.",
    "tree_bolt.contact_years": "The trunk grows outward: the years until its bark meets the bracket.",
    "tree_bolt.overgrown_years": "The trunk grows outward: the years until the bark grows over the bearing.",
    "tree_bolt.slot": "A bearing that slides needs room for the way the trunk goes, both ways.",
    # Posts
    "post.buckling": "A slender post bows out and fails at a stress far below crushing: C_P brings the "
    "allowed stress down.",
    "post.slenderness": "Effective length over thickness has a bound of 50, whatever the load.",
    "post.end_bearing": "The post's ends press on steel, concrete or wood: that stress against the value of "
    "end grain.",
    "post.end_bearing_lateral": "The same with what wind and sway add.",
    "post.one_arm": "People stand on one side only of a post: the load is off its axis and bends it.",
    "post.stage_alone": "A post that stands alone, before it is braced: one worker's push against the "
    "ground's hold on it.",
    "post.at_knee": "The knee brace pushes on the post between its ends: compression and bending add up, and "
    "the compression makes the bending worse.",
    "post.net_section": "Compression on the wood that the bolt holes of the knee leave.",
    "post.foot_uplift": "Bolts through the foot, held in the concrete, keep the post from being pulled out.",
    "post.foot_tear_out": "The wood under those bolts can shear out towards the end.",
    "post.foot_net_tension": "Tension on the wood that the bolt holes of the foot leave.",
    "post.in_ground": "A post held by the ground bends most below grade: compression and bending add up.",
    "post.shear_below": "The soil turns the lateral force round: below grade the shear can exceed the force "
    "above.",
    "post.cap_lateral": "The lateral load that the beam passes to the post against the cap's rating.",
    "post.cap_bearing_lateral": "Bearing of what stands on the post with what wind and sway add.",
    "post.cap_rotation": "The lateral load comes in above the cap and turns the beam over on it; weight and "
    "ties hold it.",
    "post.cap_together": "Pull, turning and lateral load use up one cap together: their shares add up.",
    # Footings
    "footing.thickness": "Plain concrete may not be thinner than the standard allows, whatever the stress.",
    "footing.projection": "A pad that runs out past the post further than it is thick cracks off at the post's face: a "
    "rule of the code, beside the concrete's own strength.",
    "footing.concrete_bending": "The soil bends up the concrete that runs out past the post; plain concrete "
    "has little strength in tension.",
    "footing.concrete_shear": "The soil's pressure past a section one thickness off the post shears it "
    "through.",
    "footing.concrete_punching": "The post can punch through: shear on a ring half a thickness off its "
    "faces.",
    "footing.concrete_bearing": "The post's end presses on the concrete.",
    "footing.concrete_lateral": "The concrete again, with factored wind and sway.",
    "footing.embedment": "The ground presses back on the post over its depth: how deep it has to go to hold "
    "the lateral force.",
    "footing.embedment_one_arm": "The same where people stand on one side only of the post.",
    "footing.soil_lateral": "Wind and sway press one footing harder: soil pressure with what they add.",
    "footing.uplift_lateral": "Wind and sway lift one side: the footing's own weight and what stands on it "
    "hold it down.",
    # Braces
    "brace.distances": "Bolts too near an end, an edge or each other split the wood: distances in bolt "
    "diameters.",
    "brace.above_beam": "The brace's upper end may not stick out above the beam, into the deck.",
    "brace.buckling": "In compression a brace is a slender column between its ends.",
    "brace.with_wind": "Wind on its broad side bends a brace flatwise while the force along it works.",
    "brace.tension": "With the push the other way round the same brace is in tension.",
    "brace.ends": "The force along the brace against the rating of its ends that was entered.",
    "brace.end_on_post": "The force along the brace passes into the post through its bolts, at an angle to "
    "the grain.",
    "brace.end_on_beam": "The force along the brace passes into the beam through its bolts, at an angle to "
    "the grain.",
    "trunk_brace.buckling": "The brace props the beam from the trunk: a column in compression as long as "
    "there is load.",
    "trunk_brace.head_bearing": "The head presses on the beam's underside at an angle to the grain.",
    "trunk_brace.with_wind": "Wind on its broad side bends a brace flatwise while the force along it works.",
    "trunk_brace.head_bolts_beam": "The part of the force that runs along the beam passes through bolts.",
    "trunk_brace.head_bolts_brace": "The same force in the brace's own wood.",
    "trunk_brace.foot_bolts": "The foot passes its force into the shoe through bolts.",
    "trunk_brace.foot_rated": "The force of the foot against the rating of its shoe on the tree bolt.",
    "trunk_brace.beam_tension": "A brace that props at an angle pulls the beam along: tension and bending "
    "together.",
    "trunk_brace.tie": "The lateral part of the brace's force has to be tied across, or it pushes the beam "
    "off its seat.",
    "trunk_brace.clearance": "The brace's foot has to clear the bark as the trunk grows.",
    # The platform as a whole
    "platform.lateral": "Something has to hold the platform laterally: braces, posts fixed in the ground, or "
    "a tied bolt.",
    "platform.drift": "How far the floor moves laterally, against a share of its height: what moves far is "
    "loosened, and people feel it.",
    "platform.p_delta": "Weight on a floor that has moved pushes it further: the moment that this adds has "
    "to stay small beside that of the lateral force.",
    "platform.in_plane": "The deck has to reach the supports as one plate: diagonals, not the nails of the "
    "boards, keep it square.",
    "platform.seismic": "The push of an earthquake against the lateral force that the supports are checked "
    "for already.",
    "platform.guard": "A push on the guard's top turns its post about the deck: the framing has to take that "
    "moment.",
    "platform.comparison": "The whole platform again as one frame of elastic members, solved apart from the "
    "hand calculation.",
    "beam.stage_rotation": "A tall, narrow beam on its seat, before joists hold it: one worker's push turns "
    "it over.",
    "beam.stage_uplift": "A worker past the last seat of a bare beam tips it: the far seat lifts, and only "
    "the beam's weight and a tie hold it down.",
    "joist.stage_uplift": "A worker at the tip of a joist before the boards are on tips it: the far end lifts, "
    "and only the joist's weight and its tie or hanger hold it down.",
    "beam.fastening_lateral": "The lateral force that passes from the beam to what it rests on, against its "
    "fastening's rating.",
    "beam.together": "Uplift, turning and lateral load use up one fastening together: their shares add up.",
    "beam.rotation": "The lateral force comes in at the beam's top and turns it over on its seat; weight and "
    "ties hold it.",
    "beam.rotation_joists": "The same where the connections of the joists keep the beam upright.",
    # Guards
    "guard.receiver": "A push on the rail is a moment at the deck: a joist or block along the push has to "
    "take it.",
    "guard.bending": "The post is a cantilever from the framing: bending where it leaves the deck.",
    "guard.bending_at_bolts": "Bending on the wood that the upper bolt's hole leaves.",
    "guard.shear": "The two bolts hold the post as a lever: between them the shear is several times the "
    "push.",
    "guard.hold_down": "Pushed outward, the post pulls at its upper bolt: a hold-down has to bring that pull "
    "into the framing.",
    "guard.lower_tie": "Pushed inward, the lower bolt pulls: a tie has to take that.",
    "guard.bolt": "Tension of the bolt itself.",
    "guard.plate": "The plate or washer presses on the side of the grain.",
    "guard.along": "A push along the rail turns the post in the other direction, on the same bolts.",
    "guard.rail_outward": "A push outward on the rail between two posts, rail lying flat to it.",
    "guard.rail_down": "A person sits or stands on the rail between two posts.",
    "guard.rail_fastening": "The rail's end against the rating of its fastening.",
    "guard.infill": "A push on a small area of the infill, all of it on one baluster.",
    "guard.infill_fastening": "The end of a baluster against the rating of its fastening.",
    "guard.height": "How high the guard stands over the deck, against the code's least.",
    "guard.opening": "A ball of 4 in. may not pass, so that no small child can.",
    "guard.cable_post": "Cables pull on the end post all the time, all at once.",
    "guard.cable_rail": "Between end posts the rail is pressed by the cables and may buckle.",
    "gate.swing": "A gate at stairs swings away from the fall.",
    "gate.rail": "A push on a shut gate, as on a guard.",
    "gate.hinge": "A load at the free edge of the leaf and its weight are a couple of forces on the two "
    "hinges.",
    "gate.post": "The open gate hangs on its post and bends it along the guard.",
    # Stairs, ladder, hatch
    "stairs.place": "The stairs hang on an edge of the deck: where, and whether a joist, beam or rim is "
    "there.",
    "ladder.place": "The ladder leans on an edge of the deck: whether a rim, joist, beam or header is there.",
    "stairs.soil": "The load at their foot, spread over the pad, against what the soil may bear.",
    "stairs.stringer_bending": "A cut stringer is only as deep as its throat, the wood left under the "
    "notches.",
    "stairs.stringer_person": "One person in the middle of one stringer.",
    "stairs.head": "The upper reaction of a stringer against the rating of its hanger.",
    "stairs.head_rotation": "What hangs on the face of a rim turns it: that moment against what holds it.",
    "stairs.foot_bearing": "The foot presses on its pad at an angle to the grain.",
    "stairs.foot_shear": "The level cut at the foot leaves a notch: shear there.",
    "stairs.tread_bending": "A concentrated load in the middle of one board of a tread.",
    "stairs.riser": "The height of a step against the code's most.",
    "stairs.opening": "A ball of 4 in. may not pass between the treads.",
    "stairs.head_room": "A person on the steps may not strike the framing above.",
    "stairs.rail_load": "A push on the handrail or guard is a moment at the stringer.",
    "stairs.rail_post": "The rail's post is a cantilever from the stringer.",
    "stairs.rail_stringer": "The stringer is bent and twisted by a push on the rail's post.",
    "ladder.step_bending": "One person on the middle of a rung or tread.",
    "ladder.grip": "A hand's pull on the grab bar at the head of the ladder against its rating.",
    "ladder.step_fixing": "The end of a rung or tread against the rating of its fixing.",
    "ladder.rail": "A sloping rail is pressed and bent at once by the people on it.",
    "ladder.rail_over": "Above the floor the rails are handholds: a push at their top bends them.",
    "ladder.head": "The head holds the ladder against falling outward, and takes what the foot does not.",
    "ladder.stairs_load": "Treads are loaded as stairs are: that may be no more than the people who are counted.",
    "ladder.foot": "The foot may slide on its pad as the tree moves the floor; it may not slide off.",
    "hatch.cover": "One person stands on the shut cover.",
    "hatch.held": "Wind on the open cover: a stay has to keep it from falling shut.",
    "hatch.fall": "An open hatch is an edge to fall over.",
}


def asked(key: str) -> str:
    """The sentence of a limit state's key; empty where its name says all there is to say.

    >>> asked("post.slenderness")
    'Effective length over thickness has a bound of 50, whatever the load.'
    >>> asked("guard.spacing")
    ''
    """
    return _ASKED.get(key) or _ALIKE.get(key.partition(".")[2], "")
