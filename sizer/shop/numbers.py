"""Numbers in the one list of parts that are known before the boat is: sticks, frames, stems."""


def plywood_numbers(design):
    """{name of a frame or a stem: its number}: sticks come first, from 1."""
    names = (*(one.name for one in design.frames), "bow stem", "stern stem")
    return {name: number for number, name in enumerate(names, start=1 + len(design.stringers))}
