#!/usr/bin/env python3
"""Draws plans with the program and reads the files with tools of other origin.

    python3 check_pictures.py PROGRAM

SVG is read by Python's XML parser, the page of a PDF by poppler's pdfinfo, the head of a PNG here.
"""

import copy
import json
import os
import pathlib
import re
import struct
import subprocess
import sys
import tempfile
import xml.dom.minidom

program = sys.argv[1]
root = pathlib.Path(__file__).resolve().parents[2]
scratch = pathlib.Path(tempfile.mkdtemp(prefix="pictures-"))
problems = []


def expect(holds, name, says):
    if not holds:
        problems.append(f"{name}: {says}")


def run(*arguments, given=None):
    return subprocess.run([program, "draw", *map(str, arguments)], input=given,
                          capture_output=True, env=os.environ)


def drawn(name, *arguments, given=None):
    ran = run(*arguments, given=given)
    expect(ran.returncode == 0, name, f"exit {ran.returncode}: {ran.stderr.decode()}")
    return ran.stdout


def text_in(node):
    return "".join(child.data for child in node.childNodes if child.nodeType == child.TEXT_NODE)


def squeezed(text):
    return re.sub(r"[\s\u00a0]", "", text)


def svg_of(name, *arguments, given=None):
    document = xml.dom.minidom.parseString(drawn(name, *arguments, "--as", "svg", "-o", "-",
                                                 given=given))
    return document


def check_svg(name, document, title):
    top = document.documentElement
    expect(top.tagName == "svg", name, "the root is no svg")
    expect(top.getAttribute("role") == "img", name, "it has no role")
    expect(top.getAttribute("xml:lang") == "en-GB", name, "it has no language")
    labels = top.getAttribute("aria-labelledby").split()
    children = {c.getAttribute("id"): c for c in top.childNodes if c.nodeType == c.ELEMENT_NODE}
    expect(labels == ["picture-title", "picture-desc"], name, "nothing labels it")
    expect(text_in(children["picture-title"]) == title, name, "its title is another")
    expect(len(text_in(children["picture-desc"])) > 20, name, "its description says little")
    expect(document.doctype is None, name, "it points at a document type")
    for node in document.getElementsByTagName("*"):
        for attribute in ("href", "xlink:href", "src"):
            expect(not node.hasAttribute(attribute), name, f"{node.tagName} refers outside")
    expect(not document.getElementsByTagName("image"), name, "it holds an image")


def nodes_of(document):
    names = []
    for group in document.getElementsByTagName("g"):
        if group.getAttribute("class") == "node":
            names.append(text_in(group.getElementsByTagName("title")[0]))
    return names


def texts_of(document):
    return "".join(text_in(t) for t in document.getElementsByTagName("text"))


def extent(points):
    xs = [float(pair.split(",")[0]) for pair in points.replace("M", " ").replace("C", " ").split()]
    return min(xs), max(xs)


def check_texts(name, document):
    """No text begins left of its box: a table wider than its box is put in the middle of it, so that
    text which is too wide at the right shows at the left."""
    for group in document.getElementsByTagName("g"):
        if group.getAttribute("class") != "node":
            continue
        node = text_in(group.getElementsByTagName("title")[0])
        shapes = [s.getAttribute("points") or s.getAttribute("d")
                  for s in group.getElementsByTagName("polygon") + group.getElementsByTagName("path")]
        if not node.startswith(("step", "joins", "notes", "missing")) or not shapes:
            continue
        left = min(extent(shape)[0] for shape in shapes)
        for text in group.getElementsByTagName("text"):
            # A round corner begins the path further right than the box.
            expect(float(text.getAttribute("x")) > left + 2, name,
                   f"{text_in(text)!r} leaves {node}")


