"""Writes the C++ binding of one module from its public headers.

Reads what a user of the library reads: free functions, structs, enums and constants in namespace theca::<module>, with
their `///` comments. Units are not read here; the compiler takes them from the C++ types. What cannot be bound is named
in `NOT_BOUND`, with the reason; anything else that this reader does not understand stops the build.

    generate_binding.py <include directory> <module> <output.cpp> [--without <header>]...

Module "theca" is namespace theca itself. `--without` leaves out a header whose library is not built.
"""
from __future__ import annotations

import pathlib
import re
import sys
from dataclasses import dataclass, field

# Qualified name in C++ -> why Python does without it.
NOT_BOUND = {
    "measure": "makes a Measure of any dimension at compile time; Python has pint",
    "text": "overloads for error messages; Python prints with pint",
    "from_si": "the door from raw numbers, which is theca.si itself",
    "si": "the door to raw numbers, which is theca.si itself",
    "si_symbol": "compile-time only",
    "in": "pint converts",
    "PracticalSalinity": "travels as a number", "AbsoluteSalinity": "travels as a number",
    "RelativeHumidity": "travels as a number", "percent_rh": "pint has percent",
    "Error": "bound as an exception", "InvalidInput": "bound as an exception",
    "OutOfValidity": "bound as an exception", "NotConverged": "bound as an exception",
    "ParseError": "bound as an exception",
    "NetworkSolver": "keeps a C++ host's last solution; `solve` answers one network",
    "BentTank.solution": "opaque; `state_at` asks it",
    "LossTable.data": "opaque; `loss` asks it",
    "PreparedBatch.plan": "opaque; `run_batch` asks it",
    "PreparedYear.plan": "opaque; `advance` asks it",
}
# Headers of namespace theca that belong to its binding; the others are the ground floor that Python has in pint.
ROOT_HEADERS = ["check.hpp", "units/salinity.hpp"]
# Headers that Python does without, and why.
NOT_READ = {"study/schema.hpp": "describes the fields of a Design to C++ templates; the binder has its own description"}
PYTHON_KEYWORDS = {"lambda", "from", "in", "is", "not", "and", "or", "pass", "global", "class", "def", "del", "with",
                   "as", "import", "return", "yield", "None", "True", "False", "raise", "try", "while", "for"}


class NotUnderstood(Exception):
    pass


@dataclass
class Token:
    text: str
    kind: str  # word, number, text, punctuation, doc, trailing doc
    line: int


def tokens_of(source: str) -> list[Token]:
    pattern = re.compile(
        r"(?P<trailing>///<[^\n]*)|(?P<doc>///[^\n]*)|(?P<comment>//[^\n]*|/\*.*?\*/)|(?P<pre>^[ \t]*\#(?:\\\n|[^\n])*)"
        r"|(?P<text>R\"\((?:.|\n)*?\)\"|\"(?:\\.|[^\"\\])*\"|'(?:\\.|[^'\\])+')"
        r"|(?P<number>(?:\d[\d']*\.?[\d']*|\.\d+)(?:[eE][+-]?\d+)?[A-Za-z_0-9]*)|(?P<word>[A-Za-z_]\w*)"
        r"|(?P<punctuation>::|->|&&|\|\||==|!=|<=|>=|\.\.\.|[^\s\w])|(?P<space>\s+)",
        re.MULTILINE | re.DOTALL)
    out, line = [], 1
    for m in pattern.finditer(source):
        kind, text = m.lastgroup, m.group()
        if kind == "trailing":
            out.append(Token(text[4:].strip(), "trailing doc", line))
        elif kind == "doc":
            out.append(Token(text[3:].removeprefix(" "), "doc", line))
        elif kind == "comment" and re.fullmatch(r"//\s.*", text) and out and out[-1].kind == "trailing doc":
            # `///<` comments run on as plain comments on the lines below when clang-format breaks them.
            if line == out[-1].line + 1:
                out[-1] = Token(out[-1].text + " " + text[2:].strip(), "trailing doc", line)
        elif kind in ("text", "number", "word", "punctuation"):
            out.append(Token(text, kind, line))
        line += text.count("\n")
    return out


def joined(tokens: list[Token]) -> str:
    """C++ text again, spaced so that words do not run together."""
    s = ""
    for t in tokens:
        if s and re.match(r"[\w\"']", t.text) and re.search(r"[\w\"'>&*,]$", s):
            s += " "
        s += t.text
    return s


