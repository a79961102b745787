"""The recording nobody made: the same bytes every time, and what it says it holds."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.capture import invented_clip
from core.capture.examining import examine
from core.capture.file_report import Sound, StretchKind


def test_it_is_read_as_it_was_made_up_and_the_same_every_time(tmp_path: Path) -> None:
    for name in ("once.avi", "again.avi"):
        invented_clip.write(tmp_path / name)
    assert (tmp_path / "once.avi").read_bytes() == (tmp_path / "again.avi").read_bytes()

    report = examine(tmp_path / "once.avi")
    made_up = sum(seconds for _, seconds, _ in invented_clip.SCENES)
    assert report.seconds == pytest.approx(made_up, abs=0.2)
    assert report.sound is Sound.PARTLY
    frozen = [each for each in report.stretches if each.kind is StretchKind.FROZEN]
    assert [(each.start, each.end) for each in frozen] == [
        (pytest.approx(76, abs=0.5), pytest.approx(84, abs=0.5))
    ]
    assert (report.keep_from, report.keep_to) == (pytest.approx(5, abs=0.3), pytest.approx(171, abs=0.3))
