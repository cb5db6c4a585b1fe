"""What a page hears between its runs: a change that another screen made, how far a work is.

Asked for by a script of the page, and answered without a run: runs that Streamlit begins by itself,
each for a part of a page, empty the page that a person goes to meanwhile (see `app.py`).
"""

from functools import cache

from starlette.responses import JSONResponse
from starlette.routing import Route

from sizer.book.drafts import draft_version
from sizer.book.refusals import BookRefused, NotInBook
from sizer.web.component import component
from sizer.web.keeping import shop_book
from sizer.web.work import work_of


def put_news(job, works, heard):
    """Puts the script that asks, about a Kept job or None and {name: token} of the works under way:
    how far each is stands in its `sz-work-name`. `heard` is called at the beginning of the run that
    there is news for."""
    _component()(key="news", data={"job": job and job.key, "version": job and job.version,
                                   "works": works}, on_heard_change=heard)


@cache  # not at import: the server takes the route below before it can take components
def _component():
    return component("news")


def _news(request):
    """The version of a job's draft, and how far each work is; null for what is no more."""
    asked = request.query_params
    works = {token: work_of(token) for token in asked.getlist("work")}
    return JSONResponse({"version": _version(asked.get("job")), "works": {
        token: work.progress() if work is not None and work.going else None
        for token, work in works.items()}})


def _version(key):
    try:
        return key and draft_version(shop_book()[0], key)
    except (NotInBook, BookRefused):
        return None


ROUTE = Route("/news", _news)
