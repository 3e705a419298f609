"""Pictures of the piece for others: what the page has drawn becomes files."""
