"""The page for the client: one file that opens without any network and holds only what the client may see."""
