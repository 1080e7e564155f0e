#!/usr/bin/env bash
# The completions of the three shells, each asked in the shell itself, in a folder with the demo book.
# A shell that is not there is passed over, and that is said.
#   completions.sh PROGRAM SOURCE
set -euo pipefail

program=$(realpath "$1")
source=$(realpath "$2")
scripts=$source/cli/package/completions
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
mkdir "$place/bin"
ln -s "$program" "$place/bin/jarful"
export PATH=$place/bin:$PATH LC_ALL=C.UTF-8 HOME=$place
cp -r "$source/recipes" "$place/book"
: >"$place/book/notes from elsewhere.txt"
cd "$place/book"

faults=0
# same WHAT EXPECTED GOT
same() {
  [ "$2" = "$3" ] && return
  printf 'FAILED  %s\n  expected: %s\n  got:      %s\n' "$1" "$2" "$3"
  faults=$((faults + 1))
}

# ---- The program itself. ----

flags_of() { jarful help "$1" | grep -oE '^  --[a-z-]+' | tr -d ' ' | sort; }
for command in $(jarful complete -- "" | cut -f 1); do
  [ "$command" != help ] || continue
  same "the options of $command" "$( (flags_of "$command" || true; echo --help) | sort)" \
    "$(jarful complete -- "$command" --  | cut -f 1 | sort)"
done
same "the commands" "$(jarful --help | sed -n '/^Commands/,/^Everywhere/s/^  \([a-z]\+\) .*/\1/p')" \
  "$(jarful complete -- "" | cut -f 1)"
same "a second recipe, or what the first is made with" "yes yes" "$(
  jarful complete -- compare winter-kraut "" >listed
  grep -q '^half-sours' listed && echo -n 'yes ' && grep -q '^cabbage=' listed && echo yes
)"
same "help for an unknown word" "" "$(jarful complete -- nonsense "")"
same "a broken recipe says nothing" "" \
  "$(printf 'recipe "Broken\n' >broken.jarful && jarful complete -- weigh broken car 2>&1 && rm broken.jarful)"

# ---- bash: the function with what bash hands it, and what it leaves in COMPREPLY. ----

