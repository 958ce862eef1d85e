# Completion of mistfold in bash. The program itself names the candidates, so that
# the ids of jobs, work areas and steps come from the book.
_mistfold()
{
    local IFS=$'\n'
    # shellcheck disable=SC2207 # one candidate a line is meant
    COMPREPLY=($("${COMP_WORDS[0]}" --complete "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _mistfold mistfold
