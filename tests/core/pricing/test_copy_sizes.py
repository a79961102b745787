"""What the copies of a job take up."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model.errors import WrongInput
from core.model.inventory import CARRIERS, Delivery
from core.model.quote_records import Storage
from core.model.ranges import ZERO, Range, exactly
from core.pricing import bitrates, copy_sizes, discs

deliveries = st.one_of(
    st.builds(Delivery, st.just("files"), st.sampled_from(copy_sizes.CODECS), st.sampled_from(CARRIERS)),
    st.sampled_from([Delivery("dvd"), Delivery("bluray")]),
)
minutes = st.lists(st.floats(0, 700), min_size=3, max_size=3).map(lambda found: Range(*sorted(found)))


def of(tapes: list[Range], *deliver: Delivery) -> Storage:
    return copy_sizes.storage(sum(tapes, ZERO), tapes, deliver)


def pieces(storage: Storage) -> dict[str, Range]:
    return {copy.code: copy.count for copy in storage.copies}


def test_without_a_wish_h264_files_go_on_a_stick() -> None:
    storage = of([exactly(60)] * 10)

    assert storage.gigabytes == exactly(pytest.approx(23.652))  # type: ignore[arg-type]
    assert pieces(storage) == {"usb-32": exactly(1)}
    assert storage.discs == ZERO


@given(st.lists(minutes, min_size=1, max_size=8), st.lists(deliveries, max_size=3))
def test_storage_is_in_order_and_in_whole_pieces(tapes: list[Range], deliver: list[Delivery]) -> None:
    storage = of(tapes, *deliver)

    for found in (storage.gigabytes, storage.discs, *(copy.count for copy in storage.copies)):
        assert 0 <= found.low <= found.likely <= found.high
    for found in (storage.discs, *(copy.count for copy in storage.copies)):
        assert all(column == int(column) for column in (found.low, found.likely, found.high))
    discs = sum((copy.count for copy in storage.copies if copy.code in ("dvd-r", "bd-r")), ZERO)
    assert storage.discs == discs


@given(st.lists(minutes, min_size=1, max_size=8), minutes, st.lists(deliveries, min_size=1, max_size=3))
def test_another_tape_never_takes_less(tapes: list[Range], more: Range, deliver: list[Delivery]) -> None:
    before, after = of(tapes, *deliver), of([*tapes, more], *deliver)

    assert before.gigabytes.high <= after.gigabytes.high + 1e-9
    assert before.discs.high <= after.discs.high


@given(st.lists(minutes, min_size=1, max_size=8), st.sampled_from(copy_sizes.CODECS))
def test_the_sticks_hold_what_is_promised(tapes: list[Range], codec: str) -> None:
    storage = of(tapes, Delivery("files", codec, "usb"))

    held = sum(int(copy.code.removeprefix("usb-")) * copy.count.high for copy in storage.copies)
    assert held * 0.97 >= storage.gigabytes.high - 1e-6


@pytest.mark.parametrize(
    "delivery", [Delivery("files"), Delivery("dvd"), Delivery("files", "dv", "own-drive")]
)
def test_nothing_to_play_leaves_nothing_to_hand_over(delivery: Delivery) -> None:
    assert of([ZERO, ZERO], delivery) == Storage(ZERO, ZERO, (), ())


def test_every_tape_begins_a_video_disc_of_its_own_and_long_ones_go_on() -> None:
    storage = of([exactly(30), exactly(120), exactly(240)], Delivery("dvd"))

    assert storage.discs == exactly(4)
    assert pieces(storage) == {"dvd-r": exactly(4)}


def test_a_full_t120_stays_on_one_disc_above_four_megabits() -> None:
    assert discs.dvd_minutes() == pytest.approx(156.7, abs=0.05)
    assert of([exactly(122.9)], Delivery("dvd")).discs == exactly(1)


def test_discs_count_apart_from_the_gigabytes_of_files() -> None:
    files, video = Delivery("files", "h264", "usb"), Delivery("dvd")
    tapes = [exactly(60)] * 3

    assert of(tapes, files, video).gigabytes == of(tapes, files).gigabytes
    assert of(tapes, files, video).discs == of(tapes, video).discs
    assert 0 < of(tapes, video).gigabytes.likely <= 3 * 4.7


def test_files_on_data_discs_count_as_discs() -> None:
    assert of([exactly(60)], Delivery("files", "dv", "dvd-r")).discs == exactly(3)
    assert of([exactly(120)], Delivery("files", "dv", "bd-r")).discs == exactly(2)


def test_files_are_not_cut_to_fill_a_disc_to_the_brim() -> None:
    """Two hours of H.264 are 4.73 GB, a DVD-R holds 4.71: an hour each is one file a disc."""
    storage = of([exactly(60)] * 10, Delivery("files", "h264", "dvd-r"))

    assert storage.discs == exactly(10)
    assert storage.notes == ()


def test_a_file_longer_than_a_disc_is_said_to_be_cut() -> None:
    notes = of([exactly(60)], Delivery("files", "dv", "dvd-r")).notes

    assert notes == ("one file may be 12.96 GB and a DVD-R holds 4.71 GB, so it is split into up to 3 parts",)


def test_a_box_whose_tapes_are_never_all_long_at_once_needs_fewer_discs() -> None:
    tapes, delivery = [Range(30, 60, 120)] * 10, Delivery("files", "h264", "dvd-r")
    apart = copy_sizes.storage(sum(tapes, ZERO), tapes, [delivery])
    together = copy_sizes.storage(Range(500, 600, 700), tapes, [delivery])

    assert together.discs.high < apart.discs.high
    assert together.discs.low <= together.discs.likely <= together.discs.high


def test_a_long_tape_on_dvds_says_what_its_picture_looks_like() -> None:
    (note,) = of([exactly(60), exactly(240)], Delivery("dvd")).notes

    assert note == (
        "a tape of up to 240 minutes needs 2 DVDs at 5.2 Mb/s, a good picture;"
        " on one disc it would be 2.6 Mb/s, a poor one"
    )


def test_a_dvd_with_a_picture_that_is_only_fair_says_so_and_a_good_one_does_not() -> None:
    (note,) = of([exactly(150)], Delivery("dvd")).notes

    assert note == "a tape of up to 150 minutes gets 4.2 Mb/s on its DVD: a fair picture"
    assert of([exactly(120)], Delivery("dvd")).notes == ()


def test_a_file_too_long_for_fat32_is_said_aloud() -> None:
    (note,) = of([exactly(60)], Delivery("files", "dv", "usb")).notes

    assert note == (
        "one file may be 12.96 GB, and many drives take no file that large, only 19 minutes of it:"
        " the drive has to be emptied and formatted anew, or the file split into 4 parts"
    )
    assert not of([exactly(60)], Delivery("files", "h264", "usb")).notes


def test_a_nearly_full_stick_is_said_aloud() -> None:
    minutes = 60 / (5.256 * 0.0075)
    notes = of([exactly(minutes / 40)] * 40).notes

    assert any("it holds 59.6 GiB, and 55.9 GiB may be needed" in note for note in notes)


def test_more_than_the_largest_stick_goes_on_several() -> None:
    assert pieces(of([exactly(300)] * 20, Delivery("files", "dv", "usb"))) == {"usb-512": exactly(3)}


def test_a_download_is_no_piece_to_hand_over() -> None:
    storage = of([exactly(60)], Delivery("files", "h264", "download"))

    assert storage.copies == ()
    assert any("download" in note for note in storage.notes)


@pytest.mark.parametrize(
    ("delivery", "accepted"),
    [
        (Delivery("tape"), "files, dvd, bluray"),
        (Delivery("files", "cinepak"), "h264"),
        (Delivery("files", "h264", "floppy"), "usb"),
    ],
)
def test_an_unknown_copy_is_refused_with_the_accepted_ones(delivery: Delivery, accepted: str) -> None:
    with pytest.raises(WrongInput, match=accepted):
        of([exactly(60)], delivery)


def test_every_codec_has_a_rate_and_words() -> None:
    for codec in copy_sizes.CODECS:
        rate = bitrates.rate(codec)
        assert 0 < rate.low <= rate.likely <= rate.high
        assert copy_sizes.codec_words(codec)


def test_an_unknown_disc_is_refused() -> None:
    with pytest.raises(WrongInput, match="dvd-r"):
        discs.disc_bytes("laserdisc")
