"""The illustrative matte canvas: its profile, and the maker of that profile."""
