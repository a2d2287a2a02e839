"""The command that writes templates: its files read back agree with the record."""

import io
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.interfaces.command_line import app

JOB = """
format = 1
[job]
name = "Round table for the kiln yard"
{shop}
[buildup.top]
face    = "hpl-0.8"
back    = "hpl-0.8"
carrier = "mdf-19"
glue    = "pva-d3"
edging  = {{ wood = "ash", width = 10 }}
[[piece]]
name = "Yard table"
[[piece.panel]]
name = "top"
buildup = "top"
size = [700, 500]
cutout = [{{ name = "pole", at = [310, 240], size = [160, 90], radius = {radius} }}]
"""


def run(folder: Path, radius: float = 12.0, shop: str = "", *more: str) -> tuple[int, str, Path]:
    file = folder / "table.toml"
    file.write_text(JOB.format(radius=radius, shop=shop), encoding="utf-8")
    out = folder / "cut here"
    answer = CliRunner().invoke(app, ["templates", str(file), "--out", str(out), *more])
    if answer.exception is not None and not isinstance(answer.exception, SystemExit):
        raise answer.exception
    return answer.exit_code, answer.output, out


def test_pdf_svg_and_dxf_are_written_and_measure_what_the_record_says(tmp_path: Path) -> None:
    """160 × 90 with bush 24 and cutter 8: 8 all round, 176 × 106, corners of 20."""
    ezdxf = pytest.importorskip("ezdxf")
    code, _, out = run(tmp_path, shop="[shop]\nbush = 24\ncutter = 8")
    assert code == 0
    assert sorted(one.name for one in out.iterdir()) == [
        f"yard-table-top-pole.{suffix}" for suffix in ("dxf", "pdf", "svg")
    ]
    document = ezdxf.read(io.StringIO((out / "yard-table-top-pole.dxf").read_text(encoding="utf-8")))
    assert not document.audit().errors
    (line,) = document.modelspace().query('LWPOLYLINE[layer=="template"]')
    points = [(x, y) for x, y, *_ in line.get_points()]
    assert max(x for x, _ in points) - min(x for x, _ in points) == pytest.approx(176, abs=0.001)
    assert max(y for _, y in points) - min(y for _, y in points) == pytest.approx(106, abs=0.001)
    assert (out / "yard-table-top-pole.pdf").read_bytes().startswith(b"%PDF")
    svg = (out / "yard-table-top-pole.svg").read_text(encoding="utf-8")
    assert re.search(r'width="[\d.]+mm"', svg)


def test_what_cannot_be_routed_is_told_and_ends_with_one(tmp_path: Path) -> None:
    code, output, out = run(tmp_path, radius=4.0)
    assert code == 1
    assert "cutter of at most 8 mm" in " ".join(output.split())
    assert not out.exists()


def test_an_unknown_paper_is_named(tmp_path: Path) -> None:
    from evenface.interfaces.templating import PaperError

    with pytest.raises(PaperError, match="A4, A3, Letter"):
        run(tmp_path, 12.0, "", "--paper", "B5")


@pytest.mark.parametrize("paper", ["A3", "letter"])
def test_other_papers(tmp_path: Path, paper: str) -> None:
    code, _, out = run(tmp_path, 12.0, "", "--paper", paper)
    assert code == 0
    assert (out / "yard-table-top-pole.pdf").stat().st_size > 1000