def check_plans():
    files = sorted((root / "lessons/plans").glob("*.plan.json"))
    files += sorted((root / "tests/plans/good").glob("*.plan.json"))
    files += sorted((root / "tests/plans/faulty").glob("*.plan.json"))
    for file in files:
        plan = json.loads(file.read_bytes().decode("utf-8-sig"))
        document = svg_of(file.name, file)
        title = document.getElementsByTagName("title")[0]
        check_svg(file.name, document, text_in(title))
        check_texts(file.name, document)
        check_texts(f"{file.name}, large", svg_of(file.name, file, "--large"))
        names = nodes_of(document)
        for number in range(1, len(plan.get("steps", [])) + 1):
            expect(f"step {number}" in names, file.name, f"step {number} is not drawn")


def sixty_steps(base):
    plan = copy.deepcopy(base)
    plan["title"] = "Sixty steps"
    pattern = [step for step in plan["steps"] if step["do"] != "pitch to beer"]
    plan["steps"] = [copy.deepcopy(pattern[i % len(pattern)]) for i in range(59)]
    plan["steps"].append({"do": "pitch to beer"})
    return plan


def check_sixty(base):
    plan = sixty_steps(base)
    document = svg_of("sixty", "-", given=json.dumps(plan).encode())
    check_texts("sixty", document)
    names = nodes_of(document)
    for number in range(1, 61):
        expect(f"step {number}" in names, "sixty", f"step {number} is not drawn")


def check_hostile(base):
    evil = ["<B>bold</B>", "&lt; &amp;amp; &#65;", "\\N \\G \\l", "a \"quote\" 'and' more",
            "</text><script>alert(1)</script>", "]]>--><!-- x", "שלום עולם", "e\u0301e\u0301",
            "{a|b};->[]", "% $HOME `x`", "😀🍺", "two\nlines", "\u202eturned"]
    for text in evil:
        plan = copy.deepcopy(base)
        plan["title"] = text
        plan["member"] = text + " member"
        for step in plan["steps"]:
            if step["do"] == "sanitise":
                step["items"].append(text)
            if step["do"] == "check temperature":
                step["with"] = text
        document = svg_of(text, "-", given=json.dumps(plan).encode())
        shown = text.replace("\n", " ").replace("\u202e", "\\u{202e}")
        seen = squeezed(texts_of(document))
        expect(seen.count(squeezed(shown)) >= 4, text, f"is not shown four times in {seen}")
        expect(not document.getElementsByTagName("script"), text, "became a script")
        for form in ("pdf", "png"):
            drawn(text, "-", "--as", form, "-o", scratch / f"evil.{form}",
                  given=json.dumps(plan).encode())


def page_of(file):
    told = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
    pages = int(re.search(r"^Pages:\s+(\d+)", told, re.M).group(1))
    size = re.search(r"^Page size:\s+([\d.]+) x ([\d.]+) pts", told, re.M)
    return pages, sorted(float(side) for side in size.groups())


def check_pages(plan):
    for paper, sides in (("a4", [595.28, 841.89]), ("letter", [612, 792])):
        for more in ([], ["--blank"]):
            file = scratch / f"{paper}.pdf"
            drawn(paper, plan, "--paper", paper, "-o", file, *more)
            pages, size = page_of(file)
            expect(pages == 1, paper, f"{pages} pages")
            expect(all(abs(a - b) < 1 for a, b in zip(size, sides)), paper, f"the page is {size}")


def check_forms(plan):
    heads = {"svg": b"<?xml", "pdf": b"%PDF-", "png": b"\x89PNG\r\n\x1a\n", "dot": b"//"}
    for form, head in heads.items():
        for name, arguments in ((f"a.{form}", []), (f"b.{form.upper()}", []),
                                ("c", ["--as", form])):
            file = scratch / name
            expect(drawn(form, plan, "-o", file, *arguments) == b"", form, "says something")
            expect(file.read_bytes().startswith(head), form, f"{name} begins otherwise")
        first = (scratch / f"a.{form}").read_bytes()
        drawn(form, plan, "-o", scratch / f"a.{form}")
        expect(first == (scratch / f"a.{form}").read_bytes(), form, "two runs differ")
    width, height = struct.unpack(">II", (scratch / "a.png").read_bytes()[16:24])
    expect(width > 600 and height > 600, "png", f"{width} by {height} is small")
    expect([p.name for p in scratch.glob("*.??????")] == [], "forms", "left half a file")