@dataclass
class Parameter:
    type: str
    name: str
    default: str | None = None


@dataclass
class Function:
    name: str
    returns: str
    parameters: list[Parameter]
    doc: str = ""
    template: str | None = None
    const: bool = False
    constructor: bool = False
    static: bool = False
    doc_is_borrowed: bool = False  # from the overload above it, which may take other arguments


@dataclass
class Field:
    type: str
    name: str
    has_default: bool
    doc: str = ""


@dataclass
class Struct:
    name: str
    doc: str = ""
    fields: list[Field] = field(default_factory=list)
    methods: list[Function] = field(default_factory=list)
    constructors: list[Function] = field(default_factory=list)
    template: str | None = None
    nested: list = field(default_factory=list)


@dataclass
class Enum:
    name: str
    members: list[tuple[str, str]]
    doc: str = ""


@dataclass
class Constant:
    name: str
    doc: str = ""


@dataclass
class Scope:
    """Everything public that one namespace declares, in order."""
    items: list = field(default_factory=list)
    hidden: list[str] = field(default_factory=list)


OPEN, CLOSE = {"(": ")", "{": "}", "[": "]"}, {")", "}", "]"}


class Reader:
    def __init__(self, path: pathlib.Path, include: pathlib.Path):
        self.path, self.tokens, self.at = path, tokens_of(path.read_text()), 0

    def fail(self, why: str):
        line = self.tokens[min(self.at, len(self.tokens) - 1)].line
        raise NotUnderstood(f"{self.path}:{line}: {why}")

    def peek(self, ahead: int = 0) -> str:
        i = self.at + ahead
        return self.tokens[i].text if i < len(self.tokens) and not self.tokens[i].kind.endswith("doc") else ""

    def skip_group(self):
        """From an opening bracket to behind its closing one."""
        depth = 0
        while True:
            t = self.tokens[self.at]
            self.at += 1
            if t.kind != "punctuation":
                continue
            if t.text in OPEN:
                depth += 1
            elif t.text in CLOSE:
                depth -= 1
                if depth == 0:
                    return

    def skip_statement(self):
        while self.peek() != ";":
            if self.tokens[self.at].kind == "punctuation" and self.peek() in OPEN:
                self.skip_group()
            else:
                self.at += 1
        self.at += 1

    def angle_group(self) -> str:
        """`<...>` behind `template`; returns what stands inside."""
        depth, start = 0, self.at
        while True:
            t = self.peek()
            self.at += 1
            depth += t == "<"
            depth -= t == ">"
            if depth == 0:
                return joined(self.tokens[start + 1:self.at - 1])

    def namespace(self, wanted: list[str], here: list[str], scope: Scope):
        """Reads declarations until the namespace closes; keeps those of the wanted namespace."""
        doc: list[str] = []
        while self.at < len(self.tokens):
            t = self.tokens[self.at]
            if t.kind == "doc":
                doc.append(t.text)
                self.at += 1
                continue
            if t.kind == "trailing doc":
                self.at += 1
                continue
            if t.text == "}":
                self.at += 1
                return
            if t.text == ";":
                self.at += 1
                continue
            if t.text == "namespace" or (t.text == "inline" and self.peek(1) == "namespace"):
                inline = t.text == "inline"
                self.at += 2 if inline else 1
                names = []
                while self.peek() not in ("{", "="):
                    if self.peek() == "inline":
                        inline = True
                    elif self.peek() != "::":
                        names.append(self.peek())
                    self.at += 1
                if self.peek() == "=":
                    self.skip_statement()
                else:
                    self.at += 1
                    self.namespace(wanted, here + names, scope)
                doc = []
                continue
            text, doc = "\n".join(doc), []
            item = self.declaration(text, None)
            if here == wanted:
                for one in item:
                    scope.items.append(one)

    def declaration(self, doc: str, owner: str | None) -> list:
        """One declaration at namespace or class scope; an empty list for what does not concern Python."""
        template = None
        while self.peek() == "template":
            self.at += 1
            template = self.angle_group()
            if self.peek() == "requires":
                self.fail("a constrained template cannot be bound")
        t = self.peek()
        if t in ("using", "static_assert", "friend", "typedef", "extern"):
            self.skip_friend_or_statement()
            return []
        while t == "[":
            self.skip_group()
            t = self.peek()
        if t == "enum":
            return self.enum(doc)
        if t in ("struct", "class") and self.is_type_definition():
            return self.struct(doc, template)
        if t in ("struct", "class"):
            self.skip_statement()
            return []
        return self.function_or_variable(doc, template, owner)

    def skip_friend_or_statement(self):
        while True:
            if self.peek() == ";":
                self.at += 1
                return
            if self.peek() == "{":
                self.skip_group()
                if self.peek() == ";":
                    self.at += 1
                return
            if self.tokens[self.at].kind == "punctuation" and self.peek() in OPEN:
                self.skip_group()
            else:
                self.at += 1

    def is_type_definition(self) -> bool:
        i = self.at
        while i < len(self.tokens) and self.tokens[i].text not in (";", "{", "("):
            i += 1
        return self.tokens[i].text == "{"

    def enum(self, doc: str) -> list:
        self.at += 1
        if self.peek() in ("class", "struct"):
            self.at += 1
        name = self.peek()
        while self.peek() != "{":
            if self.peek() == ";":
                self.at += 1
                return []
            self.at += 1
        self.at += 1
        members, pending = [], []
        while True:
            t = self.tokens[self.at]
            self.at += 1
            if t.kind == "doc":
                pending.append(t.text)
            elif t.kind == "trailing doc":
                if members:
                    members[-1] = (members[-1][0], (members[-1][1] + " " + t.text).strip())
            elif t.kind == "word":
                members.append((t.text, " ".join(pending)))
                pending = []
                if self.peek() == "=":
                    while self.peek() not in (",", "}"):
                        self.at += 1
            elif t.text == "}":
                break
        self.skip_statement()
        return [Enum(name, members, doc)]

    def struct(self, doc: str, template: str | None) -> list:
        public = self.peek() == "struct"
        self.at += 1
        name = self.peek()
        while self.peek() != "{":
            self.at += 1
        self.at += 1
        s = Struct(name, doc, template=template)
        pending: list[str] = []
        last: list[Field] = []
        while True:
            t = self.tokens[self.at]
            if t.kind == "doc":
                pending.append(t.text)
                self.at += 1
            elif t.kind == "trailing doc":
                for f in last:
                    f.doc = (f.doc + " " + t.text).strip()
                self.at += 1
            elif t.text == "}":
                self.at += 1
                break
            elif t.text in ("public", "private", "protected") and self.peek(1) == ":":
                public = t.text == "public"
                self.at += 2
            elif t.text == ";":
                self.at += 1
            else:
                items = self.declaration("\n".join(pending), name)
                pending = []
                last = [i for i in items if isinstance(i, Field)]
                if not public:
                    continue
                for item in items:
                    if isinstance(item, Field):
                        s.fields.append(item)
                    elif isinstance(item, Function):
                        (s.constructors if item.constructor else s.methods).append(item)
                    else:
                        s.nested.append(item)
        self.skip_statement()
        return [s]

    def function_or_variable(self, doc: str, template: str | None, owner: str | None) -> list:
        head: list[Token] = []
        angle = 0
        while True:
            t = self.tokens[self.at]
            if t.kind.endswith("doc"):
                self.fail("a comment inside a declaration")
            if t.text == "<":
                angle += 1
            elif t.text == ">":
                angle -= 1
            if t.text == "[" and self.peek(1) == "[":
                self.skip_group()
                continue
            if angle == 0 and t.text in ("(", ";", "=", "{", ","):
                break
            if t.text == "(":  # std::function<double(double)>
                start = self.at
                self.skip_group()
                head += self.tokens[start:self.at]
                continue
            head.append(t)
            self.at += 1
        words = [t.text for t in head]
        if "operator" in words:
            self.at = self.at if self.peek() == "(" else self.at + 1
            while self.peek() != "(":
                self.at += 1
            self.skip_group()
            if self.peek() == "(":
                self.skip_group()
            self.tail()
            return []
        if self.peek() == "(":
            return self.function(head, doc, template, owner)
        return self.variables(head, doc, owner)

    SPECIFIERS = {"inline", "constexpr", "static", "virtual", "explicit", "friend", "consteval"}

    def function(self, head: list[Token], doc: str, template: str | None, owner: str | None) -> list:
        words = [t.text for t in head if t.text not in self.SPECIFIERS]
        if "~" in words:
            self.skip_group()
            self.tail()
            return []
        name = head[-1].text
        constructor = owner is not None and words == [owner]
        returns = joined([t for t in head[:-1] if t.text not in self.SPECIFIERS])
        start = self.at
        self.skip_group()
        parameters = self.parameters(self.tokens[start + 1:self.at - 1])
        const = self.tail()
        if const is None:
            return []
        return [Function(name, returns, parameters, doc, template, const, constructor,
                         "static" in [t.text for t in head])]

    def tail(self) -> bool | None:
        """Behind the parameters: qualifiers, then a body or a semicolon. Returns constness; None when deleted."""
        const = False
        while True:
            t = self.peek()
            if t == "const":
                const = True
            if t == "{":
                self.skip_group()
                return const
            if t == ";":
                self.at += 1
                return const
            if t == "=":
                deleted = self.peek(1) in ("delete", "default")
                self.skip_statement()
                return None if deleted else const
            if t == ":":  # constructor initialisers, up to the body
                self.at += 1
                while True:
                    while self.peek() not in ("(", "{"):
                        self.at += 1
                    self.skip_group()
                    if self.peek() != ",":
                        break
                continue
            self.at += 1

    def parameters(self, tokens: list[Token]) -> list[Parameter]:
        out = []
        for part in split_commas([t for t in tokens if not t.kind.endswith("doc")]):
            default = None
            equals = next((i for i, t in enumerate(part) if t.text == "=" ), None)
            if equals is not None:
                default = joined(part[equals + 1:])
                part = part[:equals]
            if len(part) < 2 or part[-1].kind != "word":
                self.fail(f"a parameter without a name: {joined(part)}")
            out.append(Parameter(joined(part[:-1]), part[-1].text, default))
        return out

    def variables(self, head: list[Token], doc: str, owner: str | None) -> list:
        words = [t.text for t in head]
        names = [head[-1].text]
        static = "static" in words
        has_default = [self.peek() in ("=", "{")]
        while True:
            if self.tokens[self.at].kind == "punctuation" and self.peek() in OPEN:
                self.skip_group()
                continue
            if self.peek() == ";":
                self.at += 1
                break
            if self.peek() == "," :
                # `Length a, b;`; a comma inside an initialiser stands in brackets and was skipped
                self.at += 1
                names.append(self.peek())
                self.at += 1
                has_default.append(self.peek() in ("=", "{"))
                continue
            self.at += 1
        if owner is None or static:
            if owner is not None or "constexpr" not in words and "const" not in words:
                return []
            return [Constant(n, doc) for n in names]
        type_text = joined([t for t in head[:-1] if t.text not in self.SPECIFIERS])
        return [Field(type_text, n, d, doc) for n, d in zip(names, has_default)]


