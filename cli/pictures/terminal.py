"""The coloured answer of the program, as a terminal shows it, drawn as SVG.

    python3 terminal.py PROGRAM > terminal.svg      from the project's root
"""

import fcntl
import os
import pty
import re
import struct
import subprocess
import sys
import termios
from html import escape

WORDS = ["advise", "--debrief", "scenarios/harbour/heat-2.yaml"]
COLUMNS = 80
LINES = 25  # a crew chief has the answer from the first 25 lines
LETTER, LINE, MARGIN = 8.43, 18, 14  # px, of a fixed-width face at 14 px

HEAD = """<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}" \
viewBox="0 0 {width:g} {height:g}" role="img" aria-label="{told}">
<style>
text {{ font: 14px "DejaVu Sans Mono", Menlo, Consolas, monospace; white-space: pre;
  fill: #1b1b1b; }}
rect {{ fill: #fff; stroke: #c4c4c4; }}
.bold {{ font-weight: bold; }} .red {{ fill: #b01818; }} .green {{ fill: #17692f; }}
@media (prefers-color-scheme: dark) {{
  text {{ fill: #ececec; }} rect {{ fill: #16181a; stroke: #4a4f54; }}
  .red {{ fill: #ff9c90; }} .green {{ fill: #7fd695; }}
}}
</style>
<rect x="0.5" y="0.5" width="{frame_width:g}" height="{frame_height:g}" rx="6"/>
"""
STYLES = {"1": "bold", "31": "red", "32": "green"}


def on_a_terminal(program):
    """All that the program writes on a terminal of its own."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 50, COLUMNS, 0, 0))
    env = {"LC_ALL": "C.UTF-8", "TERM": "xterm-256color"}
    with subprocess.Popen([program, *WORDS], stdin=theirs, stdout=theirs, stderr=theirs,
                          env=env) as running:
        os.close(theirs)
        seen = b""
        try:
            while block := os.read(ours, 65536):
                seen += block
        except OSError:  # nobody has the terminal open any more
            pass
        os.close(ours)
    if running.returncode != 0:
        sys.exit(f"terminal.py: the program ended with {running.returncode}")
    return seen.decode("utf-8").replace("\r", "")


def spans(line, worn):
    """A line in pieces of one look; `worn` is the look that goes on from line to line."""
    out = []
    for text, codes in re.findall(r"([^\x1b]+)|\x1b\[([\d;]*)m", line):
        if text:
            looks = " ".join(sorted(worn))
            out.append(f'<tspan class="{looks}">{escape(text)}</tspan>' if looks else escape(text))
        for code in codes.split(";") if not text else ():
            if code in ("", "0"):
                worn.clear()
            else:
                worn.add(STYLES[code])
    return "".join(out)


def picture(seen):
    lines = seen.split("\n")[:LINES]
    width, height = COLUMNS * LETTER + 2 * MARGIN, LINES * LINE + 2 * MARGIN
    told = "kartwright " + " ".join(WORDS) + ", as a terminal shows it: " + " ".join(
        re.sub(r"\x1b\[[\d;]*m", "", seen).split()[:60]) + " ..."
    head = HEAD.format(width=width, height=height, told=escape(told), frame_width=width - 1,
                       frame_height=height - 1)
    worn = set()
    rows = [f'<text x="{MARGIN}" y="{MARGIN + LINE * (i + 1) - 5}" xml:space="preserve">'
            f"{spans(line, worn)}</text>" for i, line in enumerate(lines)]
    return head + "\n".join(rows) + "\n</svg>\n"


if __name__ == "__main__":
    sys.stdout.write(picture(on_a_terminal(sys.argv[1])))
