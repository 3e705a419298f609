"""Whether the models carry the descriptions of their fields."""

from __future__ import annotations

import sys
from typing import Final

#: Descriptions are read back from the source text, for the schema. In the browser there is no source and
#: nothing asks for the schema, and looking for it took 0.4 s of the start.
DESCRIBED: Final = sys.platform != "emscripten"
