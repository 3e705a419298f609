"""ICC profiles (ISO 15076-1): reading, evaluating and writing them; black point compensation (ISO 18619)."""
