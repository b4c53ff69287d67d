#!/usr/bin/env python3
"""Checks the pages of a review as a browser and a screen reader would meet them.

    check_pages.py PROGRAM

Well-formed tags, one h1, headings in order, table heads with a scope, no script, nothing from
elsewhere, ids that are unique and links that lead somewhere, contrast of the colours (WCAG 2.2,
1.4.3), and review.json against its schema.
"""
import html.parser
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
VOID = {"meta", "link", "br", "hr", "img", "input", "wbr"}
LANDMARKS = {"main"}


class Page(html.parser.HTMLParser):
    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.faults, self.open, self.ids, self.links = [], [], [], []
        self.refers, self.headings, self.tags = [], [], {}
        self.feed(text)
        self.close()
        self.faults += [f"<{tag}> is not closed" for tag in self.open]

    def handle_starttag(self, tag, attrs):
        names = [name for name, _ in attrs]
        values = dict(attrs)
        self.tags[tag] = self.tags.get(tag, 0) + 1
        if len(names) != len(set(names)):
            self.faults.append(f"<{tag}> has an attribute twice")
        if tag not in VOID:
            self.open.append(tag)
        if "id" in values:
            self.ids.append(values["id"])
        self.links += [values[n] for n in ("href", "src", "xlink:href", "action") if n in values]
        for name in ("aria-labelledby", "aria-describedby"):
            self.refers += (values.get(name) or "").split()
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag == "th" and values.get("scope") not in ("col", "row"):
            self.faults.append("<th> without a scope")
        if tag in ("script", "iframe", "object", "embed", "link", "base", "form"):
            self.faults.append(f"<{tag}> has no business here")
        if tag == "img" and "alt" not in values:
            self.faults.append("<img> without alt")
        self.faults += [f"{n} on <{tag}>" for n in names if n.startswith("on")]
        if tag == "svg" and values.get("aria-hidden") != "true" and not (
                values.get("role") == "img" and values.get("aria-labelledby")):
            self.faults.append("a picture that says nothing to who cannot see it")

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1:]}")
        if tag in self.open:
            while self.open.pop() != tag:
                pass


def page_faults(path, text):
    page = Page(text)
    yield from page.faults
    if not text.startswith("<!doctype html>\n<html lang=\"en-GB\">"):
        yield "does not say what it is, or its language"
    if page.headings.count(1) != 1 or page.headings[0] != 1:
        yield f"headings {page.headings[:3]}: not one h1 that comes first"
    for before, after in zip(page.headings, page.headings[1:]):
        if after > before + 1:
            yield f"h{after} follows h{before}"
    if page.tags.get("main") != 1 or page.tags.get("title", 0) < 1:
        yield "no main part or no title"
    if page.tags.get("table", 0) != page.tags.get("caption", 0):
        yield "a table without a caption"
    yield from (f"id {i} twice" for i in set(page.ids) if page.ids.count(i) > 1)
    yield from (f"nothing has the id {r}" for r in page.refers if r not in page.ids)
    for link in page.links:
        if link.startswith("#"):
            if link[1:] not in page.ids:
                yield f"{link} leads nowhere"
        elif re.match("[a-z]+:|//", link) or not (path.parent / link).is_file():
            yield f"{link} leads out or nowhere"
    if re.search(r"url\((?!#)|@import|expression\(", text):
        yield "a style from elsewhere"


