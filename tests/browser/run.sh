#!/usr/bin/env bash
# Runs one of the browser tests: run.sh FILE.test.mjs [OPTION of node --test …]. Exit status 77, which CTest takes for "skipped", where
# node or its packages are not there and cannot be fetched.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd -P)
work=$JARFUL_BUILD_DIR/tests/browser
skipped() {
  echo "Skipped: $*"
  exit 77
}

command -v node >/dev/null || skipped "node is not installed"
[ "$(node --print 'process.versions.node.split(".")[0]')" -ge 20 ] || skipped "node is older than 20"
command -v npm >/dev/null || skipped "npm is not installed"
mkdir -p "$work"
cd "$work"
(
  # Two tests may want the packages at once, or read a file that is just being copied.
  flock 9
  for file in "$here"/*.mjs "$here"/package.json "$here"/package-lock.json; do
    name=${file##*/}
    cmp -s "$file" "$name" || { cp "$file" "$name.new" && mv "$name.new" "$name"; }
  done
  if ! cmp -s package-lock.json node_modules/.installed; then
    npm ci --prefer-offline --no-audit --no-fund --ignore-scripts >npm.log 2>&1 || exit 77
    cp package-lock.json node_modules/.installed
  fi
) 9>npm.lock || skipped "npm ci could not fetch the packages (its own words: $work/npm.log)"
case $1 in
  page_state.*) ;; # nothing but node
  page*)
    browser=${JARFUL_BROWSER:-/usr/bin/chromium}
    case $1 in page_markup.*) ;; *) "$browser" --version >/dev/null 2>&1 || skipped "no browser at $browser" ;; esac
    [ -f "${JARFUL_PAGE_ENGINE:-}" ] || skipped "the engine for pages is not built: cli/page-engine.sh does that"
    ;;
esac
exec node --test "${@:2}" "$1"
