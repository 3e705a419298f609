"""The proof strip: a small print with patches, a detail and a side, and what a device measures on it."""
