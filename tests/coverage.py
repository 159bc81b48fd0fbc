#!/usr/bin/env python3
"""What the tests reached of floors 0 to 4, by gcov. Usage: tests/coverage.py BUILD[:BUILD...] [--branches] [--lines] [FILE...]

BUILD holds the objects of a build with --coverage and the counts of what was run from it, several are added up. A line or a branch that a header
brings into several objects counts once. What is left stands in tests/coverage_left.csv by file, text of the line and
reason; it is told apart and counts as not reached. Printed: by folder and whole, lines and branches; then, for each FILE or with --lines or
--branches, what was not reached and is not listed. Ends with 1 below 99 % of lines or 95 % of branches, or when a listed one is not there.
"""
import csv
import json
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

FLOORS = "base glass sound frame climate window house money meter study".split()
LEFT = Path("tests/coverage_left.csv")


def counts(builds):
    """{file: {line: [runs, [runs of each branch]]}} of the sources of floors 0 to 4."""
    found = defaultdict(dict)
    data = [str(p) for b in builds for d in FLOORS for p in sorted((b / "src" / d).rglob("*.gcno"))]
    for at in range(0, len(data), 40):
        out = subprocess.run(["gcov", "-j", "-t", "-b"] + data[at:at + 40], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=True).stdout
        for one in out.splitlines():
            for f in json.loads(one)["files"]:
                name = f["file"]
                if not name.startswith(("src/", "include/")) or name.startswith("src/embed"):
                    continue
                lines = found[name]
                for l in f["lines"]:
                    had = lines.setdefault(l["line_number"], [0, []])
                    had[0] += l["count"]
                    b = [x["count"] for x in l["branches"]]
                    # A line that is compiled in several ways (lanes) has branches of each: the longest list counts, place by place.
                    long, short = (had[1], b) if len(had[1]) >= len(b) else (b, had[1])
                    had[1] = [x + (short[i] if i < len(short) else 0) for i, x in enumerate(long)]
    return found


def main():
    args = sys.argv[1:]
    builds = [Path(b) for b in args.pop(0).split(":")]
    want = {a for a in args if a.startswith("--")}
    files = [a for a in args if not a.startswith("--")]
    reasons = {}
    if LEFT.exists():
        with LEFT.open(newline="") as f:
            reasons = {(r["file"], r["text"]): r["reason"] for r in csv.DictReader(f)}
    met, bad = set(), False
    total = defaultdict(lambda: [0, 0, 0, 0, 0, 0])
    left = []
    for name, lines in sorted(counts(builds).items()):
        text = Path(name).read_text().splitlines()
        for n, (runs, branches) in sorted(lines.items()):
            key = (name, text[n - 1].strip())
            known = key in reasons
            missed = sum(1 for b in branches if b == 0)
            for group in (str(Path(name).parent), "all"):
                t = total[group]
                t[0] += 1
                t[1] += runs > 0
                t[2] += len(branches)
                t[3] += len(branches) - missed
                t[4] += known and not runs
                t[5] += missed if known else 0
            if not runs or missed:
                if known:
                    met.add(key)
                else:
                    left.append((name, n, runs, missed, len(branches), key[1]))
    print(f"{'folder':26} {'lines':>7} {'reached':>8} {'%':>7} {'branches':>9} {'reached':>8} {'%':>7}   listed")
    for group, (l, lr, b, br, kl, kb) in sorted(total.items(), key=lambda g: (g[0] == "all", g[0])):
        print(f"{group:26} {l:7} {lr:8} {100 * lr / max(l, 1):7.2f} {b:9} {br:8} {100 * br / max(b, 1):7.2f}   {kl} {kb}")
    for name, n, runs, missed, of, text in left:
        if (files and any(name.startswith(f) for f in files)) or ("--lines" in want and not runs) or ("--branches" in want and runs and missed):
            print(f"{name}:{n}: {'not run' if not runs else f'{missed} of {of} branches'}: {text}")
    for name, line in sorted(set(reasons) - met):
        there = Path(name).exists() and line in {l.strip() for l in Path(name).read_text().splitlines()}
        print(f"{LEFT}: {name}: {'reached now' if there else 'no such line'}: {line}")
        bad |= not there
    l, lr, b, br = total["all"][:4]
    sys.exit(bad or lr < 0.99 * l or br < 0.95 * b)


if __name__ == "__main__":
    main()
