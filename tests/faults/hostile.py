"""Hostile text in every field of every file that is read, through the commands that read it: hostile.py PROGRAM FOLDER

One field at a time holds each of 40 texts (HOSTILE=all, else ten of them in turns), the commands taking turns; then all fields of a job that take any words hold the same
text, through all commands. Held: a status of README's list, a line on standard error where it is not 0, and in what was
printed or written no control character, no mark that turns direction, nothing that is not UTF-8, no text that became HTML or a
formula, nothing run. Printed: a line for each run that did not hold, then "RUNS BROKE".
"""
import csv
import io
import os
import re
import shutil
import subprocess
import sys
import threading
from itertools import chain

program, top = sys.argv[1:3]
seeds, checks = "tests/fuzz/seeds/", "reference/checks/"
claim = "examples/programs/juniper_flat_power_2026.csv"
RAN = "it_ran"  # a file of this name in the folder the program runs in: a text was taken for a command

TEXTS = [
    b"a\x1b[2Jb", b"a\x1b]0;title\x07b", b"a\x1b]8;;x:y\x1b\\b", b"\x1bPq\x1b\\", b"a\xc2\x9b2Jb", b"a\xc2\x9d0;t\xc2\x9cb",
    b"a\xc2\x85b", b"a\x7fb", b"a\x07b", b"abc\x08\x08\x08xyz", b"good\rbad", b"two\nlines", b"a\x00b", b"a\tb", b"a\x0b\x0cb",
    b"\xe2\x80\xaeevil\xe2\x80\xac", b"\xe2\x80\xaa\xe2\x80\xabx\xe2\x80\xad", b"\xe2\x81\xa6\xe2\x81\xa7\xe2\x81\xa8x\xe2\x81\xa9",
    b"\xe2\x80\x8e\xe2\x80\x8fx", b"\xd8\x9cx", b"a\xffb", b"torn \xc3", b"\xc0\xafb", b"\xed\xa0\x80x", b"\xf4\x90\x80\x80x",
    b"\xef\xbb\xbfx", b"a\xe2\x80\x8db\xe2\x80\x8b", b"e" + b"\xcc\x81" * 200, b"w" * 5000, "\u7a93".encode() * 60,
    "\U0001fa9f\U0001f468\u200d\U0001f469".encode() * 9, b"%s%n%99999999d%x", ("$(touch %s)" % RAN).encode(), ("`touch %s`" % RAN).encode(),
    ("|touch %s" % RAN).encode(), b"=2+3+cmd|'/C x'!A0", b"@SUM(1+1)", b"<script>alert(1)</script>", b"\"'><img src=x onerror=alert(1)>",
    b"../../../../etc/passwd",
]
assert len(TEXTS) == len(set(TEXTS)) == 40

BAD = re.compile(rb"[\x00-\x08\x0b-\x1f\x7f]|\xc2[\x80-\x9f]|\xe2\x80[\x8e\x8f\xaa-\xae]|\xe2\x81[\xa6-\xa9]|\xd8\x9c")
STATUS = {0, 1, 2, 65, 66, 70, 73, 74}  # README, how it ends


def read(name):
    with open(name, "rb") as f:
        return f.read()


def head(name, lines):
    return b"".join(read(name).splitlines(keepends=True)[:lines])


