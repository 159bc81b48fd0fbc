#!/bin/sh
# Installs the Debian packages that the build, the tests and the pictures need and that are missing, and those named.
set -eu
want="gcc make pkg-config libgsl-dev libcsv-dev libjansson-dev libunistring-dev libsuitesparse-dev libcmocka-dev zlib1g-dev libexpat1-dev gnuplot-nox tidy jq g++ poppler-utils weasyprint parallel fonts-dejavu-core fonts-liberation locales procps gettext $*"
missing=""
for p in $want; do
  dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $p"
done
[ -z "$missing" ] && exit 0
if ! command -v apt-get >/dev/null 2>&1; then
  echo "panewright: these packages are missing and there is no apt-get to install them:$missing" >&2
  exit 1
fi
sudo=""
if [ "$(id -u)" != 0 ]; then
  if ! command -v sudo >/dev/null 2>&1; then
    echo "panewright: these packages are missing; install them as root, or install sudo:$missing" >&2
    exit 1
  fi
  sudo="sudo"
fi
echo "panewright: installing$missing" >&2
# shellcheck disable=SC2086
if ! { $sudo apt-get update -qq && DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq --no-install-recommends $missing >/dev/null; }; then
  echo "panewright: apt-get could not install:$missing" >&2
  exit 1
fi