def luminance(colour):
    digits = colour.lstrip("#")
    if len(digits) == 3:
        digits = "".join(2 * d for d in digits)
    parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast_faults():
    css = (ROOT / "engine/output/pages/colours.css").read_text(encoding="utf-8")
    palettes = [dict(re.findall(r"--([a-z]+): (#[0-9a-f]{3,6})", block))
                for block in re.findall(r":root \{(.*?)\}", css, re.S)]
    if len(palettes) != 3:
        yield f"style sheet: {len(palettes)} palettes, not those for light, dark and print"
    for name, palette in zip(("light", "dark", "print"), palettes):
        inks = [n for n in palette if n not in ("paper", "sheet", "wash", "line", "edge")]
        for ink in inks:
            for ground in ("paper", "sheet", "wash"):
                a, b = sorted((luminance(palette[ink]), luminance(palette[ground])))
                ratio = (b + 0.05) / (a + 0.05)
                if ratio < 4.5:
                    yield f"style sheet: {name}: {ink} on {ground} has contrast {ratio:.2f}"
        if len(inks) < 8:
            yield f"style sheet: {name}: colours are missing"


def schema_faults(document, summary):
    schema = json.loads((ROOT / "engine/output/review.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    part = {"$schema": schema["$schema"], "$ref": "#/$defs/summary", "$defs": schema["$defs"]}
    for name, rules, value in (("review.json", schema, document), ("summary", part, summary)):
        for fault in jsonschema.Draft202012Validator(rules).iter_errors(value):
            yield f"{name}: {list(fault.absolute_path)}: {fault.message[:200]}"


def count_faults(document):
    """What the totals say, counted again from the rows."""
    usable = [p for p in document["plans"] if "errors" not in p]
    totals = document["totals"]
    if totals["plans"] != len(document["plans"]):
        yield "totals: plans"
    if totals["unusable"] != len(document["plans"]) - len(usable):
        yield "totals: unusable"
    for severity in ("danger", "spoils", "weakens"):
        if totals[severity] != sum(p["worst"] == severity for p in usable):
            yield f"totals: {severity}"
    for rule in document["rules"]:
        mine = [p for p in usable if any(
            f["rule"] == rule["rule"] and f["counts"] and f["severity"] != "note"
            for f in p["findings"])]
        if len(mine) != rule["plans"]:
            yield f"rules: {rule['rule']}: {rule['plans']} plans, counted {len(mine)}"
    for p in usable:
        for severity, count in p["counts"].items():
            if severity != "accepted" and count != sum(
                    f["severity"] == severity and f["counts"] for f in p["findings"]):
                yield f"{p['plan']}: count of {severity}"


def main():
    program, faults, pages = sys.argv[1], list(contrast_faults()), 0
    with tempfile.TemporaryDirectory() as scratch:
        club, out = pathlib.Path(scratch, "club"), pathlib.Path(scratch, "review")
        subprocess.run([sys.executable, ROOT / "tests/command/many_plan_files.py", club, "24"],
                       check=True)
        for plan in sorted((ROOT / "tests/plans").glob("*/*.plan.json"))[::6]:
            (club / plan.name).write_bytes(plan.read_bytes())
        hostile = json.loads((ROOT / "lessons/plans/newcomer.plan.json").read_text(encoding="utf-8"))
        hostile["title"] = "<h1>\"'&{{title}}</h1>\n"
        (club / "hostile.plan.json").write_text(json.dumps(hostile), encoding="utf-8")
        ran = subprocess.run([program, "review", club, "-o", out, "--format", "json"],
                             capture_output=True, check=False)
        # Some of these plans cannot be used, and that is told even quietly; nothing else is.
        told = ran.stderr.decode()
        if ran.returncode != 2 or ".plan.json, line " not in told or " more." not in told:
            faults.append(f"exit code {ran.returncode}: {told[:300]}")
        document = json.loads((out / "review.json").read_text(encoding="utf-8"))
        faults += schema_faults(document, json.loads(ran.stdout))
        faults += count_faults(document)
        for path in sorted(out.rglob("*.html")):
            text = path.read_text(encoding="utf-8")
            pages += 1
            faults += [f"{path.relative_to(out)}: {f}" for f in page_faults(path, text)]
        if pages < 40:
            faults.append("too few pages to check")
    for fault in faults[:60]:
        print(fault)
    print(f"{pages} pages, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
