#!/usr/bin/env bash
# seeds.sh TARGET COMMAND…: runs the command with the folders of the target's seeds behind its words: its own,
# what was ever found to break it, and what lies elsewhere in the tree and is read in the same way.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd -P)
root=$(cd "$here/../.." && pwd -P)
target=$1
shift
folders=()
for folder in "$here/corpus/$target" "$here/findings/$target"; do
  [ ! -d "$folder" ] || folders+=("$folder")
done
case $target in
  assist | recipe | tidy) folders+=("$root/recipes" "$root/tests/golden/language") ;;
  kitchen) folders+=("$root/tests/golden/cli/book/kitchens") ;;
  lines) folders+=("$root/tests/golden/cli/book/found" "$root/tests/corpus/set-aside") ;;
esac
exec "$@" "${folders[@]}"
