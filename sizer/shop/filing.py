"""When a notch may be filed at the dry fit: one rule for the steps and the dry-fit sheet.

A notch's floor and the wall that a stick rests on tell where the stick lies; a wall that only binds
does not. Our judgement.
"""

WHEN_OFF = "“When it is off”"  # the heading on the dry-fit sheet that has the order
EASED = ("where it binds, sand or file the notch's wall where it rubs, never its floor and never "
         "the stick")
FLOORS_WAIT = ("No notch's floor is filed and nothing is glued on one before every figure is "
               f"written down, and then only as {WHEN_OFF} of the dry-fit sheet tells")
