#!/usr/bin/env python3
"""Do the tests notice a fault? Changes one token of src at a time, by a fixed seed, and runs the tests that reach it.

Usage: tests/mutate.py BUILD [--count N] [--seed N] [--at TEXT] [--slow SECONDS] [--budget SECONDS] [--known] [--again]     (`make mutate`)

A mutant (tests/mutants.py) is one object, linked alone as libmutant.so, which the programs of BUILD/mutate/tree ask before the
library that holds all else; nothing in the source tree is touched. Which test enters which function is told by a second build
of the library (tests/mutate_reach.c), once a test, and kept. Tests run from the narrowest and cheapest on until one fails, runs
five times as long as it should, or the budget is spent. A change that the warnings refuse, or that leaves the same machine code, is no mutant: another is drawn.
Harmless ones stand in tests/mutants_harmless.csv, by file, function and text, each with the reason.
Ends with 1 when less than 90 % are killed.
"""
import argparse
import csv
import hashlib
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time
from glob import glob
from pathlib import Path

sys.dont_write_bytecode = True
from mutants import KINDS, mutants_of  # pylint: disable=wrong-import-position

KERNELS = "base glass sound frame climate window house money meter study".split()
UPPER = "job out".split()
UPPER_SHARE = 0.15
HARMLESS = "tests/mutants_harmless.csv"
LIBS = "-lcsv -ljansson -lunistring -lz -lexpat -lpthread -lgsl -lgslcblas -lcholmod -lm -ldl".split()
CC = ["ccache", "cc"] if shutil.which("ccache") else ["cc"]
CFLAGS = ("-std=c11 -D_POSIX_C_SOURCE=200809L -fPIC -fno-math-errno -ffp-contract=off -isystem /usr/include/suitesparse -O1 "
          "-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wvla -Werror -Wno-maybe-uninitialized -Wno-format-overflow").split()


def run(command):
    return subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)


def link(out, what):
    r = run(["cc", "-o", str(out)] + what)
    if r.returncode:
        sys.exit("mutate: " + r.stdout[-2000:])


def digest(data):
    return hashlib.sha256(data).hexdigest()[:16]


