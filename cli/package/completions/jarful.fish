# fish completion for jarful
# What a word may become is asked of the program: `jarful help complete`.

function __jarful_candidates
    set -l words (commandline -opc)
    set -l current (commandline -ct)
    set -l program $words[1]
    set -e words[1]
    for line in ($program complete -- $words "$current" 2>/dev/null)
        if test "$line" = ":files"
            __fish_complete_path "$current"
        else
            printf '%s\n' $line
        end
    end
end

complete -c jarful -f -k -a '(__jarful_candidates)'
