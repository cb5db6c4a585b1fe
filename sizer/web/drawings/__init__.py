"""Drawings for the screens: records in, inline SVG text out."""

from sizer.web.drawings.plan import plan_svg
from sizer.web.drawings.profile import profile_svg
from sizer.web.drawings.sections import sections_svg
from sizer.web.drawings.thumbnail import thumbnail_svg

__all__ = ["plan_svg", "profile_svg", "sections_svg", "thumbnail_svg"]