# The files: name, bytes, and the commands that read it. FILE is the file, JOB the job it lies in, OUT where outputs go.
QUICK = ["compare", "JOB", "--quick"]
JOB_COMMANDS = [
    ["fit", "JOB", "--all"], ["fit", "JOB", "--format", "json", "--language", "es"], ["fit", "JOB", "--format", "csv", "--order", "OUT/order.csv"],
    QUICK + ["--all"], QUICK + ["--format", "json"], QUICK + ["--format", "csv"], QUICK + ["--explain", "bill"], QUICK + ["--range", "--draws", "64"],
    ["year", "JOB", "--quick"], ["sheet", "JOB", "--no-range", "-o", "OUT/s.html"], ["sheet", "JOB", "--no-range", "--language", "es", "-o", "OUT/s.html"],
    ["rebate", "JOB", "--program", claim, "--package", "better", "-o", "OUT/c.html"], ["rebate", "JOB", "--program", claim, "--package", "better", "-o", "OUT/c.csv"],
    ["papers", "JOB", "--html-only", "--no-range", "--package", "better", "--date", "2026-06-01", "-o", "OUT/p"],
    ["rank", "JOB", "--panes", "1", "--top", "1", "--no-years"], ["street", "JOB", "--draws", "64", "--format", "csv"],
]
CHEAP = JOB_COMMANDS[:3] + [JOB_COMMANDS[4]]  # one field at a time
ALL = os.environ.get("HOSTILE") == "all"  # else each field gets a quarter of the texts, in turns
ONLY = os.environ.get("ONLY", "").split()  # names of files, for a part
FILES = [(n, read("examples/cinder_lane/" + n), CHEAP) for n in ("job.csv", "openings.csv", "packages.csv", "frame_lines.csv")]
FILES += [(n + ".csv", read(seeds + n + "/job.csv"), CHEAP[3:]) for n in ("firm", "labels", "prices", "tariff")]
FILES += [("bills.csv", read(seeds + "bills/job.csv"), [["bills", "FILE"], ["bills", "FILE", "--list"], ["bills", "FILE", "--format", "json"]])]
APART = [
    ("section.csv", read("examples/sections/old_jamb_fixed_fins_cut.csv"), [["section", "FILE"], ["section", "FILE", "--format", "json"]]),
    ("house.csv", read("examples/std140/600.csv"), [["house", "FILE"]]),
    ("program.csv", read(claim), [["rebate", "JOB", "--program", "FILE", "--package", "better", "-o", "OUT/c.html"],
                                  ["rebate", "JOB", "--program", "FILE", "--package", "better", "-o", "OUT/c.csv"]]),
    ("catalogue.csv", head("examples/catalogue.csv", 30), [["rank", "JOB", "--catalogue", "FILE", "--panes", "1", "--top", "1", "--no-years"]]),
    ("pane.csv", read(seeds + "spectrum/band.csv"), [["glass", "5mm pane", "--pane", "FILE"], ["glass", "3mm clear / 12mm air / 5mm pane", "--pane", "FILE", "--format", "json"]]),
    ("curve.csv", read(seeds + "curve/thirds.csv"), [["sound", "--curve", "FILE"], ["sound", "--curve", "FILE", "--format", "json"]]),
    ("days.csv", read(seeds + "daily/days.csv"), [["bills", "JOB/bills.csv", "--weather", "FILE"]]),
    ("rows.csv", subprocess.run([program, "batch", "--example", "2"], stdout=subprocess.PIPE, check=True).stdout,
     [["batch", "--energy", "monthly", "-o", "OUT/b.csv", "--rejects", "OUT/r.csv"], ["batch", "--energy", "none"]]),
    ("feed.xml", head(checks + "bills/espi_gas_monthly.xml", 43) + b"</feed>\n", [["bills", "FILE", "--list"]]),
    ("order.csv", b"", [["papers", "JOB", "--only", "change", "--before", "FILE", "--html-only", "--no-range", "--package", "better", "-o", "OUT/p"]]),
]


def split(data, rows=None):
    """The cells of CSV bytes, as they stand between commas and line ends, of that many lines; notes are left out."""
    cells, line, last = [], 0, -1
    for m in re.finditer(rb'(?<![^,\n])(?:"(?:[^"]|"")*"|[^,\r\n"]*)(?![^,\r\n])', data):
        begin = data.rfind(b"\n", 0, m.start()) + 1
        if data[begin:begin + 1] in (b"#", b"\n", b""):
            continue
        line, last = line + (begin != last), begin
        if rows and line > rows:
            break
        cells.append(m.span())
    return cells


def words(data):
    return [m.span(1) for m in re.finditer(rb">([^<>\n]+)<", data)] + [m.span(1) for m in re.finditer(rb'="([^"]+)"', data)]


def quoted(text):
    return b'"' + text.replace(b'"', b'""') + b'"'


def judge(where, status, out, err, folder):
    """What does not hold of a run, as text, or None."""
    if status not in STATUS:
        return f"status {status}: {err[:200]!r}"
    if status and not err.startswith(b"panewright"):
        return f"status {status} without a line: {err[:100]!r}"
    said = [("out", out), ("err", err)]
    for at, _, names in os.walk(folder):
        said += [(os.path.join(at, n), read(os.path.join(at, n))) for n in names]
    for name, data in said:
        m = BAD.search(data)
        if m:
            return f"{name} has {m.group()!r} in {data[max(0, m.start() - 30):m.end() + 20]!r}"
        try:
            data.decode("utf-8")
        except UnicodeDecodeError as e:
            return f"{name} is not UTF-8: {data[max(0, e.start - 30):e.end + 20]!r}"
        if name.endswith(".html") and (b"<script>alert" in data or b"<img src=x" in data):
            return f"{name} has the text as HTML"
        if name.endswith(".csv") or (name == "out" and "csv" in where):
            for row in csv.reader(io.StringIO(data.decode("utf-8"))):
                for cell in row:
                    if cell[:1] in ("=", "@") or cell[:1] in ("+", "-") and "(" in cell:
                        return f"{name} has the formula {cell!r}"
    if os.path.exists(os.path.join(top, RAN)) or os.path.exists(RAN):
        return "the text was run"
    return None


