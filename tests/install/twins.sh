#!/usr/bin/env bash
# Builds the same source twice, in folders of different names, at different times, in different places of
# the world, and compares what came out byte by byte: the program, the library, the manual page, the
# package. Takes as long as two builds from nothing.
#   twins.sh SOURCE
set -euo pipefail

source=$(realpath "$1")
# shellcheck source=cli/setup-packages.sh
. "$source/cli/setup-packages.sh"
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
export CCACHE_DISABLE=1 # the second would only be handed what the first made
unset SOURCE_DATE_EPOCH

# build_in FOLDER: what git would commit, with the source of muParser if it is there.
build_in() {
  local folder=$1
  mkdir -p "$folder/build"
  (cd "$source" && git ls-files -z --cached --others --exclude-standard | xargs -0 cp --parents -t "$folder")
  [ ! -d "$source/build/muparser" ] || cp -r "$source/build/muparser" "$folder/build/muparser"
  configure "$folder" release -DJARFUL_BUILD_TESTS=OFF >"$folder/build/configure.log" 2>&1 ||
    { cat "$folder/build/configure.log"; return 1; }
  cmake --build "$folder/build/release" >"$folder/build/build.log" 2>&1 ||
    { tail -n 40 "$folder/build/build.log"; return 1; }
  (cd "$folder/build/release" && cpack >"$folder/build/cpack.log" 2>&1) ||
    { cat "$folder/build/cpack.log"; return 1; }
}

(umask 022 && TZ=Pacific/Auckland LC_ALL=C build_in "$place/one")
(umask 022 && TZ=America/Lima LC_ALL=C.UTF-8 build_in "$place/the other, elsewhere")

status=0
for file in cli/jarful engine/libjarful.a cli/jarful.1 "$(cd "$place/one/build/release" && echo jarful_*.deb)"; do
  if cmp -s "$place/one/build/release/$file" "$place/the other, elsewhere/build/release/$file"; then
    printf '%s  %s\n' "$(sha256sum <"$place/one/build/release/$file" | cut -c 1-64)" "$file"
  else
    echo "FAILED  the two builds differ in $file"
    status=1
  fi
done
[ "$status" -ne 0 ] || echo "Both builds are the same to the last byte."
exit "$status"
