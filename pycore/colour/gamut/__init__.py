"""What a printer on its canvas can hold: its gamut, what lies outside, rendering intents compared."""
