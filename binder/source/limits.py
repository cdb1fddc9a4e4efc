"""How much is read of what somebody wrote."""

from __future__ import annotations

# A household's file is some kilobytes; what is larger is not one.
MOST_BYTES = 2_000_000
