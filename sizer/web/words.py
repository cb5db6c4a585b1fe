"""The words on the screens: every trade term, and every check with what to do about it."""

GLOSSARY = (
    ("backband", "A padded band behind the hips that the paddler leans on."),
    ("base design", "A boat proven on the water that is scaled to fit each paddler."),
    ("baseline", "The level line that all heights of a design are measured from, parallel to the "
                 "strongback's top."),
    ("beam", "The boat's greatest width."),
    ("bevel", "The angle planed on a stick or a frame's edge so that it lies flat on what it "
              "meets."),
    ("bird's mouth", "A V-shaped notch in the end of a stick or stem that the other part sits in."),
    ("capsize", "To turn over; beyond some heel the boat does it by itself."),
    ("chine", "A stick along the edge where the boat's bottom turns up into its side."),
    ("coaming", "The wooden hoop round the cockpit opening that the skin and a spray deck are "
                "fixed to."),
    ("cold shock", "The gasp and the racing heart in the first minute of falling into cold water."),
    ("deck beam", "The part of a frame that carries the deck from one gunwale to the other."),
    ("deck crown", "How high the foredeck rises over the gunwales, to make room for the knees."),
    ("deck stringer", "A stick along the deck that holds the skin up."),
    ("depth", "Height of the gunwale over the lowest point of the keel."),
    ("displacement", "What the afloat boat weighs with all that is in it: the water it pushes "
                     "aside."),
    ("draft", "How far the boat's lowest point lies under water."),
    ("drag", "The water's pull against the moving boat, in newtons; 10 N are about the weight of "
             "1 kg."),
    ("fair", "Running in an even curve, without a hollow or a bump."),
    ("float bags", "Air bags tied into bow and stern that keep a flooded boat up."),
    ("footbrace", "What the feet push against; it can be moved to suit the legs."),
    ("frame", "A plywood cross-piece that gives the boat its shape at one place."),
    ("freeboard", "How high the lowest side deck stands over the water."),
    ("gear", "What is carried aboard beside the paddler and what the paddler wears."),
    ("GM", "A length that says how firmly the boat first resists heeling: more is steadier."),
    ("gunwale", "The strong stick along each side where the hull meets the deck."),
    ("half-breadth", "Width from the middle of the boat to one side."),
    ("heel", "How far the boat leans to one side, in degrees."),
    ("keel", "The stick along the middle of the bottom."),
    ("lashing", "Tying stick and frame together with cord through holes in the frame."),
    ("lead", "How far the wind's centre lies ahead of the water's, as a share of the waterline."),
    ("notch", "The cut in a frame that a stick sits in."),
    ("offsets", "A table of half-breadths and heights that a boat is drawn from."),
    ("PFD", "A buoyant vest that keeps you up in the water: a personal flotation device."),
    ("prismatic coefficient", "How full the ends are: the underwater volume over that of a bar "
                              "with the fullest section and the same length."),
    ("range of stability", "The heel up to which the boat with its paddler still comes back up."),
    ("reference face", "The face of a frame that its mark on the strongback is measured to."),
    ("ridge", "The stick along the middle of the deck."),
    ("righting arm", "How far the buoyancy's push acts beside the weight of the heeled boat: what "
                     "turns it back up."),
    ("rim", "The upper edge of the coaming, where water would come in."),
    ("scarf", "A long slanted glue joint that makes one stick of two."),
    ("skeg", "A small fin under the stern that helps the boat hold its course in wind."),
    ("spacing", "From one frame's mark to the next."),
    ("spray deck", "A skirt from the paddler's waist to the coaming that keeps water out."),
    ("stem", "The upright end piece at bow or stern that the sticks run to."),
    ("stringer", "A stick that runs along the boat and holds the skin in shape."),
    ("strongback", "The straight beam that the frames are set up on while the boat is built."),
    ("swamped", "Full of water up to the level outside."),
    ("trim", "How far the boat tilts towards bow or stern from level, in degrees."),
    ("waterline", "Where the water's surface meets the hull."),
    ("wet exit", "Leaving the cockpit under water after a capsize."),
    ("wetted area", "The area of skin under water; more of it means more friction."),
)

_ROOM = ("Let the depth and the deck crown go free and fit again, or choose a base with more room "
         "inside.")
_STRETCH = "Choose a base nearer to this paddler, or let go of a size you hold."
_BRACE = "Choose a base drawn for such legs, or change the footbrace's range in the base."
_STEADY = "Let the beam go free, choose a steadier base or a use that asks for less."

