#!/usr/bin/env python3
"""Makes printed sheets with the program and reads them with tools of other origin.

    python3 check_sheets.py PROGRAM

The pages and fonts of a PDF are told by poppler's pdfinfo, pdffonts and pdftotext; the page it is made
from is read by Python's HTML parser.
"""

import copy
import html.parser
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

program = sys.argv[1]
root = pathlib.Path(__file__).resolve().parents[2]
holder = tempfile.TemporaryDirectory(prefix="sheets-")
scratch = pathlib.Path(holder.name)
problems = []
A4, LETTER = [595.28, 841.89], [612, 792]


def expect(holds, name, says):
    if not holds:
        problems.append(f"{name}: {says}")


def run(*arguments, given=None, path=None):
    environment = dict(os.environ, **({"PATH": path} if path else {}))
    return subprocess.run([program, *map(str, arguments)], input=given, capture_output=True,
                          env=environment, timeout=240)


def made(name, *arguments, given=None):
    """The PDFs and pages that a run wrote, by name."""
    folder = scratch / re.sub(r"\W", "-", name)
    ran = run("handout", *arguments, "-o", folder, given=given)
    expect(ran.returncode == 0, name, f"exit {ran.returncode}: {ran.stderr.decode()}")
    expect(ran.stderr == b"", name, f"complains: {ran.stderr.decode()}")
    written = sorted(str(p) for p in folder.iterdir())
    expect(sorted(ran.stdout.decode().split("\n")[:-1]) == written, name, "tells other files")
    return {pathlib.Path(p).name: pathlib.Path(p) for p in written}


def told(*command):
    return subprocess.run(list(map(str, command)), capture_output=True, check=True).stdout.decode()


def pages_of(pdf):
    count = int(re.search(r"^Pages:\s+(\d+)", told("pdfinfo", pdf), re.M).group(1))
    sizes = re.findall(r"^Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)",
                       told("pdfinfo", "-f", "1", "-l", count, pdf), re.M)
    return [tuple(map(float, size)) for size in sizes]


def texts_of(pdf):
    return told("pdftotext", "-layout", pdf, "-").split("\f")[:-1]


def squeezed(text):
    return re.sub(r"[\s\u00a0\u00ad]", "", text)


def check_pdf(name, pdf, sides):
    pages, texts = pages_of(pdf), texts_of(pdf)
    expect(len(pages) == len(texts), name, "has other pages than texts")
    for number, (size, text) in enumerate(zip(pages, texts), 1):
        expect(all(abs(a - b) < 1 for a, b in zip(sorted(size), sides)), name,
               f"page {number} is {size}")
        foot = f"page {number} of {len(pages)}"
        expect(foot in " ".join(text.split()), name, f"page {number} has no foot {foot!r}")
        expect(len(squeezed(text)) > len(squeezed(foot)) + 80, name, f"page {number} is empty")
        expect("\ufffd" not in text, name, f"page {number} has characters of no font")
    fonts = told("pdffonts", pdf).splitlines()[2:]
    expect(bool(fonts), name, "has no fonts")
    for font in fonts:
        expect(re.search(r"\byes\s+(yes|no)\s+(yes|no)\s+\d+\s+\d+$", font), name,
               f"a font is not embedded: {font}")
        expect("DejaVu" in font, name, f"another font: {font}")
    return texts


class Reader(html.parser.HTMLParser):
    """What a page holds: its elements, and its text without style."""

    def __init__(self, bytes_):
        super().__init__()
        self.elements, self.words, self.open, self.hidden = [], [], [], 0
        self.feed(bytes_.decode())

    def handle_starttag(self, tag, attributes):
        self.elements.append((tag, dict(attributes)))
        if tag in ("style", "title", "desc", "svg"):
            self.hidden += 1

    def handle_endtag(self, tag):
        if tag in ("style", "title", "desc", "svg"):
            self.hidden -= 1

    def handle_data(self, data):
        if not self.hidden:
            self.words.append(data)


