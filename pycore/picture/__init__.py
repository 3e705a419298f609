"""Reading pictures: a file in, one upright picture of 8 bits a channel out, with notes about it."""
