#!/bin/sh
# One suite of the page's tests, in a browser of its own: sh tests/page/suite.sh NAME. A line when it is green, all that it said when not.
# PAGE, BUILD, PANEWRIGHT: where the page, the build and the command are. `make test-page` runs them all, several at once.
# AGAIN=1, for a machine that is not ours alone: a suite that fails is run once more, and both runs are told.
set -eu
name=$1
said=$(mktemp)
trap 'rm -f "$said"' EXIT
tests() { node --import ./tests/page/modules.mjs --test "$@"; }
suite() {
  case $name in
  newcomer) PARTS='newcomer keyboard folders' tests tests/page/browser.mjs ;;
  views | papers) PARTS=$name tests tests/page/browser.mjs ;;
  trouble) PARTS='trouble site' tests tests/page/browser.mjs ;;
  firefox) BROWSER=Firefox tests tests/page/browser_others.mjs ;;
  # one after the other: xvfb-run looks for a free screen, and two that look at once find the same
  webkit) BROWSER=WebKit tests --test-concurrency=1 tests/page/engine_browser.test.mjs tests/page/browser_others.mjs ;;
  engine) BROWSER=Chromium tests tests/page/engine_browser.test.mjs ;;
  chance-*) node tests/page/engine.mjs "${PAGE_JOBS:-4}" "$BUILD" "${name#chance-}/2" ;;
  texts) tests tests/page/engine_lay.test.mjs tests/page/engine_base85.test.mjs tests/page/engine_warm.test.mjs tests/page/view_*.test.mjs ;;
  paper-axe) sh tests/page/papers_axe.sh "$PANEWRIGHT" ;;
  *)
    echo "suite.sh: no suite $name" >&2
    exit 1
    ;;
  esac
}
from=$(date +%s)
status=0
suite >"$said" 2>&1 || status=$?
if [ $status != 0 ] && [ "${AGAIN:-0}" = 1 ]; then
  cat "$said"
  echo "page: $name failed after $(($(date +%s) - from)) s and is run once more"
  from=$(date +%s) status=0
  suite >"$said" 2>&1 || status=$?
fi
took=$(($(date +%s) - from))
if [ $status = 0 ]; then
  echo "page: $name: $took s: $(grep -E '^# (pass|skipped) |^[0-9]+ texts |^axe|made once more|MB of memory|s; the longest' "$said" | sed 's/^ *# //' | tr '\n' ' ')"
else
  cat "$said"
  echo "page: $name FAILED after $took s"
fi
exit $status
