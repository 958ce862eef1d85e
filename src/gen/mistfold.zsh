#compdef mistfold
# Completion of mistfold in zsh. The program itself names the candidates and what they
# are, so that the ids of jobs, work areas and steps come from the book.
local -a told candidates
local line
told=("${(@f)$("${words[1]}" --complete-told "${(@)words[2,CURRENT]}" 2>/dev/null)}")
for line in $told; do
    candidates+=("${${line%%$'\t'*}//:/\\:}${${line#${line%%$'\t'*}}/$'\t'/:}")
done
if (( $#candidates )); then
    _describe -o mistfold candidates
else
    _files
fi
