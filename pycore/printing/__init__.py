"""From an opened picture to the canvas as pixels: resampling, rendering, marks, and the print file."""
