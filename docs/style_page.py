"""docs/style.md: every setting of style.yaml in one table, made from the keys that the program reads by.

``python docs/style_page.py docs/style.md`` writes it; a test compares what is there with what would be written.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from engraver.definition.font_keys import FamilyFile, FontsFile
from engraver.definition.kit_rows import RowDefinition
from engraver.definition.page_keys import MarginsFile, PaperFile
from engraver.definition.settings import Setting, settings
from engraver.style import FAMILIES, preset_text, presets, syllable_sets

PICTURES = Path(__file__).parent / "style"

HEAD = """# style.yaml

Every notation and page decision is a row of the file `style.yaml` in the book's folder. What is left out has its
default, so the file can be empty or missing. A row that is misspelt, or that contradicts another, is told with its
place. `engraver specimen my-book` prints every sign and setting that is in force on a few pages.

Change a row, and the pages that show it are made anew; the others stay as they are, to the byte.

The pictures show the values in their order, one under the other.
"""

PRESETS = """
## Presets

`preset: large print` begins with the settings of a file that comes with Engraver; rows of your own win. The files are
short, to be read and copied: they lie in `engraver/style/presets/`, and `engraver preset "large print"` prints one.
"""

KIT = """
## Rows of the kit

Each instrument is a row under `kit`. What is left out stays as it was; a new instrument needs `position`, `limbs` and
`key`. Two instruments at one place with one head and one sign are refused.

```yaml
kit:
  snare:    {head: diamond}
  log drum: {position: -2, limbs: hands, key: 77, head: triangle}
```
"""

WORDS = """
## Wording and language

`language: de` prints the whole book in German. Single words are changed under `words`; `engraver words` prints all rows
with what they say. `{places}` are filled in when the page is made and have to stay; where a row has the forms `one` and
`other`, so has yours.

```yaml
words:
  index: Register of grooves
  n bars: {one: "{n} measure", other: "{n} measures"}
```
"""

FONTS = """
## Fonts

Shipped are {families}. A family of your own is named by its files, as seen from the book's folder; faces that are left
out are the nearest that is there. A file that is no font, or lacks letters that every book needs, is a fault.

```yaml
fonts:
  text: {{regular: fonts/mine.otf, italic: fonts/mine-italic.otf}}
  labels: Source Sans Pro
```
"""


def page() -> str:
    parts = [HEAD, _table(settings(), pictures=True), PRESETS, _presets(), KIT, _table(settings(RowDefinition))]
    parts += [WORDS, "\n## Counting syllables\n", _syllables()]
    parts += ["\n## Paper and margins\n", _table([*settings(PaperFile), *settings(MarginsFile)])]
    parts += [FONTS.format(families=" and ".join(FAMILIES)), _table([*settings(FontsFile), *settings(FamilyFile)])]
    return "\n".join(part.strip("\n") + "\n" for part in parts)


def _table(rows: Iterable[Setting], pictures: bool = False) -> str:
    head = ["key", "what it says", "values", "left out", *(["picture"] if pictures else [])]
    lines = [head, ["---"] * len(head), *(_row(each, pictures) for each in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def _row(each: Setting, pictures: bool) -> list[str]:
    told = [f"`{each.name}`", each.doc, each.values, each.default]
    return [*told, _picture(each.name)] if pictures else told


def _picture(name: str) -> str:
    file = PICTURES / f"{name.replace(' ', '-')}.png"
    return f"![{name}](style/{file.name})" if file.exists() else ""


def _presets() -> str:
    return "\n".join(f"- **{name}**: {' '.join(_opening(name))}" for name in presets())


def _opening(name: str) -> Iterator[str]:
    """The comment that a preset begins with."""
    for line in preset_text(name).splitlines():
        if not line.startswith("#"):
            return
        yield line.removeprefix("#").strip()


def _syllables() -> str:
    lines = ["| name | in halves | in thirds | in quarters |", "| --- | --- | --- | --- |"]
    for name, own in syllable_sets().items():
        spoken = (" ".join(["1", *part]) for part in (own.halves, own.thirds, own.quarters))
        lines.append(f"| `{name}` | {' | '.join(spoken)} |")
    return "\n".join(lines)


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(page(), "utf-8")
