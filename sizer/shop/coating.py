"""The skin's coating: how many coats, and what is bought wet of a weight that is told dry."""

from sizer.units import KG_PER_LB

COATS = 3  # common practice, no source
# Of a sort as bought, by weight, what stays on the cloth; common practice, no source: each tin
# tells its own share.
SOLIDS = (("two-part polyurethane without solvent", 1.0), ("the same with solvent", 0.6),
          ("oil-based varnish", 0.5))


def wet_kg(dry_kg):
    """(sort, kg to buy wet) of so much coating as it dries."""
    return tuple((sort, dry_kg / share) for sort, share in SOLIDS)


def most_wet_kg(dry_kg):
    """The most to buy wet, of the sort with the fewest solids."""
    return max(kg for _, kg in wet_kg(dry_kg))


def wet_words(dry_kg):
    """What to buy wet, by sort, in a sentence."""
    *most, last = [f"{kg:.2f} kg ({kg / KG_PER_LB:.1f} lb) of {sort}"
                   for sort, kg in wet_kg(dry_kg)]
    return (f"bought wet {', '.join(most)} or {last}: the dry weight over the share of solids that "
            "the tin tells")
