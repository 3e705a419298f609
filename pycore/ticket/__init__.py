"""The ticket: the sheet of paper that goes with a piece from the print to the wall."""