def check_many(plans):
    folder = scratch / "many"
    drawn("many", *plans, "-o", folder)
    expect(sorted(p.name for p in folder.iterdir()) ==
           sorted(p.name.replace(".plan.json", ".svg") for p in plans), "many", "other files")
    for plan in plans:
        alone = drawn("alone", plan, "-o", "-", "--as", "svg")
        expect(alone == (folder / plan.name.replace(".plan.json", ".svg")).read_bytes(),
               plan.name, "comes out otherwise among others")
    ran = run(plans[0], scratch / "none.plan.json", "-o", folder)
    expect(ran.returncode == 2 and ran.stderr, "many", "a missing plan passes")


def check_process_and_rules():
    for name, arguments in (("process", ["--process"]), ("rule", ["--rule", "glass-shock"]),
                            ("large", ["--process", "--large"])):
        document = svg_of(name, *arguments)
        check_svg(name, document, text_in(document.getElementsByTagName("title")[0]))
        expect(len(nodes_of(document)) > 3, name, "hardly anything is drawn")


def check_refusals(plan):
    for name, arguments, word in (
            ("no ending", [plan, "-o", scratch / "x"], "--as"),
            ("unknown ending", [plan, "-o", scratch / "x.gif"], ".svg"),
            ("standard output without a form", [plan, "-o", "-"], "--as"),
            ("nothing to draw", ["-o", scratch / "x.svg"], "--process"),
            ("two things", [plan, "--process", "-o", scratch / "x.svg"], "one"),
            ("no such rule", ["--rule", "glass-shok", "-o", scratch / "x.svg"], "glass-shock"),
            ("no such form", [plan, "--as", "jpg", "-o", scratch / "x"], "png"),
            ("no such paper", [plan, "--paper", "a5", "-o", scratch / "x.svg"], "letter"),
            ("no file", [plan], "-o"),
            ("no such folder", [plan, "-o", scratch / "no" / "x.svg"], "folder"),
            ("no such plan", [scratch / "no.plan.json", "-o", scratch / "x.svg"], "no file"),
            ("a plan that cannot be used",
             [root / "tests/plans/bad/no-yeast.plan.json", "-o", scratch / "x.svg"], "yeast"),
            ("many to one", [plan, plan, "-o", scratch / "a.svg"], "folder")):
        ran = run(*arguments)
        expect(ran.returncode == 2, name, f"exit {ran.returncode}")
        expect(word in " ".join(ran.stderr.decode().split()), name,
               f"says nothing of {word}: {ran.stderr.decode()}")
        expect(not (scratch / "x.svg").exists(), name, "left a file")
    plan_copy = scratch / "self.plan.json"
    plan_copy.write_bytes(plan.read_bytes())
    ran = run(plan_copy, "--as", "dot", "-o", plan_copy)
    expect(ran.returncode == 2, "over itself", f"exit {ran.returncode}")
    expect(plan_copy.read_bytes() == plan.read_bytes(), "over itself", "the plan is gone")


example = root / "tests/plans/harvest-amber.plan.json"
base = json.loads(example.read_text())
check_plans()
check_sixty(base)
check_hostile(base)
check_pages(example)
check_forms(example)
check_many(sorted((root / "lessons/plans").glob("*.plan.json")))
check_process_and_rules()
check_refusals(example)
for problem in problems:
    print(problem)
print(f"{len(problems)} problems" if problems else "No problem found")
sys.exit(1 if problems else 0)
