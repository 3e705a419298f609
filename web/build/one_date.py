"""The date of every file in an archive, or each build would differ: the earliest that a zip can hold."""

from __future__ import annotations

import calendar
from typing import Final

#: As a zip keeps it: year, month, day, hour, minute, second.
ZIP_DATE: Final = (1980, 1, 1, 0, 0, 0)
#: In seconds since 1970, as programs read it from SOURCE_DATE_EPOCH.
EPOCH_SECONDS: Final = calendar.timegm(ZIP_DATE)