def split_commas(tokens: list[Token]) -> list[list[Token]]:
    parts, depth = [[]], 0
    for i, t in enumerate(tokens):
        if t.kind == "punctuation":
            if t.text in OPEN or t.text == "<":
                depth += 1
            elif t.text in CLOSE or t.text == ">":
                depth -= 1
            elif t.text == "," and depth == 0:
                parts.append([])
                continue
        parts[-1].append(t)
    return [p for p in parts if p]


def headers_in_order(include: pathlib.Path, module: str) -> list[pathlib.Path]:
    """The headers of a module, each behind those it includes, so that a struct is bound before its users."""
    if module == "theca":
        return [include / "theca" / h for h in ROOT_HEADERS]
    done: list[pathlib.Path] = []

    unread = {include / "theca" / name for name in NOT_READ}

    def visit(path: pathlib.Path):
        if path in done:
            return
        for inner in re.findall(rf'#include "(theca/{module}/[^"]+)"', path.read_text()):
            if include / inner not in unread:
                visit(include / inner)
        if path not in done:
            done.append(path)

    for path in sorted((include / "theca" / module).glob("*.hpp")):
        if path not in unread:
            visit(path)
    return done


def read_module(include: pathlib.Path, module: str) -> Scope:
    scope = Scope()
    wanted = ["theca"] if module == "theca" else ["theca", module]
    for path in headers_in_order(include, module):
        Reader(path, include).namespace(wanted, [], scope)
    return scope


