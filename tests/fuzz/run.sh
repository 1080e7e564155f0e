#!/usr/bin/env bash
# Fuzzes every target for a while, with the address and undefined-behaviour sanitizers, and says how many
# executions that came to. Needs clang and its runtime (packages clang and libclang-rt-14-dev). What breaks a
# target is left in build/fuzz/found/TARGET: mend it, and keep the input under tests/fuzz/findings/TARGET.
#   --seconds N   for each target (60)
#   --only NAME   that target alone; may be given again
#   --jobs N      so many targets at a time (the number of processors)
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd -P)
root=$(cd "$here/../.." && pwd -P)
seconds=60
jobs=$(nproc)
only=()
while [ $# -gt 0 ]; do
  case $1 in
    --seconds) seconds=$2; shift 2 ;;
    --only) only+=("$2"); shift 2 ;;
    --jobs) jobs=$2; shift 2 ;;
    -h | --help) sed -n '2,/^set /{/^#/s/^# \{0,1\}//p}' "${BASH_SOURCE[0]}"; exit 0 ;;
    *) echo "tests/fuzz/run.sh: unknown option $1" >&2; exit 2 ;;
  esac
done
# shellcheck source=cli/setup-packages.sh
. "$root/cli/setup-packages.sh"
build=$root/build/fuzz
configure "$root" fuzz >"$root/build/fuzz-configure.log"
mapfile -t targets < <(sed -n 's/^set(fuzz_targets \(.*\))$/\1/p' "$here/CMakeLists.txt" | tr ' ' '\n')
[ ${#only[@]} -eq 0 ] || targets=("${only[@]}")
cmake --build "$build" --target "${targets[@]/#/fuzz_}"
mkdir -p "$build/found"

# one TARGET: fuzzes it; its last lines go to a log.
one() {
  local target=$1 corpus=$build/corpus/$1
  mkdir -p "$corpus" "$build/found/$target"
  # Short inputs go by the thousand a second; what takes length (limits) has tests of its own.
  local length
  case $target in
    amounts | convert) length=64 ;;
    values) length=128 ;;
    request) length=200 ;;
    larder) length=4096 ;;
    *) length=512 ;;
  esac
  local -a words=("-max_total_time=$seconds" -timeout=10 -rss_limit_mb=2048 "-max_len=$length" -print_final_stats=1
    "-artifact_prefix=$build/found/$target/")
  local words_of=$target
  case $target in assist | batch | kitchen | tidy | request | values) words_of=recipe ;; esac
  [ ! -f "$here/dictionaries/$words_of.dict" ] || words+=("-dict=$here/dictionaries/$words_of.dict")
  "$here/seeds.sh" "$target" "$build/tests/fuzz/fuzz_$target" "${words[@]}" "$corpus" \
    >"$build/found/$target.log" 2>&1
}
export -f one
export here build seconds
status=0
printf '%s\n' "${targets[@]}" | xargs -P "$jobs" -I{} bash -c 'one {} || true'
total=0
printf '%-10s %12s  %s\n' target executions outcome
for target in "${targets[@]}"; do
  log=$build/found/$target.log
  count=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log" | tail -n 1)
  outcome="nothing found"
  if [ -n "$(find "$build/found/$target" -type f -newer "$root/build/fuzz-configure.log" 2>/dev/null)" ]; then
    outcome="FOUND: see $log"
    status=1
  elif [ -z "$count" ]; then
    outcome="did not run: see $log"
    status=1
  fi
  total=$((total + ${count:-0}))
  printf '%-10s %12s  %s\n' "$target" "${count:-0}" "$outcome"
done
printf '%-10s %12d\n' all "$total"
exit "$status"
