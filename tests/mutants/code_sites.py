"""Finds the places of C++ code that can be mutated, and writes the code so that each mutant can be
switched on when it runs (see mutant.h). Whoever calls it has libclang 14 and its Python bindings.

A site is an expression of the program at run time; what the compiler works out (constexpr, template
arguments, case labels, sizes) has none, nor has what a macro writes.
"""

import re
from dataclasses import dataclass, field

try:
    from clang import cindex
except ImportError:  # a Python that is not the system's does not look where Debian puts them
    import sys

    sys.path.append("/usr/lib/python3/dist-packages")
    from clang import cindex

K, T = cindex.CursorKind, cindex.TypeKind

# What stands in the code -> the function of mutant.h, and what its mutants make of it.
ARITHMETIC = {"+": ("plus", ["-"]), "-": ("minus", ["+"]), "*": ("times", ["/"]),
              "/": ("over", ["*"]), "%": ("modulo", ["*"])}
COMPARISON = {"<": ("less", ["<=", ">="]), "<=": ("at_most", ["<", ">"]),
              ">": ("more", [">=", "<="]), ">=": ("at_least", [">", "<"]),
              "==": ("same", ["!="]), "!=": ("other", ["=="])}
LOGIC = {"&&": ("both", ["||", "its second", "its first"]),
         "||": ("either", ["&&", "its second", "its first"])}
ASSIGNMENT = {"+=": ("add_to", ["-="]), "-=": ("take_from", ["+="]), "*=": ("multiply", ["/="]),
              "/=": ("divide", ["*="])}
STEP = {"++": ("up", ["--"]), "--": ("down", ["++"])}
EXTREME = {"max": ("largest", ["min"]), "min": ("smallest", ["max"])}

NUMBERS = {T.CHAR_U, T.UCHAR, T.CHAR_S, T.SCHAR, T.SHORT, T.USHORT, T.INT, T.UINT, T.LONG, T.ULONG,
           T.LONGLONG, T.ULONGLONG, T.FLOAT, T.DOUBLE, T.LONGDOUBLE}
WRAPPERS = {K.UNEXPOSED_EXPR, K.PAREN_EXPR}
FUNCTIONS = {K.FUNCTION_DECL, K.CXX_METHOD, K.CONSTRUCTOR, K.DESTRUCTOR, K.CONVERSION_FUNCTION}
SCOPES = {K.NAMESPACE, K.STRUCT_DECL, K.CLASS_DECL, K.LINKAGE_SPEC, K.UNEXPOSED_DECL}
NAMESPACE = "kart_mutant::"


@dataclass
class Site:
    """`changes` replace (start, end) of the file by a text in which `{}` is the site's number."""
    file: str
    start: int
    end: int
    what: str           # the operator as it stands
    becomes: list       # what its mutants make of it
    changes: list = field(repr=False)
    line: int = 0
    text: str = ""      # the source of the expression
    number: int = 0     # of its first mutant

    def key(self):
        return f"{self.file}:{self.start}:{self.end}:{self.what}"


class Source:
    """One file; offsets are bytes."""

    def __init__(self, root, name):
        self.name = name
        self.bytes = (root / name).read_bytes()

    def text(self, start, end):
        return self.bytes[start:end].decode()

    def line_of(self, offset):
        return self.bytes.count(b"\n", 0, offset) + 1


def extent(cursor):
    return cursor.extent.start.offset, cursor.extent.end.offset


def canonical(cursor):
    return cursor.type.get_canonical().kind


def core(cursor):
    """Without what stands around it in the tree and not in the program."""
    while cursor.kind in WRAPPERS:
        inner = list(cursor.get_children())
        if len(inner) != 1:
            break
        cursor = inner[0]
    return cursor


def bare(text):
    return re.sub(r"//[^\n]*|/\*.*?\*/|\s", "", text, flags=re.DOTALL)


