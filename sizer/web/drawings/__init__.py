"""Drawings for the screens: records in, inline SVG text out."""
