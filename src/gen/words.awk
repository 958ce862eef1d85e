# Turns forms/*.words into one sorted C table.
#
# A words file has blocks:
#     [id]
#     en  the English wording, which may go on
#         in indented lines
#     es  the Spanish wording
# Lines that start with # are comments.
function c_string(s)
{
    gsub(/\\/, "\\\\", s)
    gsub(/"/, "\\\"", s)
    gsub(/\?\?/, "?\"\"?", s)
    return "\"" s "\""
}
function complain(what)
{
    printf "%s:%d: %s\n", FILENAME, FNR, what > "/dev/stderr"
    failed = 1
    exit 1
}
/^#/ || /^[ \t]*$/ { lang = ""; next }
/^\[[a-z0-9._-]+\]$/ {
    id = substr($0, 2, length($0) - 2)
    if (id in seen) complain("id [" id "] occurs twice; give it another name")
    seen[id] = 1
    ids[++n] = id
    lang = ""
    next
}
/^(en|es)[ \t]/ {
    if (id == "") complain("wording before the first [id]")
    lang = $1
    text = $0
    sub(/^[a-z]+[ \t]+/, "", text)
    words[id, lang] = text
    next
}
/^[ \t]+[^ \t]/ {
    if (lang == "") complain("a continued line with nothing to continue")
    text = $0
    sub(/^[ \t]+/, "", text)
    words[id, lang] = words[id, lang] " " text
    next
}
{ complain("expected [id], 'en ...', 'es ...' or a comment: " $0) }
END {
    if (failed) exit 1
    # Insertion into a sorted list: mawk and gawk both have no portable sort.
    for (i = 2; i <= n; i++) {
        key = ids[i]
        for (j = i - 1; j >= 1 && ids[j] > key; j--) ids[j + 1] = ids[j]
        ids[j + 1] = key
    }
    print "/* Made from forms/ by src/gen/words.awk: edit the wording there. */"
    print "#include \"words/words_data.h\"\n"
    print "const mf_words_row mf_words_rows[] = {"
    for (i = 1; i <= n; i++) {
        key = ids[i]
        if (!((key, "en") in words)) { FILENAME = "[" key "]"; complain("has no English wording") }
        printf "    {%s, {%s, %s}},\n", c_string(key), c_string(words[key, "en"]), c_string(words[key, "es"])
    }
    print "};"
    printf "const size_t mf_words_count = %d;\n", n
}
