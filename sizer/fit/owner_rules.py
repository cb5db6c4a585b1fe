"""What a boat's owner keeps to where a check of it does not pass: the rules of use that the rows of
`sizer.fit.checks` name, in words. Our judgement throughout.
"""

from sizer.hydro.flooded import KEEP_HOLD

WAY_OUT = ("try the way out ashore in everything you will wear, shoes too, before each trip in "
           "other or thicker clothes; if anything holds you, do not paddle it so")
LOADED = "take no more aboard than it was fitted for: what is over stays ashore"
WIND = "wind takes it: keep near a shore that the wind blows on to, and land before it rises"
STOWED = ("stow gear where told and weigh it; before you set out look from beside how it lies, and "
          "move gear until it lies as told")
TENDER = ("sit low and still, nothing heavy on deck or behind your back, no one else aboard; get "
          "in and out only with a helper on the far side")
STIFF = "it follows the slope of every wave, with jerks: sheltered water, hips loose"
WITH_GEAR = "never out without its gear, or bags of water as heavy, tied in as low"
CALM = ("calm water near shore, in company: stay out of waves, tide races and the wash of other "
        "craft")
SWAMPED = (f"once it is full do not sit in it or climb on it: out at once, {KEEP_HOLD}; get "
           "ashore with it or have it emptied with help; only in company")
SEAT_CLEAR = ("look the skin over under the seat before and after each trip, and keep sand and all "
              "else from between seat and skin")
SEAT_BEARS = ("never drop onto the seat: lower your weight by both hands; nobody heavier; never "
              "sit in the boat on stones, between two supports or at a dock's edge, ashore only on "
              "level grass or sand; after each trip look and feel along the sticks under the seat, "
              "keel and chines: one that is cracked, bent or loose is mended before the next")
NOT_DRAWN_FOR_IT = ("it was not drawn for this use: calmer days and shorter trips than that, until "
                    "you know it")
