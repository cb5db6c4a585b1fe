"""Numbers in the one list of parts that are known before the list is: of all that is plywood."""


def plywood_numbers(design, spacers, plates):
    """{name of a frame, a stem, a spacer or a seat's plate: its number}: sticks come first, from 1,
    then these in turn; the seat's plates are one line of the list."""
    names = (*(one.name for one in design.frames), "bow stem", "stern stem",
             *(one.name for one in spacers))
    first = 1 + len(design.stringers)
    return {name: number for number, name in enumerate(names, start=first)} | {
        plate.name: first + len(names) for plate in plates}
