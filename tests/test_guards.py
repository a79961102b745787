"""The guards that hold for every test do go red: each is shown one culprit."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

CULPRITS = """
    import logging, threading, time, warnings
    from PySide6.QtCore import QThread, QTimer, qWarning
    from PySide6.QtWidgets import QLabel

    kept = []

    def test_window_shown(qapp):
        kept.append(QLabel("still here"))
        kept[-1].show()

    def test_window_hidden(qapp):
        kept.append(QLabel("never shown"))

    def test_thread():
        threading.Thread(target=time.sleep, args=(4,), daemon=True, name="slow").start()

    def test_log():
        logging.getLogger("a").warning("unexpected")

    def test_python_warning():
        warnings.warn("unexpected")

    def test_qt_message(qtbot):
        qWarning("unexpected")

    def test_tidy(qtbot, caplog):
        label = QLabel("closed by the robot")
        label.itself = label
        qtbot.addWidget(label)
        label.show()
        logging.getLogger("a").warning("expected")
        thread = threading.Thread(target=time.sleep, args=(0.05,))
        thread.start()
"""

LAZY_FILES = {
    "timer": """
        from PySide6.QtCore import QTimer

        def test_timer(qapp):
            timer = QTimer(qapp, objectName="ticking")
            timer.start(1000)
    """,
    "thread": """
        import atexit
        from PySide6.QtCore import QThread

        kept = []
        atexit.register(lambda: (kept[0].quit(), kept[0].wait()))  # or Qt aborts the whole run

        def test_thread(qapp):
            kept.append(QThread(objectName="spinning"))
            kept[0].start()
    """,
}


def test_each_leak_and_each_unexpected_message_fails_the_test_that_caused_it(tmp_path: Path) -> None:
    answer = _run_tests(tmp_path, CULPRITS)

    for culprit, words in {
        "test_window_shown": "windows left behind: QLabel",
        "test_window_hidden": "windows left behind: QLabel",
        "test_thread": "threads still running: slow",
        "test_log": "WARNING a: unexpected",
        "test_python_warning": "UserWarning: unexpected",
        "test_qt_message": "Qt messages with level WARNING or above",
    }.items():
        assert f"test_culprits.py::{culprit}" in answer
        assert words in answer
    assert "test_culprits.py::test_tidy" not in answer


@pytest.mark.parametrize(("kind", "words"), [("timer", "QTimer (ticking"), ("thread", "QThread (spinning")])
def test_qt_work_left_over_fails_the_file(tmp_path: Path, kind: str, words: str) -> None:
    assert words in _run_tests(tmp_path, LAZY_FILES[kind])


def _run_tests(folder: Path, source: str) -> str:
    """What pytest prints about ``source``, run under this project's own rules."""
    lines = source.splitlines()
    indent = min(len(line) - len(line.lstrip()) for line in lines if line.strip())
    (folder / "test_culprits.py").write_text("\n".join(line[indent:] for line in lines))
    (folder / "conftest.py").write_text("from tests.conftest import *\n")
    command = [sys.executable, "-m", "pytest", "-c", str(ROOT / "pyproject.toml"), "--rootdir", str(folder)]
    command += ["-p", "no:cacheprovider", "-p", "no:xdist", str(folder)]
    surroundings = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "200"}
    done = subprocess.run(command, cwd=folder, env=surroundings, capture_output=True, text=True, timeout=120)
    assert done.returncode == 1, done.stdout + done.stderr
    return done.stdout
