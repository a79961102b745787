"""Real files with known content, read from start to end."""

from __future__ import annotations

import builtins
import hashlib
import os
from pathlib import Path
from typing import Any

import pytest

from core.capture.examining import Stopped, examine
from core.capture.file_report import Report, Sound, StretchKind
from core.capture.time_spans import Span
from core.model.errors import Unavailable, WrongInput
from core.wording.messages import say
from tests.core.capture.matching import matched
from tests.support.clips import Clip, Scene, made

SCRIPT = (
    Scene("blue", 5, False, False),
    Scene("bars", 5),
    Scene("frozen", 6),
    Scene("candle", 5),
    Scene("talk", 12, False, False),
    Scene("black", 3),
    Scene("sky", 5, volume=0.02),
    Scene("lettered", 4),
    Scene("noise", 4),
    Scene("black", 5, False, False),
)
FRAME = 0.3
"""Seconds: a fade of the encoder, a window of the sound."""


@pytest.fixture(scope="module", params=[("mkv", "mpeg4", "pcm_s16le"), ("mp4", "libx264", "aac")], ids=str)
def clip(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Clip:
    ending, codec, sound = request.param
    return made(tmp_path_factory.mktemp("clips") / f"tape.{ending}", SCRIPT, codec=codec, sound=sound)


@pytest.fixture(scope="module")
def report(clip: Clip) -> Report:
    return examine(clip.path)


@pytest.fixture
def short(tmp_path: Path) -> Path:
    return made(tmp_path / "short.mkv", [Scene("bars", 3)]).path


def spans(report: Report, kind: StretchKind) -> list[Span]:
    return [(each.start, each.end) for each in report.stretches if each.kind is kind]


def test_the_format_of_the_picture_and_both_lengths_are_read(report: Report, clip: Clip) -> None:
    assert report.picture is not None
    assert (report.picture.width, report.picture.height, report.picture.rate) == (160, 120, (25, 1))
    assert report.picture.aspect == pytest.approx(4 / 3)
    assert report.picture_seconds == pytest.approx(clip.seconds, abs=0.05)
    assert report.sound_seconds == pytest.approx(clip.seconds, abs=0.05)
    assert (report.unread, report.breaks_off, report.dead_channels) == (0, False, 0)


@pytest.mark.parametrize("kind", StretchKind)
def test_every_stretch_is_found_where_it_is_and_nowhere_else(
    report: Report, clip: Clip, kind: StretchKind
) -> None:
    match = matched(spans(report, kind), clip.spans(kind), FRAME)

    assert match.pieces_known > 0
    assert match.pieces_right == match.pieces_known == match.pieces_found
    assert match.precision > 0.96
    assert match.recall > 0.96


def test_length_and_trims_are_those_of_the_recording(report: Report, clip: Clip) -> None:
    assert report.seconds == pytest.approx(clip.seconds, abs=0.1)
    assert report.keep_from == pytest.approx(4, abs=0.15)
    assert report.keep_to == pytest.approx(50, abs=0.15)
    assert report.billable_minutes == pytest.approx(46 / 60, abs=0.005)


def test_sound_missing_under_a_picture_is_told_with_its_place(report: Report) -> None:
    assert report.sound is Sound.PARTLY
    assert any("0:21 to 0:33" in remark for remark in report.remarks)


def test_the_checksum_is_that_of_the_file(report: Report, clip: Clip) -> None:
    assert report.sha256 == hashlib.sha256(clip.path.read_bytes()).hexdigest()
    assert report.size_bytes == clip.path.stat().st_size
    assert report.name == clip.path.name


def test_a_file_without_a_sound_track_is_flagged(tmp_path: Path) -> None:
    report = examine(made(tmp_path / "mute.mkv", [Scene("bars", 4)], sound=None).path)

    assert report.sound is Sound.MISSING
    assert any(say("capture", "no-sound") == remark for remark in report.remarks)


def test_a_tape_silent_from_end_to_end_is_flagged(tmp_path: Path) -> None:
    report = examine(made(tmp_path / "mute.mkv", [Scene("bars", 6, False, False)]).path)

    assert report.sound is Sound.MISSING
    assert any(say("capture", "all-silent") == remark for remark in report.remarks)


def test_a_dead_channel_is_named(tmp_path: Path) -> None:
    report = examine(made(tmp_path / "left.mkv", [Scene("bars", 4, right=False)]).path)

    assert report.sound is Sound.PRESENT
    assert any("right channel" in remark for remark in report.remarks)


def test_a_sound_recording_needs_no_picture(tmp_path: Path) -> None:
    path = tmp_path / "sound.wav"
    _write_sound(path, 5)

    report = examine(path)

    assert not report.has_picture
    assert report.seconds == pytest.approx(5, abs=0.1)


def test_progress_rises_from_nothing_to_all(short: Path) -> None:
    told: list[float] = []
    examine(short, told=told.append)

    assert told == sorted(set(told))
    assert 0 <= told[0] < 0.2
    assert told[-1] == 1.0
    assert len(told) > 5


@pytest.mark.parametrize("after", [0, 1, 20])
def test_it_stops_when_told_and_looks_no_further(short: Path, after: int) -> None:
    asked: list[None] = []

    def stop() -> bool:
        asked.append(None)
        return len(asked) > after

    with pytest.raises(Stopped, match="nothing was saved"):
        examine(short, stop=stop)
    assert len(asked) == after + 1


def test_a_file_that_breaks_off_says_where(tmp_path: Path) -> None:
    whole = made(tmp_path / "whole.mkv", [Scene("bars", 10)]).path.read_bytes()
    cut = tmp_path / "cut.mkv"
    cut.write_bytes(whole[: len(whole) // 2])

    report = examine(cut)

    assert 2 < report.seconds < 8
    assert any("breaks off at 0:0" in remark and "should run 0:10" in remark for remark in report.remarks)


def test_a_spoiled_place_is_told_and_the_rest_is_read(tmp_path: Path) -> None:
    spoiled = bytearray(made(tmp_path / "x.mkv", [Scene("bars", 8)]).path.read_bytes())
    middle = len(spoiled) // 2
    spoiled[middle : middle + 60_000] = os.urandom(60_000)
    (tmp_path / "spoiled.mkv").write_bytes(spoiled)

    report = examine(tmp_path / "spoiled.mkv")

    assert report.remarks
    assert report.seconds > 2


@pytest.mark.parametrize(
    "content", [b"", b"no recording at all", bytes(200_000)], ids=["empty", "text", "zeros"]
)
def test_what_is_no_recording_is_refused_by_name(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "holiday.mp4"
    path.write_bytes(content)

    with pytest.raises(WrongInput, match=r"holiday\.mp4.*a recorded file is accepted"):
        examine(path)


def test_a_folder_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(WrongInput):
        examine(tmp_path)
    with pytest.raises(WrongInput, match="found nothing"):
        examine(tmp_path / "none.mkv")


def test_an_mp4_that_was_never_closed_is_refused(tmp_path: Path) -> None:
    whole = made(tmp_path / "whole.mp4", [Scene("bars", 3)], codec="libx264", sound="aac").path.read_bytes()
    (tmp_path / "open.mp4").write_bytes(whole[: len(whole) // 2])

    with pytest.raises(WrongInput, match="once the program that made it has closed it"):
        examine(tmp_path / "open.mp4")


def test_a_file_that_grows_meanwhile_is_refused(short: Path) -> None:
    def grow(share: float) -> None:
        with short.open("ab") as file:
            file.write(b"more")

    with pytest.raises(WrongInput, match="still being written"):
        examine(short, told=grow)


def test_without_pyav_the_extra_is_named(short: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    genuine = builtins.__import__

    def without_av(name: str, *args: Any, **named: Any) -> Any:
        if name.split(".")[0] == "av":
            raise ImportError(name)
        return genuine(name, *args, **named)

    monkeypatch.setattr(builtins, "__import__", without_av)
    with pytest.raises(Unavailable, match=r"PyAV, which is not installed\. .*pip install \"\.\[capture\]\""):
        examine(short)


def _write_sound(path: Path, seconds: int) -> None:
    import wave

    import numpy as np

    tone = (8000 * np.sin(np.arange(8000 * seconds) / 5)).astype("<i2")
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(8000)
        file.writeframes(tone.tobytes())
