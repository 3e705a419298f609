"""Colour spaces and differences: CIELAB, sRGB, chromatic adaptation, CIEDE2000."""
