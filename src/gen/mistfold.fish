# Completion of mistfold in fish. The program itself names the candidates and what they
# are, so that the ids of jobs, work areas and steps come from the book.
function __mistfold_complete
    set -l words (commandline -opc) (commandline -ct)
    $words[1] --complete-told $words[2..-1] 2>/dev/null
end
complete -c mistfold -a '(__mistfold_complete)'
