"""A picture is taken as it is, made smaller, or refused by name."""

from __future__ import annotations

import base64
import io
import random
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from core.model.errors import WrongInput
from core.services.own_shop import shop_settings
from gui.settings import logo_field
from gui.settings.logo_field import LogoField


def written(path: Path, width: int, height: int, *, noisy: bool = False, mode: str = "RGBA") -> Path:
    image = Image.new(mode, (width, height), "#14585A")
    if noisy:
        image = Image.frombytes(mode, (width, height), random.Random(5).randbytes(width * height * len(mode)))
    image.save(path)
    return path


@pytest.mark.parametrize("name", ["logo.png", "logo.jpg"])
@pytest.mark.parametrize("noisy", [False, True])
@pytest.mark.parametrize("size", [(40, 20), (1800, 900), (600, 600)])
def test_every_picture_becomes_one_the_papers_take(
    tmp_path: Path, name: str, noisy: bool, size: tuple[int, int]
) -> None:
    path = written(tmp_path / name, *size, noisy=noisy, mode="RGB" if name.endswith("jpg") else "RGBA")
    text = logo_field.encoded(path)
    content = base64.b64decode(text)
    assert len(content) <= logo_field.MOST_BYTES
    with Image.open(io.BytesIO(content)) as image:
        assert max(image.size) == min(logo_field.MOST_PIXELS, max(size))
        assert image.size[0] / image.size[1] == pytest.approx(size[0] / size[1], rel=0.02)
    shop = shop_settings.new_shop()
    kept = replace(shop, front=replace(shop.front, logo=text))
    assert shop_settings.of_document(shop_settings.document(kept), "s").front.logo == text


def test_the_same_file_gives_the_same_logo(tmp_path: Path) -> None:
    path = written(tmp_path / "logo.png", 1000, 500, noisy=True)
    assert logo_field.encoded(path) == logo_field.encoded(path)


def test_what_is_no_picture_is_refused_and_the_old_one_stays(qtbot: object, tmp_path: Path) -> None:
    field = LogoField()
    qtbot.addWidget(field)  # type: ignore[attr-defined]
    field.take(str(written(tmp_path / "logo.png", 40, 20)))
    before = field.text
    assert before
    found: list[WrongInput] = []
    field.refused.connect(found.append)
    (tmp_path / "letter.png").write_text("Dear customer")
    field.take(str(tmp_path / "letter.png"))
    assert found[0].sentence == "Logo: found 'letter.png'; a picture file in PNG or JPEG is accepted."
    assert field.text == before
    field.remove.click()
    assert field.text == ""


def test_the_file_refuses_a_logo_that_only_begins_like_one() -> None:
    shop = shop_settings.new_shop()
    broken = base64.b64encode(b"\x89PNG\r\n\x1a\n" + b"nothing more").decode()
    with pytest.raises(WrongInput, match="front, logo"):
        shop_settings.of_document(
            shop_settings.document(replace(shop, front=replace(shop.front, logo=broken))), "settings"
        )
