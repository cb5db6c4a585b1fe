"""Ten writers of one process: each counts up one draft that all share, and keeps one of its own."""

import json
import sys
import threading

from sizer.book.drafts import draft, save_draft
from sizer.book.jobs import new_job
from sizer.book.opening import open_book
from sizer.book.refusals import Changed

WRITERS, TIMES = 10, 15


def count_up(book, shared, name, told):
    """Adds one to the shared draft as often as it should, whoever else does."""
    own = new_job(book, "0", name).key
    met = 0
    for number in range(1, TIMES + 1):
        save_draft(book, own, f"{name} {number}", "", number, by=name)
        while True:
            seen = draft(book, shared)
            try:
                save_draft(book, shared, str(int(seen.draft_json) + 1), "", seen.version, by=name)
                break
            except Changed:
                met += 1
    told[name] = (own, met)


def main(path, shared, process):
    """Prints {writer: (key of its own job, how often another was quicker)}."""
    book, told = open_book(path), {}
    writers = [threading.Thread(target=count_up, args=(book, shared, f"{process}-{one}", told))
               for one in range(WRITERS)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    book.close()
    print(json.dumps(told))


if __name__ == "__main__":
    main(*sys.argv[1:])
