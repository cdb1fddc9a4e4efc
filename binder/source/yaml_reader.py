"""YAML text to nodes, on the parser's events: core schema of YAML 1.2, each value with its line and column."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from binder.problem import Problem, Span, error
from binder.source.nodes import Mapping, Node, Scalar, Sequence, Value
from binder.source.yaml_hints import forbidden_character, syntax_problem
from binder.source.yaml_values import core_value

MOST_ALIASED_NODES = 10_000
DEEPEST = 100

# U+0085, U+2028 and U+2029 break lines for YAML 1.1, for YAML 1.2 and for editors they do not.
SOFT_BREAKS = str.maketrans("\x85\u2028\u2029", "   ")
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def read_yaml(text: str, path: str, first_line: int = 1) -> tuple[Node | None, tuple[Problem, ...]]:
    """The one document in `text`, whose first line is line `first_line` of the file at `path`.

    A text without any value is a null scalar; None when the text could not be read to its end.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if problem := forbidden_character(text, path, first_line):
        return None, (problem,)
    reader = _Reader(path, first_line, text.translate(SOFT_BREAKS))
    return reader.read(), tuple(reader.problems)


@dataclass(slots=True)
class _Open:
    """A collection whose end has not come yet; `keys` is None for a list."""

    span: Span
    anchor: str | None
    keys: dict[str, Scalar] | None
    items: list[Node] = field(default_factory=list)
    entries: list[tuple[Scalar, Node]] = field(default_factory=list)
    key: Node | None = None
    size: int = 1


