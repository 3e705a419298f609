"""The fold: from the flat canvas to the canvas round its bars, facet by facet.

The model is an inextensible sheet without thickness, sharp front edges, and the bars as a full box; thickness
enters as the order of layers, and as small offsets in the mesh that is drawn.
"""
