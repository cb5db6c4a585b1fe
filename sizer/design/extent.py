"""How far a design file's parts reach along the boat, in the file's own millimetres."""

EDGE_MM = 0.05  # agreement asked of numbers that are written twice


def length_mm(file):
    """Hull length: the stern profile's last x."""
    return file.stern.profile_mm[-1][0]


def span_mm(file, stringer):
    """Lowest and highest x at which a stringer exists; None where it is not on its stem."""
    front = _end_x(file, stringer.name, stringer.start, file.bow, file.cockpit.back_x_mm)
    back = _end_x(file, stringer.name, stringer.end, file.stern, file.cockpit.front_x_mm)
    return front, back


def _end_x(file, name, end, stem, coaming_x):
    if end == "stem":
        return stem.lands_mm.get(name)
    return coaming_x if end == "coaming" else end.x_mm