class _Reader:
    """One pass over the events; the stack holds what is open, so that depth costs no recursion."""

    def __init__(self, path: str, first_line: int, text: str) -> None:
        self.path = path
        self.first_line = first_line
        self.text = text
        self.lines = text.split("\n")
        self.problems: list[Problem] = []
        self.stack: list[_Open] = []
        self.anchors: dict[str, tuple[Node, int]] = {}
        self.aliased = 0
        self.root: Node | None = None

    def read(self) -> Node | None:
        loader = _LOADER(self.text)
        try:
            finished = self._events(loader)
        except yaml.YAMLError as fault:
            self.problems.append(syntax_problem(fault, self.text, self.path, self.first_line))
            finished = False
        finally:
            loader.dispose()
        if not finished:
            return None
        return self.root or Scalar(None, "", Span(self.path, self.first_line, 1, 1))

    def _events(self, loader: Any) -> bool:
        """Take every event; False when what follows is not to be read."""
        documents = 0
        while True:
            event = loader.get_event()
            kind = type(event)
            if kind is yaml.ScalarEvent:
                self._value(self._scalar(event), 1, event.anchor)
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                if not self._begin(event, kind is yaml.MappingStartEvent):
                    return False
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                self._end(event)
            elif kind is yaml.AliasEvent:
                if not self._alias(event):
                    return False
            elif kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    self._fault(
                        event,
                        "yaml-syntax",
                        "a second document",
                        "delete the line ---; one file, one document",
                    )
                    return False
            elif kind is yaml.StreamEndEvent:
                return True

    def _span(self, event: Any) -> Span:
        """The event's characters on its first line."""
        start, end = event.start_mark, event.end_mark
        stop = end.column if end.line == start.line else len(self._line(start.line).rstrip())
        column = start.column + 1
        return Span(self.path, self.first_line + start.line, column, max(stop + 1, column))

    def _line(self, number: int) -> str:
        return self.lines[number] if number < len(self.lines) else ""

    def _fault(self, event: Any, code: str, message: str, *remedies: str) -> None:
        span = self._span(event)
        end = max(span.end, span.column + 1)
        self.problems.append(error(Span(span.path, span.line, span.column, end), code, message, *remedies))

    def _scalar(self, event: Any) -> Scalar:
        text: str = event.value
        start, end = event.start_mark, event.end_mark
        if not event.style and start.line == end.line and self._line(start.line)[start.column : end.column] == text:
            # Nearly every value: plain, on one line, written as it reads.
            span = Span(self.path, self.first_line + start.line, start.column + 1, end.column + 1)
            return Scalar(self._meaning(event, text, False), text, span)
        quoted = bool(event.style)
        span = self._span(event)
        written = self._line(start.line)[span.column - 1 : span.end - 1]
        exact = start.line == end.line
        if quoted and exact and written[1:-1] == text and written[:1] in ("'", '"'):
            span = Span(span.path, span.line, span.column + 1, span.end - 1)
        else:
            exact = exact and written == text
        return Scalar(self._meaning(event, text, quoted), text, span, quoted, exact)

    def _meaning(self, event: Any, text: str, quoted: bool) -> Value:
        if event.tag not in (None, "!", "tag:yaml.org,2002:str"):
            self._fault(event, "wrong-type", f"the tag {event.tag}", "delete it, or put the value in double quotes")
            return text
        if quoted or event.tag:
            return text
        try:
            return core_value(text)
        except ValueError:
            self._fault(event, "bad-amount", "a number too long to read", "put it in double quotes when it is text")
            return text

    def _begin(self, event: Any, mapping: bool) -> bool:
        if len(self.stack) >= DEEPEST:
            self._fault(
                event,
                "alias-limit",
                f"more than {DEEPEST} lists or maps within each other",
                "write it flatter",
            )
            return False
        if event.tag not in (None, "!", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"):
            self._fault(event, "wrong-type", f"the tag {event.tag}", "delete it")
        start = event.start_mark
        # Only where it begins is known yet; a flow collection may end on the same line.
        end = max(len(self._line(start.line).rstrip()), start.column + 1) + 1
        span = Span(self.path, self.first_line + start.line, start.column + 1, end)
        self.stack.append(_Open(span, event.anchor, {} if mapping else None))
        return True

    def _end(self, event: Any) -> None:
        done = self.stack.pop()
        if self.first_line + event.end_mark.line == done.span.line:
            end = max(event.end_mark.column + 1, done.span.column)
            done.span = Span(self.path, done.span.line, done.span.column, end)
        kept = Mapping(tuple(done.entries), done.span), Sequence(tuple(done.items), done.span)
        node: Node = kept[done.keys is None]
        self._value(node, done.size, done.anchor)

    def _alias(self, event: Any) -> bool:
        """Put in what was anchored. Shared, not copied, but counted as if it were written out."""
        if event.anchor not in self.anchors:
            if any(open_.anchor == event.anchor for open_ in self.stack):
                self._fault(event, "alias-limit", f"*{event.anchor} stands within itself", "write it out")
            else:
                message = f"nothing is anchored as &{event.anchor}"
                self._fault(event, "yaml-syntax", message, "put the value in double quotes when it is text")
            return False
        node, size = self.anchors[event.anchor]
        self.aliased += size
        if self.aliased > MOST_ALIASED_NODES:
            message = f"the aliases stand for more than {MOST_ALIASED_NODES} values"
            self._fault(event, "alias-limit", message, "write the values out")
            return False
        self._value(node, size, None)
        return True

    def _value(self, node: Node, size: int, anchor: str | None) -> None:
        """Hand a finished node to what holds it."""
        if anchor:
            self.anchors[anchor] = (node, size)
        if not self.stack:
            self.root = node
            return
        holder = self.stack[-1]
        holder.size += size
        if holder.keys is None:
            holder.items.append(node)
        elif holder.key is None:
            holder.key = node
        else:
            self._entry(holder, holder.key, node)
            holder.key = None

    def _entry(self, holder: _Open, key: Node, value: Node) -> None:
        assert holder.keys is not None
        if not isinstance(key, Scalar):
            message = "a list or a map stands where a name is expected"
            self.problems.append(error(key.span, "wrong-type", message, "write a name, a colon and a space before it"))
            return
        first = holder.keys.setdefault(key.text, key)
        if first is not key:
            message = f"the key {key.text} stands here already, on line {first.span.line}"
            self.problems.append(error(key.span, "duplicate-key", message, "delete one of the two"))
            return
        holder.entries.append((key, value))
