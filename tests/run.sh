#!/usr/bin/env bash
# All set-up and every test: installs what is missing, builds the release, runs CTest, says how long each part
# took, and closes with "N passed, N failed". The exit status is 0 if all of it went well.
#   --quick   the core alone: unit tests and whole outputs; under a minute where it is built already
#   --asan    afterwards the same with the address and undefined-behaviour sanitizers
#   --full    also what takes long: the sanitizers, fuzzing, analysis, the package in a Debian of its own,
#             everything built twice and compared, the benchmarks. More than an hour.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cli/setup-packages.sh
. "$root/cli/setup-packages.sh"

presets=(release)
target=all
chosen=()
full=no
for option in "$@"; do
  case $option in
    --quick)
      target=core_tests
      chosen=(--label-regex '^(unit|golden)$')
      ;;
    --asan) presets=(release asan) ;;
    --full)
      presets=(release asan)
      full=yes
      ;;
    -h | --help)
      sed -n '2,/^set /{/^#/s/^# \{0,1\}//p}' "${BASH_SOURCE[0]}"
      exit 0
      ;;
    *)
      echo "tests/run.sh: unknown option $option (there are --quick, --asan and --full)" >&2
      exit 2
      ;;
  esac
done

times=()
# timed NAME COMMAND…: runs it and remembers how long it took.
timed() {
  local name=$1 start=$SECONDS status=0
  shift
  "$@" || status=$?
  times+=("$(printf '%-20s %4d s' "$name" $((SECONDS - start)))")
  return "$status"
}

passed=0
failed=0
# Adds up the line with which CTest closes: "98% tests passed, 2 tests failed out of 123".
count_results() {
  local line
  line=$(grep -E '^[0-9]+% tests passed, [0-9]+ tests? failed out of [0-9]+' "$1" | tail -n 1 || true)
  if [[ $line =~ ([0-9]+)\ tests?\ failed\ out\ of\ ([0-9]+) ]]; then
    failed=$((failed + BASH_REMATCH[1]))
    passed=$((passed + BASH_REMATCH[2] - BASH_REMATCH[1]))
  fi
}

# shellcheck disable=SC2317  # called through timed
run_ctest() {
  local log=$root/build/$1/ctest.log
  local -a without=()
  # What times, packs, or looks through a browser at what the program made says nothing new there.
  [ "$1" != asan ] || without=(--label-exclude '^(bench|browser|install)$')
  (cd "$root/build/$1" && ctest --output-on-failure --no-tests=error --parallel "$(nproc)" \
    ${chosen[@]+"${chosen[@]}"} ${without[@]+"${without[@]}"}) 2>&1 | tee "$log"
}

# part NAME SCRIPT [WORD…]: something that is no CTest; counts as one test. Passed over where it is not there.
part() {
  local name=$1 script=$root/$2
  shift 2
  [ -x "$script" ] || return 0
  printf '\n== %s\n' "$name"
  if timed "$name" "$script" "$@"; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    status=1
    echo "FAILED  $name"
  fi
}

closing() {
  printf '\nHow long it took:\n'
  printf '  %s\n' "${times[@]}"
  printf '%d passed, %d failed\n' "$passed" "$failed"
}

[ "$full" = no ] || test_packages+=("${full_packages[@]}")
[ "$target" != all ] || test_packages+=("${page_packages[@]}")
timed packages setup_packages "$root/build/packages.log" "${engine_packages[@]}" "${test_packages[@]}"
timed muparser fetch_muparser "$root" "$root/build/packages.log"
status=0
# The tests of pages are skipped where their engine is not built, which takes Emscripten.
if [ "$target" = all ]; then
  if command -v em++ >/dev/null; then
    timed "engine for pages" "$root/cli/page-engine.sh" --no-install || status=$?
  else
    echo "Emscripten is not installed: no engine for pages, and its tests are skipped."
  fi
fi
for preset in "${presets[@]}"; do
  if ! timed "$preset: configure" configure "$root" "$preset" -DJARFUL_BUILD_TESTS=ON ||
    ! timed "$preset: build" cmake --build "$root/build/$preset" --target "$target"; then
    echo "FAILED  build of $preset"
    failed=$((failed + 1))
    status=1
    continue
  fi
  timed "$preset: tests" run_ctest "$preset" || status=$?
  count_results "$root/build/$preset/ctest.log"
done
if [ "$full" = yes ]; then
  part "package in Debian" tests/install/package.sh "$root/build/release" --debian
  part "built twice" tests/install/twins.sh "$root"
  part "sampled truths" python3 -B tests/published/second/compare_judged.py --jarful "$root/build/release/cli/jarful" \
    --seed 1001 --count 5000
  part "analysis" tests/analysis/run.sh
  part "fuzzing" tests/fuzz/run.sh --seconds 300
  part "benchmarks" tests/bench/run --build "$root/build/release"
fi
closing
exit "$status"