def check_page(name, file):
    reader = Reader(file.read_bytes())
    for tag, attributes in reader.elements:
        expect(tag not in ("script", "link", "img", "iframe", "object", "image", "base"), name,
               f"holds <{tag}>")
        for key, value in attributes.items():
            expect(not key.startswith("on"), name, f"{tag} has {key}")
            if key in ("href", "src", "xlink:href"):
                expect(value.startswith("#"), name, f"{tag} points at {value}")
    ids = [attributes["id"] for _, attributes in reader.elements if "id" in attributes]
    expect(len(ids) == len(set(ids)), name, "uses an id twice")
    return " ".join(" ".join(reader.words).split())


def findings_of(plan, given=None):
    ran = run("check", "--format", "json", plan, given=given)
    return json.loads(ran.stdout)["findings"]


def check_whole(name, plan, *options, sides=A4, given=None):
    """Every step and every finding is on the paper."""
    files = made(name, plan, *options, given=given)
    pdf = next(p for n, p in files.items() if n.endswith(".pdf"))
    page = next(p for n, p in files.items() if n.endswith(".html"))
    check_page(name, page)
    paper = squeezed("".join(check_pdf(name, pdf, sides)))
    document = json.loads(given or plan.read_bytes().decode("utf-8-sig"))
    for number, step in enumerate(document.get("steps", []), 1):
        verb = squeezed(step["do"])
        expect(re.search(rf"{number}{verb}", paper, re.I), name, f"step {number}, {verb}, is missing")
    if "--units" not in options:
        for finding in findings_of(plan, given):
            expect(squeezed(finding["says"]) in paper, name, f"does not say {finding['says']!r}")
            fix = finding["fix"]["says"] if finding["fix"] else ""
            expect(squeezed(fix) in paper, name, f"does not say {fix!r}")
    return pdf


# How full pages are, and how large their type, by the boxes of their words in points.
FONT_HEIGHT = 1.164  # of DejaVu Sans, from its highest to its lowest, in type sizes


def words_of(pdf):
    """Per page the top, bottom and text of every word."""
    return [[(float(top), float(bottom), word) for top, bottom, word in re.findall(
                r'yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(.*?)</word>', body)]
            for body in re.findall(r"<page .*?>(.*?)</page>", told("pdftotext", "-bbox", pdf, "-"),
                                   re.S)]


def filled_of(pdf):
    """Per page how far down there is ink, as a share of the room for text, which begins 13 mm from
    the top and ends 16 mm from the foot."""
    dots = 50 / 25.4  # a millimetre
    stem = scratch / "ink"
    subprocess.run(["pdftoppm", "-r", "50", "-gray", str(pdf), str(stem)], check=True)
    filled = []
    for file in sorted(scratch.glob("ink-*.pgm")):
        _, width, height, _, pixels = file.read_bytes().split(None, 4)
        file.unlink()
        width, height = int(width), int(height)
        pixels = pixels[-width * height:]  # white space may begin the pixels
        top, end = round(13 * dots), round(height - 16 * dots)
        inked = [y for y in range(top, end) if min(pixels[y * width:(y + 1) * width]) < 200]
        filled.append((max(inked, default=top) - top) / (end - top))
    return filled


def check_filled(name, pdf, most, least=7.5):
    """As few pages as were reached, none of them less than 40 % full but the last of the text and
    the last of the picture, and no type on the picture's pages below `least` points."""
    pages, filled, texts = words_of(pdf), filled_of(pdf), texts_of(pdf)
    expect(len(filled) == len(pages) == len(texts), name, "has pages that cannot be read")
    expect(len(pages) <= most, name, f"has {len(pages)} pages, not {most}")
    pictured = [n for n, text in enumerate(texts) if "The steps as a picture" in text[:200]]
    expect(pictured and pictured == list(range(pictured[0], len(pages))), name,
           f"has its picture on pages {pictured}")
    for number, words in enumerate(pages):
        last = number + 1 in (len(pages), pictured[0] if pictured else 0)
        expect(last or filled[number] > 0.4, name,
               f"page {number + 1} is {filled[number]:.0%} full")
        if number not in pictured:
            continue
        for upper, bottom, word in words:
            # The box of a word is as high as its font makes it, whatever its letters.
            size = (bottom - upper) / FONT_HEIGHT
            expect(size > least - 0.03, name, f"page {number + 1}: {word!r} is of {size:.2f} points")


