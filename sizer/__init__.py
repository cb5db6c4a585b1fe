"""Fits a skin-on-frame kayak to its paddler and hands the numbers to the bench.

The folders follow one job in order, and a module imports only from its own stage or an
earlier one:

    design/   what we were given: the base design, read and checked
    paddler/  who sits in it: measured and predicted body, mass centre, room needed
    hull/     the shape, no water: fair curves, sections, scaling, own weight
    hydro/    the boat in water: density, flotation, righting arms
    fit/      is it right, which is best: uses and limits, checks, the smallest change that passes
    shop/     what gets built: stations, patterns, sticks, materials
    job.py    the whole flow, once
    crowd/    many people: each fitted, and the few sizes that serve most of them
    export/   records to text and bytes
    book/     the shop's jobs on disk
    web/      the wizard in the browser
    cli/      the command line
"""

__version__ = "0.1.0"