CHECK_HELP = {  # by check name: what it means, what to do when it fails
    "hips beside the seat": (
        "The hips, dressed, must fit between the stringers on either side without pinching.",
        "Let the beam go free and fit again, or choose a wider base."),
    "thighs under the deck": (
        "The thighs, dressed, must pass under the deck without pressing on it.", _ROOM),
    "knees under the deck": (
        "The bent knees must fit under the deck, or they trap the legs on the way out.", _ROOM),
    "feet under the deck": (
        "The shod feet must stand under the deck and draw back freely.",
        _ROOM[:-1] + ", or wear thinner soles."),
    "feet side by side": (
        "Both shoes must fit side by side at the footbrace.",
        "Let the beam go free and fit again, or choose a base with fuller ends."),
    "footbrace far enough": (
        "The footbrace must move far enough forward for the legs' reach.", _BRACE),
    "footbrace near enough": (
        "The footbrace must move near enough for the legs' reach.", _BRACE),
    "opening long enough": (
        "The cockpit must be long enough to get in and, above all, to get out in a hurry.",
        "Let the cockpit length go free, or choose a base that allows a longer one."),
    "opening wide enough": (
        "The cockpit must be wider than the hips, so that nothing holds them on the way out.",
        "Let the cockpit width go free, or choose a base that allows a wider one."),
    "side-deck freeboard": (
        "The lowest side deck must stand high enough over the water for the waves of this use.",
        "Take less gear, let length, beam and depth go free, or choose a bigger base."),
    "not too high in the wind": (
        "Sides that stand too high catch the wind and make the paddle reach down.",
        "Choose a smaller or shallower base, or let the depth go free."),
    "rim freeboard": (
        "The lower end of the cockpit rim must stand over the water, or an open cockpit fills.",
        "Take less gear, let the depth go free, or choose a base with a higher rim."),
    "floats on its lines": (
        "The boat should float near the waterline that it was drawn to.",
        "Let length, beam and depth go free, or choose a base drawn for this load."),
    "trim": (
        "The boat must float near level, neither bow nor stern much deeper.",
        "Let the seat go free, or stow gear towards the end that floats high."),
    "initial steadiness (GM)": (
        "The boat must resist the first degrees of heel as firmly as this use asks.", _STEADY),
    "steadiness sitting tall (GM)": (
        "It should still resist heel with the paddler's weight at its highest likely place.",
        "Keep the seat low; " + _STEADY[0].lower() + _STEADY[1:]),
    "load reserve": (
        "Some load must still be left until the side deck comes too near the water.",
        "Take less gear, or choose a bigger base."),
    "length factor": (
        "The base may be stretched or shortened only as far as its file allows.", _STRETCH),
    "beam factor": (
        "The base may be widened or narrowed only as far as its file allows.", _STRETCH),
    "depth factor": (
        "The base may be deepened or made shallower only as far as its file allows.", _STRETCH),
    "deck crown factor": (
        "The foredeck may be raised or lowered only as far as the base's file allows.", _STRETCH),
    "stringers bend cold": (
        "The tightest bend of a stick must not break it when it is bent dry and cold.",
        "Steam or laminate that stick, pick clear straight grain, or thin its stock in the base."),
    "deck beside the opening": (
        "Enough deck must be left between coaming and gunwale to lash and to sew to.",
        "Let the cockpit width go free, or choose a wider base."),
    "cockpit clear of frames": (
        "Frames that do not carry the coaming must stand clear of the opening's ends.",
        "Let the cockpit length go free, or choose a base with its frames farther apart."),
    "cockpit clear of deck stringers": (
        "Deck stringers beside the coaming must not run into it.",
        "Let the cockpit width go free, or choose a base whose deck stringers end before it."),
    "range of stability": (
        "A paddler who keeps the upper body upright should be righted from far over.",
        _STEADY[:-1] + "; practise bracing and wet exits."),
    "rim goes under": (
        "The heel at which water comes over the cockpit rim should not be small.",
        "Wear a spray deck, let depth and beam go free, or choose a base with a higher rim."),
    "energy of a knock": (
        "A wave or a slip should have to work hard before the boat capsizes or fills.", _STEADY),
    "flooded rim with float bags": (
        "Flooded, with the paddler in the seat, float bags must keep the rim over the water.",
        "Take less aboard, or choose a base with more room for bags in its ends."),
}


def check_help(name):
    """What a check means and what to do when it fails: two sentences.

    Raises KeyError for a name that no check has.
    """
    return CHECK_HELP[name]