def check_plans():
    lessons = root / "lessons/plans"
    for file in sorted(lessons.glob("*.plan.json")):
        check_whole(file.name, file)
    newcomer = lessons / "newcomer.plan.json"
    check_filled("newcomer", check_whole("newcomer", newcomer), 9)
    check_filled("letter", check_whole("letter", newcomer, "--paper", "letter", sides=LETTER), 10)
    # Two stages in 26 steps: a picture of several pages.
    check_filled("stepped lager", check_whole("stepped lager", lessons / "stepped-lager.plan.json"),
                 10)
    large = check_whole("large", newcomer, "--large", "--units", "us")
    check_filled("large", large, 27, 11)
    sizes = re.findall(r'size="([\d.]+)"', told("pdftohtml", "-xml", "-i", "-stdout", large))
    expect(sizes and max(map(float, sizes)) > 30, "large", f"the largest type is {max(sizes)}")


def check_sixty(base):
    plan = copy.deepcopy(base)
    pattern = [step for step in plan["steps"] if step["do"] != "pitch to beer"]
    plan["steps"] = [copy.deepcopy(pattern[i % len(pattern)]) for i in range(59)]
    plan["steps"].append({"do": "pitch to beer"})
    began = time.monotonic()
    check_whole("sixty", "-", given=json.dumps(plan).encode())
    return time.monotonic() - began


def check_hostile(base):
    """All evil at once, since a sheet takes a second or two."""
    evil = ["<b>bold</b>", "&lt; &amp;amp;", "</style><script>alert(1)</script>",
            "<img src=file:///etc/passwd>", "<link rel=attachment href=file:///etc/hostname>",
            "{{title}} {{{x}}}", "]]>--><!-- x", "\" onload=alert(1) '", "@import url(http://127.0.0.1:9/)",
            "\\\\N \\0", "two\nlines", "\u202eturned", "a" * 190, "50% \u2713"]
    plan = copy.deepcopy(base)
    plan["title"] = " ".join(evil[:6])
    plan["member"] = " ".join(evil[6:])
    for step in plan["steps"]:
        if step["do"] == "sanitise":
            step["items"] += evil
    given = json.dumps(plan).encode()
    files = made("hostile", "-", given=given)
    page = check_page("hostile", files["plan.html"])
    paper = squeezed("".join(check_pdf("hostile", files["plan.pdf"], A4)))
    for text in evil:
        shown = text.replace("\n", " ").replace("\u202e", "\\u{202e}")
        expect(squeezed(shown) in squeezed(page), text, "is not on the page as typed")
        expect(squeezed(shown) in paper, text, "is not on the paper as typed")
    expect("root:" not in paper, "hostile", "a file of this computer is on the paper")


def check_blank(plan):
    files = made("blank", "--blank", plan)
    expect(sorted(files) == ["harvest-amber-answers.html", "harvest-amber-answers.pdf",
                             "harvest-amber-blank.html", "harvest-amber-blank.pdf"], "blank",
           f"writes {sorted(files)}")
    check_pdf("answers", files["harvest-amber-answers.pdf"], A4)
    check_filled("answers", files["harvest-amber-answers.pdf"], 8)
    check_filled("blank", files["harvest-amber-blank.pdf"], 7)
    blank = squeezed("".join(check_pdf("blank", files["harvest-amber-blank.pdf"], A4)))
    for own in ("harvestamber", "110g", "1.15L"):
        expect(own.lower() not in blank.lower(), "blank", f"gives away {own}")