# --- documentation ----------------------------------------------------------------------------------------------------

def paragraphs(lines: list[str]) -> str:
    return "\n".join(lines).strip("\n")


def split_doc(doc: str) -> tuple[str, dict[str, str], str, str]:
    """Summary, text per parameter, what is returned, and the rest (range, exceptions, source)."""
    summary: list[str] = []
    parameters: dict[str, str] = {}
    returns: list[str] = []
    tail: dict[str, list[str]] = {"Raises": [], "Valid": [], "Source": []}
    sink: list[str] = summary
    names: list[str] = []

    def close():
        for n in names:
            parameters[n] = " ".join(sink).strip()

    for line in doc.split("\n"):
        tag = re.match(r"\s*@(\w+)\s*(.*)", line)
        if tag:
            close()
            names = []
            word, rest = tag.groups()
            if word == "param":
                m = re.match(r"((?:\w+\s*,\s*)*\w+)\s*(.*)", rest)
                names = [n.strip() for n in m.group(1).split(",")]
                sink = [m.group(2)]
            elif word in ("return", "returns"):
                returns.append(rest)
                sink = returns
            elif word in ("throws", "throw"):
                tail["Raises"].append(rest)
                sink = tail["Raises"]
            elif word == "source":
                tail["Source"].append(rest)
                sink = tail["Source"]
            elif word in ("valid", "validity", "range"):
                tail["Valid"].append(rest)
                sink = tail["Valid"]
            elif word == "file":
                sink = []
            else:
                raise NotUnderstood(f"@{word} is not a tag of this project's comments")
        elif not line.strip() and sink is not summary:
            close()
            names, sink = [], summary  # a blank line ends a tag; plain text goes on
            summary.append("")
        else:
            sink.append(line.rstrip() if sink is summary else line.strip())
    close()
    text = []
    for title, lines in tail.items():
        if lines:
            text.append(f"{title}\n{'-' * len(title)}\n" + "\n".join(l for l in lines if l))
    return paragraphs(summary), parameters, " ".join(returns).strip(), "\n\n".join(text)


