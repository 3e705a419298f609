"""Variants of a job side by side: which they are, and what several of them share."""
