"""The glossary: no word is there for nothing."""

import re
from pathlib import Path

import sizer
from sizer.web.words import GLOSSARY


def test_glossary_is_in_order_and_says_each_term_once():
    terms = [term for term, _ in GLOSSARY]
    assert terms == sorted(set(terms), key=str.lower)
    for term, sentence in GLOSSARY:
        assert sentence[0].isupper(), term
        assert sentence.endswith("."), term
        assert len(sentence) <= 150, term


def test_every_glossary_term_is_a_word_of_the_program():
    folder = Path(sizer.__file__).parent
    own = folder / "web" / "words.py"
    text = " ".join(path.read_text("utf-8") for path in folder.rglob("*.py") if path != own)
    said = re.sub(r"[\s_]+", " ", re.sub(r'"\s*\n\s*f?"', "", text)).lower()
    missing = [term for term, _ in GLOSSARY if term.lower() not in said]
    assert not missing