# shellcheck source=cli/package/completions/jarful.bash
. "$scripts/jarful.bash"
# in_bash LINE WORD…: the words as bash takes them apart; the last is the one being typed.
in_bash() {
  COMP_LINE=$1
  COMP_POINT=${#1}
  shift
  COMP_WORDS=("$@")
  COMP_CWORD=$(($# - 1))
  COMPREPLY=()
  _jarful jarful "${COMP_WORDS[COMP_CWORD]}" ""
  (IFS=' ' && echo "${COMPREPLY[*]}")
}
same "bash, a command" "weigh" "$(in_bash "jarful wei" jarful wei)"
same "bash, a recipe" "winter-kraut" "$(in_bash "jarful weigh winter" jarful weigh winter)"
same "bash, a given" "cabbage=" "$(in_bash "jarful weigh winter-kraut cab" jarful weigh winter-kraut cab)"
same "bash, jars behind an equals sign" "tall squat grey" \
  "$(in_bash "jarful weigh winter-kraut jar=" jarful weigh winter-kraut jar =)"
same "bash, one jar more" "tall,squat" \
  "$(in_bash "jarful weigh winter-kraut jar=tall,s" jarful weigh winter-kraut jar = tall,s)"
same "bash, behind an amount" "--json" \
  "$(in_bash "jarful weigh winter-kraut cabbage=2kg --j" jarful weigh winter-kraut cabbage = 2kg --j)"
same "bash, behind an amount without a value" "carrot= caraway=" \
  "$(in_bash "jarful weigh winter-kraut cabbage= car" jarful weigh winter-kraut cabbage = car)"
same "bash, a choice" "metric" "$(in_bash "jarful weigh winter-kraut --units=me" jarful weigh winter-kraut --units = me)"
same "bash, an optional line" "apple" \
  "$(in_bash "jarful weigh kraut-with-apple without " jarful weigh kraut-with-apple without "")"
same "bash, a name with blanks" 'fine\ table\ salt fine\ sea\ salt' \
  "$(in_bash "jarful convert 2 tbsp fine" jarful convert 2 tbsp fine)"
same "bash, a file" "notes from elsewhere.txt" "$(in_bash "jarful appraise not" jarful appraise not)"
same "bash, in the middle of the line" "winter-kraut" "$(
  COMP_LINE="jarful weigh wintXXX cabbage=2kg" COMP_POINT=17
  COMP_WORDS=(jarful weigh wintXXX cabbage "=" 2kg) COMP_CWORD=2
  _jarful jarful wintXXX weigh
  echo "${COMPREPLY[*]}"
)"

# ---- fish ----

if command -v fish >/dev/null; then
  in_fish() { fish --no-config -c "source '$scripts/jarful.fish'; complete -C '$1'" | cut -f 1 | paste -sd ' '; }
  same "fish, a command" "weigh" "$(in_fish 'jarful wei')"
  same "fish, a recipe" "winter-kraut" "$(in_fish 'jarful weigh winter')"
  same "fish, jars" "jar=tall jar=squat jar=grey" "$(in_fish 'jarful weigh winter-kraut jar=')"
  same "fish, a choice" "metric us both" "$(in_fish 'jarful weigh winter-kraut --units ')"
  same "fish, the words about it" "weigh	$(jarful complete -- wei | cut -f 2)" \
    "$(fish --no-config -c "source '$scripts/jarful.fish'; complete -C 'jarful wei'")"
  same "fish, a file" "notes from elsewhere.txt" "$(in_fish 'jarful appraise not')"
else
  echo "fish is not there: its completion was not tried"
fi

# ---- zsh: a real one, with a terminal of its own, that is typed to. ----

if command -v zsh >/dev/null; then
  zsh -n "$scripts/_jarful"
  mkdir "$place/functions"
  cp "$scripts/_jarful" "$place/functions"
  cat >"$place/type.zsh" <<'ZSH'
zmodload zsh/zpty zsh/zselect
zpty -b shell zsh -f -i
# Until the file says something; what the shell prints meanwhile is read and dropped.
wait_for() {
  repeat 1000; do
    while zpty -r -t shell _; do :; done
    [[ ! -s $1 ]] || return 0
    zselect -t 1
  done
  return 1
}
zpty -w shell "fpath=($2 \$fpath); autoload -Uz compinit; compinit -u -D; setopt no_beep; bindkey -e"
zpty -w shell "show() { print -r -- \$BUFFER >>$3; BUFFER=; }; zle -N show; bindkey '^Xw' show"
zpty -w shell "echo ready >$3.ready"
wait_for $3.ready && rm $3.ready
zpty -w -n shell $1$'\t\x18w'
wait_for $3 || exit 1
zpty -d shell
ZSH
  in_zsh() {
    : >"$place/typed"
    timeout 20 zsh -f "$place/type.zsh" "$1" "$place/functions" "$place/typed" >/dev/null || echo "(no answer)"
    cat "$place/typed"
  }
  same "zsh, a command" "jarful weigh " "$(in_zsh 'jarful wei')"
  same "zsh, a recipe" "jarful weigh winter-kraut " "$(in_zsh 'jarful weigh winter')"
  same "zsh, a given" "jarful weigh winter-kraut cabbage=" "$(in_zsh 'jarful weigh winter-kraut cab')"
  same "zsh, a jar" "jarful weigh winter-kraut jar=tall,squat " "$(in_zsh 'jarful weigh winter-kraut jar=tall,s')"
  same "zsh, a choice" "jarful weigh winter-kraut --units=metric " \
    "$(in_zsh 'jarful weigh winter-kraut --units=me')"
  same "zsh, a file" 'jarful appraise notes\ from\ elsewhere.txt ' "$(in_zsh 'jarful appraise not')"
else
  echo "zsh is not there: its completion was not tried"
fi

[ "$faults" -eq 0 ] && echo "The completions do what they should."
