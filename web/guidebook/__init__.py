"""What the guide shows and nobody draws or types by hand: drawings of folds and words, and the table of fields."""
