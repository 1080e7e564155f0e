#!/usr/bin/env bash
# Runs one of the tests of the engine for pages: run.sh FILE.test.mjs. Exit status 77, which CTest takes for "skipped",
# where node or that engine is not there.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd -P)
skipped() {
  echo "Skipped: $*"
  exit 77
}

command -v node >/dev/null || skipped "node is not installed"
[ "$(node --print 'process.versions.node.split(".")[0]')" -ge 20 ] || skipped "node is older than 20"
[ -f "$JARFUL_PAGE_ENGINE" ] || skipped "the engine for pages is not built: cli/page-engine.sh does that"
exec node --test "$here/$1"
