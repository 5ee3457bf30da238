"""A plugin of mypy: a word that stands in no word list is a type error wherever it is compared.

mypy alone sees `kind == "tapplan"` when `kind` is a Literal. It does not see it in
`kind in ("tapplan",)`, in `"tapplan" in kinds`, in a table that is keyed by str, nor anywhere when
`kind` is a plain str. Here each of them is an error of the code `bare-word`. A constant with a name
is never one: its name cannot be misspelt. What compares text that people or other programs write
stands in `TEXT`, with the reason.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

from mypy.errorcodes import ErrorCode
from mypy.nodes import (
    ComparisonExpr,
    ConditionalExpr,
    DictExpr,
    Expression,
    IndexExpr,
    ListExpr,
    NameExpr,
    SetExpr,
    StrExpr,
)
from mypy.nodes import TupleExpr as TupleDisplay
from mypy.plugin import MethodContext, Plugin
from mypy.types import (
    AnyType,
    Instance,
    LiteralType,
    TupleType,
    Type,
    UnionType,
    get_proper_type,
)

BARE_WORD = ErrorCode("bare-word", "A word is compared that no word list holds", "Words")

TEXT = {
    "builder.cli.prompting": "names of questions, which are options of the command",
    "builder.cli.books": "what a person types",
    "builder.cli.creating": "names of options, as the library of commands has them",
    "builder.cli.interviewing": "what a person types",
    "builder.cli.site_server": "names of operating systems",
    "builder.editing.drafts.compact": "what a person types",
    "builder.editing.drafts.part_drafts": "answers as typed; the schema judges them",
    "builder.editing.drafts.part_lines": "what a person types",
    "builder.editing.drafts.vehicle_draft": "answers as typed; the schema judges them",
    "builder.pipeline.changing.record_files": "names of operating systems",
    "builder.pipeline.checking.workers": "names of ways to start a process",
    "builder.spreadsheets.xlsx_safety": "elements of workbooks",
}
"""Modules that compare plain text with words, and whose words those are."""

_WORD = re.compile(r"[a-z][a-z_. -]*[a-z]", re.IGNORECASE | re.ASCII)
_HOLDERS = tuple(f"builtins.{name}" for name in ("tuple", "list", "set", "frozenset", "dict"))
_HOLDERS += ("typing.Mapping", "typing.Sequence", "typing.AbstractSet", "typing.KeysView")
_LOOKUPS = tuple(f"{name}.{how}" for name in ("builtins.dict", "typing.Mapping")
                 for how in ("__getitem__", "get"))  # fmt: skip
_SET_COMPARISONS = tuple(
    f"{name}.__{how}__"
    for name in ("builtins.set", "builtins.frozenset")
    for how in ("eq", "ne", "le", "lt", "ge", "gt")
)
_TUPLE_COMPARISONS = ("builtins.tuple.__eq__", "builtins.tuple.__ne__")
Values = frozenset[str]


class TypedWords(Plugin):
    """Looks at every comparison, membership and lookup of a word."""

    def get_method_hook(self, fullname: str) -> Callable[[MethodContext], Type] | None:
        """Return what judges a call of the method, None for the others."""
        if fullname in ("builtins.str.__eq__", "builtins.str.__ne__"):
            return _compared
        if fullname in _SET_COMPARISONS:
            return _sets_compared
        if fullname in _TUPLE_COMPARISONS:
            return _tuples_compared
        if fullname in _LOOKUPS:
            return _looked_up
        if fullname.endswith(".__contains__") and fullname.rpartition(".")[0] in _HOLDERS:
            return _held
        return None


def plugin(version: str) -> type[Plugin]:
    """Return the plugin, as mypy asks for it."""
    return TypedWords


def _compared(ctx: MethodContext) -> Type:
    """`left == right`, either way round: mypy asks the right one when the left one fails."""
    one, other = get_proper_type(ctx.type), _argument(ctx)
    for word, kind in ((one, other), (other, one)):
        words = _words(word)
        if words is None or kind is None or not _plain(kind) or not any(map(is_word, words)):
            continue
        if _is_written(ctx):
            _tell(ctx, f"{_shown(words)} is compared with a plain str")
        elif isinstance(word, LiteralType):  # of a list; a named constant cannot be misspelt
            _tell(ctx, "a word of a list is compared with a plain str")
    return ctx.default_return_type


def _is_constant(ctx: MethodContext, given: Type | None) -> bool:
    """Whether the word has a name, which cannot be misspelt, instead of being written out."""
    return isinstance(given, Instance) and not _is_written(ctx)


def _is_written(ctx: MethodContext) -> bool:
    """Whether the word is written out in the comparison, where it could be misspelt."""
    return isinstance(ctx.context, ComparisonExpr) and any(
        isinstance(operand, StrExpr | ConditionalExpr) for operand in ctx.context.operands
    )


def _held(ctx: MethodContext) -> Type:
    """`left in right`."""
    given, holder = _argument(ctx), get_proper_type(ctx.type)
    if given is None or isinstance(given, AnyType) or _is_raw(holder):
        return ctx.default_return_type
    left, shown = _words(given), _displayed(ctx)
    if shown:
        _judge(ctx, shown, given)
    elif isinstance(given, TupleType) and isinstance(holder, Instance) and holder.args:
        _judge_items(ctx, ctx.args[0][0], holder.args[0])
    elif left and any(map(is_word, left)):
        _look_for(ctx, left, given, holder)
    return ctx.default_return_type


def _look_for(ctx: MethodContext, left: Values, given: Type, holder: Type) -> None:
    items = [holder.args[0]] if isinstance(holder, Instance) and holder.args else []
    items = list(holder.items) if isinstance(holder, TupleType) else items
    held = [_words(item) for item in items]
    if any(map(_plain, items)) and not _is_constant(ctx, given):
        _tell(ctx, f"{_shown(left)} is looked for among plain str")
    elif held and None not in held and not left & frozenset().union(*(w or () for w in held)):
        _tell(ctx, f"{_shown(left)} is never held there")


def _judge(ctx: MethodContext, shown: Values, kind: Type) -> None:
    """Report words that are written out and stand in no list of the type beside them."""
    words = _words(kind)
    if words and not shown <= words:
        _tell(ctx, f"{_shown(words)} can never be {_shown(shown - words)}")
    elif _plain(kind) and not _is_step(kind) and any(map(is_word, shown)):
        _tell(ctx, f"{_shown(shown)} is compared with a plain str")


def _sets_compared(ctx: MethodContext) -> Type:
    """`{a, b} <= words`: each side is a set of words of one list."""
    for node, kind in _displays(ctx):
        if isinstance(kind, Instance) and kind.args:
            _judge(ctx, _display_of(node) or frozenset(), kind.args[0])
    return ctx.default_return_type


def _tuples_compared(ctx: MethodContext) -> Type:
    """`(kind, id) == ("job", name)`, item by item."""
    for node, kind in _displays(ctx):
        _judge_items(ctx, node, kind)
    return ctx.default_return_type


def _displays(ctx: MethodContext) -> Iterator[tuple[Expression, Type]]:
    """Each side of a comparison that is written out, with the type of the other side."""
    operands = getattr(ctx.context, "operands", ())
    for node, other in zip(operands, operands[::-1], strict=True):
        if _display_of(node) is not None:
            yield node, get_proper_type(ctx.api.get_expression_type(other))


def _judge_items(ctx: MethodContext, node: Expression, kind: Type) -> None:
    kind = get_proper_type(kind)
    for at, item in enumerate(node.items if isinstance(node, TupleDisplay) else ()):
        if not isinstance(item, StrExpr):
            continue
        if isinstance(kind, TupleType) and at < len(kind.items):
            _judge(ctx, frozenset((item.value,)), kind.items[at])
        elif isinstance(kind, Instance) and kind.args:
            _judge(ctx, frozenset((item.value,)), kind.args[0])


def _is_step(kind: Type) -> bool:
    """Whether a text is a step of a path into raw data, which is a key or a number."""
    kind = get_proper_type(kind)
    return isinstance(kind, UnionType) and any(
        isinstance(item, Instance) and item.type.fullname == "builtins.int"
        for item in map(get_proper_type, kind.items)
    )


def _looked_up(ctx: MethodContext) -> Type:
    """`table[word]`; tables of raw data, whose values are Any, are their schema's affair."""
    table, words = get_proper_type(ctx.type), _words(_argument(ctx))
    if words is None or not any(map(is_word, words)) or not isinstance(table, Instance):
        return ctx.default_return_type
    if len(table.args) != 2 or _is_raw(table) or _is_named(ctx):
        return ctx.default_return_type
    keys = _display_of(ctx.context.base) if isinstance(ctx.context, IndexExpr) else None
    if keys is not None and not keys <= words:
        _tell(ctx, f"{_shown(words)} can never be {_shown(keys - words)}")
    elif keys is None and _plain(table.args[0]):
        _tell(ctx, f"{_shown(words)} is looked up in a table that is keyed by plain str")
    return ctx.default_return_type


