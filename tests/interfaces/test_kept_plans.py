"""`evenface plan` twice: what serves is kept and said so, `--replan` lays out anew, a changed part is planned anew."""

from typer.testing import CliRunner

from evenface.documents.plan_file import kept_plans
from evenface.interfaces.command_line import app

JOB = """format = 1
[job]
name = "Drying rack"
[buildup.shelf]
carrier = "birch-ply-18"
glue = "pva-d3"
face = "linoleum-2"
back = "linoleum-2"
[[piece]]
name = "rack"
[[piece.panel]]
name = "shelf"
use = "shelf"
buildup = "shelf"
size = [700, 300]
count = 3
"""


KEPT = "Kept from the plan"


def run(*arguments):
    done = CliRunner().invoke(app, ["plan", *map(str, arguments), "--seconds", "0.2"])
    assert done.exit_code in (0, 1), done.output
    assert "Written to" in done.output, done.stderr
    return done.output


def sheets(out):
    return {name: layout.sheets for name, layout in kept_plans(out).items()}


def test_a_plan_is_kept_until_asked_or_of_no_more_use(tmp_path):
    job, out = tmp_path / "rack.toml", tmp_path / "out"
    job.write_text(JOB)
    assert KEPT not in run(job, "--out", out)
    first = sheets(out)
    assert set(first) == {"birch-ply-18", "linoleum-2"}
    assert KEPT in run(job, "--out", out, "--seed", 5)
    assert sheets(out) == first
    assert KEPT not in run(job, "--out", out, "--replan")
    job.write_text(JOB.replace("[700, 300]", "[900, 310]"))
    assert KEPT not in run(job, "--out", out)
    assert sheets(out) != first
