"""Edges worth a look: what the picture holds beside each front edge, and which side fill suits that."""
