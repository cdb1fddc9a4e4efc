"""The least that any build of these files has to do."""

from __future__ import annotations

from markdown_it import MarkdownIt

from binder.disk import Content


def floor(content: Content, markdown: MarkdownIt) -> int:
    """Decode every file and set every Markdown body; returns the characters made."""
    made = 0
    for path, raw in content.files.items():
        text = raw.decode()
        made += len(markdown.render(text.split("\n---\n", 1)[-1])) if path.endswith(".md") else len(text)
    return made
