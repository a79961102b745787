"""Each finding and each repair is one entry; a gap is refused by file and key."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from core.catalogue import findings
from core.catalogue.format_words import numbered
from core.model import resource_files
from core.model.errors import WrongInput
from core.model.names import Finding
from core.model.shaped_toml import read

WHOLE = read(resource_files.path("catalogue", "repairs.toml"))


def without(*path: str) -> dict[str, Any]:
    content = copy.deepcopy(WHOLE)
    inner = content
    for step in path[:-1]:
        inner = inner[step]
    del inner[path[-1]]
    return content


@pytest.mark.parametrize("finding", Finding)
def test_no_finding_goes_without_an_entry(finding: Finding) -> None:
    with pytest.raises(WrongInput, match=f"repairs.toml, findings: .* the key {finding.value} is needed"):
        findings.checked("repairs.toml", without("findings", finding.value))


@pytest.mark.parametrize("key", ["repairs", "outcome"])
def test_no_entry_goes_without_a_needed_key(key: str) -> None:
    with pytest.raises(WrongInput, match=f"repairs.toml, findings, mould: .* the key {key} is needed"):
        findings.checked("repairs.toml", without("findings", "mould", key))


def test_a_repair_that_a_finding_names_is_needed() -> None:
    with pytest.raises(WrongInput, match="chewed, repairs: found 'straighten'; accepted are splice"):
        findings.checked("repairs.toml", without("repairs", "straighten"))


def test_a_finding_nobody_knows_is_refused() -> None:
    content = copy.deepcopy(WHOLE)
    content["findings"]["haunted"] = content["findings"]["mould"]
    with pytest.raises(WrongInput, match="found 'haunted'; accepted are snapped"):
        findings.checked("repairs.toml", content)


def test_what_harms_others_is_kept_apart() -> None:
    apart = {finding for finding in Finding if findings.of(finding).kept_apart}

    assert apart == {Finding.MOULD, Finding.STICKY, Finding.NITRATE}


@pytest.mark.parametrize("finding", Finding)
def test_every_finding_is_told_in_english(finding: Finding) -> None:
    for kind in ("seen", "means", "told", "caution"):
        assert list(numbered("findings", f"{kind}-{finding.value}")), kind


@pytest.mark.parametrize(("room", "lost"), [("findings", "means-mould"), ("names", "finding-mould")])
def test_a_finding_without_its_english_is_refused(
    monkeypatch: pytest.MonkeyPatch, room: str, lost: str
) -> None:
    monkeypatch.setattr(findings, "knows", lambda room, key, language: not key.startswith(lost))
    with pytest.raises(WrongInput, match=rf"{room}\.ftl: .* the sentence {lost} is needed"):
        findings.checked("repairs.toml", WHOLE)
