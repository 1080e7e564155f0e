#!/usr/bin/env bash
# Builds the engine for pages, which `jarful page` puts into them: build/page/jarful-page-engine.wasm.gz. Installs what is
# missing. Run it again and it does only what is still to do.
#   --no-install   leaves the machine's packages as they are
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cli/setup-packages.sh
. "$root/cli/setup-packages.sh"

log=$root/build/packages.log
mkdir -p "$root/build"
[ "${1:-}" = --no-install ] || setup_packages "$log" "${engine_packages[@]}" "${page_packages[@]}"
if ! command -v em++ >/dev/null; then
  echo "The engine for pages needs Emscripten's em++, which is not installed (Debian's package: emscripten)." >&2
  exit 1
fi
fetch_muparser "$root" "$log"
fetch_utf8proc "$root" "$log"

start=$SECONDS
# The larder's tables and the lexicons' are made by programs that run on this machine.
tables=$root/build/release/engine/larder/jarful_larder_compile
words=$root/build/release/engine/appraise/jarful_lexicon_compile
[ -f "$root/build/release/build.ninja" ] || configure "$root" release -DJARFUL_BUILD_TESTS=OFF >"$root/build/configure.log"
cmake --build "$root/build/release" --target jarful_larder_compile jarful_lexicon_compile
configure "$root" page -DJARFUL_LARDER_COMPILE="$tables" -DJARFUL_LEXICON_COMPILE="$words" >"$root/build/configure-page.log"
cmake --build "$root/build/page"
engine=$root/build/page/jarful-page-engine.wasm.gz
echo "The engine for pages: ${engine#"$root"/}, $(stat -c %s "$engine") bytes, in $((SECONDS - start)) s"
