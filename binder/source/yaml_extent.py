"""Where every value of a YAML text begins and ends: what editing at the positions needs beyond reading."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from binder.source.yaml_reader import SOFT_BREAKS

_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(slots=True)
class Extent:
    """One value: `start` and `end` as (line, column) from 0, the end after its last character.

    `kind` is scalar, list or map; `style` is the mark it is written with (`"`, `'`, `|`, `>`, `{`) or "" (plain, or a
    block of lines). A block of lines ends where its last value does.
    """

    kind: str
    style: str
    start: tuple[int, int]
    end: tuple[int, int]
    keys: list[Extent] = field(default_factory=list)
    values: list[Extent] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    text: str = ""

    @property
    def empty(self) -> bool:
        """Nothing written: a key with nothing after it."""
        return self.kind == "scalar" and self.start == self.end and not self.style


def extents(text: str) -> Extent | None:
    """The extent of the whole of a YAML text that was read without problems; None when it holds no value."""
    lines = text.split("\n")
    loader = _LOADER(text.translate(SOFT_BREAKS))
    stack: list[Extent] = []
    waiting: list[Extent | None] = []
    root: Extent | None = None
    try:
        while not isinstance(event := loader.get_event(), yaml.StreamEndEvent):
            if isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
                stack.append(_opened(event))
                waiting.append(None)
                continue
            if isinstance(event, yaml.ScalarEvent | yaml.AliasEvent):
                done = _single(event, lines)
            elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
                done = stack.pop()
                waiting.pop()
                if done.style:
                    done.end = _after(event)
                elif done.values:
                    done.end = max(one.end for one in (*done.keys, *done.values))
            else:
                continue
            if stack:
                _hold(stack[-1], waiting, done)
            else:
                root = done
    finally:
        loader.dispose()
    return root


def _after(event: Any) -> tuple[int, int]:
    return event.end_mark.line, event.end_mark.column


def _opened(event: Any) -> Extent:
    at = (event.start_mark.line, event.start_mark.column)
    kind = "map" if isinstance(event, yaml.MappingStartEvent) else "list"
    # libyaml marks the bracket for a flow collection, and a width of nothing for a block.
    return Extent(kind, "{" if event.flow_style else "", at, at)


def _single(event: Any, lines: list[str]) -> Extent:
    start, end = event.start_mark, event.end_mark
    style = (getattr(event, "style", None) or "").replace("\x00", "")
    last = (end.line, end.column)
    if style in ("|", ">"):
        # Its end is noticed on a line after it: back to its last line that is written.
        line = max([n for n in range(start.line, min(end.line, len(lines))) if lines[n].strip()], default=start.line)
        last = (line, len(lines[line]))
    made = Extent("scalar", style, (start.line, start.column), last)
    made.text = getattr(event, "value", "")
    return made


def _hold(holder: Extent, waiting: list[Extent | None], done: Extent) -> None:
    """A finished value goes to what holds it: as an item, as a key, or as the value of the key before."""
    if holder.kind == "list":
        holder.values.append(done)
    elif waiting[-1] is None:
        waiting[-1] = done
    else:
        holder.keys.append(waiting[-1])
        holder.names.append(waiting[-1].text)
        holder.values.append(done)
        waiting[-1] = None
