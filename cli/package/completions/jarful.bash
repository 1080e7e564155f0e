# bash completion for jarful                                               -*- shell-script -*-
# What a word may become is asked of the program: `jarful help complete`.

_jarful() {
  local rest=${COMP_LINE:0:COMP_POINT} after piece last kept word about files=no
  local -a words=()
  local -i i

  # Bash takes name=value apart at the equals sign. Only what has a blank before it is a new word, and
  # only what stands before the cursor counts.
  for ((i = 0; i <= COMP_CWORD; i++)); do
    after=${rest#"${rest%%[![:space:]]*}"}
    piece=${COMP_WORDS[i]}
    ((i < COMP_CWORD)) || piece=$after
    if ((i == 0)) || [[ $after != "$rest" ]]; then
      words+=("$piece")
    else
      words[-1]+=$piece
    fi
    rest=${after#"$piece"}
  done
  words=("${words[@]//[\"\'\\]/}")
  last=${words[-1]}

  # What stands before the last of Bash's breaks stays on the line as it is.
  kept=
  if [[ $COMP_WORDBREAKS == *=* ]]; then
    kept=${last%"${last##*=}"}
  fi

  COMPREPLY=()
  while IFS=$'\t' read -r word about; do
    if [[ $word == :files ]]; then
      files=yes
    else
      COMPREPLY+=("${word#"$kept"}")
    fi
  done < <("${1/#\~/$HOME}" complete -- "${words[@]:1}" 2>/dev/null)

  if [[ $files == yes ]]; then
    # Names of files are quoted by the shell.
    compopt -o filenames 2>/dev/null
    while IFS= read -r word; do
      COMPREPLY+=("$word")
    done < <(compgen -f -- "${last#"$kept"}")
    return
  fi
  for i in "${!COMPREPLY[@]}"; do
    if [[ ${COMPREPLY[i]} == *[[:space:]\'\"\\\$\`\&\;\|\<\>\(\)\*\?\#\!\~]* ]]; then
      printf -v 'COMPREPLY[i]' %q "${COMPREPLY[i]}"
    fi
  done
  # A value follows at once.
  if [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *= ]]; then
    compopt -o nospace 2>/dev/null
  fi
}

complete -F _jarful jarful
