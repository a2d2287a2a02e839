"""Backups that can be opened, and photos that lie where the rack says and nowhere else."""

from dataclasses import replace
from datetime import datetime

import pytest
from store.rack_acts import by_code, replayed

from evenface.store import RackError, RackItem
from evenface.store.rack import Rack
from evenface.store.rack_keeping import PHOTOS, back_up, keep_photo, photo_place
from evenface.store.rack_records import Left

SHEET = RackItem("sheet", "birch-ply-18", 250_000, 125_000)
NOW = datetime(2027, 1, 11, 8, 30)
PNG = b"\x89PNG\r\n\x1a\n" + b"picture"


def test_a_backup_is_a_rack_of_its_own(rack, tmp_path):
    one, two = rack.receive([SHEET, replace(SHEET, notes="ä × '")])
    rack.cut(one, [Left(1_000, 2_000)])
    rack.spoil(two)
    rack.undo()
    rack.correct(rack.find(two.code), photo=keep_photo(rack.folder, two.code, picture(tmp_path)))
    place = back_up(rack.engine, rack.folder, tmp_path / "backups", NOW)
    assert place.name == "rack-2027-01-11-083000"
    assert [one.name for one in (tmp_path / "backups").iterdir()] == [place.name]
    rack.undo()  # what comes later is not in it
    with Rack(place, f"sqlite:///{place / 'rack.sqlite3'}", "Ida") as copy:
        assert len(copy.log(None)) == 5
        assert replayed(copy) == by_code(copy)
        assert photo_place(place, copy.find(two.code)).read_bytes() == PNG
        for _ in range(3):  # correct, cut, receive; it goes on where it was
            copy.undo()
        assert copy.items() == ()
    assert len(rack.items()) == 3


def test_a_backup_never_writes_over_another(file_rack, tmp_path):
    file_rack.receive([SHEET])
    back_up(file_rack.engine, file_rack.folder, tmp_path / "b", NOW)
    with pytest.raises(RackError, match="is there already"):
        back_up(file_rack.engine, file_rack.folder, tmp_path / "b", NOW)
    (tmp_path / "file").write_text("")
    with pytest.raises(RackError, match="could not be backed up"):
        back_up(file_rack.engine, file_rack.folder, tmp_path / "file", NOW)


def picture(folder, content=PNG):
    place = folder / "somewhere.dat"
    place.write_bytes(content)
    return place


def test_a_photo_is_copied_under_a_name_of_our_own(tmp_path):
    names = [keep_photo(tmp_path, "K7F32MQT", picture(tmp_path)) for _ in range(2)]
    assert names == ["K7F32MQT-1.png", "K7F32MQT-2.png"]
    assert keep_photo(tmp_path, "K7F32MQT", picture(tmp_path, b"\xff\xd8\xff\xe0x")) == "K7F32MQT-1.jpg"
    assert photo_place(tmp_path, replace(SHEET, photo=names[0])) == (tmp_path / PHOTOS / names[0]).resolve()
    assert photo_place(tmp_path, SHEET) is None
    assert photo_place(tmp_path, replace(SHEET, photo="gone.png")) is None


def test_a_photo_that_leads_out_of_the_folder_is_not_shown(tmp_path):
    (tmp_path / PHOTOS).mkdir()
    (tmp_path / "secret.png").write_bytes(PNG)
    (tmp_path / PHOTOS / "link.png").symlink_to(tmp_path / "secret.png")
    assert photo_place(tmp_path, replace(SHEET, photo="link.png")) is None


@pytest.mark.parametrize(
    ("content", "told"), [(b"GIF89a", "expected a JPEG or PNG"), (b"<svg/>", "expected a JPEG")]
)
def test_what_is_no_photo_is_refused(tmp_path, content, told):
    with pytest.raises(RackError, match=told):
        keep_photo(tmp_path, "K7F32MQT", picture(tmp_path, content))
    with pytest.raises(RackError, match="cannot be read"):
        keep_photo(tmp_path, "K7F32MQT", tmp_path / "missing.png")
    assert not (tmp_path / PHOTOS).exists()


def test_a_large_photo_is_refused_before_it_is_read(tmp_path, monkeypatch):
    place = picture(tmp_path, PNG + b"x" * 20_000_000)
    monkeypatch.setattr("pathlib.Path.read_bytes", lambda self: pytest.fail("it was read"))
    with pytest.raises(RackError, match="at most 20 MB"):
        keep_photo(tmp_path, "K7F32MQT", place)
