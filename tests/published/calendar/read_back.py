#!/usr/bin/env python3
"""Reads calendar files of every demo recipe with Debian's python3-icalendar, a reader that the program
knows nothing of, and compares what it finds with the program's own JSON."""

import argparse
import datetime
import json
import pathlib
import subprocess
import sys

import icalendar

START = datetime.date(2026, 10, 20)  # so that clocks change in the first week of every batch


def days_of(event):
    """The days of a series, worked out by the rules of RFC 5545 and not by the program."""
    first = event.decoded("DTSTART")
    if "RRULE" in event:
        rule = event["RRULE"]
        assert rule["FREQ"] == ["DAILY"], rule
        step = rule["INTERVAL"][0]
        return [first + datetime.timedelta(days=step * i) for i in range(rule["COUNT"][0])]
    listed = [first]
    if "RDATE" in event:
        listed += [entry.dt for entry in event["RDATE"].dts]
    return listed


def check(program, recipe):
    words = [program, "tend", str(recipe), "--start", START.isoformat(), "--today", "2026-10-20"]
    made = subprocess.run(words + ["-o", "-"], capture_output=True, check=False)
    plan = json.loads(subprocess.run(words + ["--json"], capture_output=True, check=False).stdout)
    assert made.returncode in (0, 1), made.stderr.decode()
    calendar = icalendar.Calendar.from_ical(made.stdout)
    assert not calendar.errors, calendar.errors
    assert calendar["VERSION"] == "2.0"
    uids = set()
    found = []
    for event in calendar.walk("VEVENT"):
        assert not event.errors, event.errors
        assert event["UID"] not in uids, "a UID twice"
        uids.add(event["UID"])
        assert plan["recipe"]["title"] in event["SUMMARY"], event["SUMMARY"]
        alarms = event.walk("VALARM")
        start = event.decoded("DTSTART")
        if not isinstance(start, datetime.datetime):
            likely = plan["ready"]["likely"]
            end = event.decoded("DTEND") - datetime.timedelta(days=1)
            assert (start.isoformat(), end.isoformat()) == (likely["from"], likely["to"])
            assert not alarms
            continue
        assert alarms, "a reminder without an alarm"
        for moment in days_of(event):
            assert moment.tzinfo is None, "a floating time has no zone"
            assert moment.hour in (18, 6) and moment.minute == 0, moment
            found.append(moment.date().isoformat())
    wanted = []
    for entry in plan["entries"]:
        wanted += [entry["date"]] * entry["times"]
    assert sorted(found) == sorted(wanted), (sorted(found), sorted(wanted))
    return len(uids)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--jarful", required=True)
    parser.add_argument("--recipes", required=True, type=pathlib.Path)
    options = parser.parse_args()
    recipes = sorted(p for p in options.recipes.glob("*.jarful") if p.name != "kitchen.jarful")
    assert len(recipes) >= 15, recipes
    total = 0
    for recipe in recipes:
        try:
            total += check(options.jarful, recipe)
        except Exception as fault:  # the recipe's name is worth more than a trace
            print(f"{recipe.name}: {fault!r}", file=sys.stderr)
            return 1
    print(f"{len(recipes)} calendars, {total} events")
    return 0


if __name__ == "__main__":
    sys.exit(main())
