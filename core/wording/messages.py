"""Says a sentence of the wording files: ``say("pickup", "done", name="Ada")``.

One thing here belongs to the whole process: the language and locale in which it speaks. They are set once,
when the shop is known, as gettext and Qt's translators do. The alternative is a parameter through some 2,000
calls, none of which ever has another answer; context variables do not do, for a thread of Qt starts with an
empty context. What is in another language, as a paper is in its customer's, names it with ``language=``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import _CacheInfo, cache, lru_cache, update_wrapper
from typing import Concatenate, Generic, NamedTuple, ParamSpec, TypeVar, cast

from core.wording import editions, message_files, pseudo_language, spelling
from core.wording.message_files import Blank, Message, OwnMessages, Selected

P = ParamSpec("P")
R = TypeVar("R")

BASE = "en"
"""The language that has every sentence; its spelling is American."""

_LATIN_DIGITS = frozenset({"en", "de", "es", "fr", "xx"})
"""Languages in which a whole number below 1,000 is written as Python writes it (CLDR, checked by a test)."""


class MissingWording(LookupError):
    """No wording file has this sentence, or it was asked without something that it names."""


class Speech(NamedTuple):
    """A language, and the locale whose order and signs its figures follow: ``en`` with ``en_GB``.

    A tuple because every sentence looks its page up by it: a dataclass takes seven times as long to hash.
    """

    language: str
    locale: str
    own: OwnMessages | None = None
    """The shop's own sentences in this language (see `own_words`)."""


_process = [Speech(BASE, "en_US")]


def use(language: str, locale: str | None = None, own: OwnMessages | None = None) -> None:
    """Speaks ``language`` from now on (``de``, ``en-GB``, ``xx``), figures by ``locale`` if given.

    ``own``: the shop's own sentences over the built-in ones.
    """
    spoken = speech(language) if locale is None else Speech(language, locale.replace("-", "_"))
    _process[0] = spoken._replace(own=own)


def current() -> Speech:
    """What the process speaks now."""
    return _process[0]


@lru_cache(maxsize=256)
def speech(language: str) -> Speech:
    """A language tag with the locale it implies: ``en`` is American, the pseudo-language too."""
    tag = language.replace("-", "_")
    return Speech(tag, "en_US" if tag in (BASE, pseudo_language.TAG) else tag)


def say(room: str, key: str, /, language: str | Speech | None = None, **fill: object) -> str:
    """The sentence ``key`` of the wording file ``room`` with its blanks filled, numbers by locale.

    Said as the process speaks; in a ``language`` named by its tag without the shop's own sentences.

    A sentence that the language lacks is said in English. MissingWording when English lacks it too, or when
    ``fill`` lacks something that the sentence names.
    """
    spoken = _spoken(language)
    message = _room(spoken, room).get(key)
    if isinstance(message, str):
        return message
    if isinstance(message, tuple):
        return "".join(
            [part if isinstance(part, str) else _filled(part, fill, spoken, room, key) for part in message]
        )
    if message is None:
        raise MissingWording(f"no sentence {key!r} in {room}.ftl")
    try:
        return _selected(message, **{name: _for_fluent(value) for name, value in fill.items()})
    except LookupError as wrong:
        raise MissingWording(f"{room}.ftl: {key!r}: {wrong}") from wrong


def knows(room: str, key: str, language: str | None = None) -> bool:
    """Whether there is such a sentence: names that a shop adds have words of their own."""
    return key in _room(_process[0] if language is None else speech(language), room)


def rooms() -> tuple[str, ...]:
    """The wording files, by their names."""
    folders = [message_files.FOLDER / BASE / place for place in message_files.PLACES]
    return tuple(sorted(file.stem for folder in folders for file in folder.glob("*.ftl")))


def built_in(room: str, language: str) -> Mapping[str, Message]:
    """The sentences that come with the program, by their keys; none for a room there is not."""
    return _room(speech(language), room) if room in rooms() else {}


