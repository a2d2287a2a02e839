"""A humidity logger's file: every way of writing one, and every way of getting it wrong."""

from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.climate import (
    daily_means,
    even_year,
    logged_year,
    read_logger,
    read_logger_text,
)
from evenface.errors import FileError

ISO = "time;temperature °C;humidity %\n2026-01-05 00:00;20,5;41,0\n2026-01-05 01:00;20,7;42,5\n"


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.integers(-200, 400), st.integers(105, 995)), min_size=2, max_size=20),
    st.sampled_from([(";", ","), ("\t", ","), (";", "."), (",", ".")]),
)
def test_round_trip(readings: list[tuple[int, int]], manner: tuple[str, str]) -> None:
    separator, mark = manner
    lines = [separator.join(["Datum", "Temperatur (°C)", "Luftfeuchte (%)"])]
    for hour, (warm, damp) in enumerate(readings):
        stamp = datetime(2026, 5, 30, 7) + timedelta(hours=hour)
        cells = [
            f"{stamp:%d.%m.%Y %H:%M}",
            f"{warm / 10:.1f}".replace(".", mark),
            f"{damp / 10:.1f}".replace(".", mark),
        ]
        lines.append(separator.join(cells))
    log = read_logger_text("\n".join(lines))
    assert log.temperature_c == pytest.approx([warm / 10 for warm, _ in readings], abs=1e-12)
    assert log.humidity == pytest.approx([damp / 1000 for _, damp in readings], abs=1e-12)
    assert log.times[0] == np.datetime64("2026-05-30T07:00:00")


@settings(max_examples=80)
@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_by_name(text: str) -> None:
    for candidate in (text, "time;temp;rh\n" + text):
        with suppress(FileError):  # any other exception fails the test
            read_logger_text(candidate, "log.csv")


@pytest.mark.parametrize(
    ("text", "celsius", "humidity"),
    [
        (ISO, 20.5, 0.41),
        ("Date,Time,Temp [F],RH\n12/24/2026,6:30 PM,68.0,40\n12/24/2026,7:30 PM,68,40\n", 20.0, 0.40),
        (
            "timestamp,temp (°C),rel. humidity\n"
            "2026-07-01T10:00:00Z,21.0,0.55\n2026-07-01T11:00:00Z,21,0.55\n",
            21.0,
            0.55,
        ),
        (
            "Logger 7\nshop\n\ndatum;temp °C;dew point °C;fukt %\n"
            "24.12.2026 10:00;18;4;38\n24.12.2026 11:00;18;4;38\n",
            18.0,
            0.38,
        ),
    ],
)
def test_forms(text: str, celsius: float, humidity: float) -> None:
    log = read_logger_text(text)
    assert log.temperature_c[0] == pytest.approx(celsius)
    assert log.humidity[0] == pytest.approx(humidity)


def test_afternoon_is_afternoon() -> None:
    log = read_logger_text("date,time,temp °C,rh %\n13/02/2026,12:30 AM,20,40\n13/02/2026,12:30 PM,20,40\n")
    assert list(log.times.astype(str)) == ["2026-02-13T00:30:00", "2026-02-13T12:30:00"]


def test_order_of_day_and_month() -> None:
    text = "time;temp °C;rh %\n03/04/2026 10:00;20;40\n03/04/2026 11:00;20;40\n"
    with pytest.raises(FileError, match=r"line 2: .*day-first or month-first"):
        read_logger_text(text, "shop.csv")
    assert read_logger_text(text, date_order="day-first").times[0] == np.datetime64("2026-04-03T10:00")
    assert read_logger_text(text, date_order="month-first").times[0] == np.datetime64("2026-03-04T10:00")
    with pytest.raises(FileError, match="some dates have the day first"):
        read_logger_text("time;temp °C;rh %\n13/04/2026 10:00;20;40\n04/13/2026 11:00;20;40\n")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "an empty file"),
        ("a;b\n1;2\n", "heading that names time"),
        ("time;temp;rh\n" + "5" * 200_000 + ";20;40\n", "line 2: expected lines of readings"),
        ("time;temp;rh\n", "readings below the heading"),
        (
            "time;temp °C;rh %\n2026-01-05 00:00;warm;40\n",
            r"log.csv, line 2: expected a temperature; given 'warm'",
        ),
        ("time;temp °C;rh %\n2026-01-05 00:00;20;40\n2026-02-30 00:00;20;40\n", "line 3: expected a time"),
        (
            "time;temp °C;rh %\n2026-01-05 00:00;20;140\n2026-01-05 01:00;20;40\n",
            "line 2: expected a humidity of 0 to 100",
        ),
        ("time;temp °C;rh %\n2026-01-05 00:00;20\n", "line 2: expected 3 cells"),
        ("time,temp °C,rh %\n2026-01-05 00:00,20,5,40\n", "export with semicolons"),
        ("time;temp;rh %\n2026-01-05 00:00;68;40\n2026-01-05 01:00;68;40\n", "Is it °F"),
        (
            "time;temp °C;rh %\n2026-01-05 00:00;20;0.4\n2026-01-05 01:00;20;0.4\n",
            "in percent, as its heading says",
        ),
        (
            "time;temp °C;rh %\n2026-01-05 09:00;20;40\n2026-01-05 03:00;20;40\n2026-01-05 10:00;20;40\n",
            "line 3: expected times that go",
        ),
        ("time;temp °C;rh %\n2026-01-05 00:00;20;40\n", "at least two readings"),
    ],
)
def test_errors_name_the_line(text: str, said: str) -> None:
    with pytest.raises(FileError, match=said):
        read_logger_text(text, "log.csv")


