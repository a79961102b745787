"""``settle``, ``unsettle`` and ``incident`` as they are typed: JSON, exit codes, and what changes nothing."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from core.model.dispositions import Disposition
from tests.support import pdf
from tests.support.typed import Typist, walk

NOW = "2026-03-04T10:00:00-05:00"


def disposition_of(typed: Typist, code: str) -> tuple[str, str | None]:
    tapes = typed("status", code).document["jobs"][0]["tapes"]
    (tape,) = [each for each in tapes if each["code"] == code]
    return tape["station"], tape["disposition"]


def test_every_disposition_can_be_typed(typed: Typist, codes: list[str]) -> None:
    assert disposition_of(typed, codes[0]) == ("booked-in", None)
    for each in Disposition:
        if each.is_copied:
            continue
        done = typed("settle", codes[0], each.value, "--note", "as it is")
        assert (done.code, done.document["disposition"]) == (0, each.value)
        assert typed("unsettle", codes[0], "--because", "only tried out").document["disposition"] is None
    walk(typed, codes[0], "cleared-to-play", "playing", "being-checked", "ready")
    assert disposition_of(typed, codes[0]) == ("ready", "copied")
    assert typed("settle", codes[0], "copied-in-part").document["disposition"] == "copied-in-part"
    assert typed("verify").code == 0


def test_ready_without_minutes_is_refused_and_says_what_to_do(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing", "being-checked")
    refused = typed("move", codes[0], "ready")
    assert refused.code == 3
    assert f"settle {codes[0]}" in refused.err
    assert disposition_of(typed, codes[0]) == ("being-checked", None)


def test_a_note_is_for_us_unless_it_is_said_to_be_told(typed: Typist, codes: list[str]) -> None:
    typed("move", codes[0], "asking-the-customer", "--note", "grumpy")
    assert "grumpy" not in typed("status", codes[0]).out
    typed("move", codes[0], "kept-apart", "--note", "the label from 1987", "--tell")
    found = typed("status", codes[0]).document["jobs"][0]
    assert "the label from 1987" in found["spoken"]
    assert found["tapes"][0]["note_for_customer"] == "the label from 1987"


def test_what_cannot_be_is_refused_and_changes_nothing(typed: Typist, codes: list[str]) -> None:
    for words, code in (
        (("settle", codes[0], "vanished"), 2),
        (("settle", codes[0], "lost"), 2),
        (("settle", codes[0], "not-wanted", "--when", NOW), 2),
        (("settle", codes[0], "copied"), 3),
        (("unsettle", codes[0], "--because", "x"), 3),
        (("incident", codes[0]), 3),
        (("incident", codes[0], "--told", "by phone"), 3),
        (("settle", "0000180015", "not-wanted"), 2),
    ):
        refused = typed(*words)
        assert (refused.code, bool(refused.err), refused.out) == (code, True, ""), words
    assert disposition_of(typed, codes[0]) == ("booked-in", None)


def test_an_incident_from_the_loss_to_the_report(typed: Typist, codes: list[str], tmp_path: Path) -> None:
    photo = tmp_path / "shelf.png"
    Image.new("RGB", (30, 20), "teal").save(photo)
    fake = tmp_path / "fake.png"
    fake.write_text("no picture")
    happened = typed(
        "settle", codes[0], "lost", "--note", "not on its shelf", "--when", "2026-03-01T09:00:00Z"
    )
    assert happened.document["station"] == "asking-the-customer"
    assert typed("incident", codes[0], "--photo", str(fake)).code == 2
    told = typed("incident", codes[0], "--told", "by phone, to herself", "--photo", str(photo))
    assert [line["kind"] for line in told.document["lines"]] == ["lost", "told", "photo"]
    assert told.document["open"] is True
    kept = told.document["lines"][-1]
    here = tmp_path / "photos" / kept["photo"]
    assert here.read_bytes() == photo.read_bytes()
    here.write_bytes(b"other")
    assert typed("incident", codes[0]).document["photos_altered"] == [kept["photo"]]
    assert told.document["photos_altered"] == []
    done = typed(
        "incident", codes[0], "--settled", "60.00, and copying is free", "--paper", str(tmp_path / "p")
    )
    assert done.document["open"] is False
    (paper,) = done.document["papers"]
    said = pdf.words(Path(paper).read_bytes())
    for words in ("was lost with us", "not on its shelf", "March 1, 2026", "by phone, to herself", "60.00"):
        assert words in said
    assert kept["sha256"] in said.replace(" ", "")
    assert len(pdf.pages(Path(paper).read_bytes())) == 1


def test_a_lost_tape_is_not_handed_back_but_signed_for(
    typed: Typist, codes: list[str], tmp_path: Path
) -> None:
    typed("settle", codes[0], "lost", "--note", "not on its shelf")
    typed("settle", codes[1], "nothing-on-it")
    typed("incident", codes[0], "--settled", "sixty dollars")
    number = codes[0][:6]
    done = typed("pickup", number, "--signed-by", "A. Example", "--paper", str(tmp_path))
    assert done.document["handed_back"] == [codes[1]]
    assert done.document["not_returned"] == [codes[0]]
    assert codes[0] not in done.document["still_here"]
    said = pdf.words(Path(done.document["receipt"]).read_bytes())
    assert "One tape we could not return" in said
    assert "Nothing on it, not copied" in said
    assert "not on its shelf" not in said


def test_open_incidents_are_listed_with_what_is_next(typed: Typist, codes: list[str]) -> None:
    """Told is no end: the list ends with how it was settled."""
    assert typed("incidents").document == {"incidents": []}
    assert "Every tape lost or damaged here is settled" in typed("incidents", as_json=False).out
    happened = "2026-03-01T18:00:00-05:00"
    done = typed("settle", codes[0], "lost", "--note", "not on its shelf", "--when", happened, now=NOW)
    assert done.code == 0
    (found,) = typed("incidents").document["incidents"]
    assert (found["code"], found["number"], found["kind"]) == (codes[0], codes[0][:6], "lost")
    assert (found["words"], found["told"], found["next"]) == ("not on its shelf", False, "tell")
    assert found["customer"]["name"]
    assert found["happened"].startswith("2026-03-01T")
    plain = typed("incidents", as_json=False)
    assert f"Next: tell {found['customer']['name']}" in plain.out
    assert typed("incident", codes[0], "--told", "by phone", now=NOW).code == 0
    (found,) = typed("incidents").document["incidents"]
    assert (found["told"], found["next"]) == (True, "settle")
    assert typed("incident", codes[0], "--settled", "sixty dollars", now=NOW).code == 0
    listed = typed("incidents")
    assert (listed.code, listed.document) == (0, {"incidents": []})
