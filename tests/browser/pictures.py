"""Pictures of sheets: on a phone, at a desk and on paper, light and dark."""

import subprocess
from pathlib import Path

from command_lines import COMMAND_LINES, wanted
from window import Window

SIZES = {"phone": (360, 740), "desk": (1280, 900)}


def _on_screen(window, stem):
    for size, (width, height) in SIZES.items():
        window.size(width, height)
        for scheme in ("light", "dark"):
            window.scheme(scheme)
            Path(f"{stem}.{size}.{scheme}.png").write_bytes(window.picture())
    window.scheme("light")


def _on_paper(window, stem):
    for paper in ("A4", "Letter"):
        pdf = Path(f"{stem}.{paper}.pdf")
        pdf.write_bytes(window.pdf(paper))
        subprocess.run(["pdftoppm", "-r", "96", "-png", str(pdf), str(pdf.with_suffix(""))],
                       check=True)


def take(program, folder, chosen):
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    lines = {name: words for name, words in COMMAND_LINES.items()
             if wanted(words) and (not chosen or name.startswith(tuple(chosen)))}
    sheets = program.sheets(lines, with_json=False)
    with Window() as window:
        for sheet in sheets:
            window.open(sheet.url)
            _on_screen(window, folder / sheet.name)
            _on_paper(window, folder / sheet.name)
    print(f"pictures of {len(sheets)} sheets in {folder}")
    return 0
