"""Figures: plain records in, SVG text out. No colours, fonts or widths: those are the theme's."""
