"""What of a dry fit is read a second time before anyone goes by it: what is farther off the design
than a tape and a builder explain is as often a slip of tape or pen as it is the boat.
"""

from sizer.units import MM_PER_M, mark_text

# Off the design, as the tape says it; the second in spreads of the tape: our judgement.
READ_TWICE_M, READ_TWICE_SPREADS = 0.006, 3.0


def is_far(off_m, tape_m):
    """Whether what the tape said is so far off the design that it is read a second time;
    `tape_m` is one standard deviation of a reading."""
    return abs(off_m) > max(READ_TWICE_M, READ_TWICE_SPREADS * tape_m)


def both_ways(reach, half):
    """What is said of a Reach by `half`, a text of its size: of a breadth across, the whole too."""
    return f"{half(1.0)} (across: {half(2.0)})" if reach.is_across else half(1.0)


def read_twice(reaches, offs_m, along, tape_m, unit):
    """Sentences in `unit`, one for each reading that `is_far`: of the Reaches that were measured
    and `offs_m`, by which each differs from the design, and of an Along."""
    for reach, off in zip(reaches, offs_m, strict=True):
        if is_far(off * (2.0 if reach.is_across else 1.0), tape_m):
            yield _said(reach.words, both_ways(reach, lambda times, off=off: mark_text(
                abs(off) * times * MM_PER_M, unit)), off)
    for words, off in (("length over all", along.longer_m),
                       *((f"mark of {frame}", off) for frame, off in along.frames_m)):
        if is_far(off, tape_m):
            yield _said(words, mark_text(abs(off) * MM_PER_M, unit), off)


def _said(words, much, off):
    return (f"The {words} is {much} {'more' if off > 0.0 else 'less'} than designed: go by it only "
            "where it reads the same a second time.")
