"""Tables from one device to another: proofs for the screen, conversions for the print file."""
