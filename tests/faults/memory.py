"""Every command with one allocation that fails, and with all from there on: memory.py PROGRAM SHIM FOLDER POINTS [COMMAND...]

Held: the same status and output as undisturbed, or status 70 with a line, nothing on standard output, nothing new in the
folder. Printed: a line for each run that did not hold, then "RUNS BROKE". Points: the first ones, the last ones, some of chance
between (fixed seed); POINTS is how many a command, all where it has fewer.
"""
import os
import random
import shutil
import subprocess
import sys

program, shim, folder, most = *sys.argv[1:4], int(sys.argv[4])
made = folder + "/made"
job = folder + "/memory_job"
house = "examples/harrow_bend"
quick = ["compare", job, "--quick"]
unit = "3mm clear / 12mm air / 3mm clear"


def plain(*words):
    return subprocess.run([program, *words], capture_output=True, check=True).stdout


shutil.rmtree(job, ignore_errors=True)
plain("new", job)
windows = folder + "/windows.csv"
with open(windows, "wb") as f:
    f.write(plain("batch", "--example", "3"))
checks = "reference/checks/bills/"
bills = folder + "/bills.csv"
with open(checks + "bills_visible.csv") as f, open(bills, "w") as one:
    rows = [row for row in f.read().splitlines() if not row.startswith("#")]
    at = rows[0].split(",").index("house")
    for row in rows:  # the first house, in the columns of bills.csv
        cells = row.split(",")
        if cells[at] in ("house", rows[1].split(",")[at]):
            one.write(",".join(cells[:at] + cells[at + 1:]) + "\n")

COMMANDS = [
    ["--help"],
    ["compere"],
    ["new", made],
    ["fit", job],
    ["fit", house, "--format", "json"],
    ["fit", house, "--format", "csv"],
    ["fit", job, "--order", made],
    quick,
    quick + ["--format", "json"],
    quick + ["--explain", "bill"],
    quick + ["--plots", made],
    ["compare", job],
    ["compare", job, "--range", "--quick", "--draws", "64"],
    ["compare", "examples/cinder_lane", "--quick"],
    ["glass", unit],
    ["glass", unit, "--format", "json"],
    ["glass", unit, "--plot", made + ".svg"],
    ["sound", unit],
    ["section", "examples/sections/old_sill.csv"],
    ["section", "examples/sections/old_sill.csv", "--format", "json"],
    ["sheet", job, "--no-range", "-o", made + ".html"],
    ["sheet", job, "--no-range", "--language", "es", "-o", made + ".html"],
    ["papers", job, "--html-only", "--no-range", "--package", "better", "-o", made],
    ["rebate", job, "--program", "examples/programs/juniper_flat_power_2026.csv", "--package", "better",
     "-o", made + ".html"],
    ["year", job],
    ["year", job, "--format", "json"],
    ["rank", job, "--panes", "1", "--top", "1", "--no-years"],
    ["words"],
    ["words", "--format", "json"],
    ["tables"],
    ["tables", "air/airing"],
    ["climates", "Denver"],
    ["climates", "Denver", "--format", "json"],
    ["sun", "Denver"],
    ["batch", "--energy", "monthly", "-o", made + ".csv"],
    ["batch", "--energy", "monthly"],
    ["street", job, "--draws", "64", "--format", "csv"],
    ["bills", bills, "--weather", checks + "weather_greensboro.csv"],
    ["bills", bills, "--list"],
    ["check", "--group", "sun"],
]
MAY_PRINT = {"batch", "street"}  # whole rows before the end, to be resumed


def clean():
    for name in os.listdir(folder):
        if name.startswith("made") or "panewright-" in name:
            path = os.path.join(folder, name)
            shutil.rmtree(path) if os.path.isdir(path) else os.remove(path)


def there():
    found = {}
    for place, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(place, name)
            if path.startswith(made) or "panewright-" in name:
                with open(path, "rb") as f:
                    found[path] = f.read()
    return found


def run(words, at, span):
    clean()
    env = {"PATH": os.environ["PATH"], "TMPDIR": folder, "LD_PRELOAD": shim, "SHIM_CALLS": "memory",
           "SHIM_AT": str(at), "SHIM_SPAN": str(span), "SHIM_NOTE": folder + "/count"}
    try:
        with open(windows if words[0] == "batch" else os.devnull, "rb") as given:
            p = subprocess.run([program, *words], capture_output=True, env=env, stdin=given, timeout=120)
    except subprocess.TimeoutExpired:
        return -99, b"", b"", {}
    return p.returncode, p.stdout, p.stderr, there()


def fault(words, undisturbed, got):
    status, out, err, files = got
    if status == undisturbed[0]:
        return None if (out, files) == (undisturbed[1], undisturbed[3]) else f"status {status}, another output"
    if status != 70:
        return f"status {status}"
    if not any(line.startswith(b"panewright: ") for line in err.splitlines()):
        return "status 70 without a line"
    if words[0] in MAY_PRINT:
        return None
    return "status 70, yet something printed" if out else "status 70, yet files" if files else None


runs = broke = 0
for words in [c for c in COMMANDS if not sys.argv[5:] or c[0] in sys.argv[5:]]:
    undisturbed = run(words, -1, 0)
    with open(folder + "/count") as f:
        n = int(f.read())
    if undisturbed[0] not in ((2,) if words == ["compere"] else (0, 1)):
        print("!!", *words, "fails undisturbed:", undisturbed[2].decode())
        broke += 1
        continue
    random.seed(" ".join(words[:1] + words[2:]).replace(folder, ""))
    third = most // 3
    points = range(1, n + 1)
    if n > most:
        points = sorted({*range(1, third + 1), *range(n - third + 1, n + 1), *random.sample(range(1, n + 1), third)})
    for at in points:
        for span in (0, 1000000000):
            why = fault(words, undisturbed, run(words, at, span))
            runs += 1
            if why:
                broke += 1
                print("!! memory:", *words, f"allocation {at} of {n}{' and on' if span else ''}: {why}", flush=True)
clean()
print(runs, broke)
