# An output that is an input, by every alias; refused with 73, every byte of the folder kept.
P=$M/files
mkdir "$P"
cp -r "$J" "$P/j"
cp examples/programs/juniper_flat_power_2026.csv "$P/p.csv"
cp examples/catalogue.csv "$P/cat.csv"
"$PW" batch --example 20 >"$P/in.csv"
for f in j/job.csv j/openings.csv j/packages.csv p.csv in.csv; do
  b=$(basename $f .csv)
  ln "$P/$f" "$P/$b.hard.csv"
  ln -s "$f" "$P/$b.soft.csv"
  ln -s "$b.soft.csv" "$P/$b.chain.csv"
  ln -s "$P/$f" "$P/$b.far.csv"
done
ln -s j "$P/jl"
ln -s "$P" "$P/self"
cp -a "$P" "$M/kept"
refused() { # label command...
  label=$1
  shift
  "$@" >/dev/null 2>"$M/err"
  rc=$?
  if [ $rc != 73 ]; then
    bad "$label: status $rc: $(head -1 "$M/err")"
  elif ! diff -r --no-dereference "$P" "$M/kept" >/dev/null; then
    bad "$label: a file changed"
    rm -rf "$P"
    cp -a "$M/kept" "$P"
  else
    ok
  fi
}
cd "$P" || exit 70
aliases() { # file: its names
  b=$(basename "$1" .csv)
  echo "$1 ./$1 j/../$1 self/$1 $P/$1 //$P/./$1 $b.hard.csv $b.soft.csv $b.chain.csv $b.far.csv"
}
for a in $(aliases p.csv); do
  refused "rebate program as $a" "$PW" rebate j --program p.csv -o "$a"
  refused "rebate program by $a" "$PW" rebate j --program "$a" -o p.csv
done
for f in job openings packages; do
  for a in $(aliases j/$f.csv) jl/$f.csv; do
    refused "fit order on $a" "$PW" fit j --order "$a"
    refused "fit order on $a by another folder" "$PW" fit jl --order "$a"
    refused "rebate on $a" "$PW" rebate j --program p.csv -o "$a"
  done
done
for a in frame_lines catalogue labels prices bills firm promise; do
  refused "a name the job reads, $a" "$PW" fit j --order "jl/$a.csv"
done
for a in $(aliases in.csv); do
  refused "batch output $a" sh -c '"$PW" batch --energy monthly -o "$1" <in.csv' - "$a"
  refused "batch rejects $a" sh -c '"$PW" batch --energy monthly --rejects "$1" <in.csv' - "$a"
  refused "batch resumed $a" sh -c '"$PW" batch --energy monthly --resume -o "$1" <in.csv' - "$a"
done
for a in new.csv ./new.csv self/new.csv "$P/new.csv" j/../new.csv; do
  refused "batch output and rejects $a" sh -c '"$PW" batch --energy monthly -o new.csv --rejects "$1" <in.csv' - "$a"
  refused "batch rejects and journal $a" sh -c '"$PW" batch --energy monthly -o new.csv --rejects "$1.journal" <in.csv' - "$a"
done
refused "appended to its own input" sh -c '"$PW" batch --energy monthly <in.csv >>in.csv'
refused "standard output onto the job" sh -c '"$PW" fit j >>j/job.csv'
refused "order where standard output goes" sh -c '"$PW" fit j --order "$1" >>p.csv' - p.csv
refused "order to /dev/stdout on a file" sh -c '"$PW" fit j --order /dev/stdout >>p.csv'
cd "$OLDPWD" || exit 70
