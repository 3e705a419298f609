"""Side fills: what the four sides, the corner squares and the ink-over of the flat canvas show."""
