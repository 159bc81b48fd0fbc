#!/bin/sh
# The page's libraries from npm, as the lock file says, under build/page/node (never into src). A second run with the
# same lock file does nothing. Usage: sh src/page/tools/modules.sh [build/page]
set -eu
build=${1:-build/page}
here=$(cd "$(dirname "$0")/.." && pwd)
node=$build/node
mkdir -p "$node"
if [ -f "$node/.lock" ] && cmp -s "$here/package-lock.json" "$node/.lock"; then
  exit 0
fi
cp "$here/package.json" "$here/package-lock.json" "$node/"
(cd "$node" && npm ci --no-audit --no-fund)
cp "$here/package-lock.json" "$node/.lock"
