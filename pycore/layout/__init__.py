"""The flat canvas: sizes, the sheet that must hold it, the window on the picture, pixel grid, notes."""