def _spoken(language: str | Speech | None) -> Speech:
    if language is None:
        return _process[0]
    return speech(language) if isinstance(language, str) else language


class WordedCache(Generic[P, R]):
    """A function whose answers are remembered by its arguments, the process's language and its edition."""

    def __init__(self, make: Callable[P, R], maxsize: int) -> None:
        def made(speech: Speech, edition: int, /, *args: P.args, **named: P.kwargs) -> R:
            return make(*args, **named)

        self._cache = lru_cache(maxsize=maxsize)(made)
        self._made = cast("Callable[Concatenate[Speech, int, P], R]", self._cache)
        update_wrapper(self, make)

    def __call__(self, *args: P.args, **named: P.kwargs) -> R:
        return self._made(_process[0], editions.current(), *args, **named)

    def cache_info(self) -> _CacheInfo:
        """Hits, misses and size, as `functools.lru_cache` counts them."""
        return self._cache.cache_info()

    def cache_clear(self) -> None:
        """Forget every answer."""
        self._cache.cache_clear()


def worded_cache(maxsize: int) -> Callable[[Callable[P, R]], WordedCache[P, R]]:
    """Remember the newest ``maxsize`` answers of a function that says sentences or writes figures."""
    return lambda make: WordedCache(make, maxsize)


@cache
def _room(spoken: Speech, room: str) -> Mapping[str, Message]:
    said: dict[str, Message] = {}
    for folder, locale in _folders(spoken):
        for place in message_files.PLACES:
            file = message_files.FOLDER / folder / place / f"{room}.ftl"
            if file.is_file():
                said |= message_files.read(file, locale, *_alterations(spoken, folder))
    if not said:
        raise MissingWording(f"no wording file {room}.ftl")
    return said if spoken.own is None else {**said, **spoken.own.rooms.get(room, {})}


def _folders(spoken: Speech) -> tuple[tuple[str, str], ...]:
    """Folders from the last resort to the best, each with the locale of its plurals and figures."""
    own = spoken.language.split("_")[0]
    base = spoken.locale if spoken.locale.split("_")[0] == BASE else "en_US"
    best = (
        ()
        if own in (BASE, pseudo_language.TAG)
        else ((own, spoken.locale if spoken.locale.split("_")[0] == own else own),)
    )
    return ((BASE, base), *best)


def _alterations(
    spoken: Speech, folder: str
) -> tuple[message_files.Alteration | None, message_files.Alteration | None]:
    if folder != BASE:
        return None, None
    if spoken.language == pseudo_language.TAG:
        return pseudo_language.accented, pseudo_language.bracketed
    return (spelling.british if spoken.locale in spelling.BRITISH_LOCALES else None), None


def _filled(blank: Blank, fill: Mapping[str, object], spoken: Speech, room: str, key: str) -> str:
    try:
        value = fill[blank.name]
    except KeyError:
        raise MissingWording(f"{room}.ftl: {key!r} was asked without {blank.name!r}") from None
    if isinstance(value, str):
        return str(value)
    if isinstance(value, int) and 0 <= value < 1000 and spoken.language in _LATIN_DIGITS:
        return str(value)
    if isinstance(value, int | float):
        from core.wording import locale_numbers  # brings Babel, which the first paint does without

        return locale_numbers.decimal(value, spoken.locale)
    return str(value)


@lru_cache(maxsize=2048, typed=True)
def _selected(message: Selected, /, **fill: str | int | float) -> str:
    """Remembered: Fluent takes 25 µs and more a sentence, and a quote says most of its own again at each key.

    LookupError for what Fluent finds wrong.
    """
    said, wrong = message.format(fill)
    if wrong:
        raise LookupError(str(wrong[0])) from wrong[0]
    return said.replace("\u202f", "\u00a0")


def _for_fluent(value: object) -> str | int | float:
    return value if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
