"""Every word of the trade in a sentence, for screens and for the sheets of owner and launch."""

from sizer.export.fit_words import capital

GLOSSARY = (
    ("backband", "A padded band behind the hips that the paddler leans on."),
    ("base design", "A boat proven on the water that is scaled to fit each paddler."),
    ("baseline", "The level line that all heights of a design are measured from, parallel to the "
                 "strongback's top."),
    ("beam", "The boat's greatest width."),
    ("bevel", "The angle planed on a stick or a frame's edge so that it lies flat on what it "
              "meets."),
    ("bilge", "The turn from bottom to side; of several chines a side, the one that runs there."),
    ("bird's mouth", "A V-shaped notch in the end of a stick or stem that the other part sits in."),
    ("boards", "The thin plywood that pads beside the hips and over the thighs are glued to."),
    ("capsize", "To turn over; beyond some heel the boat does it by itself."),
    ("chine", "A stick along the edge where the boat's bottom turns up into its side."),
    ("coaming", "The wooden hoop round the cockpit opening that the skin and a spray deck are "
                "fixed to."),
    ("cold shock", "The gasp and the racing heart in the first minute of falling into cold water."),
    ("deck beam", "The part of a frame that carries the deck from one gunwale to the other."),
    ("deck crown", "How high the foredeck rises over the gunwales, to make room for the knees."),
    ("deck line", "The cord along each side of the deck that a swimmer holds the boat by."),
    ("deck stringer", "A stick along the deck that holds the skin up."),
    ("depth", "Height of the gunwale over the lowest point of the keel."),
    ("displacement", "What the afloat boat weighs with all that is in it: the water it pushes "
                     "aside."),
    ("draft", "How far the boat's lowest point lies under water."),
    ("drag", "The water's pull against the moving boat, in newtons; 10 N are about the weight of "
             "1 kg."),
    ("dry fit", "Everything put together without glue or lashing, measured, and put right before "
                "it is for good."),
    ("end loop", "The cord loop at bow and at stern that the boat is held, carried and tied by."),
    ("fair", "Running in an even curve, without a hollow or a bump."),
    ("float bags", "Air bags tied into bow and stern that keep a flooded boat up."),
    ("footbrace", "What the feet push against; it can be moved to suit the legs."),
    ("frame", "A plywood cross-piece that gives the boat its shape at one place."),
    ("freeboard", "How high the lowest side deck stands over the water."),
    ("garboard", "Of a design with several chines a side: the one nearest the keel."),
    ("gear", "What is carried aboard beside the paddler and what the paddler wears."),
    ("GM", "A length that says how firmly the boat first resists heeling: more is steadier."),
    ("gunwale", "The strong stick along each side where the hull meets the deck."),
    ("half-breadth", "Width from the middle of the boat to one side."),
    ("heel", "How far the boat leans to one side, in degrees."),
    ("held", "Of a size: put by hand, so that the fit leaves it where it was put."),
    ("hose", "The tube of a float bag's valve, that air goes in and out by."),
    ("keel", "The stick along the middle of the bottom."),
    ("knock", "A wave or a slip that heels the boat: told as how high the same work would lift "
              "boat and paddler."),
    ("lashing", "Tying stick and frame together with cord through holes in the frame."),
    ("lead", "How far the wind's centre lies ahead of the water's, as a share of the waterline."),
    ("leeway", "How far a boat slides sideways in wind, as an angle off where it points."),
    ("lip", "The outer edge of the coaming, that a spray deck's cord goes under."),
    ("load reserve", "What can still be added before the side deck is too near the water."),
    ("notch", "The cut in a frame that a stick sits in."),
    ("odds", "Of a hundred such paddlers in such boats, how many meet a limit: bodies, loads and "
             "boats differ from what is calculated."),
    ("offsets", "A table of half-breadths and heights that a boat is drawn from."),
    ("pads", "Foam beside the hips or over the thighs, on boards."),
    ("panel", "The cloth laced to a frame that keeps a float bag in its end of the boat."),
    ("PFD", "A buoyant vest that keeps you up in the water: a personal flotation device."),
    ("port", "The left side, as one looks to the bow."),
    ("prismatic coefficient", "How full the ends are: the underwater volume over that of a bar "
                              "with the fullest section and the same length."),
    ("rail", "The strip of hard wood on each side that a pedal stands on, pinned through its "
             "holes."),
    ("range of stability", "The heel up to which the boat with its paddler still comes back up."),
    ("reference face", "The face of a frame that its mark on the strongback is measured to."),
    ("revision", "One issue of a job's papers, A, B and so on; it stays as it was issued."),
    ("ridge", "The stick along the middle of the deck."),
    ("righting arm", "How far the buoyancy's push acts beside the weight of the heeled boat: what "
                     "turns it back up."),
    ("rim", "The upper edge of the coaming, where water would come in."),
    ("riser", "What holds a frame at its height over the strongback while the boat is built."),
    ("scarf", "A long slanted glue joint that makes one stick of two."),
    ("sheer", "The run of the boat's side at the deck, along the gunwale."),
    ("sitting bones", "The two knobs of the pelvis that a seated body rests on."),
    ("skeg", "A small fin under the stern that helps the boat hold its course in wind."),
    ("slenderness", "How long a boat is for the load it carries: its length over the cube root of "
                    "the volume under water."),
    ("spacer", "A board a side that stands from frame to frame beside the hips and keeps them "
               "apart."),
    ("spacing", "From one frame's mark to the next."),
    ("spare", "What is left over beyond the need: of room, of load, of freeboard."),
    ("spray deck", "A skirt from the paddler's waist to the coaming that keeps water out."),
    ("starboard", "The right side, as one looks to the bow."),
    ("stem", "The upright end piece at bow or stern that the sticks run to."),
    ("strap", "Of the pedals: the plywood bar bolted across both."),
    ("stringer", "A stick that runs along the boat and holds the skin in shape."),
    ("strongback", "The straight beam that the frames are set up on while the boat is built."),
    ("swamped", "Full of water up to the level outside."),
    ("tie line", "The cord crosswise at the bottom that gear is tied down by."),
    ("topside", "The side above the turn; of several chines a side, the one nearest the gunwale."),
    ("trim", "How far the boat tilts towards bow or stern from level, in degrees."),
    ("waterline", "Where the water's surface meets the hull."),
    ("weathercock", "To turn up into the wind by itself, as a vane does."),
    ("wet exit", "Leaving the cockpit under water after a capsize."),
    ("wetted area", "The area of skin under water; more of it means more friction."),
)


def words_told(terms):
    """Some terms of GLOSSARY, each in a sentence."""
    told = (f"{term}: {sentence}" for term, sentence in each_told(terms))
    return f"Words. {' '.join(told)}"


def each_told(terms):
    """(term, sentence) of each of some terms."""
    return [(capital(term), sentence) for term, sentence in GLOSSARY if term in terms]
