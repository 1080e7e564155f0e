#!/usr/bin/env bash
# What the tests alone do not show: what clang-tidy has to say of the engine and the command line, how much
# of them the tests run, whether threads stand in each other's way, and which faults they would not see. All
# of it, unless some are named.
#   --lint       clang-tidy with the checked-in .clang-tidy; any word of it is a failure
#   --coverage   builds with g++'s --coverage, runs the tests and says the lines and branches that they
#                run, by room; the page is build/coverage/report/index.html
#   --threads    the parallel `check` and `book`, and the engine's tests, with the thread sanitizer
#   --planted [WORD…]
#                plants 200 faults in the engine and prints those that no test sees; less than 95 % seen is a
#                failure. It comes last; words behind it are options of planted.py, such as --seed 7
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd -P)
root=$(cd "$here/../.." && pwd -P)
# shellcheck source=cli/setup-packages.sh
. "$root/cli/setup-packages.sh"

parts=()
planted_words=()
while [ $# -gt 0 ]; do
  case $1 in
    --lint | --coverage | --threads) parts+=("${1#--}") ;;
    --planted)
      parts+=(planted)
      shift
      planted_words=("$@")
      break
      ;;
    -h | --help)
      sed -n '2,/^set /{/^#/s/^# \{0,1\}//p}' "${BASH_SOURCE[0]}"
      exit 0
      ;;
    *)
      echo "tests/analysis/run.sh: unknown option $1 (there are --lint, --coverage, --threads and --planted)" >&2
      exit 2
      ;;
  esac
  shift
done
[ ${#parts[@]} -gt 0 ] || parts=(lint coverage threads planted)

# prepared FOLDER OPTION…: a build folder of its own.
prepared() {
  local folder=$root/build/$1
  shift
  local -a muparser=()
  [ ! -f "$root/build/muparser/src/muParser.cpp" ] ||
    muparser=("-DJARFUL_MUPARSER_SOURCE=$root/build/muparser")
  mkdir -p "$folder"
  cmake -S "$root" -B "$folder" -G Ninja -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON \
    ${muparser[@]+"${muparser[@]}"} "$@" >"$folder/configure.log"
}

lint() {
  command -v clang-tidy >/dev/null || {
    echo "clang-tidy is not installed (package clang-tidy)"
    return 1
  }
  prepared lint -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Debug -DJARFUL_BUILD_TESTS=OFF
  local log=$root/build/lint/clang-tidy.log
  local -a files
  mapfile -t files < <(cd "$root" && find engine cli -name '*.cpp' ! -path 'engine/page/wasm/*' | sort)
  (cd "$root" && printf '%s\n' "${files[@]}" |
    xargs -P "$(nproc)" -n 4 clang-tidy -p build/lint --quiet 2>/dev/null) >"$log" || true
  local words
  words=$(grep -cE '(error|warning): .*\[' "$log" || true)
  if [ "$words" -gt 0 ]; then
    grep -E '(error|warning): .*\[' "$log" | sort -u
    echo "clang-tidy: ${#files[@]} files, $words remarks (build/lint/clang-tidy.log)"
    return 1
  fi
  echo "clang-tidy: ${#files[@]} files, nothing to remark"
}

coverage() {
  command -v gcovr >/dev/null || {
    echo "gcovr is not installed (package gcovr)"
    return 1
  }
  prepared coverage -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS="--coverage -O0 -fno-inline" \
    -DCMAKE_CXX_FLAGS_DEBUG="" -DJARFUL_BUILD_TESTS=ON
  local folder=$root/build/coverage
  cmake --build "$folder"
  find "$folder" -name '*.gcda' -delete
  (cd "$folder" && ctest --no-tests=error --parallel "$(nproc)" \
    --label-exclude '^(browser|bench|install|fuzz)$') | tail -n 12
  mkdir -p "$folder/report"
  # Branches that only an exception would take are the compiler's, not ours.
  # And g++ 12 sometimes counts one -1 times, which gcovr does not read.
  (cd "$root" && gcovr --root . --object-directory "$folder" --filter 'engine/' --filter 'cli/' \
    --exclude-throw-branches --exclude-unreachable-branches --gcov-ignore-parse-errors \
    --json "$folder/report/coverage.json" --html-details "$folder/report/index.html" \
    --csv "$folder/report/files.csv" "$folder" >/dev/null)
  python3 "$here/coverage.py" "$folder/report/files.csv"
}

threads() {
  prepared threads -DCMAKE_BUILD_TYPE=RelWithDebInfo -DJARFUL_BUILD_TESTS=OFF \
    -DCMAKE_CXX_FLAGS="-O1 -fsanitize=thread -fno-omit-frame-pointer"
  local folder=$root/build/threads
  cmake --build "$folder" --target jarful
  local book=$folder/book
  rm -rf "$book"
  python3 "$root/tests/bench/make_book.py" "$book" 400 >/dev/null
  # Some that are not sound, so that findings are made in several threads, too.
  for number in 1 2 3 4 5 6 7 8; do
    printf 'recipe "Faulty %d"\nkind kraut\ngiven cabbage = 1 kg\nweigh salt = 2 %% of cabage\n' "$number" \
      >"$book/faulty-$number.jarful"
  done
  (
    cd "$book"
    git init -q .
    git add -A
    git -c user.name=Nobody -c user.email=nobody@example.invalid commit -qm "Put by"
  )
  local command status failed=0
  for command in "check $book" "check --json $book" "check $book --at HEAD" "check $root/recipes" \
    "book $book" "book --json $book"; do
    status=0
    # shellcheck disable=SC2086  # the words of a command
    TSAN_OPTIONS="exitcode=66 halt_on_error=0" "$folder/cli/jarful" $command \
      >"$folder/out.txt" 2>"$folder/err.txt" || status=$?
    if [ "$status" -eq 66 ] || grep -q 'WARNING: ThreadSanitizer' "$folder/err.txt"; then
      failed=1
      echo "jarful $command: threads stand in each other's way"
      head -n 40 "$folder/err.txt"
    else
      echo "jarful $command: no report (status $status)"
    fi
  done
  return "$failed"
}

# What holds no fault is taken from the release build, so that is brought up to date first.
planted() {
  [ -f "$root/build/release/build.ninja" ] || configure "$root" release -DJARFUL_BUILD_TESTS=ON
  cmake --build "$root/build/release"
  python3 -B "$here/planted.py" ${planted_words[@]+"${planted_words[@]}"}
}

status=0
for part in "${parts[@]}"; do
  printf '\n-- %s\n' "$part"
  "$part" || status=1
done
exit "$status"
