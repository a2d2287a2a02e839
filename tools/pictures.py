"""Draw the README's pictures anew: python tools/pictures.py"""

from pathlib import Path

from evenface.documents.pictures import pictures_of
from evenface.job.opening import open_with_all
from evenface.job.plan import plan

ROOT = Path(__file__).parents[1]
WANTED = {
    "glaze-room": {
        "glazing-bench-top-plan": "bench-plan.svg",
        "glazing-bench-top-section-front": "bench-section.svg",
        "layout-hpl-0-8-2": "laminate-sheet.svg",
    },
    "wall-cupboard": {"whole-1-apart-wall-cupboard": "cupboard-apart.svg"},
}


def main() -> None:
    """Plan the examples and keep the drawings the README shows."""
    folder = ROOT / "docs" / "pictures"
    folder.mkdir(parents=True, exist_ok=True)
    for example, wanted in WANTED.items():
        result = plan(open_with_all(ROOT / "examples" / f"{example}.toml"))
        drawn = {picture.name: picture.svg for picture in pictures_of(result)}
        for name, file in wanted.items():
            (folder / file).write_text(drawn[name], encoding="utf-8")
            print(folder / file)


if __name__ == "__main__":
    main()