def _is_named(ctx: MethodContext) -> bool:
    """Whether the key of a lookup is a constant with a name."""
    given = ctx.args[0][0] if ctx.args and ctx.args[0] else None
    return isinstance(given, NameExpr) and isinstance(_argument(ctx), Instance)


def _is_raw(table: Type) -> bool:
    """Whether this is data as read from a file: its keys are words of a schema."""
    if not isinstance(table, Instance) or len(table.args) != 2:
        return False
    value = get_proper_type(table.args[1])
    return isinstance(value, AnyType) or _is_raw(value)


def _argument(ctx: MethodContext) -> Type | None:
    return get_proper_type(ctx.arg_types[0][0]) if ctx.arg_types and ctx.arg_types[0] else None


def _displayed(ctx: MethodContext) -> Values | None:
    """The words of the tuple, list or set that is written out in this comparison."""
    if not isinstance(ctx.context, ComparisonExpr):
        return None
    for operator, right in zip(ctx.context.operators, ctx.context.operands[1:], strict=True):
        if operator in ("in", "not in"):
            return _display_of(right)
    return None


def _display_of(node: Expression) -> Values | None:
    if isinstance(node, TupleDisplay | ListExpr | SetExpr):
        return _texts(node.items)
    return _texts(key for key, _ in node.items) if isinstance(node, DictExpr) else None


