"""Edges worth a look: what the picture holds beside each arris, and which side fill suits that."""
