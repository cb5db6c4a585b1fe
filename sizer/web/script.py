"""The wizard's script, which Streamlit runs; `python -m sizer` starts it.

A process that works for the wizard (`sizer.web.work`) loads this file under another name, and is
to load no page with it.
"""

if __name__ == "__main__":
    from sizer.web.app import main

    main()
