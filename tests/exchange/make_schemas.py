"""Write the schemas of the answers anew, after an answer's type has changed: python tests/exchange/make_schemas.py"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "src"))


def main() -> None:
    """Write one file for each answer in the catalogue, and remove those of answers that are gone."""
    from twomarks.exchange.answers.catalogue import ANSWERS
    from twomarks.exchange.answers.schemas import FOLDER, made_schema, schema_name

    folder = ROOT / "src" / "twomarks" / FOLDER
    made = {schema_name(name): made_schema(name) for name in ANSWERS}
    for old in folder.glob("*.json"):
        if old.name not in made:
            old.unlink()
    for name, text in made.items():
        (folder / name).write_text(text, "utf-8")


if __name__ == "__main__":
    main()