def hourly(start: datetime, hours: int, skip: range = range(0)) -> str:
    rows = ["time;temp °C;rh %"]
    rows += [
        f"{start + timedelta(hours=hour):%Y-%m-%d %H:%M};{18 + hour % 5};{40 + hour % 7}"
        for hour in range(hours)
        if hour not in skip
    ]
    return "\n".join(rows)


def test_gaps_are_named_and_bridged_or_refused() -> None:
    log = read_logger_text(hourly(datetime(2026, 3, 1), 200, range(50, 90)))
    assert len(log.gaps) == 1
    assert log.gaps[0].start == datetime(2026, 3, 3, 1)
    assert log.gaps[0].hours == pytest.approx(41)
    assert log.notes[-1].values["end"] == "2026-03-04 18:00:00"
    with pytest.raises(FileError, match=r"gap longer than 72 hours.*2026-03-03 01:00"):
        read_logger_text(hourly(datetime(2026, 3, 1), 200, range(50, 130)))


def test_newest_first_and_clock_set_back_and_missing_readings() -> None:
    newest = "time;temp °C;rh %\n2026-01-05 02:00;20;44\n2026-01-05 01:00;20;42\n2026-01-05 00:00;20;---\n"
    log = read_logger_text(newest)
    assert log.humidity == pytest.approx([0.42, 0.44])
    assert len(log.notes) == 2
    back = (
        "time;temp °C;rh %\n2026-10-25 02:00;20;40\n"
        "2026-10-25 02:30;20;40\n2026-10-25 02:00;20;44\n2026-10-25 03:00;20;40\n"
    )
    assert read_logger_text(back).humidity == pytest.approx([0.42, 0.40, 0.40])


def test_days_weigh_readings_by_their_time() -> None:
    text = (
        "time;temp °C;rh %\n2026-01-05 00:00;10;40\n"
        "2026-01-05 12:00;20;40\n2026-01-06 00:00;20;40\n2026-01-07 00:00;20;60\n"
    )
    days = daily_means(read_logger_text(text))
    assert days.temperature_c[:2] == pytest.approx([17.5, 20.0])
    assert days.humidity[:2] == pytest.approx([0.40, 0.50])
    assert days.dates.size == 2


def test_a_year_of_readings_and_a_part_of_one() -> None:
    whole = logged_year(read_logger_text(hourly(datetime(2027, 9, 1), 24 * 367)))  # passes 29 February 2028
    assert whole.humidity.mean() == pytest.approx(0.43, abs=0.002)
    part = read_logger_text(hourly(datetime(2027, 2, 1), 24 * 59), "shop.csv")
    with pytest.raises(FileError, match="Jan, Apr, May"):
        logged_year(part)
    filled = logged_year(part, even_year(0.6, 15.0))
    assert filled.humidity[0] == pytest.approx(0.6)
    assert filled.humidity[40] == pytest.approx(0.43, abs=0.02)
    assert "reckoned year" in filled.notes[-1].template


def test_files(tmp_path: Path) -> None:
    file = tmp_path / "log.csv"
    file.write_bytes(ISO.encode("cp1252"))
    assert read_logger(file).humidity[0] == pytest.approx(0.41)
    file.write_bytes(ISO.encode("utf-16"))
    assert read_logger(file).humidity[0] == pytest.approx(0.41)
    file.write_bytes(b"\x00\x01\x02")
    with pytest.raises(FileError, match="binary"):
        read_logger(file)
    file.write_bytes(b"x" * 20_000_001)
    with pytest.raises(FileError, match="20 MB"):
        read_logger(file)
    with pytest.raises(FileError, match="can be read"):
        read_logger(tmp_path / "none.csv")
