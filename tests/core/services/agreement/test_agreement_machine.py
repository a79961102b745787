"""An order walks through everything that may happen to it, beside a plain model of what was agreed.

Quote, agree, find, ask, answer, splice, play, copy, amend, part pickup, cancel, settle, in any order
hypothesis finds: nothing above the agreed sum is billed without a yes, the charges of every version add up,
no tape is lost, handed back twice or charged for nothing, and no copy goes that is not there.
"""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from core.model.agreement_records import AgreementKind, AgreementVersion, CeilingChoice, Consent
from core.model.deck_showing import Shown
from core.model.errors import Refused
from core.model.job_records import Job
from core.model.names import Finding, Join, Speed, TapeCode
from core.model.quote_records import Price
from core.model.stations import Station
from core.pricing.amendment_records import Amendment
from core.services import deck_findings, jobs, repair_record, tapes
from core.services.agreement import (
    agreement_versions,
    agreements,
    amendments,
    call_cards,
    cancellations,
    ceiling_watch,
)
from core.services.copies import copy_making
from tests.support.booked import Desk, inventory, line

ADA = Consent("Ada Fenwick")
PLACES = st.integers(0, 3)
NEXT = {
    Station.BOOKED_IN: Station.LOOKED_OVER,
    Station.LOOKED_OVER: Station.CLEARED_TO_PLAY,
    Station.CLEARED_TO_PLAY: Station.PLAYING,
    Station.AT_THE_BENCH: Station.CLEARED_TO_PLAY,
    Station.BEING_CHECKED: Station.READY,
}


