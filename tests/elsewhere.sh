#!/usr/bin/env bash
# Runs the tests as if on other machines: each time one thing is turned another way that tests may take from where they
# run. What is not said to be kept is the same again from tests/surroundings.cmake.in on; the rest is up to the tests.
#   tests/elsewhere.sh [--only NAME] [--kept] [BUILD] [CTEST WORD…]
#   --only NAME   one of: locale zone terminal colour git home umask temporary editor processor fonts all
#   --kept        leaves the surroundings as they are turned, to see what the tests and the program make of them
# BUILD is build/release if nothing is said. The words are for ctest; without any it runs what `ctest -L 'unit|golden'` does.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
only=
build=$root/build/release
while [ $# -gt 0 ]; do
  case $1 in
    --only) only=$2 && shift ;;
    --kept) export JARFUL_SURROUNDINGS=kept ;;
    -h | --help)
      sed -n '2,/^set /{/^#/s/^# \{0,1\}//p}' "${BASH_SOURCE[0]}"
      exit 0
      ;;
    *) break ;;
  esac
  shift
done
if [ $# -gt 0 ] && [ -d "$1" ]; then
  build=$(cd "$1" && pwd -P)
  shift
fi
[ $# -gt 0 ] || set -- -L '^(unit|golden)$'

place=$(mktemp -d)
trap 'chmod -R u+w "$place" && rm -rf "$place"' EXIT
mkdir "$place/home" "$place/a folder with blanks" "$place/hooks"
printf '#!/bin/sh\nexit 1\n' >"$place/hooks/pre-commit"
chmod +x "$place/hooks/pre-commit"
cat >"$place/home/.gitconfig" <<EOF
[user]
	name = Somebody Else
	email = nobody@elsewhere.example
[commit]
	gpgSign = true
[core]
	autocrlf = true
	hooksPath = $place/hooks
	quotePath = true
	pager = false
[init]
	defaultBranch = somewhere
[color]
	ui = always
[diff]
	noprefix = true
	external = false
EOF
printf '<fontconfig></fontconfig>\n' >"$place/fonts.conf"

# turn NAME: in this shell.
turn() {
  case $1 in
    locale) export LC_ALL=tr_TR.UTF-8 LC_NUMERIC=de_DE.UTF-8 LANG=tr_TR.UTF-8 LANGUAGE=tr:de ;;
    zone) export TZ=Pacific/Kiritimati ;;
    terminal) export TERM=xterm-256color COLUMNS=17 LINES=3 ;;
    colour) export NO_COLOR=1 FORCE_COLOR=1 CLICOLOR_FORCE=1 ;;
    git)
      export GIT_DIR=$place/nowhere GIT_INDEX_FILE=$place/index GIT_AUTHOR_DATE='1999-12-31 23:59 +1400' GIT_PAGER=false
      export GIT_CONFIG_COUNT=1 GIT_CONFIG_KEY_0=core.hooksPath GIT_CONFIG_VALUE_0=$place/hooks
      ;;
    home)
      export npm_config_cache=${npm_config_cache:-$HOME/.npm}
      export HOME=$place/home XDG_CONFIG_HOME=$place/home XDG_CACHE_HOME=/nonexistent
      ;;
    umask) umask 077 ;;
    temporary) export TMPDIR="$place/a folder with blanks" ;;
    editor) export EDITOR=false VISUAL=false PAGER=false CDPATH=$place PYTHONHASHSEED=7 POSIXLY_CORRECT=1 ;;
    processor) ! command -v taskset >/dev/null || taskset -pc 0 "$BASHPID" >/dev/null ;;
    fonts) export FONTCONFIG_FILE=$place/fonts.conf ;;
    *) echo "tests/elsewhere.sh: there is no $1 to turn (there are ${names[*]} and all)" >&2 && exit 2 ;;
  esac
}
names=(locale zone terminal colour git home umask temporary editor processor fonts)

status=0
for name in ${only:-"${names[@]}" all}; do
  printf '\n== %s\n' "$name"
  (
    if [ "$name" = all ]; then
      for each in "${names[@]}"; do turn "$each"; done
    else
      turn "$name"
    fi
    cd "$build" && ctest --output-on-failure --no-tests=error --parallel "$(nproc)" "$@"
  ) >"$place/log" 2>&1 || status=1
  sed -i 's/\x1b\[[0-9;]*m//g' "$place/log"
  grep -E '^[0-9]+% tests passed|\*\*\*|FAILED' "$place/log" || tail -n 20 "$place/log"
done
exit "$status"
