"""From an opened picture to the flat canvas as pixels, at any size."""
