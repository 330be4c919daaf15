"""The small faults that a file of the engine can have, those of mutmut, and how one is put in: for `mutants.py`.

Not counted, by rule: words (strings, and arguments or assignments that are nothing else), annotations and names of
types, imports, decorators, `__repr__`, and a zip's `strict=`, a guard that no input can trip. All else counts,
equivalent or not.
"""

from __future__ import annotations

import difflib
import sys
import warnings
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType, FunctionType

import libcst as cst
from libcst.metadata import MetadataWrapper, PositionProvider
from mutmut.mutation.mutators import mutation_operators

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, eq=False)
class Mutant:
    """One fault; `function` is empty in tables, fields and defaults."""

    path: Path
    function: str
    line: int
    tree: cst.Module
    node: cst.CSTNode
    changed: cst.CSTNode

    @cached_property
    def source(self) -> str:
        """The file with the fault in it."""
        return cst.ensure_type(self.tree.deep_replace(self.node, self.changed), cst.Module).code

    @property
    def room(self) -> str:
        """The folder it is in."""
        return str(self.path.parent.relative_to(ROOT))

    @property
    def drops(self) -> bool:
        """Whether an argument or a value is taken away, rather than a figure, a sign or a condition changed."""
        return isinstance(self.node, cst.Call | cst.Assign | cst.AnnAssign)

    def __str__(self) -> str:
        difference = difflib.unified_diff(self.tree.code.splitlines(), self.source.splitlines(), lineterm="", n=0)
        changes = [f"    {line}" for line in difference if not line.startswith(("---", "+++", "@@"))]
        return "\n".join([f"{self.path.relative_to(ROOT)}:{self.line}", *changes])


def mutants_of(path: Path) -> Iterator[Mutant]:
    """Every fault that a file can have."""
    wrapper = MetadataWrapper(cst.parse_module(path.read_text(encoding="utf-8")), unsafe_skip_copy=True)
    places = wrapper.resolve(PositionProvider)

    def inside(node: cst.CSTNode, scope: tuple[str, ...], function: str, line: int) -> Iterator[Mutant]:
        if uncounted(node):
            return
        line = places[node].start.line if node in places else line
        for kind, faults in mutation_operators:
            for changed in faults(node) if isinstance(node, kind) else ():
                if not takes_words(node, changed):
                    yield Mutant(path, function, line, wrapper.module, node, changed)
        if isinstance(node, cst.ClassDef | cst.FunctionDef):
            scope = (*scope, node.name.value)
        for child in node.children:
            body = isinstance(node, cst.FunctionDef) and child is node.body
            yield from inside(child, scope, function or (".".join(scope) if body else ""), line)

    yield from inside(wrapper.module, (), "", 1)


def uncounted(node: cst.CSTNode) -> bool:
    """Whether faults in this part say nothing about the tests."""
    match node:
        case cst.Annotation() | cst.Decorator() | cst.Import() | cst.ImportFrom() | cst.SimpleString():
            return True
        case cst.FunctionDef(name=cst.Name(value="__repr__")) | cst.Arg(keyword=cst.Name(value="strict")):
            return True
        case cst.Assign(targets=[cst.AssignTarget(target=cst.Name(value=name))]):
            return name[0].isupper() and not name.isupper()  # the name of a type
    return False


def takes_words(node: cst.CSTNode, changed: cst.CSTNode) -> bool:
    """Whether a fault only takes words away, or what does not count either."""
    if isinstance(node, cst.Assign | cst.AnnAssign):
        return isinstance(node.value, cst.BaseString)
    if not isinstance(node, cst.Call) or not isinstance(changed, cst.Call):
        return False
    kept = {id(argument.value) for argument in changed.args}
    taken = [argument for argument in node.args if id(argument.value) not in kept]
    return any(uncounted(argument) or isinstance(argument.value, cst.BaseString) for argument in taken)


def put_in(mutant: Mutant, functions: Iterable[FunctionType]) -> None:
    """Give the living functions the code with the fault in it."""
    made = {code.co_qualname: code for code in codes(compile(mutant.source, mutant.path, "exec"))}
    for function in functions:
        function.__code__ = made[mutant.function]


def codes(code: CodeType) -> Iterator[CodeType]:
    """A code and those inside it."""
    yield code
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from codes(part)


def import_anew(mutant: Mutant) -> None:
    """Forget what was imported of ours; who imports it again gets the fault."""
    warnings.simplefilter("ignore")  # the pytest to come sets its own
    for name, module in list(sys.modules.items()):
        file = Path(getattr(module, "__file__", None) or "/")
        if name != "__main__" and file.is_relative_to(ROOT) and not file.is_relative_to(sys.prefix):
            del sys.modules[name]
    as_written = SourceFileLoader.get_code

    def get_code(loader: SourceFileLoader, name: str) -> CodeType | None:
        return (
            compile(mutant.source, loader.path, "exec") if loader.path == str(mutant.path) else as_written(loader, name)
        )

    SourceFileLoader.get_code = get_code  # type: ignore[method-assign]