class Walk(RuleBasedStateMachine):
    """One order in a shop that other walks have used before."""

    desk: Desk

    def __init__(self) -> None:
        super().__init__()
        self.number = self.desk.book(line(count=2), line("vhs-c", marking="TC-30")).number
        self.ceiling = self.job.ceiling_minor
        self.known = [each.code for each in self.job.tapes]
        self.out: set[TapeCode] = set()
        self.home: set[TapeCode] = set()
        self.on: dict[int, set[TapeCode]] = {}
        """What is on each copy that was made."""
        self.checked: set[int] = set()
        self.given: set[int] = set()
        self.versions = 1

    @property
    def job(self) -> Job:
        return self.desk.shop.ask(jobs.get, self.number)

    def _tape(self, place: int) -> TapeCode:
        return self.known[place % len(self.known)]

    # --- at the bench and on the decks: nothing here may change what was agreed ---------------

    @rule(place=PLACES)
    def go_on(self, place: int) -> None:
        here = self.desk.shop.ask(tapes.get, self._tape(place))
        if (there := NEXT.get(here.station)) is not None:
            with suppress(Refused):
                moved = self.desk.shop.run(tapes.move, here.code, there, without_splice="not needed")
                assert moved.station in (there, Station.ASKING_THE_CUSTOMER)

    @rule(place=PLACES, minutes=st.sampled_from([20, 118, 240, 366]))
    def play(self, place: int, minutes: float) -> None:
        here = self.desk.shop.ask(tapes.get, self._tape(place))
        if here.station is Station.PLAYING:
            most = 45 if here.format == "vhs-c" else minutes
            played = self.desk.shop.run(
                tapes.move, here.code, Station.BEING_CHECKED, minutes=min(minutes, most)
            )
            assert played.played_minutes == min(minutes, most)

    @rule(place=PLACES, finding=st.sampled_from([Finding.SNAPPED, Finding.SHELL_BROKEN, Finding.CREASED]))
    def find(self, place: int, finding: Finding) -> None:
        with suppress(Refused):
            self.desk.shop.run(repair_record.find, self._tape(place), [finding])

    @rule(place=PLACES)
    def splice(self, place: int) -> None:
        with suppress(Refused):
            code = self._tape(place)
            self.desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
            self.desk.shop.run(repair_record.mark, code)

    @rule(place=PLACES)
    def see_slow_speed(self, place: int) -> None:
        with suppress(Refused):
            self.desk.shop.run(deck_findings.see, self._tape(place), Shown(Speed.EP))

    # --- what the customer says --------------------------------------------------------------

    @rule(choice=st.sampled_from(CeilingChoice))
    def answer(self, choice: CeilingChoice) -> None:
        offered = {each.choice: each for each in self.desk.shop.ask(call_cards.choices, self.number)}
        if choice not in offered:
            with pytest.raises(Refused):
                self.desk.shop.run(agreements.answer, self.number, choice, ADA)
            return
        said = offered[choice]
        self.desk.shop.run(agreements.answer, self.number, choice, ADA)
        self.out |= set(said.leaves)
        self.versions += 1
        if choice is CeilingChoice.GO_ON:
            assert said.ceiling_minor >= self.ceiling
            self.ceiling = said.ceiling_minor
        assert said.ceiling_minor == self.ceiling
        assert self._price.gross.likely == said.price_minor

    @rule(more=st.integers(0, 20_000))
    def agree_to_more(self, more: int) -> None:
        self.desk.shop.run(agreements.agree, self.number, "more", ADA, ceiling_minor=self.ceiling + more)
        self.ceiling += more
        self.versions += 1

    @precondition(lambda self: len(self.known) < 6)
    @rule(count=st.integers(1, 3), small=st.booleans())
    def amend(self, count: int, small: bool) -> None:
        lines = (line(count=count), *((line("vhs-c", marking="TC-30"),) if small else ()))
        try:
            done = self.desk.shop.run(
                amendments.amend, self.number, Amendment(inventory(*lines)), reason="anew", consent=ADA
            )
        except Refused:
            return
        codes = set(done.version.codes)
        assert len(codes) == count + small
        self.out |= {each for each in self.known if each not in codes}
        self.known += [each.code for each in done.job.tapes if each.code not in self.known]
        self.ceiling = done.version.ceiling_minor
        self.versions += 1

    @rule(place=PLACES, whole=st.booleans())
    def cancel(self, place: int, whole: bool) -> None:
        codes = None if whole else [self._tape(place)]
        try:
            job = self.desk.shop.run(cancellations.cancel, self.number, codes, reason="off", consent=ADA)
        except Refused:
            return
        self.out |= {each.code for each in job.tapes if each.left_out_in is not None}
        assert job.ceiling_minor <= self.ceiling
        self.ceiling = job.ceiling_minor
        self.versions += 1

    # --- the copies --------------------------------------------------------------------------

    def _copied(self) -> set[TapeCode]:
        return {each.code for each in self.job.tapes if each.disposition and each.disposition.is_copied}

    def _copy(self, place: int) -> int | None:
        here = [each.id for each in self.job.copies if each.id not in self.given]
        return here[place % len(here)] if here else None

    @rule(place=PLACES)
    def make_copy(self, place: int) -> None:
        item = self._copy(place)
        if item is None:
            return
        follows = next(each.follows for each in self.job.copies if each.id == item)
        wanted = self._copied() - (self.on[follows] if follows else set())
        if not wanted:
            with pytest.raises(Refused):
                self.desk.shop.run(copy_making.made, self.number, item)
            return
        self.desk.shop.run(copy_making.made, self.number, item)
        self.on[item] = wanted
        self.checked.discard(item)

    @rule(place=PLACES)
    def check_copy(self, place: int) -> None:
        item = self._copy(place)
        if item is None:
            return
        if item not in self.on or item in self.checked:
            with pytest.raises(Refused):
                self.desk.shop.run(copy_making.checked, self.number, item)
            return
        self.desk.shop.run(copy_making.checked, self.number, item)
        self.checked.add(item)

    @rule(place=PLACES, partly=st.booleans())
    def hand_copy_over(self, place: int, partly: bool) -> None:
        item = self._copy(place)
        if item is None:
            return
        try:
            self.desk.hand_back(self.job, [], copies=[item], partly=partly)
        except Refused:
            assert item not in self.checked or not partly
            return
        assert item in self.checked
        assert partly or self._holds_all(item, self.job)
        self.given.add(item)
        self.versions += self._is_over()

    def _holds_all(self, item: int, job: Job) -> bool:
        """Whether a copy holds everything that was copied, and nothing is to come."""
        to_come = [each for each in job.tapes if each.disposition is None and each.code not in self.home]
        follows = next((each.follows for each in job.copies if each.id == item), None)
        there = self.on.get(item, set()) | (self.on[follows] if follows else set())
        return not to_come and self._copied() <= there

    def _is_over(self) -> bool:
        """Whether every tape and every copy is gone; a copy is none where nothing is left to be on it."""
        job = self.job
        here = [each for each in job.copies if each.id not in self.given]
        due = [each for each in here if not each.follows or self._copied() - self.on[each.follows]]
        return self.home == set(self.known) and not (due and self._copied())

    @rule(place=PLACES)
    def pick_up(self, place: int) -> None:
        code = self._tape(place)
        try:
            handed = self.desk.hand_back(self.job, [code])
        except Refused:
            return
        assert code not in self.home
        assert handed.final.gross.likely <= self.ceiling
        self.home.add(code)
        gone = {each.id for each in handed.copies}
        here = [each.id for each in self.job.copies if each.id not in self.given]
        assert gone == {each for each in here if each in self.checked and self._holds_all(each, self.job)}
        self.given |= gone
        self.versions += self._is_over()

    # --- what always holds -------------------------------------------------------------------

    @property
    def _price(self) -> Price:
        return self.desk.shop.ask(jobs.reprice, self.number)

    @invariant()
    def all_of_it_holds(self) -> None:
        """Every rule, of the order as it stands now: read once for all of them."""
        job, price = self.job, self._price
        self.nothing_above_what_was_agreed_is_billed(job, price)
        self.whatever_would_cost_more_waits_for_an_answer(job)
        self.no_tape_is_lost_or_counted_twice(job)
        self.no_copy_goes_that_is_not_there(job)
        self.only_what_stands_is_charged(price)
        self.every_version_adds_up()

    def nothing_above_what_was_agreed_is_billed(self, job: Job, price: Price) -> None:
        assert job.ceiling_minor == self.ceiling
        assert price.gross.likely <= self.ceiling

    def whatever_would_cost_more_waits_for_an_answer(self, job: Job) -> None:
        standing = self.desk.shop.ask(ceiling_watch.standing, self.number)
        asking = [each for each in job.tapes if each.station is Station.ASKING_THE_CUSTOMER]
        if standing.over_minor and not asking:
            standing_tapes = [each for each in job.tapes if each.code not in self.out]
            assert all(each.station.is_done for each in standing_tapes), standing

    def no_tape_is_lost_or_counted_twice(self, job: Job) -> None:
        assert [each.code for each in job.tapes] == self.known
        assert len(set(self.known)) == len(self.known)
        assert {each.code for each in job.tapes if each.station is Station.HANDED_BACK} == self.home
        assert {each.code for each in job.tapes if each.left_out_in is not None} == self.out

    def no_copy_goes_that_is_not_there(self, job: Job) -> None:
        for copy in job.copies:
            assert set(copy.contents.tapes) == self.on.get(copy.id, set())
            assert (copy.handed_back_at is not None) == (copy.id in self.given)
            assert copy.id not in self.given or copy.id in self.checked

    def only_what_stands_is_charged(self, price: Price) -> None:
        counted = [
            int(charge.text.split()[0])
            for charge in price.charges
            if charge.code.startswith("capture-") or charge.code == "not-played"
        ]
        assert sum(counted) == len(set(self.known) - self.out)

    def every_version_adds_up(self) -> None:
        found = self.desk.shop.ask(agreement_versions.versions, self.number)
        assert [each.number for each in found] == list(range(1, self.versions + 1))
        for version in found:
            _adds_up(version)
        settled = [each.kind is AgreementKind.SETTLED for each in found]
        assert not any(settled[:-1])

    def teardown(self) -> None:
        with suppress(Refused):
            self.desk.shop.run(cancellations.cancel, self.number, None, reason="end", consent=ADA)


def _adds_up(version: AgreementVersion) -> None:
    price = version.quote.price
    assert len(version.codes) == len(version.quote.tapes)
    for column in ("low", "likely", "high"):
        net = sum(getattr(charge.amount, column) for charge in price.charges)
        assert net == getattr(price.net, column)
        assert net + getattr(price.tax, column) == getattr(price.gross, column)


def test_whatever_happens_to_an_order_nothing_is_billed_without_a_yes(desk: Desk) -> None:
    walk = type("WalkHere", (Walk,), {"desk": desk})
    run_state_machine_as_test(
        walk,
        settings=settings(
            max_examples=10,
            stateful_step_count=20,
            phases=[Phase.generate],
            deadline=None,
            database=None,
            suppress_health_check=list(HealthCheck),
        ),
    )
    assert desk.shop.verify() == ()
