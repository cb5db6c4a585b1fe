"""Numbers in the one list of parts that are known before the list is: of all that is plywood."""


BETWEEN = 4  # lines between the seat's and the pedals': coaming wall and lip, backband, rail


def plywood_numbers(design, spacers, plates, outfit=()):
    """{name of a frame, a stem, a spacer, a seat's plate or one of the rows of `outfit`: its
    number}: sticks come first, from 1, then these in turn; the seat's plates are one line of the
    list, and each row is one."""
    names = (*(one.name for one in design.frames), "bow stem", "stern stem",
             *(one.name for one in spacers))
    first = 1 + len(design.stringers)
    return {name: number for number, name in enumerate(names, start=first)} | {
        plate.name: first + len(names) for plate in plates} | {
        piece.name: number for number, row in enumerate(
            outfit, start=first + len(names) + 1 + BETWEEN) for piece in row}
