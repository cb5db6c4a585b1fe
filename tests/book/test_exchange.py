"""Jobs carried from one book to another: all or none, clashes told, nothing overwritten."""

import json

import pytest

from sizer.book.drafts import draft, save_draft
from sizer.book.exchange import FORMAT, export_jobs, import_jobs
from sizer.book.jobs import Summary, copy_job, job, jobs, new_job, put_away, rename, set_state
from sizer.book.opening import open_book
from sizer.book.refusals import NotInBook
from sizer.book.revisions import issue, revisions
from sizer.errors import BadInput


@pytest.fixture
def other(tmp_path):
    opened = open_book(tmp_path / "other" / "book.sqlite3")
    yield opened
    opened.close()


@pytest.fixture
def key(book):
    """A job with a past and a revision."""
    made = new_job(book, '{"a": 1}', "Östen", Summary("day-boat", "4.5 m", "pass"), "[1]",
                   notes="red").key
    save_draft(book, made, '{"a": 2}', "[1, 2]", 1, by="screen 1")
    issue(book, made, "{}", "base", "{}", "0.1.0", "{}", "{}", "2026-01-01")
    set_state(book, made, "built")
    put_away(book, made)
    return made


def test_a_job_arrives_with_everything(book, other, key):
    found = import_jobs(other, export_jobs(book))
    assert found.came == (job(book, key),) == (job(other, key),)
    assert (found.same, found.clashes, found.recoded) == ((), (), ())
    assert draft(other, key) == draft(book, key)
    assert revisions(other, key) == revisions(book, key)


def test_only_the_jobs_asked_for_go(book, other, key):
    new_job(book, "{}")
    assert len(import_jobs(other, export_jobs(book, [key])).came) == 1
    with pytest.raises(NotInBook, match="nobody"):
        export_jobs(book, ["nobody"])


def test_a_job_that_is_there_alike_is_not_doubled(book, key):
    text = export_jobs(book)
    assert import_jobs(book, text).same == (job(book, key),)
    assert len(jobs(book, put_away=True)) == 1


def test_a_clash_is_told_and_kept_beside_once(book, other, key):
    text = export_jobs(book)
    import_jobs(other, text)
    rename(other, key, "changed there")
    before = job(other, key), draft(other, key), revisions(other, key)
    ((here, beside),) = import_jobs(other, text).clashes
    assert before == (job(other, key), draft(other, key), revisions(other, key))
    assert here.key == key != beside.key
    assert here.code != beside.code
    assert (here.mark, beside.mark, beside.copied_from) == ("changed there", "Östen", key)
    assert draft(other, beside.key).draft_json == '{"a": 2}'
    assert [one.letter for one in revisions(other, beside.key)] == ["A"]
    assert import_jobs(other, text).same == (beside,)  # again: it is beside already
    assert len(jobs(other, put_away=True)) == 2


def test_a_job_whose_sister_is_here_comes_in_as_itself(book, other, key):
    sister = copy_job(book, key)
    import_jobs(other, export_jobs(book, [sister.key]))
    found = import_jobs(other, export_jobs(book, [key]))
    assert (found.came, found.clashes) == ((job(other, key),), ())


def test_a_code_that_is_taken_is_drawn_anew_and_told(book, other, key):
    mine = new_job(other, "mine")
    content = json.loads(export_jobs(book))
    text = signed(content, lambda job: job.update(code=mine.code))
    found = import_jobs(other, text)
    ((was, row),) = found.recoded
    assert was == mine.code != row.code
    assert row.key == key
    assert draft(other, mine.key).draft_json == "mine"


def signed(content, change):
    """An export with its first job changed, and its sum made good."""
    from sizer.book.exchange import sum_of

    content.pop("sum")
    change(content["jobs"][0])
    return json.dumps(content | {"sum": sum_of(content)})


@pytest.mark.parametrize(("change", "told"), [
    (lambda job: job.update(state="sunk"), "jobs.0.state"),
    (lambda job: job.update(key="../../etc"), "jobs.0.key"),
    (lambda job: job.update(code="<b>"), "jobs.0.code"),
    (lambda job: job["draft"].update(version="2"), "jobs.0.draft.version"),
    (lambda job: job.pop("mark"), "jobs.0.mark"),
    (lambda job: job.update(mark="x" * 61), "jobs.0.mark"),
    (lambda job: job.update(notes="half \ud800"), "no letter of a text"),
    (lambda job: job.update(more=1), "jobs.0.more")])
def test_what_no_job_can_be_is_refused_by_its_place(book, other, key, change, told):
    with pytest.raises(BadInput, match=told):
        import_jobs(other, signed(json.loads(export_jobs(book)), change))
    assert jobs(other, put_away=True) == ()


@pytest.mark.parametrize(("spoil", "told"), [
    (lambda text: text.replace("Östen", "Oesten"), "changed or cut short"),
    (lambda text: text[:-20], "damaged or no export"),
    (lambda text: "", "damaged or no export"),
    (lambda text: "[1]", "not an export"),
    (lambda text: '{"sizer_job": 1}', "not an export"),
    (lambda text: text.replace(f'"sizer_book": {FORMAT}', f'"sizer_book": {FORMAT + 1}'),
     "newer program"),
    (lambda text: "[" * 100_000, "damaged or no export")])
def test_a_spoilt_file_is_refused_and_nothing_comes_in(book, other, key, spoil, told):
    with pytest.raises(BadInput, match=told):
        import_jobs(other, spoil(export_jobs(book)))
    assert jobs(other, put_away=True) == ()


def test_all_or_none_come_in(book, other, key, monkeypatch):
    new_job(book, "{}")
    text, left = export_jobs(book), [1]

    def full(*_given):
        if not left:
            raise BadInput(())
        left.pop()

    monkeypatch.setattr("sizer.book.exchange.insert_draft", full)
    with pytest.raises(BadInput):
        import_jobs(other, text)
    assert jobs(other) == jobs(other, put_away=True) == ()


def test_cautions_travel_with_an_export(book, key):
    assert any("PFD" in one for one in json.loads(export_jobs(book))["cautions"])
