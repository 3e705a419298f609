"""Tuckfold's core: wrap geometry, side fills, picture reading and print files, on numpy and Pillow alone."""

__version__ = "0.1.0"
