"""Sheets broken on purpose: each must be caught, or the checks have no teeth."""

import re

from checks import faults_of
from sheets import Sheet


def _put(where, more):
    """Puts markup before the end of an element."""
    return lambda html: html.replace(f"</{where}>", more + f"</{where}>", 1)


def _swap(old, new):
    return lambda html: html.replace(old, new, 1)


def _style(more):
    return _put("style", more)


def _first_figure(text):
    return lambda html: re.sub(r'(data-json="/on_paper/before[^>]*>)[^<]*', r"\g<1>" + text, html,
                               count=1)


_ROW = "<td>" + "x" * 120 + "</td>"
_WIDE = f'<table><tr><th scope="row">wide</th>{_ROW}</tr></table>'
_TEXT = '<text x="{}" y="30">beyond</text>'

GOOD = "advise-change"  # the sheet that is broken

# Name, the group that must catch it, and how a good sheet is broken.
BROKEN = (
    ("a script", "scripts", _put("main", "<script>1</script>")),
    ("an attribute that runs", "scripts", _put("main", '<p onclick="1">x</p>')),
    ("a script that says something", "console", _put("main", "<script>console.log(1)</script>")),
    ("a script that fails", "console", _put("main", "<script>nothing.at.all()</script>")),
    ("words from a script", "without scripts",
     _put("main", "<script>document.querySelector('main').append('late')</script>")),
    ("an external image", "ways out",
     _put("main", '<img alt="x" src="https://example.invalid/x.png">')),
    ("an external image, asked for", "requests",
     _put("main", '<img alt="x" src="https://example.invalid/x.png">')),
    ("a file beside it", "requests", _put("main", '<img alt="x" src="beside.png">')),
    ("an external style", "ways out", _style("@import url(https://example.invalid/x.css);")),
    ("a picture in the style", "requests",
     _style("main { background: url(https://example.invalid/x.png); }")),
    ("an external link", "ways out", _put("main", '<a href="https://example.invalid">x</a>')),
    ("an open element", "markup", _put("main", "<section><p>open</section></b>")),
    ("an id twice", "markup", _put("main", '<p id="a">x</p><p id="a">y</p>')),
    ("a heading too deep", "markup", _put("main", "<h4>deep</h4>")),
    ("a table without scope", "markup",
     _put("main", "<table><tr><th>x</th><td>y</td></tr></table>")),
    ("a picture without words", "markup",
     lambda html: re.sub(r'aria-label="[^"]*"', 'aria-label=""', html, count=1)),
    ("no language", "markup", _swap(' lang="en"', "")),
    ("two mains", "markup", _put("body", "<main>again</main>")),
    ("no title", "markup", lambda html: re.sub(r"<title>.*?</title>", "", html, flags=re.S)),
    ("a text outside its picture", "letters", _put("svg", _TEXT.format(300))),
    ("a text before its picture", "letters", _put("svg", _TEXT.format(-8))),
    ("two texts in one place", "letters", _put("svg", _TEXT.format(120) * 2)),
    ("a table too wide", "sideways", lambda html: _style("td { white-space: nowrap; }")(
        _put("main", _WIDE)(html))),
    ("a word too wide", "sideways", lambda html: _style("body { overflow-wrap: normal; }")(
        _put("main", "<p>" + "x" * 200 + "</p>")(html))),
    ("a number broken in two", "broken words",
     _put("main", '<p style="width: 2em; overflow-wrap: anywhere">1360 mm</p>')),
    ("two pages", "paper", _put("main", "<p>more</p>" * 200)),
    ("too faint on light", "contrast", _put("main", '<p style="color: #999">faint</p>')),
    ("too faint in the dark", "contrast",
     _style("@media (prefers-color-scheme: dark) { p { color: #444 !important; } }")),
    ("a faint word in a picture", "contrast",
     _put("svg", '<text x="120" y="30" style="fill: #aaa">faint</text>')),
    ("a word on its own colour", "contrast",
     _put("svg", '<rect x="100" y="0" width="99" height="40" style="fill: #222"></rect>'
          '<text x="120" y="30" style="fill: #111">dark</text>')),
    ("too large", "size", _put("main", "<p>" + "x " * 110_000 + "</p>")),
    ("a wrong figure", "figures", _first_figure("999 N")),
    ("a figure in another unit", "figures", _first_figure("226 lbf")),
    ("a figure without a number", "figures", _first_figure("a lot")),
    ("a pointer at nothing", "figures", _swap('data-json="/on_paper', 'data-json="/in_air')),
    ("a pointer at too much", "figures",
     lambda html: re.sub(r'data-json="/on_paper[^"]*"', 'data-json="/on_paper"', html, count=1)),
)


def misses(window, good, broken):
    """What is to be said where the good sheet, broken so, is not caught by its group."""
    name, group, breaking = broken
    html = breaking(good.html)
    if html == good.html:
        return ["the good sheet could not be broken so"]
    path = good.path.with_name(f"broken-{name.replace(' ', '-')}.html")
    path.write_text(html, encoding="utf-8")
    sheet = Sheet(name, good.words, path, html, good.json)
    caught = any(found == group for found, _ in faults_of(window, sheet, (group,)))
    return [] if caught else [f"`{group}` does not catch it"]
