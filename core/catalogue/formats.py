"""The catalogue of formats: files turned into records; a gap is refused by file and key.

The formats of a shop's own, kept in its settings, come in beside those of the program and may borrow from
them. Which are in force belongs to the whole process, as its language does (`core.wording.editions`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from core.catalogue import amounts, format_checks, marking_rules, markings
from core.catalogue.cassettes import Footprint, Format, Shell
from core.catalogue.format_file import AmountEntry, Figure, FormatFile, ShellSize, SpeedEntry
from core.catalogue.markings import Sourced, Speeds, TapeSpeed
from core.model import resource_files
from core.model.errors import WrongInput, at, missing, nothing, one_of
from core.model.names import FormatName, Speed
from core.model.own_shop.settings_records import OwnFormat
from core.model.shaped_toml import ROOM, read, shaped
from core.wording import editions
from core.wording.messages import say

Pages = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True)
class Catalogue:
    """Every format the shop knows, in the order of the counter."""

    formats: tuple[Format, ...]
    retired: frozenset[FormatName] = frozenset()
    """Of the shop's own, not taken in any more."""

    @property
    def offered(self) -> tuple[Format, ...]:
        """What may be taken in."""
        return tuple(entry for entry in self.formats if entry.name not in self.retired)

    @property
    def names(self) -> tuple[FormatName, ...]:
        return tuple(entry.name for entry in self.formats)

    def format(self, name: str) -> Format:
        """The format called ``name``; WrongInput, naming all of them, when there is none."""
        for entry in self.formats:
            if entry.name == name:
                return entry
        raise WrongInput("format", name, one_of(self.names))


def catalogue() -> Catalogue:
    """The formats of the program, read at the first call, and those of the shop that are in force."""
    return _in_force[0] or shipped()


@cache
def shipped() -> Catalogue:
    """The formats that come with the program."""
    return Catalogue(load(_folder()))


def put_in_force(own: tuple[OwnFormat, ...]) -> None:
    """From now on these formats of the shop's own are known beside those of the program.

    One that does not fit any more, because the program has changed, is left out rather than the whole shop.
    """
    if own == _own[0]:
        return
    fitting: tuple[OwnFormat, ...] = ()
    for form in own:
        try:
            of_own((*fitting, form))
        except WrongInput:
            continue
        fitting = (*fitting, form)
    _own[0], _in_force[0] = own, of_own(fitting) if fitting else None
    editions.use(editions.FORMATS, fitting)


_own: list[tuple[OwnFormat, ...]] = [()]
_in_force: list[Catalogue | None] = [None]


@lru_cache(maxsize=32)
def of_own(own: tuple[OwnFormat, ...]) -> Catalogue:
    """The program's formats and these; WrongInput, the file called ``NAME.toml``, for what does not fit."""
    pages = dict(_pages((_folder(),)))
    for form in own:
        tables = form.tables
        if form.name in pages:
            raise WrongInput(at(f"{form.name}.toml", "name"), form.name, say(ROOM, "format-name-taken"))
        if not tables.get("words", {}).get("name"):
            raise missing(at(f"{form.name}.toml", "words"), "name", say(ROOM, "not-empty"))
        pages[form.name] = {"systems": {form.name: 1.0}, **tables}
    made = Catalogue(_made(pages), frozenset(FormatName(form.name) for form in own if form.retired))
    _check_told_apart(made, own)
    return made


def _check_told_apart(made: Catalogue, own: tuple[OwnFormat, ...]) -> None:
    """WrongInput for a name that another format is called by, too: nobody could type either."""
    for form in own:
        others = [each for each in made.formats if each.name != form.name]
        called = {markings.bare(words) for each in others for words in (each.name, each.words)}
        if markings.bare(form.words) in called or not markings.bare(form.words):
            raise WrongInput(
                at(f"{form.name}.toml", "words", "name"), form.words, say(ROOM, "format-words-taken")
            )


def _folder() -> Path:
    return resource_files.path("catalogue", "formats")


def load(*folders: Path) -> tuple[Format, ...]:
    """The formats of all these folders, in the order of the counter; a file is named as its format.

    WrongInput for a file that cannot be read, a key that is missing, unknown or out of range, a name that
    nothing is called, and a format that is in two folders.
    """
    return _made(_pages(folders))


