"""The best few boats of a pool, by trying every choice that could still be the best.

People are bits, so that a choice is counted in some tens of machine words. A choice is passed over
where the prices of its boats (`sizer.crowd.choose`) or what each could still add, were the others
not there, leave it short of the best so far: no choice of more boats adds more than their sum.
"""

import numpy as np

from sizer.compiled import compiled

# Counts of a boat's or a choice's people, some ten seconds; then the best choice found so far
# stands with its bound. Not a time, so that the same crowd gives the same answer on a busy machine.
MOST_TRIES = 100_000_000


def swapped(goals, boats):
    """A choice of boats bettered by changing one boat at a time, as long as that helps.

    `goals` are (n_people, n_boats) bool, the most important first. Returns columns, rising.
    """
    boats, reached = list(boats), [int(goal[:, list(boats)].any(axis=1).sum()) for goal in goals]
    while True:
        best = reached
        for place in range(len(boats)):
            rest = boats[:place] + boats[place + 1:]
            have = [goal[:, rest].any(axis=1) for goal in goals]
            each = [mask.sum() + (goal & ~mask[:, None]).sum(axis=0)
                    for goal, mask in zip(goals, have, strict=True)]
            boat = int(np.lexsort(each[::-1])[-1])
            found = [int(one[boat]) for one in each]
            if found > best:
                best, better = found, [*rest, boat]
        if best == reached:
            return tuple(sorted(boats))
        boats, reached = better, best


def best_cover(goals, price, most, boats):
    """The choice that reaches the most people by the goals in turn; None where it takes too long.

    Parameters
    ----------
    goals : sequence of (n_people, n_boats) bool, the most important first
    price : (n_boats,) by how much, at least, a choice with this boat falls short of `most`
    most : people that no choice reaches more of, for the first goal
    boats : columns of a good choice of as many boats, two or more

    Returns
    -------
    tuple of columns, rising
    """
    order = np.argsort(-goals[0].sum(axis=0), kind="stable")
    bits = np.stack([_bits(goal[:, order]) for goal in goals])
    places = np.argsort(order)
    chosen = places[list(boats)]
    reached = np.array([goal[:, list(boats)].any(axis=1).sum() for goal in goals])
    if not compiled(_search)(bits, price[order], most, chosen, reached, MOST_TRIES):
        return None
    return tuple(sorted(order[chosen].tolist()))


def _bits(goal):
    """(n_boats, n_words) of the people whom each boat reaches."""
    packed = np.packbits(goal.T, axis=1)
    whole = np.zeros((packed.shape[0], -(-packed.shape[1] // 8) * 8), np.uint8)
    whole[:, :packed.shape[1]] = packed
    return whole.view(np.uint64)


def _search(bits, price, most, chosen, reached, most_tries):
    """Betters `chosen` (count,) and `reached` (n_goals,) in place; False where it gave up."""
    def ones(word):  # how many bits of a word are set, by sums of neighbours
        word = word - ((word >> np.uint64(1)) & np.uint64(0x5555555555555555))
        word = ((word & np.uint64(0x3333333333333333))
                + ((word >> np.uint64(2)) & np.uint64(0x3333333333333333)))
        word = (word + (word >> np.uint64(4))) & np.uint64(0x0F0F0F0F0F0F0F0F)
        return np.int64((word * np.uint64(0x0101010101010101)) >> np.uint64(56))

    def bettered(taken, total):
        better = total > reached[0]
        values = np.zeros(bits.shape[0], np.int64)
        values[0] = total
        for goal in range(1, bits.shape[0]):
            for word in range(bits.shape[2]):
                whole = np.uint64(0)
                for boat in taken:
                    whole |= bits[goal, boat, word]
                values[goal] += ones(whole)
            if not better and values[goal] < reached[goal]:
                return
            better |= values[goal] > reached[goal]
        if better:
            chosen[:], reached[:] = taken, values

    count, boats, words = chosen.size, bits.shape[1], bits.shape[2]
    covers = np.zeros((count, words), np.uint64)
    gains = np.zeros((count, boats), np.int64)
    size, spent = np.zeros(count, np.int64), np.zeros(count)
    at, taken, top = np.zeros(count, np.int64), np.zeros(count, np.int64), np.zeros(count, np.int64)
    level, fresh, tries = 0, True, 0
    while level >= 0:
        if tries > most_tries:
            return False
        if fresh:  # what each boat would add to those taken
            fresh = False
            tries += boats - at[level]
            for boat in range(at[level], boats):
                gain = 0
                for word in range(words):
                    gain += ones(bits[0, boat, word] & ~covers[level, word])
                gains[level, boat] = gain
        one = at[level]
        at[level] += 1
        left = count - level - 1
        if one + left >= boats:
            level -= 1
            continue
        budget = most - reached[0] - spent[level] - price[one]
        have = size[level] + gains[level, one]
        if budget < 0.0:
            continue
        taken[level] = one
        if left == 1:
            for last in range(one + 1, boats):
                if price[last] > budget or have + gains[level, last] < reached[0]:
                    continue
                tries += 1
                total = size[level]
                for word in range(words):
                    total += ones((bits[0, one, word] | bits[0, last, word])
                                  & ~covers[level, word])
                if total >= reached[0]:
                    taken[level + 1] = last
                    bettered(taken, total)
                    budget = most - reached[0] - spent[level] - price[one]
            continue
        top[:] = 0  # the greatest gains of boats after this one
        for boat in range(one + 1, boats):
            gain = gains[level, boat]
            for place in range(left):
                if gain > top[place]:
                    gain, top[place] = top[place], gain
        if have + top[:left].sum() < reached[0]:
            continue
        for word in range(words):
            covers[level + 1, word] = covers[level, word] | bits[0, one, word]
        size[level + 1], spent[level + 1] = have, spent[level] + price[one]
        at[level + 1] = one + 1
        level, fresh = level + 1, True
    return True
