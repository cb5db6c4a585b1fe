"""A job of the shop's book as a session holds it: its drafts read, kept and told apart."""

import hashlib
import json
from contextlib import suppress
from dataclasses import dataclass, replace

import streamlit as st

from sizer.book.book import MOVED, Book
from sizer.book.copies import part_damaged
from sizer.book.drafts import draft, draft_version, save_draft
from sizer.book.jobs import JobRow, Summary, job, new_job, rename, tell
from sizer.book.opening import open_book
from sizer.book.refusals import BookRefused
from sizer.book.settings import money_of, set_setting, setting, shop_of
from sizer.web.draft import AT_BENCH, BESIDE, Draft
from sizer.web.history import History

_HEAVY = {"own_design": True, "own_table": True,
          "variants": {"__all__": {"wishes": {"own_design"}}},
          **{name: {"entries"} for name in AT_BENCH}}
_SUM = 16  # letters of a figure's sum
_UNITS = "units"  # the shop's setting: the fields of a Draft that say what it is typed in


@dataclass(frozen=True)
class Kept:
    """A job as this session knows it: its row, and the version of its draft that was seen."""

    row: JobRow
    version: int
    texts: dict  # what each Draft of the history is written as, by its id

    @property
    def key(self):
        return self.row.key


def shop_book():
    """(Book, why it is only in memory or ""), one for all sessions of this server.

    Where its file was moved or replaced meanwhile, nothing goes into what stands there now.
    """
    book, unkept = book_at_start()
    return (_stand_in(), MOVED) if book.moved else (book, unkept)


@st.cache_resource(show_spinner=False)
def book_at_start():
    """As `shop_book`, when the first page asked for it."""
    try:
        return open_book(), ""
    except BookRefused as error:
        return Book.in_memory(), str(error)


@st.cache_resource(show_spinner=False)
def _stand_in():
    return Book.in_memory()


def shop_now():
    return shop_of(shop_book()[0])


def money_now():
    return money_of(shop_book()[0])


def blank():
    """An empty Draft, in the units that were chosen last on any screen of this book."""
    try:
        return Draft.model_validate_json(setting(shop_book()[0], _UNITS, "{}"))
    except ValueError:  # of a later program, with units that this one does not know
        return Draft()


def keep_units(length_unit, mass_unit):
    """Keeps what a new visit is to begin in; where the book refuses, each entry says so."""
    with suppress(BookRefused):
        set_setting(shop_book()[0], _UNITS, json.dumps(
            {"length_unit": length_unit, "mass_unit": mass_unit}))


def opened(key):
    """(Kept, History) of the job with a key; raises NotInBook, BookRefused."""
    book, _ = shop_book()
    found, row = draft(book, key), job(book, key)
    try:
        history = _history(found.draft_json, found.history_json)
    except (ValueError, LookupError, TypeError, AttributeError) as error:  # as damage may have it
        raise part_damaged(book.path, f"the draft of {row.code}") from error
    return Kept(row, found.version, {}), history.amend(history.present.but(mark=row.mark))


def newer(kept):
    """Whether another screen has written to a job since; raises NotInBook, BookRefused."""
    return draft_version(shop_book()[0], kept.key) != kept.version


def keep(kept, history):
    """Writes a History into the book, into a new job where `kept` is None; the Kept to go on with.

    Raises
    ------
    Changed, where another screen wrote since; NotInBook, BookRefused. Nothing is written then.
    """
    book, _ = shop_book()
    one = history.present
    known = kept.texts if kept else {}
    texts = {id(one): known.get(id(one)) or (one, *_light(one))
             for one in (*history.past, *history.future)}
    draft_text, steps = one.model_dump_json(), _steps_text(history, texts)
    if kept is None:
        return Kept(new_job(book, draft_text, one.mark, history_json=steps), 1, texts)
    version = save_draft(book, kept.key, draft_text, steps, kept.version)
    row = kept.row if kept.row.mark == one.mark else rename(book, kept.key, one.mark)
    return Kept(row, version, texts)


def told(kept, base, size, status):
    """With what the list of jobs says of a fitted boat."""
    said = Summary(base, size, status)
    if said == Summary(kept.row.base, kept.row.size, kept.row.status):
        return kept
    return replace(kept, row=tell(shop_book()[0], kept.key, said))


def _light(draft):
    """(JSON without own designs, figures of the bench and rows of the own table, {their sums:
    text}): many steps stand on one design, and each has nearly all of the one before."""
    known = {}

    def sum_of(text, letters=None):
        key = hashlib.sha256(text.encode()).hexdigest()[:letters]
        known[key] = text
        return key

    designs = [text and sum_of(text) for text in (
        draft.own_design, *(variant.wishes.own_design for variant in draft.variants))]
    figures = [[sum_of(f"[{json.dumps(key)}, {entry.model_dump_json()}]", _SUM)
                for key, entry in draft[name].entries.items()] for name in AT_BENCH]
    table = draft.own_table and _parted(draft.own_table, sum_of)
    light = draft.model_dump_json(exclude=_HEAVY)
    return f"[{light}, {json.dumps(designs)}, {json.dumps(figures)}, {json.dumps(table)}]", known


def _parted(table, sum_of):
    """An OwnTable whose rows and text are told by their sums."""
    def parts(text):
        return {name: [sum_of(_json(row), _SUM) for row in part] if isinstance(part, list)
                else sum_of(_json(part), _SUM) for name, part in json.loads(text or "{}").items()}

    return {"file": parts(table.file), "good": parts(table.good), "text": sum_of(table.text),
            "frame": table.frame}


def _put_together(table, known):
    """The fields of an OwnTable that was told so."""
    def text(parts):
        return _json({name: [json.loads(known[row]) for row in part] if isinstance(part, list)
                      else json.loads(known[part]) for name, part in parts.items()})

    return {"file": text(table["file"]), "good": text(table["good"]) if table["good"] else "",
            "text": known[table["text"]], "frame": table["frame"]}


def _json(part):
    return json.dumps(part, ensure_ascii=False)


def _steps_text(history, texts):
    known = {}
    for _, _, of_one in texts.values():
        known |= of_one
    past, future = (f"[{', '.join(texts[id(draft)][1] for draft in drafts)}]"
                    for drafts in (history.past, history.future))
    return f'{{"past": {past}, "future": {future}, "designs": {json.dumps(known)}}}'


def _history(draft_text, steps_text):
    if not draft_text:  # forgotten
        return History(blank())
    present = Draft.model_validate_json(draft_text)
    steps = json.loads(steps_text or "{}")
    known = steps.get("designs", {})
    past, future = (tuple(_whole(present, known, *step) for step in steps.get(name, ()))
                    for name in ("past", "future"))
    return History(present, past, future)


def _whole(present, known, light, sums, figures=None, table=None):
    """A step's Draft; one of a book from before, without `figures`, holds nothing beside the boat
    that was undone then."""
    own, *others = (known.get(one) for one in sums)
    for variant, text in zip(light["variants"], others, strict=True):
        variant["wishes"]["own_design"] = text
    if figures is None:
        light |= {name: present[name] for name in BESIDE}
    else:
        for name, ones in zip(AT_BENCH, figures, strict=True):
            light[name]["entries"] = dict(json.loads(known[one]) for one in ones)
        light["own_table"] = table and _put_together(table, known)
    return Draft.model_validate(light | {"own_design": own})
