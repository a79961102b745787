"""Some fuzzed inputs at a shop on a server; all of them: ``python -m tests.fuzzed_readers --postgres``."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fuzzed_readers import fed_commands, feeding, typed_lines
from tests.fuzzed_readers.fed_commands import CommandLine
from tests.fuzzed_readers.reader_list import ON_A_SERVER
from tests.support.postgres import named_server

COUNT = 150
SEED = 7


@pytest.mark.postgres
def test_no_input_finds_a_fault_in_a_shop_on_a_server(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """And what is stored with another answer than 0 is found, as in a file."""
    with feeding.filled(tmp_path, named_server()) as trough:
        for reader in ON_A_SERVER:
            assert trough.feed(reader, range(feeding.share(reader, COUNT)), SEED).faults == {}

        books = CommandLine(typed_lines.good("book box.json", trough.shop.names, trough.shop.where), {})
        booked = fed_commands.carried_out(books)
        assert booked.code == 0, booked.err

        def half_done(line: CommandLine) -> fed_commands.CommandAnswer:
            return fed_commands.CommandAnswer(2, "", f"tapewright: no, {real(line).code}\n")

        real = fed_commands.carried_out
        monkeypatch.setattr(fed_commands, "carried_out", half_done)
        shop = feeding.Reader("one", 1, lambda shop, *_: fed_commands.fed(shop, books))
        (found,) = trough.feed(shop, range(1), SEED).faults
        assert found.startswith("changed with code 2: the records")
