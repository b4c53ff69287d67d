#!/usr/bin/env python3
"""Reads the calendar files of many plans back with another parser (Debian's python3-icalendar).

    python3 check_calendar_files.py PROGRAM

Times must equal those of `schedule --format json`, texts must come back as they were typed, and the
rules of RFC 5545 that the parser does not check are checked here on the octets.
"""

import copy
import datetime
import json
import pathlib
import re
import subprocess
import sys

import icalendar

program = sys.argv[1]
root = pathlib.Path(__file__).resolve().parents[2]
problems = []


def expect(holds, name, says):
    if not holds:
        problems.append(f"{name}: {says}")


def schedule(plan, *options):
    ran = subprocess.run([program, "schedule", "-", *options], input=json.dumps(plan).encode(),
                         capture_output=True)
    if ran.returncode != 0:
        raise SystemExit(f"exit {ran.returncode}: {ran.stderr.decode()}{ran.stdout.decode()}")
    return ran.stdout


def local(text):
    return datetime.datetime.fromisoformat(text)


def as_text(typed):
    """What a calendar shows of a typed text: line ends of every kind are one, a tab is a space. Other
    control characters are refused in a plan."""
    return re.sub("\r\n|\r|\u2028|\u2029", "\n", typed).replace("\t", " ")


def told_text(value):
    """A parsed TEXT value as it was written. This parser (4.0.3) unescapes by one replacement after
    another, and so takes a backslash and an n, written \\\\n, for a line end; RFC 5545, section
    3.3.11, reads left to right. Its unfolded line holds the escapes still."""
    return re.sub(r"\\(.)", lambda m: "\n" if m[1] in "nN" else m[1], value)


def raw_texts(octets, name):
    """The values of all properties of that name, unfolded by the parser, escapes as they stand."""
    lines = icalendar.parser.Contentlines.from_ical(octets)
    return [line.partition(":")[2] for line in lines if line.startswith(name + ":")]


def check_octets(name, octets):
    expect(octets.endswith(b"\r\n"), name, "does not end with a line end")
    lines = octets.split(b"\r\n")
    for line in lines:
        expect(len(line) <= 75, name, f"a line of {len(line)} octets")
        expect(b"\n" not in line and b"\r" not in line, name, "a bare line end")
        line.decode()  # no character is split
    controls = re.search(rb"[\x00-\x09\x0b\x0c\x0e-\x1f\x7f]", octets)
    expect(controls is None, name, "a control character")


def check_event(name, plan, row, event, summary, description):
    where = f"{name}, step {row['step']}"
    start, end = local(row["start"]), local(row["end"])
    expect(event["DTSTART"].dt == start, where, f"starts {event['DTSTART'].dt}, not {start}")
    expect(event["DTSTART"].dt.tzinfo is None, where, "its start has a zone")
    expect(not event["DTSTART"].params, where, "its start has parameters")
    if end > start:
        expect(event["DTEND"].dt == end, where, f"ends {event['DTEND'].dt}, not {end}")
    else:
        expect("DTEND" not in event, where, "a moment has an end")
    expect(event["DTSTAMP"].dt.utcoffset() == datetime.timedelta(0), where, "a stamp not in UTC")
    expect(event["TRANSP"] == ("OPAQUE" if row["hands_on"] else "TRANSPARENT"), where, "its TRANSP")
    words = as_text(row["words"]).strip()
    said = told_text(summary).strip()
    expect(said.lower() == words.lower().rstrip(".!?") or said.lower() == words.lower(), where,
           f"says {said!r}, not {words!r}")
    title = as_text(plan.get("title", ""))
    expect(title in told_text(description), where, "its title is not as typed")
    if "\\\\n" not in summary + description and "\\\\N" not in summary + description:
        expect(str(event["SUMMARY"]).strip() == said, where, "the parser reads another summary")
        expect(str(event["DESCRIPTION"]) == told_text(description), where,
               "the parser reads another description")
    alarms = event.subcomponents
    for alarm in alarms:
        expect(alarm.name == "VALARM" and alarm["ACTION"] == "DISPLAY", where, "its alarm")
        expect(alarm["TRIGGER"].dt == datetime.timedelta(minutes=-15), where, "its trigger")
        expect(alarm["DESCRIPTION"] == event["SUMMARY"], where, "what its alarm says")
    return len(alarms)