class Finder:
    def __init__(self, source):
        self.source = source
        self.sites = {}

    def add(self, start, end, what, becomes, changes):
        site = Site(self.source.name, start, end, what, becomes, changes,
                    self.source.line_of(start), " ".join(self.source.text(start, end).split()))
        self.sites.setdefault(site.key(), site)

    def wrap(self, start, end, what, becomes, function, after=")"):
        if self.usable(start, end):
            self.add(start, end, what, becomes,
                     [(start, start, f"{NAMESPACE}{function}({{}}, "), (end, end, after)])

    def usable(self, start, end):
        """Whether the text can stand for the expression: none of a macro can."""
        text = self.source.text(start, end)
        half = re.search(r"[<>=!]\s*$", text)  # of a comparison that stands for another
        return end > start and not half and not re.match(r"assert\b|[A-Z][A-Z_]+\(", text)

    # --- the walk ---------------------------------------------------------------------------------

    def declared(self, cursor):
        """Looks through what is declared at the outside of the file."""
        if cursor.kind in FUNCTIONS:
            self.function(cursor)
        elif cursor.kind in SCOPES:
            for child in cursor.get_children():
                self.declared(child)

    def function(self, cursor):
        body = [c for c in cursor.get_children() if c.kind == K.COMPOUND_STMT]
        if not body or not cursor.is_definition():
            return
        head = self.source.text(extent(cursor)[0], extent(body[0])[0])
        if re.search(r"\b(constexpr|consteval)\b", head):
            return
        result = cursor.result_type.get_canonical().kind
        for child in cursor.get_children():
            if child.kind not in {K.PARM_DECL, K.TYPE_REF, K.NAMESPACE_REF}:
                self.visit(child, result)

    def visit(self, cursor, result):
        if cursor.kind in {K.CASE_STMT, K.STATIC_ASSERT}:
            for child in list(cursor.get_children())[1:]:
                self.visit(child, result)
            return
        if cursor.kind == K.DECL_STMT and re.match(r"(static\s+)?(inline\s+)?constexpr\b",
                                                   self.source.text(*extent(cursor))):
            return
        if cursor.kind == K.IF_STMT and self.source.text(*extent(cursor)).startswith(
                "if constexpr"):
            return
        if cursor.kind == K.LAMBDA_EXPR:
            result = self.lambda_result(cursor)
        look = {K.BINARY_OPERATOR: self.binary, K.COMPOUND_ASSIGNMENT_OPERATOR: self.assignment,
                K.UNARY_OPERATOR: self.unary, K.CALL_EXPR: self.call,
                K.IF_STMT: self.condition, K.WHILE_STMT: self.condition,
                K.CONDITIONAL_OPERATOR: self.condition, K.COMPOUND_STMT: self.statements,
                K.UNEXPOSED_EXPR: self.converted, K.INTEGER_LITERAL: self.literal,
                K.FLOATING_LITERAL: self.literal, K.CXX_BOOL_LITERAL_EXPR: self.literal}
        if cursor.kind in look:
            look[cursor.kind](cursor)
        if cursor.kind == K.RETURN_STMT:
            self.returned(cursor, result)
        children = list(cursor.get_children())
        if cursor.kind == K.FOR_STMT:
            children = [c for c in children if not self.steps_a_loop(c)]
        for child in children:
            self.visit(child, result)

    def lambda_result(self, cursor):
        """Of a lambda only whether it says that it returns a reference matters."""
        body = [c for c in cursor.get_children() if c.kind == K.COMPOUND_STMT]
        head = self.source.text(extent(cursor)[0], extent(body[-1])[0]) if body else "&"
        return T.LVALUEREFERENCE if re.search(r"->.*&\s*$", head) else None

    def steps_a_loop(self, cursor):
        """`++i` at the head of a loop: turned round it only never ends."""
        return core(cursor).kind == K.UNARY_OPERATOR and re.match(
            r"\+\+|--", self.source.text(*extent(cursor)))

    # --- operators --------------------------------------------------------------------------------

    def binary(self, cursor):
        sides = list(cursor.get_children())
        if len(sides) != 2:
            return
        (start, middle), (behind, end) = extent(sides[0]), extent(sides[1])
        if not start <= middle < behind < end or extent(cursor) != (start, end):
            return
        sign = bare(self.source.text(middle, behind))
        kinds = {canonical(side) for side in sides}
        numbers = kinds <= NUMBERS | {T.BOOL}
        if sign in LOGIC:
            function, becomes = LOGIC[sign]
            open_first, open_second = (f"{NAMESPACE}{function}_{n}({{}}, "
                                       for n in ("first", "second"))
            self.add(start, end, sign, becomes,
                     [(start, start, open_first), (middle, middle, ")"),
                      (behind, behind, open_second), (end, end, ")")])
            return
        if sign in ARITHMETIC and numbers:
            function, becomes = ARITHMETIC[sign]
        elif sign in COMPARISON and (numbers or kinds <= {T.ENUM} or (
                sign in "==!=" and kinds <= {T.POINTER, T.NULLPTR})):
            function, becomes = COMPARISON[sign]
        else:
            return
        self.in_place(cursor, (start, middle, behind, end), function, sign, becomes)

    def in_place(self, _, places, function, sign, becomes):
        start, middle, behind, end = places
        self.add(start, end, sign, becomes,
                 [(start, start, f"{NAMESPACE}{function}({{}}, "), (middle, behind, ", "),
                  (end, end, ")")])

    def assignment(self, cursor):
        sides = list(cursor.get_children())
        if len(sides) != 2 or not {canonical(side) for side in sides} <= NUMBERS:
            return
        (start, middle), (behind, end) = extent(sides[0]), extent(sides[1])
        sign = bare(self.source.text(middle, behind)) if middle < behind else ""
        if sign in ASSIGNMENT:
            function, becomes = ASSIGNMENT[sign]
            self.in_place(cursor, (start, middle, behind, end), function, sign, becomes)

    def unary(self, cursor):
        inner = list(cursor.get_children())
        (start, end), text = extent(cursor), self.source.text(*extent(cursor))
        if len(inner) != 1 or extent(inner[0])[1] != end:
            return
        behind = extent(inner[0])[0]
        sign = bare(self.source.text(start, behind))
        if sign == "!":
            function, becomes = "no", ["no !"]
        elif sign == "-" and canonical(inner[0]) in NUMBERS:
            function, becomes = "negative", ["no -"]
        elif sign in STEP and canonical(inner[0]) in NUMBERS:
            function, becomes = STEP[sign]
        else:
            return
        if not text.startswith(sign):
            return
        self.add(start, end, sign, becomes,
                 [(start, behind, f"{NAMESPACE}{function}({{}}, "), (end, end, ")")])

    def call(self, cursor):
        start, end = extent(cursor)
        text = self.source.text(start, end)
        if re.fullmatch(r"operator(==|!=|<|<=|>|>=)", cursor.spelling):
            if canonical(cursor) == T.BOOL:
                self.turn_round(cursor, cursor.spelling.removeprefix("operator"))
            return
        found = re.match(r"std::(max|min)(<|\()", text)
        if found:
            function, becomes = EXTREME[found.group(1)]
            name = start + len("std::") + len(found.group(1))
            more = (name + 1, ", ") if found.group(2) == "<" else (name, ">")
            self.add(start, end, found.group(1), becomes,
                     [(start, more[0], f"{NAMESPACE}{function}<{{}}{more[1]}")])

    # --- conditions, statements, values -----------------------------------------------------------

    def condition(self, cursor):
        parts = list(cursor.get_children())
        if not parts or not parts[0].kind.is_expression():
            return
        self.turn_round(parts[0], "condition")

    def turn_round(self, cursor, what):
        inner = core(cursor)
        if inner.kind in {K.UNARY_OPERATOR, K.BINARY_OPERATOR, K.CXX_BOOL_LITERAL_EXPR}:
            return  # has mutants of its own
        if inner.kind == K.CALL_EXPR and re.fullmatch(r"operator(==|!=|<|<=|>|>=)",
                                                      inner.spelling):
            what = inner.spelling.removeprefix("operator")
        self.wrap(*extent(cursor), what, ["turned round"], "truth")

    def returned(self, cursor, result):
        values = list(cursor.get_children())
        if not values or result in {T.LVALUEREFERENCE, T.RVALUEREFERENCE}:
            return
        inner = core(values[0])
        kind = canonical(values[0])
        if kind == T.BOOL and inner.kind != K.CONDITIONAL_OPERATOR:
            self.turn_round(values[0], "return")
        elif kind in NUMBERS and inner.kind in {K.CALL_EXPR, K.DECL_REF_EXPR, K.MEMBER_REF_EXPR}:
            self.wrap(*extent(values[0]), "return", ["0"], "returned")

    def statements(self, cursor):
        for child in cursor.get_children():
            if child.kind in {K.CALL_EXPR, K.UNEXPOSED_EXPR} and core(child).kind == K.CALL_EXPR:
                start, end = extent(child)
                if self.usable(start, end) and not re.fullmatch(
                        r"operator.*", core(child).spelling):
                    self.add(start, end, "call", ["left out"],
                             [(start, start, f"({NAMESPACE}done({{}}) ? void("),
                              (end, end, ") : void())")])

    def literal(self, cursor, to=""):
        start, end = extent(cursor)
        text = self.source.text(start, end)
        if not re.fullmatch(r"[0-9][0-9a-zA-Z.'+-]*|true|false", text):
            return
        becomes = {"true": "false", "false": "true"}.get(text)
        if becomes is None:
            value = float(text.replace("'", "").rstrip("uUlLfFzZ")) if text[:2] not in {
                "0x", "0X", "0b"} else 2
            floating = cursor.kind == K.FLOATING_LITERAL or to in {"double", "float"}
            becomes = {0: "1", 1: "0"}.get(value, "1.5 times" if floating else "1 more")
        self.wrap(start, end, text, [becomes], f"literal{to and f'<{to}>'}")

    def converted(self, cursor):
        """A literal is written as what it is converted to, so that braces take it."""
        inner = list(cursor.get_children())
        if len(inner) == 1 and extent(inner[0]) == extent(cursor) and inner[0].kind in {
                K.INTEGER_LITERAL, K.FLOATING_LITERAL} and canonical(cursor) in NUMBERS:
            self.literal(inner[0], cursor.type.get_canonical().spelling)


def written(source, sites):
    """The file with its sites written as calls, and where each begins and ends in that."""
    pieces = []
    for site in sites:
        for start, end, text in site.changes:
            # At one place: what ends comes first, the inner one before the outer; then what begins,
            # what only puts something before it sooner than what stands in its place.
            size = site.end - site.start
            rank = (1, size, 0) if start == site.end else (2, -size, end > start)
            pieces.append((start, rank, end, text.replace("{}", str(site.number)), site))
    pieces.sort(key=lambda piece: piece[:2])
    out, at, spans = bytearray(), 0, {}
    for start, _, end, text, site in pieces:
        out += source.bytes[at:start]
        begun = len(out)
        out += text.encode()
        at = end
        first, _ = spans.get(site.number, (begun, 0))
        spans[site.number] = (first, len(out))
    out += source.bytes[at:]
    for site in sites:  # a name alone is exchanged where `std::max` was
        first, last = spans[site.number]
        spans[site.number] = (first, max(last, first + site.end - site.start))
    return bytes(out), spans
