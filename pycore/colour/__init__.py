"""Colour: ICC profiles in numpy, what a canvas can hold, and where a picture leaves it."""
