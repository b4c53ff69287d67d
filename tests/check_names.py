"""No two types of the engine share a name, but for those that a file keeps to itself.

Two classes of one name in namespace starter make a program whose meaning is undefined, and neither
compiler nor linker says so. Types in an unnamed namespace or within another type are their own.
"""

import pathlib
import re
import sys

TOKEN = re.compile(
    r"//[^\n]*|/\*.*?\*/"  # comments
    r'|R"([^()\\ ]*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\''  # texts
    r"|\b(?:struct|class|enum|union|namespace)\b|\w+|::|[{};<>()=]",
    re.DOTALL,
)
SPACE, TYPE, OTHER, UNNAMED = "space", "type", "other", "unnamed"


def defined_in(text):
    """The qualified names of the types that a file defines for all to see."""
    tokens = [m.group() for m in TOKEN.finditer(text) if not m.group().startswith(("//", "/*"))]
    scopes, statement = [], []
    for token in tokens:
        if token in ";}":
            if token == "}" and scopes:
                scopes.pop()
            statement = []
        elif token == "{":
            scope = scope_of(statement)
            if scope[0] == TYPE and all(kind == SPACE for kind, _ in scopes):
                yield "::".join([name for _, name in scopes] + [scope[1]])
            scopes.append(scope)
            statement = []
        else:
            statement.append(token)


def scope_of(statement):
    """What a brace after these tokens opens."""
    if "namespace" in statement:
        name = "".join(statement[statement.index("namespace") + 1 :])
        return (SPACE, name) if name else (UNNAMED, "")
    if "(" in statement or "=" in statement:
        return OTHER, ""
    # A template's parameters may be introduced by "class" too.
    depth, kept = 0, []
    for token in statement:
        if token == "<":
            depth += 1
        elif token == ">":
            depth -= 1
        elif depth == 0:
            kept.append(token)
    for keyword in ("struct", "class", "union", "enum"):
        if keyword in kept:
            after = [t for t in kept[kept.index(keyword) + 1 :] if t not in ("struct", "class")]
            # A specialisation is another type each time.
            if after and "template" not in kept[: kept.index(keyword)] or after and "<" not in statement:
                return TYPE, re.match(r"\w+( :: \w+)*", " ".join(after)).group().replace(" ", "")
    return OTHER, ""


def main():
    root = pathlib.Path(__file__).resolve().parent.parent / "engine"
    first, clashes, types = {}, [], 0
    for path in sorted([*root.rglob("*.h"), *root.rglob("*.cpp")]):
        for name in defined_in(path.read_text(encoding="utf-8")):
            types += 1
            here = path.relative_to(root)
            if name in first:
                clashes.append(f"{name} stands for two types: engine/{first[name]} and engine/{here}")
            first.setdefault(name, here)
    # It must have found what is surely there, and see a clash where one is.
    if types < 100 or "starter::Plan" not in first or "starter::Judgement" not in first:
        sys.exit(f"read only {types} types: this check does not understand the sources any more")
    trial = "namespace starter { struct A { int a; }; namespace { struct B {}; } class A final {}; }"
    if list(defined_in(trial)) != ["starter::A", "starter::A"]:
        sys.exit("this check no longer sees two types of one name")
    if clashes:
        sys.exit("\n".join(clashes))
    print(f"{types} types, each with a name of its own")


main()
