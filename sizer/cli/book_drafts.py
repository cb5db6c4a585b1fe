"""Between the book's drafts, which are the wizard's, and the requests of the command line."""

import json
from pathlib import Path

from pydantic import ValidationError

from sizer.border import table_of
from sizer.design.library import shipped_names
from sizer.errors import BadInput, Fault
from sizer.export.numbers import named
from sizer.fit.uses import USES


def draft_of_request(request):
    """JSON text of the wizard's draft of a Request, with a copy of a design of one's own."""
    from sizer.web.draft import Draft  # the web stack loads only where it is wanted
    from sizer.web.entered import Entries
    from sizer.web.figures import Entry, typed_text
    from sizer.web.session import OWN

    trip = request.trip
    figures = named(request.measured, *vars(request.measured))
    hips = figures.pop("hip_measured")
    if trip.gear_kg != USES[trip.use].gear_kg:
        figures["gear_kg"] = trip.gear_kg
    entries = Entries(**{
        key: Entry(text=typed_text(value, "kg" if key.endswith("_kg") else "mm"), value=value)
        for key, value in figures.items() if value is not None})
    own = {} if trip.base in shipped_names() else {
        "own_design": Path(trip.base).read_text("utf-8"), "own_name": Path(trip.base).name}
    return Draft(
        entries=entries, hip_measured=hips, use=trip.use, base=OWN if own else trip.base, **own,
        water_kind=trip.water.kind, water_c=trip.water.temperature_c, held=dict(request.fixed),
        follow=request.follow, wished=vars(request.wishes),
        shop_bias=table_of(request.shop_bias, {})).model_dump_json()


def request_of_draft(draft_json, code):
    """(request as a JSON-like dict, text of its base design) of a draft in the book; raises
    BadInput, where the draft is of another form or not all measures are in it."""
    from sizer.web.draft import Draft

    try:
        one = Draft.model_validate_json(draft_json)
    except ValidationError as error:
        found = "was forgotten" if not draft_json else "cannot be read"
        raise BadInput([Fault("draft", f"of {code} {found}", "open the job in the wizard")
                        ]) from error
    if not one.ready():
        raise BadInput([Fault("draft", f"of {code}: " + (", ".join(one.missing()) or "a figure")
                              + " missing or at fault", "open the job in the wizard")])
    return one.request(), one.base_text()


def draft_of_job_file(raw):
    """(JSON text of the wizard's draft, the customer's mark, what to tell) of the bytes of a saved
    job of the wizard; raises BadInput, where it is damaged, no job file, or from a newer program.
    """
    from sizer.web.draft import Draft
    from sizer.web.job_file import opened_job

    found = opened_job(raw)
    one = Draft(**dict(found.wishes), **found.beside())
    return one.model_dump_json(), found.mark, found.remarks


def is_job_file(raw):
    """Whether bytes look like a saved job of the wizard, whole or not."""
    try:
        return "sizer_job" in json.loads(raw)
    except (ValueError, TypeError, RecursionError):
        return b'"sizer_job"' in raw[:200]
