"""``quote``, ``book`` and ``pickup``, and any inventory at all."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue import formats
from core.cli import entry, json_quotes, proving
from core.cli.invocation import Invocation
from core.cli.subcommands.box_of_tapes import quote_of
from core.model.errors import WrongInput
from core.model.names import Finding
from core.services.own_shop import shop_settings
from tests.support import pdf
from tests.support.inventories import GOOD, changed, written
from tests.support.typed import NOW, READY, Typist, adds_up, contents, run_python, walk

# --- the quote -------------------------------------------------------------------------


def test_quote_stores_nothing_and_makes_no_shop(typed_first: Typist, box: Path) -> None:
    assert typed_first("quote", box).code == 0
    assert not Path(typed_first.shop).exists()


def test_quote_of_an_open_shop_leaves_it_as_it_was(typed: Typist, box: Path, codes: list[str]) -> None:
    before = contents(Path(typed.shop))
    assert typed("quote", box).code == 0
    assert contents(Path(typed.shop)) == before


def test_quote_reads_standard_input(box: Path, tmp_path: Path) -> None:
    done = run_python(
        "-m", "core.cli.entry", "quote", "-", "--json", "--now", NOW, home=tmp_path, stdin=box.read_bytes()
    )
    assert json.loads(done.stdout)["currency"] == "USD"


def test_quote_has_the_agreed_names(typed: Typist, box: Path) -> None:
    quote = typed("quote", box).document
    assert quote.keys() >= {
        "currency", "book", "valid_until", "tapes", "capture_hours", "charges", "net_minor", "tax_minor",
        "gross_minor", "ceiling_minor", "deposit_minor", "storage", "promise", "warnings",
    }  # fmt: skip
    assert [(tape["line"], tape["n"]) for tape in quote["tapes"]] == [(1, 1), (1, 2), (2, 1), (3, 1)]
    snapped = quote["tapes"][2]
    assert (snapped["format"], snapped["outcome"], snapped["not_for_reuse"]) == ("hi8", "repair", True)
    assert snapped["repairs"]
    assert snapped["cautions"]
    assert set(quote["storage"]) >= {"gigabytes", "discs"}
    promise = quote["promise"]
    assert 0 < promise["stated"] <= 1
    assert promise["date"] in {chance["date"] for chance in promise["chances"]}


@pytest.mark.parametrize("fill", [None, 0.37])
@pytest.mark.parametrize("rush", [True, False])
def test_every_column_of_a_quote_adds_up(typed: Typist, tmp_path: Path, rush: bool, fill: Any) -> None:
    odd = changed("tapes.0", {"count": 7, "format": "vhs", "fill": fill, "findings": ["chewed"]})
    file = tmp_path / "odd.json"
    file.write_bytes(written({**odd, "rush": rush}))
    assert adds_up(typed("quote", file).document)


@pytest.mark.parametrize(
    ("finding", "outcome", "waits_for"),
    [("sticky", "cannot", None), ("crushed", "partly", "look"), ("commercial-recording", "plays", "rights")],
)
def test_a_tape_nothing_is_done_on_is_not_charged_for_capture(
    typed: Typist, tmp_path: Path, finding: str, outcome: str, waits_for: str | None
) -> None:
    file = tmp_path / "box.json"
    file.write_bytes(written(changed("tapes", [{"count": 1, "format": "vhs", "findings": [finding]}])))
    quote = typed("quote", file).document
    assert (quote["tapes"][0]["outcome"], quote["tapes"][0]["waits_for"]) == (outcome, waits_for)
    assert quote["capture_hours"] == {"low": 0, "likely": 0, "high": 0}
    assert not [charge for charge in quote["charges"] if "capture" in charge["code"]]


# --- anything at all -------------------------------------------------------------------

_NAMES = st.sampled_from(
    ["vhs", "hi8", "8mm-unknown", "betamax", "minidv", "u-matic", "audio-cassette", "dvd"]
)
_TAPES = st.fixed_dictionaries(
    {"count": st.integers(-1, 40), "format": _NAMES},
    optional={
        "marking": st.sampled_from([None, "T-120", "P6-120", "P5-90", "L-750", "DVM60", "KCA-60", "C90", ""]),
        "recorded_as": _NAMES | st.none(),
        "speed": st.sampled_from([None, "unknown", "sp", "lp", "ep", "b1", "b3"]),
        "tv": st.sampled_from([None, "ntsc", "pal", "secam"]),
        "fill": st.none() | st.floats(0, 1),
        "findings": st.lists(
            st.sampled_from([finding.value for finding in Finding]), max_size=3, unique=True
        ),
        "label": st.text(max_size=5),
    },
)
_CODECS = st.sampled_from([None, "h264", "dv", "hdv", "ffv1", "mpeg2", "v210"])
_CARRIERS = st.sampled_from([None, "usb", "disk", "download", "own-drive", "dvd-r", "bd-r"])
_FITTING_DELIVERY = st.sampled_from([{"as": "dvd"}, {"as": "bluray"}]) | st.fixed_dictionaries(
    {"as": st.just("files")}, optional={"codec": _CODECS, "on": _CARRIERS}
)
_DELIVERY = _FITTING_DELIVERY | st.fixed_dictionaries({"as": st.just("dvd"), "codec": _CODECS})
_BOXES = st.fixed_dictionaries(
    {"tapes": st.lists(_TAPES, max_size=4)},
    optional={
        "tv": st.sampled_from([None, "ntsc", "pal"]),
        "deliver": st.lists(_DELIVERY, max_size=3),
        "rush": st.booleans(),
        "needed_by": st.sampled_from([None, "2026-03-02", "2026-03-09", "2027-01-01", "2026-03-01"]),
    },
)


@given(_BOXES)
def test_any_inventory_gives_a_quote_that_adds_up_or_is_refused(box: dict[str, Any]) -> None:
    asked = entry.parser().parse_args(["quote", "box.json", "--now", NOW])
    try:
        call = Invocation(asked, proving.prove)
        quote = json_quotes.quote(quote_of(call, written(box), shop_settings.new_shop()))
    except WrongInput as error:
        outcome = error.place
    else:
        outcome = "a quote that adds up" if adds_up(json.loads(json.dumps(quote))) else "a wrong sum"
    assert outcome == "a quote that adds up" or outcome.startswith("box.json: ")


def _fitting(name: str) -> st.SearchStrategy[dict[str, Any]]:
    """Lines in which everything fits the shell."""
    shell = formats.catalogue().format(name)
    return st.fixed_dictionaries(
        {"count": st.integers(1, 12), "format": st.just(name)},
        optional={
            "marking": st.sampled_from([None, *(marking.name for marking in shell.markings)]),
            "recorded_as": st.sampled_from([None, *shell.systems]),
            "fill": st.none() | st.floats(0.01, 1),
            "findings": st.lists(st.sampled_from([finding.value for finding in Finding]), unique=True),
            "label": st.text(st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"]), max_size=20),
        },
    )


_FITTING_BOXES = st.fixed_dictionaries(
    {"tapes": st.lists(st.sampled_from(formats.catalogue().names).flatmap(_fitting), min_size=1, max_size=5)},
    optional={
        "tv": st.sampled_from(["ntsc", "pal"]),
        "deliver": st.lists(_FITTING_DELIVERY, max_size=4),
        "rush": st.booleans(),
    },
)


@given(_FITTING_BOXES)
def test_any_box_that_fits_gets_a_quote_that_adds_up(box: dict[str, Any]) -> None:
    asked = entry.parser().parse_args(["quote", "box.json", "--now", NOW])
    call = Invocation(asked, proving.prove)
    quoted = quote_of(call, written(box), shop_settings.new_shop())
    quote = json.loads(json.dumps(json_quotes.quote(quoted)))
    assert adds_up(quote)
    assert len(quote["tapes"]) == sum(line["count"] for line in box["tapes"])
    spans = [
        quote["capture_hours"],
        *(tape["minutes"] for tape in quote["tapes"]),
        *quote["storage"].values(),
    ]
    assert all(one["low"] <= one["likely"] <= one["high"] for one in spans if isinstance(one, dict))


def test_papers_written_again_are_the_same_bytes_whatever_the_shop_changed_since(
    typed: Typist, box: Path, codes: list[str], tmp_path: Path
) -> None:
    booking = ("book", box, "--command", "a box", "--paper")
    first = typed(*booking, tmp_path / "first").document
    walk(typed, first["tapes"][0]["code"], *READY)
    pickup = ("pickup", first["number"], "--signed-by", "Ada", "--tape", first["tapes"][0]["code"])
    handed = (*pickup, "--command", "a pickup", "--paper")
    receipt = typed(*handed, tmp_path / "first").document["receipt"]
    changes = ("front.name", "The Other Name", "front.address", '["Elsewhere 7"]', "front.accent", "teal")
    later = "2026-03-02T12:00:00-05:00"
    assert typed("shop", "set", *changes, "prices.capture.vhs.price", "99.00", now=later).code == 0
    again = typed(*booking, tmp_path / "again", now=later).document
    for before, after in zip(first["papers"], again["papers"], strict=True):
        assert Path(before).read_bytes() == Path(after).read_bytes()
    second = typed(*handed, tmp_path / "again", now=later).document["receipt"]
    assert Path(second).read_bytes() == Path(receipt).read_bytes()
    assert "The Other Name" not in pdf.words(Path(second).read_bytes())
    now = typed("book", box, "--paper", tmp_path / "new", now=later).document["papers"][0]
    assert "The Other Name" in pdf.words(Path(now).read_bytes())


def test_customers_who_were_here_are_listed_and_two_with_one_number_are_two(
    typed: Typist, tmp_path: Path
) -> None:
    for name in ("Ada Fenwick", "Bo Fenwick", "Ada Fenwick"):
        file = tmp_path / "box.json"
        file.write_bytes(written({**GOOD, "customer": {"name": name, "phone": "(303) 555-0142"}}))
        assert typed("book", file).code == 0
    for query in ("fenw", "5550142", "(303) 555-0142"):
        found = typed("customers", query).document["customers"]
        assert sorted((each["name"], each["phone"], each["orders"]) for each in found) == [
            ("Ada Fenwick", "+13035550142", 2),
            ("Bo Fenwick", "+13035550142", 1),
        ]
    (ada,) = typed("customers", "ada fenwick").document["customers"]
    assert ada["orders"] == 2
    assert "Ada Fenwick, (303) 555-0142 · 2 orders" in typed("customers", "ada", as_json=False).out
    nobody = typed("customers", "zelda", as_json=False)
    assert (nobody.code, "Nobody who was here before" in nobody.out) == (0, True)
