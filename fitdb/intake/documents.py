"""YAML or JSON as a tree in which everything knows its place: row, column and JSON pointer.

The tree is built from the parser's events, never by recursion and never by constructing objects, so a deep, a
self-repeating or a tagged file is a fault that is named and nothing else. Scalars stay as typed: `yes` is not turned
into true, nor `1:30` into ninety.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fitdb.intake.nearest import shortened
from fitdb.model.problems import Problem

MOST_BYTES = 1_000_000
MOST_VALUES = 100_000
DEEPEST = 16
UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\u2028\u2029\ufffe\uffff]")
BRACKETS = re.compile(r"[\[\]{}]")
SURROGATES = re.compile(r"\\u([dD][89abAB][0-9a-fA-F]{2})\\u([dD][c-fC-F][0-9a-fA-F]{2})")

Scalar = str | int | float | bool | None


@dataclass(slots=True)
class Entry:
    """A key of a mapping, where it stands, and its value."""

    key: str
    row: int | None
    column: int | None
    node: Node


@dataclass(slots=True)
class Node:
    """A value and its place, counted from 1 (None for decoded data); `kind` is mapping, list or scalar."""

    kind: str
    path: str
    row: int | None
    column: int | None
    value: Scalar = None
    entries: list[Entry] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)

    def entry(self, key: str) -> Entry | None:
        return next((entry for entry in self.entries if entry.key == key), None)


def placed(code: str, message: str, node: Node | Entry, hint: str = "", file_name: str = "") -> Problem:
    """A Problem at the place of a node, or of the key of an entry."""
    path = node.path if isinstance(node, Node) else node.node.path
    column = "" if node.column is None else str(node.column)
    return Problem(code, message, path=path, file=file_name, row=node.row, column=column, hint=hint)


def step(path: str, key: str | int) -> str:
    """The JSON pointer one step further (RFC 6901)."""
    return f"{path}/{str(key).replace('~', '~0').replace('/', '~1')}"


def tree_of_text(text: str, file_name: str = "") -> tuple[Node | None, tuple[Problem, ...]]:
    """The document in `text` (YAML, or JSON which is written like it), and what is wrong with its form."""
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        what = f"The file is larger than {MOST_BYTES // 1_000_000} MB."
        return None, (Problem("too_large", what, file=file_name, hint="Split it into several files."),)
    text = text.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}")
    unprintable = UNPRINTABLE.search(text)
    if unprintable:
        row, column = _place(text, unprintable.start())
        what = f"The file holds the control character U+{ord(unprintable.group()):04X}."
        problem = Problem("control_character", what, file=file_name, row=row, column=str(column), hint="Delete it.")
        return None, (problem,)
    too_deep = _bracket_too_deep(text)
    if too_deep is not None:
        row, column = _place(text, too_deep)
        return None, (_too_deep(file_name, row, column),)
    if text.lstrip()[:1] in ("{", "["):
        # JSON may be indented with tabs, which YAML forbids, and writes characters beyond U+FFFF as two escapes.
        text = SURROGATES.sub(_one_escape, text.replace("\t", " "))
    return _TreeFromEvents(file_name).build(text)


def tree_of_data(data: object, file_name: str = "") -> tuple[Node | None, tuple[Problem, ...]]:
    """The same tree from JSON that is already decoded; its places are JSON pointers alone."""
    root = Node("scalar", "", None, None)
    problems: list[Problem] = []
    waiting: list[tuple[object, Node, int]] = [(data, root, 1)]
    values = 0
    while waiting:
        value, node, depth = waiting.pop()
        values += 1
        if depth > DEEPEST:
            return None, (_too_deep(file_name, None, None, node.path),)
        if values > MOST_VALUES:
            return None, (_too_many(file_name),)
        if isinstance(value, Mapping):
            node.kind = "mapping"
            for key, inner in value.items():
                child = Node("scalar", step(node.path, shortened(str(key), 80)), None, None)
                node.entries.append(Entry(str(key), None, None, child))
                waiting.append((inner, child, depth + 1))
        elif isinstance(value, list | tuple):
            node.kind = "list"
            for index, inner in enumerate(value):
                child = Node("scalar", step(node.path, index), None, None)
                node.items.append(child)
                waiting.append((inner, child, depth + 1))
        elif value is None or isinstance(value, str | int | float | bool):
            node.value = value
        else:
            what = f"A {type(value).__name__} is neither text, number, list nor mapping."
            problems.append(placed("not_json", what, node, file_name=file_name))
    return root, tuple(problems)


def plain_value(node: Node) -> Any:
    """The node as Python lists, dicts and scalars (the depth is capped already)."""
    if node.kind == "mapping":
        return {entry.key: plain_value(entry.node) for entry in node.entries}
    if node.kind == "list":
        return [plain_value(item) for item in node.items]
    return node.value


@dataclass(slots=True)
class _Open:
    """A mapping or list whose end has not been read yet; `key` waits for its value."""

    node: Node
    key: Entry | None = None
    seen: dict[str, Entry] = field(default_factory=dict)
    keep: bool = True


class _TreeFromEvents:
    """Builds one tree from the parser's events and notes every fault on the way."""

    def __init__(self, file_name: str) -> None:
        self.file_name = file_name
        self.problems: list[Problem] = []
        self.root: Node | None = None
        self.open: list[_Open] = []

    def build(self, text: str) -> tuple[Node | None, tuple[Problem, ...]]:
        import yaml

        loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
        documents = values = 0
        try:
            for event in yaml.parse(text, Loader=loader):
                if isinstance(event, yaml.DocumentStartEvent):
                    documents += 1
                    if documents > 1:
                        self._fault("several_documents", "A second document starts here.", event, "Keep one per file.")
                        break
                elif isinstance(event, yaml.CollectionEndEvent):
                    self.open.pop()
                elif isinstance(event, yaml.NodeEvent):
                    values += 1
                    if values > MOST_VALUES:
                        return None, (*self.problems, _too_many(self.file_name))
                    if len(self.open) >= DEEPEST and not isinstance(event, yaml.ScalarEvent | yaml.AliasEvent):
                        deep = _too_deep(self.file_name, *_mark(event))
                        return None, (*self.problems, deep)
                    self._node(event, yaml)
        except yaml.YAMLError as error:
            self.problems.append(self._syntax(error))
            return None, tuple(self.problems)
        if self.root is None and not self.problems:
            hint = "It starts with `part:`."
            self.problems.append(Problem("empty", "The file holds nothing.", file=self.file_name, hint=hint))
        return self.root, tuple(self.problems)

    def _node(self, event: Any, yaml: Any) -> None:
        if isinstance(event, yaml.AliasEvent):
            self._fault("alias_refused", f"`*{shortened(event.anchor)}` repeats another place.", event, "Write it out.")
            node = Node("scalar", self._path(), *_mark(event))
            if self._awaits_key():
                self._swallow(node)
            else:
                self._place_node(node)
            return
        if event.anchor:
            what = f"`&{shortened(event.anchor)}` names a place to repeat."
            self._fault("alias_refused", what, event, "Leave it out.")
        if event.tag is not None:
            self._fault("tag_refused", f"`{shortened(event.tag)}` sets a type.", event, "Leave the `!` tag out.")
        if isinstance(event, yaml.ScalarEvent):
            if self._awaits_key():
                self._key(event)
                return
            value: Scalar = event.value
            if not event.style and event.value in ("", "~", "null", "Null", "NULL"):
                value = None
            self._place_node(Node("scalar", self._path(), *_mark(event), value=value))
            return
        if self._awaits_key():
            self._fault("odd_key", "A list or mapping stands where a name is wanted.", event, "Write `name: value`.")
            node = Node("mapping" if isinstance(event, yaml.MappingStartEvent) else "list", self._path(), *_mark(event))
            self._swallow(node)
            self.open.append(_Open(node))
            return
        kind = "mapping" if isinstance(event, yaml.MappingStartEvent) else "list"
        node = Node(kind, self._path(), *_mark(event))
        self._place_node(node)
        self.open.append(_Open(node))

    def _swallow(self, node: Node) -> None:
        """Takes `node` as a key whose value will not be kept."""
        self.open[-1].key = Entry("", node.row, node.column, node)
        self.open[-1].keep = False

    def _awaits_key(self) -> bool:
        return bool(self.open) and self.open[-1].node.kind == "mapping" and self.open[-1].key is None

    def _key(self, event: Any) -> None:
        top = self.open[-1]
        row, column = _mark(event)
        value = Node("scalar", step(top.node.path, shortened(event.value, 80)), row, column)
        top.key = Entry(event.value, row, column, value)
        top.keep = event.value not in top.seen
        if not top.keep:
            first = top.seen[event.value]
            what = f"`{shortened(event.value)}` is written twice; the first is in row {first.row}."
            self.problems.append(placed("duplicate_key", what, top.key, "Keep one of the two.", self.file_name))
        top.seen.setdefault(event.value, top.key)

    def _path(self) -> str:
        if not self.open:
            return ""
        top = self.open[-1]
        if top.node.kind == "list":
            return step(top.node.path, len(top.node.items))
        return top.key.node.path if top.key else top.node.path

    def _place_node(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        top = self.open[-1]
        if top.node.kind == "list":
            top.node.items.append(node)
        elif top.key is not None:
            top.key.node = node
            if top.keep:
                top.node.entries.append(top.key)
            top.key, top.keep = None, True

    def _fault(self, code: str, message: str, event: Any, hint: str) -> None:
        row, column = _mark(event)
        problem = Problem(code, message, path=self._path(), file=self.file_name, row=row, column=str(column), hint=hint)
        self.problems.append(problem)

    def _syntax(self, error: Any) -> Problem:
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read")
        row, column = (mark.line + 1, mark.column + 1) if mark else (None, None)
        if "nesting depth" in said:
            return _too_deep(self.file_name, row, column)
        what = f"The file is neither YAML nor JSON from here on: {said}."
        hint = "Look for a missing colon, quote or bracket, or a tab used to indent; nothing after it was checked."
        place = "" if column is None else str(column)
        return Problem("not_yaml", what, file=self.file_name, row=row, column=place, hint=hint)


def _mark(event: Any) -> tuple[int, int]:
    return event.start_mark.line + 1, event.start_mark.column + 1


def _place(text: str, index: int) -> tuple[int, int]:
    return text.count("\n", 0, index) + 1, index - (text.rfind("\n", 0, index) + 1) + 1


def _bracket_too_deep(text: str) -> int | None:
    """Where brackets first stand far deeper than any part file, whatever is quoted; spares the parser the attempt."""
    depth = 0
    for match in BRACKETS.finditer(text):
        depth += 1 if match.group() in "[{" else -1
        if depth > 10 * DEEPEST:
            return match.start()
        depth = max(depth, 0)
    return None


def _one_escape(match: re.Match[str]) -> str:
    high, low = int(match[1], 16), int(match[2], 16)
    return f"\\U{0x10000 + ((high - 0xD800) << 10) + (low - 0xDC00):08X}"


def _too_deep(file_name: str, row: int | None, column: int | None, path: str = "") -> Problem:
    what = f"The file is nested more than {DEEPEST} levels deep."
    place = "" if column is None else str(column)
    hint = "A part needs five levels at most."
    return Problem("too_deep", what, path=path, file=file_name, row=row, column=place, hint=hint)


def _too_many(file_name: str) -> Problem:
    what = f"The file holds more than {MOST_VALUES} values."
    return Problem("too_large", what, file=file_name, hint="Split it into several files.")
