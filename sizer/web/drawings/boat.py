"""The drawings of a boat, each a function from records to SVG text."""

from sizer.web.drawings.plan import plan_svg
from sizer.web.drawings.profile import profile_svg
from sizer.web.drawings.sections import sections_svg
from sizer.web.drawings.thumbnail import thumbnail_svg

__all__ = ["plan_svg", "profile_svg", "sections_svg", "thumbnail_svg"]
