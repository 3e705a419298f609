"""What a printer on its canvas can hold: the closed surface of its colours, and what lies inside."""