class Place:
    """A folder with the job as it is, for one thread; what a run changes is put back after it."""

    def __init__(self, here):
        self.here, self.out = here, here + "/out"
        os.makedirs(here + "/job")
        os.makedirs(self.out)
        os.symlink(os.path.realpath("examples/sections"), here + "/sections")
        for name in PLAIN:
            self.put(name, PLAIN[name])

    def at(self, name):
        return f"{self.here}/{name}" if name in LOOSE else f"{self.here}/job/{name}"

    def put(self, name, data):
        with open(self.at(name), "wb") as f:
            f.write(data)

    def run(self, files, command):
        """(status, what does not hold or None) of a command, with these files changed."""
        for name in files:
            self.put(name, files[name])
        first = self.at(next(iter(files), ""))
        argv = [w.replace("FILE", first).replace("JOB", self.here + "/job").replace("OUT", self.out) for w in command]
        try:
            r = subprocess.run([program, *argv], input=files.get("rows.csv", b""), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                               timeout=120, check=False, close_fds=False)
            status, fault = r.returncode, judge(" ".join(command), r.returncode, r.stdout, r.stderr, self.out)
        except subprocess.TimeoutExpired:
            status, fault = None, "not ended in 120 s"
        for name in files:
            if name in PLAIN:
                self.put(name, PLAIN[name])
        if os.listdir(self.out):
            shutil.rmtree(self.out)
            os.makedirs(self.out)
        return status, fault


LOOSE = {name for name, _, _ in APART}
PLAIN = {name: data for name, data, _ in FILES}
first = Place(top + "/first")
first.run({}, ["fit", "JOB"])
subprocess.run([program, "fit", top + "/first/job", "--order", top + "/order.csv"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
APART = [(n, read(top + "/order.csv") if n == "order.csv" else d, c) for n, d, c in APART]


def cells_of(name, data):
    """Of a table, the head and a row; of a list of items, each; of XML, all that stands between tags and in attributes."""
    return words(data) if name.endswith(".xml") else split(data, {"job.csv": None, "firm.csv": None, "house.csv": 9}.get(name, 2))


def one_by_one():
    """(files, command, words for a fault) of each text in each cell, the commands taking turns."""
    turn = 0
    for name, data, commands in FILES + APART:
        if ONLY and name not in ONLY:
            continue
        for command in commands:
            yield {name: data}, command, f"{name} undisturbed: {' '.join(command)}"
        for begin, end in cells_of(name, data):
            turn += 1
            line = data.count(b"\n", 0, begin) + 1
            names = not name.endswith(".xml") and data.rfind(b"\n", 0, begin) < data.find(b"\n")  # columns: a quarter of the texts
            for k, text in enumerate(TEXTS):
                if (k + turn) % ((4 if names else 1) * (1 if ALL else 4)):
                    continue
                put = text.replace(b"&", b"&amp;").replace(b"<", b"&lt;") if name.endswith(".xml") else quoted(text)
                yield {name: data[:begin] + put + data[end:]}, commands[((k + turn) // 4 + k + turn) % len(commands)], f"{name}:{line}, {data[begin:end]!r} -> {text!r}"


def with_text(cells, text):
    """The job's files with that text in those cells, a number after it, as names must differ."""
    files = dict(PLAIN)
    for n, (name, begin, end) in enumerate(sorted(cells, key=lambda f: -f[1])):  # from the end
        files[name] = files[name][:begin] + quoted(text + b" %d" % n) + files[name][end:]
    return files


# Which cells of a job take any words, all together: with them it still compares. (In a list of items, values and notes.)
free = []
for name, data, _ in FILES[:7]:
    for begin, end in split(data):
        head_line = data.rfind(b"\n", 0, begin) < data.find(b"\n") or (data.startswith(b"item,") and data[begin - 1:begin] == b"\n")
        if not head_line and first.run(with_text(free + [(name, begin, end)], b"Any words"), JOB_COMMANDS[4])[0] == 0:
            free.append((name, begin, end))


def all_at_once():
    """The same with a text in all those cells together, through every command of a job."""
    for command in JOB_COMMANDS:
        yield {}, command, f"the job undisturbed: {' '.join(command)}"
    for text in TEXTS:
        files = with_text(free, text)
        for command in JOB_COMMANDS:
            yield files, command, f"all {len(free)} free cells -> {text!r}: {' '.join(command)}"


threads = int(os.environ.get("JOBS", "2"))
runs, broke, statuses = 0, 0, {}
work, lock = chain(one_by_one(), () if ONLY else all_at_once()), threading.Lock()


def walk(number):
    global runs, broke
    place = Place(f"{top}/{number}")
    while True:
        with lock:
            task = next(work, None)
        if task is None:
            return
        files, command, shown = task
        status, fault = place.run(files, command)
        if "undisturbed" in shown and status != 0:
            fault = fault or f"ends with {status}"
        with lock:
            runs += 1
            statuses[status] = statuses.get(status, 0) + 1
            if fault:
                broke += 1
                print(f"!! {shown}: {fault}", flush=True)


walkers = [threading.Thread(target=walk, args=(n,)) for n in range(threads)]
for w in walkers:
    w.start()
for w in walkers:
    w.join()
print(f"-- {len(free)} cells of a job take any words; ended with:", ", ".join(f"{k}: {v}" for k, v in sorted(statuses.items(), key=str)))
print(runs, broke)