def _made(pages: Pages) -> tuple[Format, ...]:
    files = {name: _shaped(pages, name, f"{name}.toml") for name in _lenders_first(pages)}
    speeds = {name: _speeds(f"{name}.toml", file.speeds) for name, file in files.items()}
    for name, file in files.items():
        format_checks.check(f"{name}.toml", name, file, files, speeds)
        format_checks.check_words(f"{name}.toml", _word_names(pages, name), file)
    ordered = sorted(files, key=lambda name: (files[name].counter_place, name))
    made = tuple(_format(FormatName(name), files[name], speeds, _word_names(pages, name)) for name in ordered)
    for form in made:
        marking_rules.check(f"{form.name}.toml", form.rules)
    return made


def _shaped(pages: Pages, name: str, where: str) -> FormatFile:
    page = _filled(pages, name)
    if "amount" in page:
        entry = shaped(page["amount"], AmountEntry, at(where, "amount"))
        page = amounts.written_out(page, entry, name, where)
    return shaped(page, FormatFile, where)


def _pages(folders: tuple[Path, ...]) -> Pages:
    found: dict[str, Mapping[str, Any]] = {}
    for path in (path for folder in folders for path in sorted(folder.glob("*.toml"))):
        if path.stem in found:
            raise WrongInput(str(path), path.stem, say(ROOM, "one-folder"))
        found[path.stem] = read(path)
    return found


def _lenders_first(pages: Pages) -> Iterator[str]:
    """Every name after those it borrows from, so that a gap is named where it is."""
    done: set[str] = set()
    while left := [name for name in pages if name not in done]:
        ready = [name for name in left if pages[name].get("like", name) in (name, *done)]
        if not ready:
            lender = pages[left[0]]["like"]
            names = ", ".join(sorted(set(pages) - {left[0]}))
            raise WrongInput(at(f"{left[0]}.toml", "like"), lender, say(ROOM, "one-of-no-ring", names=names))
        yield from ready
        done.update(ready)


def _filled(pages: Pages, name: str) -> Mapping[str, Any]:
    """The file with what it borrows: key by key, in a table key by key, whatever lies deeper as a whole."""
    own = {key: value for key, value in pages[name].items() if key != "like"}
    lender = pages[name].get("like", name)
    if lender == name:
        return own
    lent = _filled(pages, lender)
    tables = {
        key: {**lent[key], **own[key]} for key in own if _is_table(own[key]) and _is_table(lent.get(key))
    }
    return {**lent, **own, **{key: table for key, table in tables.items() if key != "systems"}}


def _word_names(pages: Pages, name: str) -> tuple[str, ...]:
    lender = pages[name].get("like", name)
    return (name,) if lender == name else (name, *_word_names(pages, lender))


def _is_table(value: object) -> bool:
    return isinstance(value, dict)


def _speeds(where: str, entries: tuple[SpeedEntry, ...]) -> tuple[TapeSpeed, ...]:
    found: list[TapeSpeed] = []
    for n, entry in enumerate(entries, 1):
        mm_s = entry.mm_s
        if entry.of_sp is not None:
            of = [each.mm_s.value for each in found if each.speed is Speed.SP and each.tv is entry.tv]
            mm_s = round(of[0] * entry.of_sp[0] / entry.of_sp[1], 9) if of else None
        if mm_s is None:
            raise WrongInput(at(where, f"speeds {n}"), nothing(), say(ROOM, "speed-or-part"))
        found.append(TapeSpeed(entry.speed, entry.tv, Sourced(mm_s, entry.source, entry.mark)))
    return tuple(found)


def _format(
    name: FormatName,
    file: FormatFile,
    speeds: Speeds,
    word_names: tuple[str, ...],
) -> Format:
    borrowed = (entry for system in file.systems for entry in speeds[system])
    listed = tuple(markings.of_file(file, speeds))
    return Format(
        name=name,
        sides=file.sides,
        systems=tuple(FormatName(system) for system in file.systems),
        shells=tuple(_shell(shell) for shell in file.shells),
        tape_width_mm=_sourced(file.tape_width) if file.tape_width else None,
        tape_speeds=speeds[name] or tuple(dict.fromkeys(borrowed)),
        footprints=tuple(
            Footprint(entry.tv, Sourced(entry.mm, entry.source, entry.mark)) for entry in file.footprints
        ),
        markings=listed,
        record=file,
        word_names=word_names,
        rules=marking_rules.of_file(file, speeds, listed),
    )


def _sourced(figure: Figure) -> Sourced[float]:
    return Sourced(figure.value, figure.source, figure.mark)


def _shell(shell: ShellSize) -> Shell:
    return Shell(Sourced(shell.mm, shell.source, shell.mark))
