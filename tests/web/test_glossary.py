"""The glossary: no word is there for nothing."""

import re
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

import sizer
from sizer.export.glossary import GLOSSARY
from sizer.fit.checks import ROWS


def test_glossary_is_in_order_and_says_each_term_once():
    terms = [term for term, _ in GLOSSARY]
    assert terms == sorted(set(terms), key=str.lower)
    for term, sentence in GLOSSARY:
        assert sentence[0].isupper(), term
        assert sentence.endswith("."), term
        assert len(sentence) <= 150, term


def test_every_glossary_term_is_a_word_of_the_program():
    folder = Path(sizer.__file__).parent
    own = folder / "export" / "glossary.py"
    sources = [*folder.rglob("*.py"), *(folder.parent / "baselines").glob("*.toml")]
    text = " ".join(path.read_text("utf-8") for path in sources if path != own)
    said = re.sub(r"[\s_]+", " ", re.sub(r'"\s*\n\s*f?"', "", text)).lower()
    missing = [term for term, _ in GLOSSARY if term.lower() not in said]
    assert not missing


def words_page():
    from sizer.web.steps.words import page

    page()


def found_for(word):
    """All that the page says where a word is sought."""
    screen = AppTest.from_function(words_page, default_timeout=60).run()
    screen.text_input[0].set_value(word).run()
    assert not screen.exception
    return " ".join(one.value for one in (*screen.markdown, *screen.header))


@pytest.mark.parametrize("word", [
    "odds", "slenderness", "knock", "load reserve", "held", "revision", "spare"])
def test_words_that_the_pages_use_are_found(word):
    said = found_for(word)
    assert f"<dt>{word}</dt>" in said
    assert "No such word" not in said


def test_a_word_finds_the_checks_that_speak_of_it_and_no_other():
    said = found_for("Room behind")
    for row in ROWS:
        assert (f"<b>{row.title}</b>" in said) == (row.key == "brace-near"), row.key
    assert "What each check measures" in said
    said = found_for("qwerty")
    assert "nor a check" in said
    assert "What each check measures" not in said
