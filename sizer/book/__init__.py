"""The shop's book: customers, jobs, drafts and issued revisions in one SQLite file.

`opening.open_book` gives a `Book`; the other modules are functions on it, a table or a deed each.
"""
