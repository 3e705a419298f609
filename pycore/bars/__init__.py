"""Bars, fittings and weight: what to order, what the piece weighs, and what it hangs by."""
