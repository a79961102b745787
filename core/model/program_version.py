"""Which version of the program this is."""

from __future__ import annotations

from pathlib import Path


def version() -> str:
    """The version of the installed program; of the checkout where it is not installed."""
    from importlib import metadata  # takes 15 ms to import, and the window is painted first

    try:
        return metadata.version("tapewright")
    except metadata.PackageNotFoundError:
        import tomllib

        project = Path(__file__).parents[2] / "pyproject.toml"
        return str(tomllib.loads(project.read_text(encoding="utf-8"))["project"]["version"])
