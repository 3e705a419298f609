"""The print file: marks, encoders, re-reading what was written, and safe places."""
