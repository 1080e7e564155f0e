#!/usr/bin/env bash
# From a fresh Debian machine to a weigh-out: installs what is missing, builds the program, weighs a
# recipe of the demo book. Run it again and it does only what is still to do.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cli/setup-packages.sh
. "$root/cli/setup-packages.sh"

build=$root/build/release
program=$build/cli/jarful

setup_packages "$root/build/packages.log" "${engine_packages[@]}"
fetch_muparser "$root" "$root/build/packages.log"

# Tests that are already configured stay configured: the build then has less to do.
if [ ! -f "$build/build.ninja" ] ||
  ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$build/CMakeCache.txt"; then
  mkdir -p "$root/build"
  echo "Preparing the build …"
  if ! configure "$root" release -DJARFUL_BUILD_TESTS=OFF >"$root/build/configure.log" 2>&1; then
    cat "$root/build/configure.log" >&2
    exit 1
  fi
fi
cmake --build "$build" --target jarful

cd "$root"
echo
echo "\$ jarful weigh recipes/winter-kraut.jarful cabbage=1.84kg"
echo
"$program" weigh recipes/winter-kraut.jarful cabbage=1.84kg

shown=build/release/cli/jarful
[ "$(type -P jarful || true)" = "$program" ] && shown=jarful
cat <<NEXT

To try next, in $(printf '%q' "$root"):
  $shown weigh half-sours cucumbers=850g
  $shown weigh winter-kraut cabbage=1.84kg --json
  $shown check recipes
  $shown ranges kraut
NEXT
