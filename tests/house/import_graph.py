"""Who imports whom in the program, how many floors that makes, and where it goes round in a ring.

An import under ``TYPE_CHECKING`` never runs and does not count. An import inside a function counts like one
at the top of its file: it runs later, but a ring it closes is a ring all the same, since neither module can
be understood or moved without the other.
"""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from functools import partial

import grimp
from grimp import ImportGraph

Imports = Mapping[str, AbstractSet[str]]
"""Each module or package with those it imports; every name is a key."""


def imports(*packages: str) -> Imports:
    """The imports among the modules of the packages, which must be importable."""
    graph = grimp.build_graph(*packages, exclude_type_checking_imports=True, cache_dir=None)
    return {module: _imported(graph, module) for module in graph.modules}


def between_packages(modules: Imports, depth: int = 2) -> Imports:
    """The same imports from package to package: names cut to ``depth`` parts, imports of oneself left out."""
    cut = partial(_cut, depth=depth)
    packages: dict[str, set[str]] = {cut(module): set() for module in modules}
    for module, imported in modules.items():
        packages[cut(module)].update(map(cut, imported))
    return {package: imported - {package} for package, imported in packages.items()}


def within(modules: Imports, package: str) -> Imports:
    """The imports among the modules of one package, as if there were no other."""
    inside = {module for module in modules if module.split(".")[0] == package}
    return {module: modules[module] & inside for module in inside}


def longest_chain(modules: Imports) -> tuple[str, ...]:
    """The most modules in a row, each importing the next; a ring is one floor of it, by its first name."""
    rings = strongly_connected(modules)
    ring_of = {module: ring for ring in rings for module in ring}
    chains: dict[tuple[str, ...], tuple[str, ...]] = {}
    for ring in rings:  # imported before importing
        below = {ring_of[imported] for module in ring for imported in modules[module]} - {ring}
        chains[ring] = (ring[0], *max((chains[each] for each in below), key=_most_modules, default=()))
    return max(chains.values(), key=_most_modules, default=())


def cycles(modules: Imports) -> list[tuple[str, ...]]:
    """The groups of two or more that reach each other by imports, and whatever imports itself."""
    return [ring for ring in strongly_connected(modules) if len(ring) > 1 or ring[0] in modules[ring[0]]]


def strongly_connected(modules: Imports) -> list[tuple[str, ...]]:
    """Strongly connected components, names in order, a component after all it imports (Tarjan 1972)."""
    number: dict[str, int] = {}
    lowest: dict[str, int] = {}
    open_names: list[str] = []
    found: list[tuple[str, ...]] = []

    def visit(name: str) -> None:
        number[name] = lowest[name] = len(number)
        open_names.append(name)
        for imported in sorted(modules[name]):
            if imported not in number:
                visit(imported)
            if imported in open_names:
                lowest[name] = min(lowest[name], lowest[imported])
        if lowest[name] == number[name]:
            start = open_names.index(name)
            found.append(tuple(sorted(open_names[start:])))
            del open_names[start:]

    for name in sorted(modules):
        if name not in number:
            visit(name)
    return found


def _imported(graph: ImportGraph, module: str) -> set[str]:
    return {name for name in graph.find_modules_directly_imported_by(module) if name in graph.modules}


def _cut(module: str, depth: int) -> str:
    return ".".join(module.split(".")[:depth])


def _most_modules(chain: tuple[str, ...]) -> tuple[int, tuple[str, ...]]:
    return len(chain), chain
