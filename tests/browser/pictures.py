"""Pictures of sheets: on a phone, at a desk and on paper, light and dark."""

import subprocess
from pathlib import Path

from command_lines import chosen
from window import Window, Windows

SIZES = {"phone": (360, 740), "desk": (1280, 900)}
TOP = 690  # px of a sheet at a desk that stand in the README


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


def take_one(program, name, file):
    """The top of one sheet at a desk. Gives the exit code."""
    sheet = program.sheet(name, chosen([name])[name], with_json=False)
    with Window() as window:
        window.size(SIZES["desk"][0], TOP)
        window.scheme("light")
        window.open(sheet.url)
        Path(file).write_bytes(window.picture(whole=False))
    return 0


def take(program, folder, names):
    """Of the sheets whose names begin so. Gives the exit code."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    sheets, refused = program.sheets(chosen(names), with_json=False)
    for each in refused:
        print(f"refused: {each}")

    def picture(window, sheet):
        window.open(sheet.url)
        _on_screen(window, folder / sheet.name)
        _on_paper(window, folder / sheet.name)

    with Windows() as windows:
        windows.each(picture, sheets)
    print(f"pictures of {len(sheets)} sheets in {folder}")
    return 1 if refused else 0
