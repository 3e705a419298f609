"""The folded canvas as a 3D model (glTF 2.0 binary, in metres), and moving pictures of it."""
