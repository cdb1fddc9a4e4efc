"""Numbers for other programs: canonical JSON (RFC 8259), UTF-8."""

from __future__ import annotations

import json

from binder.pages.other_files import DataFile


def data_bytes(file: DataFile) -> bytes:
    """The tree as JSON with sorted keys and a newline at the end; ValueError for NaN and infinities."""
    text = json.dumps(file.data, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))
    return f"{text}\n".encode()
