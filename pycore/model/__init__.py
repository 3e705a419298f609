"""A 3D model of the folded canvas: glTF 2.0 binary, in metres."""
