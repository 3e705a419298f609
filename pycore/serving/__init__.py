"""Serving the built page to this machine's own browsers, on the standard library alone."""
