"""Puts a changed function into the program that runs: its code only, so that all who have it are changed."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from types import CodeType, FunctionType

from tests.mutants.mutated_source import Module

_Key = tuple[str, str]


def functions(modules: Iterator[str]) -> dict[_Key, list[FunctionType]]:
    """Functions and methods of the modules by module and qualified name."""
    found: dict[_Key, list[FunctionType]] = {}
    for name in modules:
        for value in list(vars(sys.modules[name]).values()):
            for function in _within(value, name):
                places = found.setdefault((name, function.__qualname__), [])
                if function not in places:
                    places.append(function)
    return found


def _within(value: object, module: str) -> Iterator[FunctionType]:
    if isinstance(value, type) and value.__module__ == module:
        for inner in list(vars(value).values()):
            yield from _within(inner, module)
        return
    function = _unwrapped(value)
    if isinstance(function, FunctionType) and function.__module__ == module:
        yield function


def _unwrapped(value: object) -> object:
    """The function inside what a decorator made of it."""
    for name in ("fget", "__func__", "func", "__wrapped__"):
        inner = getattr(value, name, None)
        if callable(inner) and not isinstance(value, type):
            return _unwrapped(inner)
    return value


def caches(modules: Iterator[str]) -> list[object]:
    """What the modules remember; each can be told to forget."""
    found = []
    for name in modules:
        for value in list(vars(sys.modules[name]).values()):
            inner = list(vars(value).values()) if isinstance(value, type) else [value]
            found += [each for each in inner if hasattr(each, "cache_clear")]
    return found


def forget(remembering: list[object]) -> None:
    """Let every one of `caches` forget its answers."""
    for each in remembering:
        each.cache_clear()  # type: ignore[attr-defined]


def put_in(name: str, module: Module, known: Mapping[_Key, list[FunctionType]]) -> bool:
    """Give a function the code that the changed tree has for it; False where it is not found."""
    found, code = known.get((module.name, name), []), _named(module.compiled(), name)
    if code is None or not found or any(each.__code__.co_freevars != code.co_freevars for each in found):
        return False
    for function in found:
        function.__code__ = code
    return True


def _named(code: CodeType, function: str) -> CodeType | None:
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            if inner.co_qualname == function:
                return inner
            if function.startswith(f"{inner.co_qualname}.") and (deeper := _named(inner, function)):
                return deeper
    return None
