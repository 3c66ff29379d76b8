"""The page of laws that no van's computation uses names those, and no others."""

import ast
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src"
PAGE = ROOT / "docs" / "methods" / "laws.md"
PHYSICS = "hushwright.physics."

Place = tuple[str, str]
"""Module and name."""


def modules() -> dict[str, ast.Module]:
    """All of physics, and every module outside it that speaks of it."""
    texts = {path: path.read_text(encoding="utf-8") for path in (SOURCE / "hushwright").rglob("*.py")}
    return {
        ".".join(path.with_suffix("").relative_to(SOURCE).parts): ast.parse(text)
        for path, text in texts.items()
        if "hushwright.physics" in text or "physics" in path.parts
    }


def imported(module: ast.Module) -> dict[str, Place]:
    """Names of ours that a module imports, wherever in it."""
    return {
        alias.asname or alias.name: (node.module, alias.name)
        for node in ast.walk(module)
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("hushwright")
        for alias in node.names
    }


def named_at_top(module: ast.Module) -> dict[str, ast.stmt]:
    found: dict[str, ast.stmt] = {}
    for node in module.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            found[node.name] = node
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            stored = (part for part in ast.walk(node) if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Store))
            found |= {part.id: node for part in stored}
    return found


def read_in(node: ast.AST, name: str, tops: dict[str, ast.stmt], known: dict[str, Place]) -> set[Place]:
    """What a piece of a module reads: its own names, imported ones, and attributes of imported modules."""
    found: set[Place] = set()
    for part in ast.walk(node):
        if isinstance(part, ast.Name) and part.id in tops:
            found.add((name, part.id))
        elif isinstance(part, ast.Name) and part.id in known:
            found.add(known[part.id])
        elif isinstance(part, ast.Attribute) and isinstance(part.value, ast.Name) and part.value.id in known:
            found.add((".".join(known[part.value.id]), part.attr))
    return found


def unused_laws() -> set[str]:
    """Public functions of physics that nothing outside it reaches."""
    found = modules()
    reads: dict[Place, set[Place]] = {}
    waiting: list[Place] = []
    laws: set[Place] = set()
    for name, module in found.items():
        known = imported(module)
        if name.rpartition(".")[2].startswith("law"):
            continue  # tells and calls every law, so it proves nothing
        if not name.startswith(PHYSICS):
            waiting += [*known.values(), *read_in(module, name, {}, known)]
            continue
        tops = named_at_top(module)
        reads |= {(name, top): read_in(node, name, tops, known) for top, node in tops.items()}
        if not any(part.startswith("_") for part in name.split(".")):
            laws |= {(name, top) for top, node in tops.items()
                     if isinstance(node, ast.FunctionDef) and not top.startswith("_")}  # fmt: skip
    reached: set[Place] = set()
    while waiting:
        place = waiting.pop()
        if place not in reached:
            reached.add(place)
            waiting += reads.get(place, ())
    return {name for module, name in laws - reached}


def test_the_page_names_just_the_laws_that_no_computation_uses() -> None:
    rows = [line.split("|") for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    told = [name for row in rows for name in re.findall(r"`(?:[a-z_]+\.)?([a-z_]+)`", row[2])]
    assert set(told) == unused_laws(), "docs/methods/laws.md lists what nothing outside physics calls"
