"""Tables of colour patches as CGATS text: keywords, fields and data, as ISO 28178 lays them down."""
