#!/bin/sh
# The Debian packages of what is built: the packaging files are copied into BUILD/deb, where dpkg-buildpackage works.
# Usage: sh src/deb/build.sh BUILD VERSION
set -eu
source=$(pwd)
work=$1/deb/panewright-$2
rm -rf "$1/deb"
mkdir -p "$work/debian/source"
cp src/deb/control src/deb/copyright src/deb/rules src/deb/*.install "$work/debian/"
chmod +x "$work/debian/rules"
echo '3.0 (native)' >"$work/debian/source/format"
day=$(git log -1 --format=%cD 2>/dev/null || date -R -r include/panewright/version.h)
printf 'panewright (%s) unstable; urgency=medium\n\n  * As built from its source.\n\n -- panewright <panewright@panewright.example>  %s\n' "$2" "$day" >"$work/debian/changelog"
(cd "$work" && SOURCE=$source OUT=$1 dpkg-buildpackage -b -us -uc) >"$1/deb/log" 2>&1 || { tail -20 "$1/deb/log" >&2; exit 1; }
lintian --fail-on error "$1"/deb/*.changes
ls "$1"/deb/*.deb
