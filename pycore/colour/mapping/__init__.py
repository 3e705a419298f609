"""A picture against a gamut: what lies outside, rendering intents compared, colours brought in (CIE 156)."""