def check(name, plan):
    told = json.loads(schedule(plan, "--format", "json"))
    octets = schedule(plan, "--ics", "-")
    expect(octets == schedule(plan, "--ics", "-"), name, "two runs differ")
    check_octets(name, octets)
    calendar = icalendar.Calendar.from_ical(octets)
    expect(calendar["VERSION"] == "2.0" and calendar["PRODID"], name, "its version or maker")
    expect(told_text(raw_texts(octets, "NAME")[0]) == as_text(plan["title"]), name,
           "its title is not as typed")
    events = calendar.walk("VEVENT")
    expect(len(events) == len(told["times"]), name, f"{len(events)} events")
    for event in events:
        expect(not event.errors, name, f"the parser finds {event.errors}")
    expect(len({str(event["UID"]) for event in events}) == len(events), name, "UIDs repeat")
    # An alarm stands last in its event, so the first description since the event began is its own.
    summaries = raw_texts(octets, "SUMMARY")
    descriptions = [raw_texts(event, "DESCRIPTION")[0]
                    for event in octets.split(b"BEGIN:VEVENT\r\n")[1:]]
    alarms = [check_event(name, plan, *of_event)
              for of_event in zip(told["times"], events, summaries, descriptions)]
    expect(sum(alarms) == len(told["visits"]), name, f"{sum(alarms)} alarms")
    called = {row["step"] for row, count in zip(told["times"], alarms) if count}
    expect(called == {visit["steps"][0] for visit in told["visits"]}, name,
           "alarms are not where visits begin")
    return {str(event["UID"]) for event in events}


def changed(plan, **fields):
    made = copy.deepcopy(plan)
    for key, value in fields.items():
        if value is None:
            made.pop(key, None)
        else:
            made[key] = value
    return made


hostile = [
    "comma, semicolon; colon: backslash \\ \\n \\, quote \" end",
    "two\nlines\r\nand\rmore",
    "END:VEVENT\r\nBEGIN:VEVENT\r\nUID:same",
    "🍺 発酵 " * 20,
    "word" * 60,
    "e\u0301" * 90,
    "tab\tand\u2028separators\u2029of lines",
    "\\" * 100,
    ";,\\" * 50,
    "x" * 63 + "é" * 40,
    "x" * 64 + "🍺" * 30,
]

count = 0
plans = {path.name: json.loads(path.read_text()) for path in
         sorted((root / "lessons/plans").glob("*.plan.json")) + sorted((root / "tests/plans/faulty").glob("*.json"))}
for name, plan in plans.items():
    names = check(name, plan)
    moved = changed(plan, start="2028-02-28T23:50",
                    beer={**plan["beer"], "brew_day": "2028-03-20T09:00"})
    expect(check(name + ", over a leap day", moved) == names, name, "a moved plan has other UIDs")
    check(name + ", over the turn of a year",
          changed(plan, start="2027-12-30T23:59", beer={**plan["beer"], "brew_day": "2028-01-12"}))
    # A night when clocks are turned in many places: the wall clock is counted on.
    check(name + ", over a change of the clocks",
          changed(plan, start="2027-03-27T20:00", beer={**plan["beer"], "brew_day": "2027-04-09"}))
    check(name + ", counted back", changed(plan, start=None,
                                           beer={**plan["beer"], "brew_day": "2028-01-02T09:00"}))
    count += 5

base = plans["sound.plan.json"]
for text in hostile:
    short = text[:200]
    check(f"title {short[:20]!r}", changed(base, title=short))
    steps = [{"do": short[:40]}] + base["steps"] + [{"do": "add", "items": [short], "stage": 1}]
    check(f"words {short[:20]!r}", changed(base, title=short, member=short, steps=steps))
    count += 2

for problem in problems[:30]:
    print(problem)
print(f"{count} calendar files, {len(problems)} problems")
sys.exit(1 if problems or count == 0 else 0)