def check_lessons():
    """One lesson on paper; the first, a middle and the last as pages."""
    lessons = json.loads(run("lesson", "--format", "json").stdout)
    schema = json.loads((root / "engine/lesson/lessons.schema.json").read_text())
    import jsonschema
    jsonschema.validate(lessons, schema)
    one = jsonschema.Draft202012Validator(
        json.loads((root / "engine/lesson/lesson.schema.json").read_text()))
    for lesson in lessons:
        told = json.loads(run("lesson", lesson["number"], "--format", "json").stdout)
        one.validate(told)
        expect({name: told[name] for name in lesson} == lesson, lesson["name"],
               "is not what the list tells")
        expect("{{" not in told["text"], lesson["name"], "has a placeholder")
    files = made("lesson 3", "--lesson", "3")
    for name, file in files.items():
        if name.endswith(".pdf"):
            check_pdf(name, file, A4)
            check_filled(name, file, 9 if "answers" in name else 7)
    for lesson in (lessons[0], lessons[len(lessons) // 2], lessons[-1]):
        for name, file in made(lesson["name"], "--lesson", lesson["number"], "--html").items():
            words = check_page(name, file)
            expect(lesson["title"] in words, name, "has no title")
            expect("{{" not in words, name, "has a placeholder")
            if not name.endswith("-answers.html"):
                expect("What would you mend?" in words, name, "asks nothing")


def check_forms(plan):
    alone = made("only pdf", "--pdf", plan)
    expect(set(alone) == {"harvest-amber.pdf"}, "--pdf", "writes others")
    expect(set(made("only html", "--html", plan)) == {"harvest-amber.html"}, "--html",
           "writes others")
    again = made("both", plan)
    expect(alone["harvest-amber.pdf"].read_bytes() == again["harvest-amber.pdf"].read_bytes(), "pdf",
           "two runs differ")


def check_without_weasyprint(plan):
    """Pages are there, the message says what to install, and the end is honest."""
    bare = scratch / "bare"
    bare.mkdir()
    folder = scratch / "without"
    ran = run("handout", plan, plan, "-o", folder, path=str(bare))
    words = " ".join(ran.stderr.decode().split())
    expect(ran.returncode == 2, "without", f"exit {ran.returncode}")
    expect(words.count("apt-get install weasyprint") == 1, "without", f"says {words}")
    expect({p.name for p in folder.iterdir()} == {"harvest-amber.html", "harvest-amber-2.html"},
           "without", "left other files")
    expect(run("handout", "--html", plan, "-o", folder, path=str(bare)).returncode == 0, "without",
           "a page alone needs it")
    # One that fails, one that is no script of Python's, and one that says something else.
    for name, script in (("fails", "#!/usr/bin/python3\n"), ("foreign", "#!/bin/sh\nexit 0\n"),
                         ("empty", "")):
        tool = bare / "weasyprint"
        tool.write_text(script)
        tool.chmod(0o755)
        if name == "fails":  # a Python without the library
            python = bare / "python-that-fails"
            python.write_text("#!/bin/sh\necho no such library >&2\nexit 1\n")
            python.chmod(0o755)
            tool.write_text(f"#!{python}\n")
        ran = run("handout", plan, "-o", scratch / name, path=str(bare))
        expect(ran.returncode == 2, name, f"exit {ran.returncode}")
        expect("weasyprint" in ran.stderr.decode(), name, f"says {ran.stderr.decode()}")
        expect({p.name for p in (scratch / name).iterdir()} == {"harvest-amber.html"}, name,
               "left other files")


example = root / "tests/plans/harvest-amber.plan.json"
base = json.loads(example.read_text())
check_plans()
seconds = check_sixty(base)
check_hostile(base)
check_blank(example)
check_lessons()
check_forms(example)
check_without_weasyprint(example)
for problem in problems:
    print(problem)
print(f"{len(problems)} problems" if problems else
      f"No problem found; sixty steps took {seconds:.1f} s")
sys.exit(1 if problems else 0)
