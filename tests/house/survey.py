"""All figures of a house, each with the bound of the house rules."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.house import dead_code, import_graph, source_files
from tests.house.figures import Figure, longest, spread
from tests.house.import_graph import Imports
from tests.house.source_files import SourceFile

PROGRAM = ("core", "gui")
TREE = ("core", "gui", "resources", "tests")
OFTEN = {"__init__.py", "__main__.py", "conftest.py"}
"""File names that Python and pytest ask for in many folders."""


def figures(root: Path) -> list[Figure]:
    """Every figure of the house at ``root``, whose packages must be the ones that are importable."""
    program = source_files.read(root, PROGRAM)
    graph = import_graph.imports(*PROGRAM)
    return [
        *_folders(root),
        *_imports(graph),
        *_lengths(program),
        *_names(root, program),
        _type_ignores(program),
        _dead_code(program, source_files.read(root, ("resources",))),
    ]


def _folders(root: Path) -> Iterator[Figure]:
    shelves = [path.parent.name for path in (root / "core").glob("*/__init__.py")]
    yield Figure("packages_of_core", "packages directly under core", len(shelves), 12)
    sizes = Counter(str(path.parent) for path in source_files.files(root, TREE))
    counted = [(size, folder) for folder, size in sizes.items()]
    yield Figure("largest_folder", "files in the largest folder", max(sizes.values()), 40, longest(counted))


def _imports(graph: Imports) -> Iterator[Figure]:
    for part in PROGRAM:
        chain = import_graph.longest_chain(import_graph.within(graph, part))
        words = f"import floors of {part} alone (longest chain)"
        yield Figure(f"floors_of_{part}", words, len(chain), 15, chain)
    chain = import_graph.longest_chain(graph)
    yield Figure(
        "floors_of_all", "import floors of both together (told, only falls)", len(chain), None, chain
    )
    yield _cycles("module_cycles", "import cycles between modules", graph)
    packages = import_graph.between_packages(graph)
    yield _cycles("package_cycles", "import cycles between packages", packages)


def _cycles(key: str, words: str, graph: Imports) -> Figure:
    found = import_graph.cycles(graph)
    return Figure(key, words, len(found), 0, tuple(" ⇄ ".join(ring) for ring in found))


def _lengths(program: Sequence[SourceFile]) -> Iterator[Figure]:
    files = [(file.length, str(file.path)) for file in program]
    median, most = spread([length for length, _ in files])
    yield Figure("file_median", "lines of a file, median", median, 130)
    yield Figure("file_p90", "lines of a file, 90th percentile", most, 260, longest(files))
    functions = list(_functions(program))
    median, most = spread([length for length, _ in functions])
    yield Figure("function_median", "lines of a function, median", median, 8)
    yield Figure("function_p90", "lines of a function, 90th percentile", most, 15, longest(functions))
    made = list(_constructors(program))
    yield Figure(
        "widget_constructor", "lines of the longest constructor in gui", max(made)[0], 25, longest(made)
    )


def _functions(program: Sequence[SourceFile]) -> Iterator[tuple[int, str]]:
    for file in program:
        for node in file.functions():
            yield source_files.length(node), f"{file.path}:{node.lineno} {node.name}"


def _constructors(program: Sequence[SourceFile]) -> Iterator[tuple[int, str]]:
    for file in program:
        if file.path.parts[0] == "gui":
            for kind in file.classes():
                for node in kind.body:
                    if isinstance(node, source_files.Function) and node.name == "__init__":
                        yield source_files.length(node), f"{file.path}:{node.lineno} {kind.name}"


def _names(root: Path, program: Sequence[SourceFile]) -> Iterator[Figure]:
    places: dict[str, list[str]] = defaultdict(list)
    for path in source_files.files(root, TREE):
        if path.name not in OFTEN:
            places[path.name].append(str(path.parent))
    yield _repeated("file_names_twice", "file names used more than once", places)
    homes: dict[str, list[str]] = defaultdict(list)
    for file in program:
        for kind in file.classes():
            if not kind.name.startswith("_"):
                homes[kind.name].append(str(file.path))
    yield _repeated("class_names_twice", "public class names defined more than once", homes)


def _repeated(key: str, words: str, places: dict[str, list[str]]) -> Figure:
    repeated = {name: where for name, where in sorted(places.items()) if len(where) > 1}
    told = tuple(f"{name}: {', '.join(where)}" for name, where in repeated.items())
    return Figure(key, words, len(repeated), 0, told)


def _type_ignores(program: Sequence[SourceFile]) -> Figure:
    lines = sum(file.length for file in program)
    ignores = [(file.type_ignores, str(file.path)) for file in program if file.type_ignores]
    share = round(1000 * sum(count for count, _ in ignores) / lines, 2)
    return Figure("type_ignores", f"type ignores in 1,000 of {lines:,} lines", share, 0.1, longest(ignores))


def _dead_code(program: Sequence[SourceFile], other: Sequence[SourceFile]) -> Figure:
    core = [file for file in program if file.path.parts[0] == "core" and "migrations" not in file.path.parts]
    unused = dead_code.unused(core, [*program, *other])
    return Figure("dead_code", "public names of core that no program uses", len(unused), 0, tuple(unused))
