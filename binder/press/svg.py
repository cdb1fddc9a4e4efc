"""A person's own SVG as a harmless picture: shapes and words only, nothing that runs, is fetched or was left in."""

from __future__ import annotations

import re
from xml.etree import ElementTree

SVG = "http://www.w3.org/2000/svg"
XLINK_HREF = "{http://www.w3.org/1999/xlink}href"

_DROPPED = frozenset({"script", "foreignObject", "metadata", "iframe", "audio", "video", "set", "animate"})
_ADDRESS = re.compile(r"#[\w.\-]+|data:image/(?:png|jpeg|webp);base64,[A-Za-z0-9+/=\s]+")
_FETCHES = re.compile(r"@import|url\(\s*['\"]?\s*(?!['\"]?#)|expression\(", re.IGNORECASE)


def harmless(content: bytes) -> bytes | None:
    """The picture without scripts, comments, metadata and outside addresses; None when it cannot be read.

    A document type is refused, since entities declared there can grow without bound.
    """
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        return None
    try:
        root = ElementTree.fromstring(content)
    except (ElementTree.ParseError, ValueError):
        return None
    if root.tag != f"{{{SVG}}}svg":
        return None
    ElementTree.register_namespace("", SVG)
    ElementTree.register_namespace("xlink", "http://www.w3.org/1999/xlink")
    _clean(root)
    return bytes(ElementTree.tostring(root, encoding="utf-8"))


def _clean(element: ElementTree.Element) -> None:
    for name in [name for name, value in element.attrib.items() if not _is_kept(name, value)]:
        del element.attrib[name]
    for child in list(element):
        if _is_dropped(child):
            element.remove(child)
        else:
            _clean(child)


def _is_dropped(element: ElementTree.Element) -> bool:
    namespace, _, name = str(element.tag).rpartition("}")
    if namespace != f"{{{SVG}" or name in _DROPPED:
        return True
    return name == "style" and bool(_FETCHES.search(element.text or ""))


def _is_kept(name: str, value: str) -> bool:
    if name in ("href", XLINK_HREF):
        return bool(_ADDRESS.fullmatch(value.strip()))
    if name.startswith("{") or name.lower().startswith("on"):
        return False
    return not _FETCHES.search(value)