def _texts(nodes: Iterable[Expression | None]) -> Values:
    return frozenset(node.value for node in nodes if isinstance(node, StrExpr))


def _words(kind: Type | None) -> Values | None:
    """The words that a type can be: None when it can be another text, too."""
    found = list(_each_value(kind)) if kind is not None else []
    return frozenset(text for text in found if text) if found and None not in found else None


def _each_value(kind: Type) -> Iterator[str | None]:
    kind = get_proper_type(kind)
    if isinstance(kind, UnionType):
        for item in kind.items:
            yield from _each_value(item)
    elif isinstance(kind, LiteralType):
        yield kind.value if isinstance(kind.value, str) else ""
    elif isinstance(kind, Instance) and kind.last_known_value is not None:
        yield from _each_value(kind.last_known_value)
    else:
        yield None if _plain(kind) or isinstance(kind, AnyType) else ""


def _plain(kind: Type) -> bool:
    kind = get_proper_type(kind)
    if isinstance(kind, UnionType):
        return any(map(_plain, kind.items))
    return (
        isinstance(kind, Instance)
        and kind.type.fullname == "builtins.str"
        and kind.last_known_value is None
    )


def is_word(text: object) -> bool:
    """Whether a text is a word, and not a mark, a figure or a piece of layout."""
    return isinstance(text, str) and _WORD.fullmatch(text) is not None


def _shown(words: Values) -> str:
    return " or ".join(map(repr, sorted(words)))


def _tell(ctx: MethodContext, said: str) -> None:
    """Report an error. mypy tries `in` with its errors held back, and drops them: not this one."""
    module = getattr(ctx.api, "tree").fullname  # noqa: B009
    if not module.startswith("builder.") or module in TEXT:
        return
    watching = getattr(ctx.api, "errors")._watchers  # noqa: B009
    held_back = [*watching]
    watching.clear()
    ctx.api.fail(said, ctx.context, code=BARE_WORD)
    watching.extend(held_back)
