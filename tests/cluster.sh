#!/bin/sh
# The recipes of DEVELOPERS.md for a cluster, run by Slurm on this one machine: Debian's slurm-wlm and munge as root, without
# systemd, own key, sockets, state and ports in a folder that goes at the end. 200 000 rows of a batch as 8 shards and 40 jobs
# of a street as 8 parts; a task is requeued in the middle, a step killed and its task requeued; what is joined must be
# byte for byte the single run. Usage: tests/cluster.sh PROGRAM [ROWS JOBS]
set -eu
PW=$(realpath "$1") rows=${2:-200000} jobs=${3:-40} shards=8 here=$PWD
say() { echo "cluster: $*"; }
[ "$(id -u)" = 0 ] || { say "wants root (munged and slurmd run as it)" >&2; exit 1; }
missing=""
for p in slurm-wlm munge; do
  dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $p"
done
if [ -n "$missing" ]; then
  say "installing$missing"
  apt-get update -qq
  # Nothing of it is to be started by the package: there may be no systemd, and the test has its own.
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
fi

W=$(mktemp -d /tmp/panewright-cluster.XXXXXX)
stop() {
  for f in "$W/slurmd.pid" "$W/slurmctld.pid" "$W/munged.pid"; do
    [ -s "$f" ] || continue
    pid=$(cat "$f") n=0
    kill "$pid" 2>/dev/null || continue
    while kill -0 "$pid" 2>/dev/null && [ $n -lt 100 ]; do sleep 0.1; n=$((n + 1)); done
  done
}
ended() {
  code=$?
  [ $code = 0 ] || { tail -n 5 "$W"/*.log 2>/dev/null || :; }
  [ -z "${SLURM_CONF:-}" ] || scancel --user root >/dev/null 2>&1 || :
  stop
  cd / && rm -rf "$W"
  exit $code
}
trap ended EXIT
trap 'exit 130' INT TERM HUP
chmod 755 "$W"
mkdir "$W/state" "$W/spool" "$W/run" "$W/bin"
ln -s "$PW" "$W/bin/panewright"
PATH=$W/bin:$PATH
export PATH

# ---------------------------------------------------------------- the cluster
free_port() { python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'; }
head -c 1024 /dev/urandom >"$W/munge.key" && chmod 400 "$W/munge.key"
munged --force --key-file="$W/munge.key" --socket="$W/munge.sock" --pid-file="$W/munged.pid" \
  --log-file="$W/munged.log" --seed-file="$W/munge.seed"
node=$(hostname -s)
cat >"$W/slurm.conf" <<EOF
ClusterName=panewright
SlurmctldHost=$node(127.0.0.1)
SlurmctldPort=$(free_port)
SlurmdPort=$(free_port)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=$W/munge.sock,cred_expire=5
CredType=cred/munge
StateSaveLocation=$W/state
SlurmdSpoolDir=$W/spool
SlurmctldPidFile=$W/slurmctld.pid
SlurmdPidFile=$W/slurmd.pid
SlurmctldLogFile=$W/slurmctld.log
SlurmdLogFile=$W/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
MpiDefault=none
ReturnToService=2
JobRequeue=1
KillWait=2
CompleteWait=0
MinJobAge=600
# Scheduling at once, and a requeued task soon (it waits for its old credential, 120 s as Slurm comes).
SchedulerParameters=batch_sched_delay=0,sched_interval=1,sched_min_interval=0
NodeName=$node NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN
PartitionName=all Nodes=$node Default=YES MaxTime=INFINITE State=UP
EOF
SLURM_CONF=$W/slurm.conf
export SLURM_CONF
slurmctld
slurmd -N "$node"
n=0
until sinfo -h -o %T 2>/dev/null | grep -q idle; do
  n=$((n + 1))
  [ $n -lt 300 ] || { say "no node after 30 s" >&2; exit 1; }
  sleep 0.1
done
say "up: $(sinfo -V), $(nproc) cores"

# ---------------------------------------------------------------- what is waited for
state() { scontrol -o show job "$1" 2>/dev/null | sed -n 's/.*JobState=\([A-Z_]*\).*/\1/p'; }
busy() { squeue -h -r -j "$1" 2>/dev/null | wc -l; }
wait_for() { # job: until none of its tasks waits or runs
  while [ "$(busy "$1")" -gt 0 ]; do sleep 0.2; done
}
running() { # job task: until that task runs and has written something beside what it keeps
  k=0
  until [ "$(state "${1}_$2")" = RUNNING ] && [ -s "$3" ] && [ "$(wc -l <"$3")" -gt 1 ]; do
    k=$((k + 1))
    [ $k -lt 3000 ] || { say "task $2 of job $1 never ran" >&2; exit 1; }
    case $(state "${1}_$2") in COMPLETED) return 1 ;; esac
    sleep 0.05
  done
}
now() { date +%s.%N; }
less() { awk -v a="$2" -v b="$1" 'BEGIN {printf "%.1f", b - a}'; }
# The recipe as DEVELOPERS.md has it, between two of its lines, with the sizes of the test.
recipe() { sed -n "/^# $1/,/^\$/p" "$here/DEVELOPERS.md" | sed -e '/^#/d' -e '/^```/d'; }
all_done() { # job: every task ended well
  for i in $(seq 0 $((shards - 1))); do
    [ "$(state "${1}_$i")" = COMPLETED ] || { say "task $i of job $1: $(state "${1}_$i")" >&2; exit 1; }
  done
}
# Two tasks in the middle of their work: one requeued by its owner, the program of the other killed under Slurm's hands,
# which leaves a task that failed and is requeued.
disturb() { # job journal-prefix journal-suffix
  requeued=0 killed=0
  if running "$1" 0 "${2}000$3"; then
    scontrol requeue "${1}_0" && requeued=1
  fi
  for i in 1 2 3 4 5 6 7; do
    running "$1" $i "${2}00$i$3" || continue
    for pid in $(pgrep -x panewright); do # of this test alone: the folder it works in, the output it writes
      [ "$(readlink "/proc/$pid/cwd" || :)" = "$W/run" ] || continue
      { tr '\0' '\n' <"/proc/$pid/cmdline"; } 2>/dev/null | grep -qx "${2}00$i${4:-}" || continue
      kill -9 "$pid" 2>/dev/null && killed=1
      break
    done
    [ $killed = 0 ] || break
  done
  [ $requeued = 1 ] && [ $killed = 1 ] || { say "no task was caught in the middle ($requeued $killed)" >&2; exit 1; }
  k=0
  while [ "$(state "${1}_$i")" != FAILED ]; do
    k=$((k + 1))
    [ $k -lt 600 ] || { say "the killed task did not fail: $(state "${1}_$i")" >&2; exit 1; }
    sleep 0.1
  done
  scontrol requeue "${1}_$i"
  say "task 0 requeued, task $i killed and requeued"
}

# ---------------------------------------------------------------- shards that do nothing
cd "$W/run"
began=$(now)
job=$(sbatch --parsable --output=/dev/null --array=0-$((shards - 1)) --cpus-per-task=1 --wrap true)
wait_for "$job"
empty=$(less "$(now)" "$began")
say "$shards empty shards on two cores: $empty s, $(awk -v a="$empty" -v n=$shards 'BEGIN {printf "%.2f", a / n}') s a shard"

# ---------------------------------------------------------------- a batch
panewright batch --example "$rows" >windows.csv
began=$(now)
panewright batch --energy hourly --no-header <windows.csv >single.csv
single=$(less "$(now)" "$began")
each=$(((rows + shards - 1) / shards))
recipe "Slurm job array" | sed -e "s/-l 1000000/-l $each/" -e "s/--array=0-999/--array=0-$((shards - 1))/" \
  -e 's/^sbatch /sbatch --parsable --output=\/dev\/null /' >batch.sh
grep -q -- "-l $each" batch.sh && grep -q -- "--array=0-$((shards - 1))" batch.sh && grep -q -- '--requeue' batch.sh
sed '/^cat out/d' batch.sh >submit.sh
began=$(now)
job=$(sh -e submit.sh)
disturb "$job" out. .csv.journal .csv
wait_for "$job"
took=$(less "$(now)" "$began")
all_done "$job"
sed -n '/^cat out/p' batch.sh | sh -e
cmp results.csv single.csv
say "batch: $rows rows hourly, $shards shards, $took s with two disturbed (single run on all cores $single s): identical"

# ---------------------------------------------------------------- a street
k=0
while [ $k -lt "$jobs" ]; do
  for house in "$here"/tests/street/[01]*/; do
    [ $k -lt "$jobs" ] || break
    cp -r "$house" "house_$(printf %03d $k)"
    k=$((k + 1))
  done
done
ls -d house_* >jobs.txt
began=$(now)
panewright street --format json <jobs.txt >single.json
single=$(less "$(now)" "$began")
recipe "a street as parts" | sed -e 's/^sbatch /sbatch --parsable --output=\/dev\/null /' >street.sh
grep -q -- "--array=0-$((shards - 1))" street.sh && grep -q -- '--join' street.sh
sed '/--join/d' street.sh >submit.sh
began=$(now)
job=$(sh -e submit.sh)
disturb "$job" rec. .journal
wait_for "$job"
took=$(less "$(now)" "$began")
all_done "$job"
sed -n '/--join/p' street.sh | sed 's/--join/--format json --join/; s/> *[^ ]*$/> joined.json/' | sh -e
cmp joined.json single.json
say "street: $jobs jobs with ranges, $shards parts, $took s with two disturbed (single run on all cores $single s): identical"
