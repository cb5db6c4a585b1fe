"""A quote for the customer, one page, and the cautions: the boat, what is included and what is not,
the price.

It holds no body measure but what the load tells. Hours and costs behind the price are for the shop
alone: `cost_answer`.
"""

from datetime import date, timedelta

from reportlab.platypus import PageBreak

from sizer.border import border_fields
from sizer.export.customer import load_words, overall_words, owners_picture, size_words
from sizer.export.feet import alone, ground
from sizer.export.numbers import number
from sizer.export.pages import MARGIN_MM, heading, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.shop.bench import bags_l
from sizer.shop.money import CURRENCY, Money, money_table

BODY_PT = 10.5
ROOM_MM = (PAPERS_MM[USUAL_PAPER][0] - 2.0 * MARGIN_MM - 1.0, 55.0)  # for the picture
SEATS = {"panel": "a plywood seat", "slats": "a slatted seat", "sling": "a webbing seat"}
NOT_INCLUDED = ("Not included: paddle, spray deck, PFD, clothing for the water, pump, delivery, "
                "lessons, registration.")
INVENTED = ("INVENTED FIGURES. This shop has not set these rates and prices itself, so the price "
            "is none to rely on: {}.")
NO_CURRENCY = "This shop has not said its currency: the price is in {}."


def quote_pdf(job, bench, cost, money, paper=USUAL_PAPER):
    """The quote for a stamped Job, its Bench and its Cost at a shop's Money, on one of PAPERS_MM;
    bytes, the same for the same job."""
    boat = job.fitted.assessed.boat
    one_to, picture = owners_picture(job.fitted.assessed, ROOM_MM)

    def put(text, face=None):
        return words(text, BODY_PT, **({"face": face} if face else {}))

    return alone(job, ground(job, paper).titled("Quote").sheet(
        *(put(line, BOLD) for line in [money.shop_name] if line),
        picture, put(f"Scale 1 : {one_to}."),
        put(overall_words(job), BOLD),
        *map(put, size_words(boat)), *map(put, load_words(job)),
        put("Load range: from this paddler without gear up to that load. More gear or another "
            "paddler needs another fit."),
        *heading("What is included"), put(_included(job, bench)), put(NOT_INCLUDED),
        *heading("Price"), *_price(job, cost, money, put)), PageBreak())


def _included(job, bench):
    design = job.fitted.assessed.boat.design
    bow, stern = bags_l(job.mishaps.swamped)
    return (f"The boat ready to paddle: frame of {len(bench.frames)} plywood frames and lashed "
            f"sticks, oiled; skin of {design.skin.fabric_kgpm2 * 1000:.0f} g cloth, coated; "
            f"laminated coaming; {SEATS[bench.seat.kind]}, backband and footbrace set for this "
            f"paddler; deck lines and end loops; float bags of {bow:.0f} litres in the bow and "
            f"{stern:.0f} in the stern, tied in; a dry fit in the open frame before it is lashed.")


def _price(job, cost, money, put):
    if job.imprint.refusal:
        yield put("No price is told: this boat does not pass and is not to be built as it stands.",
                  BOLD)
        return
    tax = f", of which tax {cost.tax:,.2f}" if cost.tax else ""
    yield put(f"{cost.price:,.2f} {money.currency}{tax}.", BOLD)
    until = date.fromisoformat(job.stamp.date) + timedelta(days=money.valid_days)
    yield put(f"Holds until {until.isoformat()}.")
    if invented := invented_words(money):
        yield put(invented, BOLD)


def invented_words(money):
    """What of the rates and prices is ours and invented; "" where the shop has set all."""
    if money.ours == (CURRENCY,):
        return NO_CURRENCY.format(money.currency)
    titles = {key: kind.__metadata__[0].title for _, key, kind, _ in border_fields(Money)
              if key != "hours"}
    named = [titles[key].split(",")[0] for key in money.ours if key in titles]
    hours = [key for key in money.ours if key.startswith("hours.")]
    named += [f"hours of {len(hours)} steps"] if hours else []
    return INVENTED.format("; ".join(named)) if named else ""


def cost_answer(cost, money):
    """Hours, materials and price for the shop, as a JSON-like dict; no part of any package."""
    return {
        "currency": money.currency, "rates": money_table(money), "invented": list(money.ours),
        "hours": {one.key: {"title": one.title, "grows_with": one.grows_with,
                            "count": number(one.count), "hours": number(one.hours)}
                  for one in cost.hours},
        "bought": [{"what": one.what, "quantity": number(one.quantity),
                       "priced_by": one.price, "cost": number(one.cost)} for one in cost.bought],
        "small_things": list(cost.small), "total_hours": number(cost.total_h),
        **{name: number(getattr(cost, name)) for name in (
            "work", "materials", "sundries", "overhead", "profit", "tax", "price")}}
