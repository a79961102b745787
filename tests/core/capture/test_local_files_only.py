"""Only the file that is named is read: no address, no play-list, no pipe, nothing a file refers to."""

from __future__ import annotations

import os
import socket
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.capture import examining
from core.model.errors import WrongInput
from tests.support.clips import Scene, made


@pytest.fixture(scope="module")
def clip(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("clips") / "tape.mkv", [Scene("bars", 2)]).path


@pytest.fixture
def visited() -> Iterator[tuple[int, list[bytes]]]:
    """The port of a server on this machine, and what was asked of it."""
    heard: list[bytes] = []
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0.5)

        def answer() -> None:
            try:
                peer, _ = server.accept()
            except OSError:
                return
            with peer:
                heard.append(peer.recv(1000))

        thread = threading.Thread(target=answer)
        thread.start()
        yield server.getsockname()[1], heard
        thread.join()


def test_the_clip_itself_is_read(clip: Path) -> None:
    assert examining.examine(clip).has_picture


def test_no_request_is_made_for_an_address(visited: tuple[int, list[bytes]]) -> None:
    port, heard = visited
    with pytest.raises(WrongInput):
        examining.examine(Path(f"http://127.0.0.1:{port}/tape.mkv"))
    assert not heard


def test_no_request_is_made_for_a_play_list(visited: tuple[int, list[bytes]], tmp_path: Path) -> None:
    port, heard = visited
    file = tmp_path / "tape.m3u8"
    file.write_text(
        f"#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\nhttp://127.0.0.1:{port}/a.ts\n#EXT-X-ENDLIST\n"
    )
    with pytest.raises(WrongInput):
        examining.examine(file)
    assert not heard


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("list.ffconcat", "ffconcat version 1.0\nfile 'tape.mkv'\n"),
        ("list.m3u8", "#EXTM3U\n#EXT-X-TARGETDURATION:2\n#EXTINF:2,\ntape.mkv\n#EXT-X-ENDLIST\n"),
        ("list.mkv", "#EXTM3U\n#EXT-X-TARGETDURATION:2\n#EXTINF:2,\ntape.mkv\n#EXT-X-ENDLIST\n"),
    ],
)
def test_a_list_of_other_files_opens_none_of_them(clip: Path, name: str, text: str) -> None:
    file = clip.with_name(name)
    file.write_text(text)
    with pytest.raises(WrongInput, match="no picture and no sound"):
        examining.examine(file)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "tape.mkv")
    with pytest.raises(WrongInput):
        examining.examine(tmp_path / "tape.mkv")
