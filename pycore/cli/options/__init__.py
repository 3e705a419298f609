"""The options that commands take, and what is read of them."""