def cpp_text(text: str) -> str:
    """A C++ string literal."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


# --- writing ----------------------------------------------------------------------------------------------------------

def python_name(name: str) -> str:
    return name + "_" if name in PYTHON_KEYWORDS else name


def bare(type_text: str) -> str:
    """Without const and reference."""
    t = type_text.strip()
    t = re.sub(r"^const\b\s*", "", t)
    return re.sub(r"\s*&+$", "", t)


@dataclass
class Writer:
    module: str
    structs: dict[str, Struct] = field(default_factory=dict)
    templates: set[str] = field(default_factory=set)
    lines: list[str] = field(default_factory=list)

    def qualified(self, name: str) -> str:
        return f"theca::{name}" if self.module == "theca" else f"theca::{self.module}::{name}"

    def arguments(self, f: Function, documented: dict[str, str]) -> str:
        parts = []
        for p in f.parameters:
            doc = cpp_text(documented.get(p.name, ""))
            name = cpp_text(python_name(p.name))
            if p.default is None:
                parts.append(f"{{{name}, {doc}, {{}}}}")
            else:
                value = p.default if p.default != "{}" else f"{bare(p.type)}{{}}"
                parts.append(f"optional_argument<{bare(p.type)}>({name}, {doc}, []() -> {bare(p.type)} {{ return {value}; }})")
        return "{" + ", ".join(parts) + "}"

    def doc(self, f: Function) -> tuple[str, dict[str, str]]:
        summary, documented, returns, tail = split_doc(f.doc)
        unknown = set(documented) - {p.name for p in f.parameters}
        if unknown and not f.doc_is_borrowed:
            raise NotUnderstood(f"{f.name}: the comment describes {', '.join(sorted(unknown))}, which it does not take")
        if not summary:  # the name says it all
            summary = f.name.replace("_", " ").capitalize() + "."
        return f"{{{cpp_text(summary)}, {cpp_text(returns)}, {cpp_text(tail)}}}", documented

    def has_natural_default(self, type_text: str) -> bool:
        """Empty text and lists, no optional, and structs of this module all of whose fields have defaults."""
        if re.match(r"(std::)?(string|vector|optional|map)\b", type_text) or type_text in self.templates:
            return True
        if re.sub(r"<.*", "", type_text) in self.templates:
            return True
        s = self.structs.get(type_text)
        return s is not None and all(f.has_default or self.has_natural_default(f.type) for f in s.fields)

    def function(self, f: Function, overloaded: bool):
        doc, documented = self.doc(f)
        name = self.qualified(f.name)
        if f.template == "class Unit":
            # For any unit in C++; Python gets the two that this library measures dissolved matter in, as overloads.
            types = ", ".join(p.type for p in f.parameters)
            for unit in ("unit::concentration", "unit::density"):
                concrete = re.sub(r"\bUnit\b", unit, f"{f.returns} (*)({types})")
                self.lines.append(
                    f"  m.function<static_cast<{concrete}>(&{name}<{unit}>)>({cpp_text(python_name(f.name))}, "
                    f"{self.arguments(f, documented)},\n      {doc}, true);")
            return
        if f.template is not None:
            count = f.template.count("class ") + f.template.count("typename ")
            if not count or count != f.template.count(",") + 1:
                raise NotUnderstood(f"template <{f.template}> {f.name}: only scalar types can be filled in")
            pointer = f"&{name}<{', '.join(['double'] * count)}>"
        elif overloaded:
            types = ", ".join(p.type for p in f.parameters)
            pointer = f"static_cast<{f.returns} (*)({types})>(&{name})"
        else:
            pointer = f"&{name}"
        flag = ", true" if overloaded else ""
        self.lines.append(f"  m.function<{pointer}>({cpp_text(python_name(f.name))}, {self.arguments(f, documented)},\n"
                          f"      {doc}{flag});")

    def struct(self, s: Struct, prefix: str = ""):
        for inner in s.nested:
            if isinstance(inner, Enum):
                self.enum(inner, prefix + s.name + "::")
            elif isinstance(inner, Struct):
                self.struct(inner, prefix + s.name + "::")
        cpp = self.qualified(prefix + s.name)
        python = (prefix + s.name).replace("::", "")
        if s.constructors and s.fields:
            raise NotUnderstood(f"{s.name} has both constructors and public fields")
        summary, _, _, tail = split_doc(s.doc)
        self.lines.append("  {")
        self.lines.append(f"    using S = {cpp}{'<>' if s.template else ''};")
        self.lines.append(f"    auto s = m.record<S>({cpp_text(python)}, {cpp_text(summary + (chr(10) * 2 + tail if tail else ''))});")
        initial = []
        for f in s.fields:
            if f"{s.name}.{f.name}" in NOT_BOUND:
                continue
            needed = not f.has_default and not self.has_natural_default(f.type)
            text, _, _, more = split_doc(f.doc)
            text = " ".join((text + " " + more.replace("\n", " ")).split())
            self.lines.append(f"    s.field<&S::{f.name}>({cpp_text(python_name(f.name))}, {cpp_text(text)}, {'true' if needed else 'false'});")
            if needed:
                initial.append(f".{f.name} = given.take<&S::{f.name}>({cpp_text(python_name(f.name))})")
            elif not f.has_default:
                initial.append(f".{f.name} = {{}}")
        if s.constructors:
            for c in s.constructors:
                doc, documented = self.doc(c)
                types = ", ".join(p.type for p in c.parameters)
                self.lines.append(f"    s.initialiser<{types}>({self.arguments(c, documented)}, {doc});")
            self.lines.append("    s.opaque();")
        else:
            self.lines.append(f"    s.constructor([]([[maybe_unused]] const Given& given) {{ return S{{{', '.join(initial)}}}; }});")
        counts = {}
        for f in s.methods:
            counts[f.name] = counts.get(f.name, 0) + 1
        for f in s.methods:
            if f.static or f.template is not None:
                raise NotUnderstood(f"{s.name}::{f.name}: static and template members cannot be bound")
            doc, documented = self.doc(f)
            if counts[f.name] > 1:
                types = ", ".join(p.type for p in f.parameters)
                pointer = f"static_cast<{f.returns} (S::*)({types}){' const' if f.const else ''}>(&S::{f.name})"
            else:
                pointer = f"&S::{f.name}"
            flag = ", true" if counts[f.name] > 1 else ""
            self.lines.append(f"    s.method<{pointer}>({cpp_text(python_name(f.name))}, {self.arguments(f, documented)},\n"
                              f"        {doc}{flag});")
        for name in [n for n, count in counts.items() if count > 1]:
            self.lines.append(f"    s.no_more_overloads({cpp_text(python_name(name))});")
        self.lines.append("  }")

    def enum(self, e: Enum, prefix: str = ""):
        cpp = self.qualified(prefix + e.name)
        members = ", ".join(f"{{{cpp_text(python_name(n))}, {cpp}::{n}}}" for n, _ in e.members)
        docs = ", ".join(cpp_text(d) for _, d in e.members)
        summary = split_doc(e.doc)[0]
        self.lines.append(f"  m.enumeration<{cpp}>({cpp_text((prefix + e.name).replace('::', ''))}, {{{members}}},\n"
                          f"      {cpp_text(summary)}, {{{docs}}});")

    def constant(self, c: Constant):
        summary = split_doc(c.doc)[0]
        self.lines.append(f"  m.constant({cpp_text(c.name)}, {self.qualified(c.name)}, {cpp_text(summary)});")


def module_doc(include: pathlib.Path, module: str) -> str:
    lines = []
    for line in (include / "theca" / f"{module}.hpp").read_text().split("\n"):
        if not line.startswith("//"):
            break
        lines.append(line.removeprefix("//").strip())
    return " ".join(lines)


def generate(include: pathlib.Path, module: str) -> str:
    scope = read_module(include, module)
    w = Writer(module)
    for item in scope.items:
        if isinstance(item, Struct):
            w.structs[item.name] = item
            if item.template is not None and "=" not in item.template:
                w.templates.add(item.name)
    counts: dict[str, int] = {}
    for item in scope.items:
        if isinstance(item, Function):
            counts[item.name] = counts.get(item.name, 0) + 1
    # Types first, then what uses them.
    skipped = {k.split("::")[-1] for k in NOT_BOUND if "::" not in k or k.split("::")[0] == module}
    for item in scope.items:
        if item.name in skipped:
            continue
        if isinstance(item, Enum):
            w.enum(item)
        elif isinstance(item, Struct):
            if item.template is not None and "=" not in item.template:
                continue  # its instances are taught to the binder in wire_<module>.hpp
            w.struct(item)
    seen_functions = []
    for item in scope.items:
        if isinstance(item, Constant) and item.name not in skipped:
            w.constant(item)
        if isinstance(item, Function) and item.name not in skipped:
            key = (item.name, tuple(p.type for p in item.parameters))
            if key in seen_functions:
                counts[item.name] -= 1
                continue  # declared in one place and defined in another
            seen_functions.append(key)
    shared_doc = {}
    for item in scope.items:
        if isinstance(item, Function) and item.name not in skipped:
            key = (item.name, tuple(p.type for p in item.parameters))
            if key not in seen_functions:
                continue
            seen_functions.remove(key)
            if not item.doc and item.name in shared_doc:
                item.doc, item.doc_is_borrowed = shared_doc[item.name], True
            shared_doc.setdefault(item.name, item.doc)
            w.function(item, counts[item.name] > 1)
    overloaded = [n for n in shared_doc if counts[n] > 1 or any(
        isinstance(i, Function) and i.name == n and i.template == "class Unit" for i in scope.items)]
    for name in overloaded:
        w.lines.append(f"  m.no_more_overloads({cpp_text(python_name(name))});")
    headers = [h.relative_to(include) for h in headers_in_order(include, module)]
    extra = pathlib.Path(__file__).resolve().parent.parent / "binding" / f"wire_{module}.hpp"
    includes = "\n".join(f'#include "{h}"' for h in headers)
    if extra.exists():
        includes += f'\n#include "wire_{module}.hpp"'
    root = module == "theca"
    return f"""// Generated by python/tools/generate_binding.py from include/theca/{module}{'' if root else '/'}; not to be edited.
#include "binding.hpp"

{includes}

namespace theca::python {{

void bind_{module}(py::module_ root);

void bind_{module}(py::module_ root) {{
  using namespace theca;{'' if root else f'''
  using namespace theca::{module};'''}
  [[maybe_unused]] Module m(root, {cpp_text('' if root else module)}, {cpp_text('' if root else module_doc(include, module))});
{chr(10).join(w.lines)}
}}

}}  // namespace theca::python
"""


def main() -> int:
    include = pathlib.Path(sys.argv[1])
    module, output = sys.argv[2], pathlib.Path(sys.argv[3])
    for option, header in zip(sys.argv[4::2], sys.argv[5::2]):
        if option != "--without":
            sys.exit(f"unknown option {option}")
        NOT_READ[header] = "its library is not built"
    try:
        text = generate(include, module)
    except NotUnderstood as e:
        print(f"error: {e}", file=sys.stderr)
        return 1
    if not output.exists() or output.read_text() != text:
        output.write_text(text)
    return 0


if __name__ == "__main__":
    sys.exit(main())
