"""What can be told of a sheet without showing it."""

import functools
import re

import html5lib

LIMIT = 200 * 1024
XHTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
# Where an attribute may lead out of the file.
LEADS_OUT = ("src", "href", "srcset", "data", "action", "formaction", "poster", "background",
             "xlink:href", "{http://www.w3.org/1999/xlink}href", "ping", "cite")


@functools.lru_cache(maxsize=8)
def tree_of(html):
    """The tree and what the strict parser has against it."""
    parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("etree"))
    tree = parser.parse(html)
    errors = [f"{place}: {code} {extra or ''}".strip() for place, code, extra in parser.errors]
    return tree, errors


def _tag(element):
    return element.tag if isinstance(element.tag, str) else ""


def _name(element):
    return _tag(element).rsplit("}", 1)[-1]


def _text(element):
    return "".join(element.itertext()).strip()


def _faults_of_frame(tree):
    if not (tree.get("lang") or "").strip():
        yield "the file does not say its language"
    for name, most in (("title", 1), ("main", 1), ("h1", 1), ("header", 1), ("footer", 1)):
        found = [each for each in tree.iter(XHTML + name)]
        if len(found) != most:
            yield f"{len(found)} {name} elements where there should be {most}"
        elif not _text(found[0]):
            yield f"{name} is empty"


def _faults_of_headings(tree):
    last = 0
    for each in tree.iter():
        level = re.fullmatch(r"h([1-6])", _name(each))
        if not level:
            continue
        here = int(level.group(1))
        if here > last + 1:
            yield f"a heading of level {here} comes after level {last}: {_text(each)[:40]}"
        if not _text(each):
            yield f"an empty h{here}"
        last = here


def _faults_of_tables(tree):
    for table in tree.iter(XHTML + "table"):
        heads = list(table.iter(XHTML + "th"))
        if not heads:
            yield "a table without th: " + _text(table)[:60]
        for each in heads:
            if each.get("scope") not in ("col", "row", "colgroup", "rowgroup"):
                yield "a th without scope: " + _text(each)[:60]


def _faults_of_pictures(tree):
    for each in tree.iter(SVG + "svg"):
        if each.get("role") != "img" or not (each.get("aria-label") or "").strip():
            yield "a picture without role=img and words for whoever cannot see it"


def _twice(tree):
    seen = set()
    for each in tree.iter():
        name = each.get("id")
        if name is not None and name in seen:
            yield f"the id `{name}` stands twice"
        seen.add(name)


def markup_faults(html):
    if not html.startswith("<!DOCTYPE html>"):
        yield "the file does not open with <!DOCTYPE html>"
    tree, errors = tree_of(html)
    yield from errors
    for part in (_faults_of_frame, _faults_of_headings, _faults_of_tables, _faults_of_pictures,
                 _twice):
        yield from part(tree)


def script_faults(html):
    tree, _ = tree_of(html)
    for each in tree.iter():
        if _name(each) in ("script", "iframe", "object", "embed", "base", "form", "foreignObject"):
            yield f"a {_name(each)} element"
        for name, value in each.attrib.items():
            if name.lower().startswith("on"):
                yield f"an attribute {name} on {_name(each)}"
            if "javascript:" in (value or "").replace(" ", "").lower() and name in LEADS_OUT:
                yield f"a script in {name} of {_name(each)}"
        if _name(each) == "meta" and "refresh" in (each.get("http-equiv") or "").lower():
            yield "a meta that leads elsewhere"


def way_out_faults(html):
    tree, _ = tree_of(html)
    for each in tree.iter():
        if _name(each) == "link":
            yield "a link element"
        for name, value in each.attrib.items():
            if name in LEADS_OUT and not (value or "").startswith("#"):
                yield f"{name}={value} on {_name(each)}"
            if re.search(r"url\(\s*['\"]?(?!#)", value or "") and name == "style":
                yield f"a url in the style of {_name(each)}"
        if _name(each) == "style":
            for found in re.findall(r"url\([^)]*\)|@import[^;]*", each.text or ""):
                yield f"{found} in the style"


def size_faults(html):
    size = len(html.encode("utf-8"))
    if size > LIMIT:
        yield f"{size} bytes; at most {LIMIT}"


def shape_of(html):
    """The elements of a file one behind the other, each with how deep it stands."""
    tree, _ = tree_of(html)
    out = []

    def walk(element, depth):
        out.append((depth, _tag(element), tuple(sorted(element.attrib))))
        for child in element:
            walk(child, depth + 1)

    walk(tree, 0)
    return out
