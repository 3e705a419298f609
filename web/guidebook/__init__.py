"""What the guide shows and nobody draws or types by hand: drawings, and the table of fields."""
