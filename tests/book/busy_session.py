"""A session that keeps one entry after another, and says each as soon as it is kept."""

import json
import os
import random
import sys
from pathlib import Path

from sizer.book.copies import keep_copy
from sizer.book.drafts import draft, save_draft
from sizer.book.forget import forget
from sizer.book.jobs import job, new_job, rename
from sizer.book.opening import open_book
from sizer.book.revisions import issue


def busy(path, seed):
    """Writes until it is killed; a draft says whose it is and which version."""
    chance, book, keys = random.Random(seed), open_book(path), []
    while True:
        if len(keys) < 3 or chance.random() < 0.1:
            key = new_job(book, "", "0").key
            keys.append(key)
            _write(book, key, chance)
        key, what = chance.choice(keys), chance.random()
        if what < 0.02:
            forget(book, key)
            keys.remove(key)
            _say("forgotten", key, None)
        elif what < 0.04:
            with book.apart() as db:
                keep_copy(db, path)
        elif what < 0.15:
            one = issue(book, key, "{}", "", "{}", "1", "{}", "", "2026-01-01", files="x" * 20_000)
            _say("issued", key, one.letter)
        elif what < 0.25:
            _say("mark", key, int(rename(book, key, str(int(job(book, key).mark) + 1)).mark))
        else:
            _write(book, key, chance)


def _write(book, key, chance):
    version = draft(book, key).version
    text = f"{key} {version + 1} " + "x" * chance.choice((100, 3000, 40_000))
    _say("draft", key, save_draft(book, key, text, text, version))


def _say(*record):
    os.write(1, json.dumps(record).encode() + b"\n")


if __name__ == "__main__":
    busy(Path(sys.argv[1]), int(sys.argv[2]))
