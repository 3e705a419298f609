"""Many jobs at once: what is to be made, by whom, and what came of it."""
