#!/usr/bin/env python3
"""Runs the session of README.md again and writes what the commands print now.

In each block that begins with "$ panewright", runs of lines between "..." are found again by their first
line's first two words and replaced by as many lines of today's output.  Usage: .ci/readme.py PROGRAM
"""
import shlex, subprocess, sys

program = sys.argv[1]
lines = open("README.md", encoding="utf-8").read().split("\n")
out, i = [], 0
while i < len(lines):
    out.append(lines[i])
    i += 1
    if not (out[-1].startswith("```") and i < len(lines) and lines[i].startswith("$ panewright ")):
        continue
    command = shlex.split(lines[i])[2:]
    now = [l.rstrip() for l in subprocess.run([program] + command, capture_output=True, text=True,
                                              check=True).stdout.split("\n")]
    out.append(lines[i])
    i += 1
    at = None
    while not lines[i].startswith("```"):
        line = lines[i]
        i += 1
        if line in ("...", "") and (at is None or line == "..." or now[at] != ""):
            out.append(line)
            at = None
            continue
        if at is None:
            key = line.split()[:2]
            at = next((k for k, l in enumerate(now) if l.split()[:2] == key), None)
            if at is None:
                sys.exit(f"README: nothing printed begins like: {line}")
        out.append(now[at])
        at += 1
open("README.md", "w", encoding="utf-8").write("\n".join(out))
