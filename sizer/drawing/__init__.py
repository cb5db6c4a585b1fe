"""How strokes are recorded once and replayed on the page, as SVG, as DXF and as PDF."""