class Tree:
    """BUILD/mutate: a working tree of its own (a mutant may write where it must not), its programs, a test run in it."""

    def __init__(self, build):
        self.build, self.home, self.tree = build, build / "mutate", build / "mutate/tree"
        folders = [build / "src" / d for d in KERNELS + UPPER + ["check", "cli"]]
        self.objects = [str(o) for d in folders for o in sorted(d.glob("*.o")) if o.name not in ("main.o", "cholmod_later.o")]
        self.objects += [str(build / "gen" / g) for g in ("reference.o", "texts.o", "packed.o")]

    def make(self):
        shutil.rmtree(self.tree, ignore_errors=True)
        for n in filter(os.path.isfile, run(["git", "ls-files", "-co", "--exclude-standard"]).stdout.split("\n")):
            (self.tree / n).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(n, self.tree / n)
        for d in (self.home / "lib", self.home / "reach", self.tree / "build/tests"):
            d.mkdir(parents=True, exist_ok=True)
        watched = [o.replace(str(self.build), str(self.build / "reach"), 1) for o in self.objects]
        link(self.home / "lib/liball.so", ["-shared", "-Wl,-S"] + self.objects + LIBS)
        link(self.home / "reach/liball.so", ["-shared", "-Wl,--build-id=none"] + watched + [str(self.build / "reach/tests/mutate_reach.o")] + LIBS)
        self.no_mutant()
        shutil.copy2(self.home / "lib/libmutant.so", self.home / "reach/libmutant.so")
        shared = self.shared = ["-rdynamic", "-Wl,-S", "-Wl,--no-as-needed", "-L" + str(self.home / "lib"), "-lmutant", "-lall"] + LIBS
        helpers = self.helpers = [str(self.build / "tests" / h) for h in ("support.o", "paper_read.o")]
        for t in glob("tests/test_*.c"):
            name = Path(t).stem
            link(self.tree / "build/tests" / name, [str(self.build / "tests" / (name + ".o"))] + helpers + shared + ["-lcmocka"])
        link(self.tree / "build/panewright", [str(self.build / "src/cli" / o) for o in ("main.o", "cholmod_later.o")] + shared)

    def no_mutant(self):
        (self.home / "none.c").write_text("extern int pw_no_mutant;\nint pw_no_mutant = 0;\n")
        link(self.home / "lib/libmutant.so", ["-shared", "-fPIC", str(self.home / "none.c")])

    def run(self, test, cpu, libs="lib", reach=None):
        """(its status, None when it hangs; processor seconds)"""
        scratch = self.home / "scratch"
        shutil.rmtree(scratch, ignore_errors=True)
        scratch.mkdir(parents=True)
        env = dict(os.environ, BUILD="build", TMPDIR=str(scratch.resolve()), LD_LIBRARY_PATH=str((self.home / libs).resolve()))
        if reach:
            env["PW_REACH"] = str(reach.resolve())
        command = ["sh", "tests/cli.sh", "build/panewright", test] if test.endswith(".case") else ["build/tests/" + test]

        def bounds():
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            resource.setrlimit(resource.RLIMIT_FSIZE, (1 << 28, 1 << 28))
            resource.setrlimit(resource.RLIMIT_AS, (1 << 33, 1 << 33))
            resource.setrlimit(resource.RLIMIT_CPU, (int(cpu), int(cpu) + 1))
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        with open(self.home / "last.log", "wb") as log:
            p = subprocess.Popen(command, cwd=self.tree, env=env, stdin=subprocess.DEVNULL, stdout=log, stderr=log,
                                 start_new_session=True, preexec_fn=bounds)
            try:
                status = p.wait(20.0 + 10.0 * cpu)
            except subprocess.TimeoutExpired:
                status = None
            try:
                os.killpg(p.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            p.wait()
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        took = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        return (None if status in (-signal.SIGXCPU, -signal.SIGKILL) else status), took


class Map:
    """Of each test its processor seconds and the functions it enters; kept until the test or the library changes."""

    def __init__(self, tree, slow, known):
        self.tree, self.symbols, self.seconds, self.entered, self.width = tree, {}, {}, {}, {}
        kept = tree.home / ("map-" + digest((tree.home / "reach/liball.so").read_bytes()))
        for old in tree.home.glob("map-*"):
            if old != kept:
                shutil.rmtree(old)
        kept.mkdir(exist_ok=True)
        for t in sorted(Path(t).stem for t in glob("tests/test_*.c")) + sorted(glob("tests/cli/*.case")):
            source = t if t.endswith(".case") else str(tree.build / "tests" / (t + ".o"))
            file = kept / (Path(t).name + "-" + digest(Path(source).read_bytes()))
            told = file.read_text().split("\n") if file.exists() else []
            if known and not told and t.endswith(".case"):
                continue
            if not told or told[0] != "fails" and not told[1] and float(told[0]) <= slow:
                self.measure(t, file, slow)
                told = file.read_text().split("\n")
            took, *functions = told
            if took == "fails":
                print("mutate: fails by itself, left out:", t)
            elif float(took) <= slow:
                self.seconds[t], self.width[t] = float(took), len(functions)
                for f in filter(None, functions):
                    path, name = f.split(" ")
                    self.entered.setdefault(path, {}).setdefault(name, set()).add(t)

    def measure(self, test, file, slow):
        """Of one that takes longer only that it does."""
        seen = self.tree.home / "reached"
        seen.unlink(missing_ok=True)
        status, took = self.tree.run(test, slow + 1.0)
        good = status in (0, None) or took > slow  # a shell tells only that what it ran was ended
        if status == 0 and took <= slow:
            good = self.tree.run(test, 20.0 * slow, "reach", seen)[0] == 0
        names = self.names(seen.read_bytes() if seen.exists() else b"") if good else []
        file.write_text("\n".join(["%.3f" % took if good else "fails"] + names) + "\n")
        print("  %6.2f s %5d functions  %s" % (took, len(names), test if good else test + "  FAILS"), flush=True)

    def names(self, seen):
        at = [16 * i for i, b in enumerate(seen) if b]
        new = [a for a in at if a not in self.symbols]
        told = subprocess.run(["addr2line", "-f", "-e", str(self.tree.home / "reach/liball.so")], input="\n".join(map(hex, new)), text=True,
                              stdout=subprocess.PIPE, check=True).stdout.split("\n")
        for a, name, place in zip(new, told[0::2], told[1::2]):
            self.symbols[a] = place.split(":")[0].replace(os.getcwd() + "/", "") + " " + name.split(".")[0]
        return sorted({self.symbols[a] for a in at})

    def reaching(self, m, includers):
        """Tests that enter the function; of what has no address (a table, what is put inside another) those that enter the file."""
        told = self.entered.get(m.path, {})
        if m.function in told:
            return told[m.function]
        if m.path.endswith(".h"): # what is put inside others: by those, or by headers that no other file has
            beside = [h for h, by in includers.items() if by <= includers.get(m.path, set())]
            return set().union(*(t for s in [*includers.get(m.path, ()), *beside] for t in self.entered.get(s, {}).values()))
        within = not m.function or re.search(r"static inline [^;{]*\b%s\(" % re.escape(m.function), m.text)
        return set().union(*told.values()) if within else set()


class Judge:
    def __init__(self, tree, o):
        self.tree, self.plain, self.killers, self.includers, self.budget = tree, {}, {}, {}, o.budget
        self.map = Map(tree, o.slow, o.known)
        self.tests_with = {}
        for d in [*tree.build.glob("src/*/*.d"), *tree.build.glob("tests/test_*.d")]:
            names = d.read_text().split("\n\n")[0].replace("\\\n", " ").split()
            source = next((n for n in names if n.endswith(".c")), "")
            of = self.tests_with if source.startswith("tests/") else self.includers if str(d.with_suffix(".o")) in tree.objects else {}
            for n in names:
                if n.startswith("src/") and n.endswith(".h"):
                    of.setdefault(n, set()).add(source)

    def compile(self, path, text, sources=None):
        """Objects of the file, or of all that include the header; [] when the compiler refuses."""
        work, made = self.tree.home / "work", []
        shutil.rmtree(work, ignore_errors=True)
        for s in sources or ([path] if path.endswith(".c") else sorted(self.includers.get(path, ()))):
            for p in {s, path}:
                (work / p).parent.mkdir(parents=True, exist_ok=True)
                (work / p).write_text(text if p == path else Path(p).read_text(encoding="utf-8"), encoding="utf-8")
            made.append(work / (s + ".o"))
            if run(CC + CFLAGS + ["-I%s/src" % work, "-Iinclude", "-Isrc", "-I%s" % self.tree.build, "-iquote", str(Path(s).parent),
                                      "-c", str(work / s), "-o", str(made[-1])]).returncode:
                return []
        return made

    def with_header(self, m):
        """What a header puts inside a test stands in no library: such a test is built anew, too."""
        for source in sorted(self.tests_with.get(m.path, ())):
            t = Path(source).stem
            made = self.compile(m.path, m.mutated(), [source]) if self.map.seconds.get(t, 9.0) < 1.0 else []
            if made:
                link(self.tree.tree / "build/tests/with_header", [str(made[0])] + self.tree.helpers + self.tree.shared + ["-lcmocka"])
                status, took = self.tree.run("with_header", 3.0 + 5.0 * self.map.seconds[t])
                if status != 0:
                    return "hangs" if status is None else "killed", t, took
        return None

    def judge(self, m):
        """(verdict, by which test, seconds) of a mutant, or None when the change is none."""
        if m.path not in self.plain:
            self.plain[m.path] = [o.read_bytes() for o in self.compile(m.path, m.text)]
            if not self.plain[m.path]:
                sys.exit("mutate: %s does not compile as it is" % m.path)
        made = self.compile(m.path, m.mutated())
        if not made or [o.read_bytes() for o in made] == self.plain[m.path]:
            return None
        link(self.tree.home / "lib/libmutant.so", ["-shared"] + [str(o) for o in made])
        status = self.with_header(m)
        if status:
            return status
        began, seconds, killers = time.monotonic(), self.map.seconds, self.killers.setdefault(m.path, {})
        tests = self.map.reaching(m, self.includers)
        left = self.budget
        for t in sorted(tests, key=lambda t: ((0.05 + seconds[t]) * self.map.width[t] / (1 + 9 * killers.get(t, 0)), t)):
            if left < seconds[t] and left < self.budget:
                continue
            status, took = self.tree.run(t, 3.0 + 5.0 * seconds[t])
            left -= took
            if status != 0:
                killers[t] = killers.get(t, 0) + 1
                return "hangs" if status is None else "killed", t, time.monotonic() - began
        return "survives" if tests else "not reached", "%d tests" % len(tests), time.monotonic() - began


def draw(rng, at):
    """Mutants without end: floors 0 to 4 above all; a kind, then a place, each as likely."""
    pools = []
    for folders in (KERNELS, UPPER):
        files = sorted(f for d in folders for f in glob("src/%s/*.[ch]" % d) if at in f)
        every = [m for f in files for m in mutants_of(f, rng)]
        pools.append({k: [m for m in every if m.kind == k] for k in KINDS})
    while any(any(p.values()) for p in pools):
        of_kind = pools[rng.random() < UPPER_SHARE][rng.choice(KINDS)]
        if of_kind:
            yield of_kind.pop(rng.randrange(len(of_kind)))


def options():
    a = argparse.ArgumentParser()
    a.add_argument("build", type=Path)
    a.add_argument("--count", type=int, default=200)
    a.add_argument("--seed", type=int, default=1)
    a.add_argument("--at", default="", help="only files with this in their path")
    a.add_argument("--slow", type=float, default=12.0, help="tests above these processor seconds are left out")
    a.add_argument("--budget", type=float, default=30.0, help="processor seconds of tests that a mutant has to survive")
    a.add_argument("--known", action="store_true", help="only those cases of tests/cli that a run before measured")
    a.add_argument("--again", action="store_true", help="what the run before this one killed counts as killed")
    return a.parse_args()


def tell(m, verdict, number):
    before, after = m.shown()
    print("%3d %s:%d %s: %s (%s, %.0f s)\n      - %s\n      + %s" % (number, m.path, m.line, m.function, *verdict, before, after), flush=True)


def main():
    o = options()
    tree = Tree(o.build)
    tree.make()
    judge = Judge(tree, o)
    with open(HARMLESS, encoding="utf-8", newline="") as f:
        harmless = {tuple(r[:4]) for r in csv.reader(f)}
    report = tree.home / ("seed_%d%s.csv" % (o.seed, o.at.replace("/", "_")))
    before = {}
    if o.again and report.exists():
        with open(report, encoding="utf-8", newline="") as f:
            before = {tuple(r[2:6]): (r[0], r[6], float(r[7])) for r in csv.reader(f) if r[0] in ("killed", "hangs")}
    rows, began = [], time.monotonic()
    for m in draw(random.Random(o.seed), o.at):
        if len(rows) >= o.count:
            break
        verdict = ("harmless", "", 0.0) if m.key() in harmless else before.get(m.key()) or judge.judge(m)
        if verdict is None:
            continue
        rows.append((verdict[0], m.line, *m.key(), verdict[1], "%.1f" % verdict[2], m.kind))
        if verdict[0] in ("survives", "not reached"):
            tell(m, verdict, len(rows))
        with open(report, "w", encoding="utf-8", newline="") as f:
            csv.writer(f).writerows(rows)
    tree.no_mutant()
    harmless_here = sum(r[0] == "harmless" for r in rows)
    dead, counted = sum(r[0] in ("killed", "hangs") for r in rows), len(rows) - harmless_here
    print("seed %d: %d mutants, %d harmless; %d of %d killed, %.1f %%; %.0f s; %s" % (
        o.seed, len(rows), harmless_here, dead, counted, 100.0 * dead / max(1, counted), time.monotonic() - began, report))
    return 0 if dead >= 0.9 * counted else 1


if __name__ == "__main__":
    sys.exit(main())
