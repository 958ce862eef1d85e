/* Reading the command line: getopt_long over the options of the command's row. */
#include "base/fail.h"
#include "base/letters.h"
#include "cli/settings.h"

#include <getopt.h>
#include <stdio.h>
#include <string.h>

/* Understood before and after the command words. */
static const mf_opt globals[] = {
    {"book", "FILE", false, "the firm's book (else MISTFOLD_BOOK, else mistfold.book here)"},
    {"by", "ID", false, "who is writing (else MISTFOLD_BY)"},
    {"json", NULL, false, "the same facts as JSON"},
    {"quiet", NULL, false, "-q: no next step at the end (also MISTFOLD_QUIET)"},
    {"lang", "CODE", false, "language of findings and papers: en, es (else MISTFOLD_LANG)"},
    {"page", "SIZE", false, "size of papers: letter, a4 (else MISTFOLD_PAGE)"},
    {"force", NULL, false,
     "write over a file of another kind; never a book, a key, a sealed paper"},
    {"help", NULL, false, "-h: what this does, with an example"},
    {"version", NULL, false, "-V: the version"},
    {NULL, NULL, false, NULL}};

const mf_opt *mf_args_common(void)
{
    return globals;
}

static void add(struct option *table, int *n, const char *name, bool value)
{
    if (*n < MF_ARGS_OPTS)
        table[(*n)++] = (struct option){name, value ? required_argument : no_argument, NULL, 0};
}

static void options_of(const mf_cmd *cmd, struct option table[MF_ARGS_OPTS + 1])
{
    int n = 0;
    for (const mf_opt *opt = globals; opt->name != NULL; opt++)
        add(table, &n, opt->name, opt->value != NULL);
    const mf_kind *kind = cmd == NULL || cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    for (size_t i = 0; kind != NULL && i < kind->n_fields; i++)
        if (mf_field_is_typed(&kind->fields[i]))
            add(table, &n, kind->fields[i].option, true);
    if (cmd != NULL && cmd->opts != NULL)
        for (const mf_opt *opt = cmd->opts; opt->name != NULL; opt++)
            add(table, &n, opt->name, opt->value != NULL);
    table[n] = (struct option){NULL, 0, NULL, 0};
}

/* Takes a global option into cli; false when it is not one. */
static bool take_global(mf_cli *cli, const char *name, bool *help, bool *version)
{
    if (strcmp(name, "book") == 0)
        cli->book_path = optarg;
    else if (strcmp(name, "by") == 0)
        cli->who = optarg;
    else if (strcmp(name, "json") == 0)
        mf_cli_json_errors(), cli->json = true;
    else if (strcmp(name, "quiet") == 0)
        cli->quiet = true;
    else if (strcmp(name, "force") == 0)
        cli->force = true;
    else if (strcmp(name, "lang") == 0)
        cli->lang = mf_lang_of(cli->setting[MF_SET_LANG] = optarg);
    else if (strcmp(name, "page") == 0)
        cli->setting[MF_SET_PAGE] = optarg;
    else if (strcmp(name, "help") == 0)
        *help = true;
    else if (strcmp(name, "version") == 0)
        *version = true;
    else
        return false;
    mf_settings_option(cli, name);
    return true;
}

static mf_status wrong(const char *where, const char *what, const char *mend)
{
    mf_err err = {0};
    mf_fail(&err, MF_USAGE, where, what, "", mend);
    return mf_cli_fail(&err);
}

/* ---- options that are none ------------------------------------------------------------ */

/* Those that a beginning may stand for, the last in one; how many. A whole name is its own. */
static int begun(const struct option *table, const char *name, size_t len, mf_buf *out,
                 const struct option **one)
{
    int n = 0;
    for (; table->name != NULL; table++) {
        if (strncmp(table->name, name, len) != 0)
            continue;
        *one = table;
        if (table->name[len] == '\0')
            return 1;
        mf_buf_printf(out, "%s--%s", n++ > 0 ? ", " : "", table->name);
    }
    return n;
}

/* The one that was meant; fewer letters apart than would make it any word. NULL = none near. */
static const struct option *nearest(const struct option *table, const char *name, size_t len)
{
    char word[48];
    const struct option *near = NULL;
    int best = mf_help_far(len);
    snprintf(word, sizeof word, "%.*s", (int)len, name);
    for (; table->name != NULL; table++) {
        int d = mf_letters_apart(word, table->name);
        near = d < best ? table : near;
        best = d < best ? d : best;
    }
    return near;
}

/* What to do instead of --NAME: the option of which it is the beginning, or nearly is. */
static mf_status not_an_option(const struct option *table, const char *word)
{
    mf_buf like = {0};
    char mend[160];
    const char *name = word + strspn(word, "-");
    size_t len = strcspn(name, "=");
    const struct option *near = nearest(table, name, len);
    int n = begun(table, name, len, &like, &near);
    bool alone = n == 1 && name[len] == '='; /* without a value it would have been taken */
    if (alone)
        snprintf(mend, sizeof mend, "write it alone");
    else if (n > 1)
        snprintf(mend, sizeof mend, "it may be %.120s", mf_buf_str(&like));
    else if (near != NULL)
        snprintf(mend, sizeof mend, "did you mean --%.40s? --help shows those of this command",
                 near->name);
    else
        snprintf(mend, sizeof mend, "--help shows those of this command");
    mf_buf_free(&like);
    return wrong(word,
                 alone   ? "this option takes no value"
                 : n > 1 ? "it is not clear which option that is"
                         : "no such option here",
                 mend);
}

static mf_status bad_option(int code, char **argv, const struct option *table)
{
    const char short_word[] = {'-', (char)optopt, '\0'};
    const char *word = optind > 0 ? argv[optind - 1] : "";
    if (code == ':')
        return wrong(word, "a value is missing", "write it after the option");
    return not_an_option(table, optopt > 0 ? short_word : word);
}

/* The option that getopt_long found; short ones stand for theirs. */
static const char *name_of(int code, const struct option *table, int index)
{
    return code == 'h'   ? "help"
           : code == 'V' ? "version"
           : code == 'q' ? "quiet"
                         : table[index].name;
}

static bool is_option(int code)
{
    return code == 0 || code == 'h' || code == 'V' || code == 'q';
}

mf_status mf_args_globals(mf_cli *cli, int argc, char **argv, int *first, bool *help, bool *version)
{
    struct option table[MF_ARGS_OPTS + 1];
    int index = 0, code;
    options_of(NULL, table);
    opterr = 0;
    optind = 1;
    while ((code = getopt_long(argc, argv, "+:hVq", table, &index)) != -1) {
        if (!is_option(code))
            return bad_option(code, argv, table);
        take_global(cli, name_of(code, table, index), help, version);
    }
    *first = optind;
    return MF_OK;
}

/* How many words there may be, and how many must: one in [] may be left out. */
static int words_of(const mf_cmd *cmd, int *needed)
{
    int n = cmd->args[0] != '\0', free = 0;
    for (const char *c = cmd->args; *c != '\0'; c++) {
        n += *c == ' ';
        free += *c == '[';
    }
    *needed = n - free;
    return n;
}

static mf_status take_words(const mf_cmd *cmd, int argc, char **argv, mf_args *out)
{
    int needed = 0, wanted = words_of(cmd, &needed);
    const bool many = strstr(cmd->args, "...]") != NULL;
    char name[80];
    snprintf(name, sizeof name, "%s%s%s", cmd->group, cmd->action[0] == '\0' ? "" : " ",
             cmd->action);
    for (int i = optind; i < argc; i++) {
        if (many && out->n_words == needed) {
            out->more = argv + i;
            out->n_more = argc - i;
            break;
        }
        if (out->n_words == wanted || out->n_words == MF_ARGS_WORDS)
            return wrong(argv[i], "one word too many",
                         wanted == 0 ? "options begin with --"
                                     : "put quotes around words with spaces");
        out->word[out->n_words++] = argv[i];
    }
    if (out->n_words < needed) {
        char what[120];
        snprintf(what, sizeof what, "wants %s", cmd->args);
        return wrong(name, what, cmd->example);
    }
    return MF_OK;
}

static mf_status check_needed(const mf_cmd *cmd, const mf_args *args)
{
    for (const mf_opt *opt = cmd->opts; opt != NULL && opt->name != NULL; opt++) {
        char where[64];
        snprintf(where, sizeof where, "--%s", opt->name);
        if (opt->needed && mf_args_value(args, opt->name) == NULL)
            return wrong(where, "is needed here", opt->doc);
    }
    return MF_OK;
}

mf_status mf_args_read(mf_cli *cli, const mf_cmd *cmd, int argc, char **argv, mf_args *out,
                       bool *help, bool *version)
{
    struct option table[MF_ARGS_OPTS + 1];
    int index = 0, code;
    options_of(cmd, table);
    opterr = 0;
    optind = 0; /* glibc: start afresh on another argv */
    /* getopt skips argv[0]; the last command word stands there. */
    argc++, argv--;
    while ((code = getopt_long(argc, argv, ":hVq", table, &index)) != -1) {
        if (!is_option(code))
            return bad_option(code, argv, table);
        const char *name = name_of(code, table, index);
        if (take_global(cli, name, help, version))
            continue;
        char where[64];
        snprintf(where, sizeof where, "--%s", name);
        if (mf_args_value(out, name) != NULL)
            return wrong(where, "is given twice", "give it once");
        if (out->n_opts == MF_ARGS_OPTS)
            return wrong(where, "too many options", "give fewer");
        out->opt[out->n_opts] = name;
        out->value[out->n_opts++] = optarg == NULL ? "" : optarg;
    }
    if (*help || *version)
        return MF_OK;
    mf_status status = take_words(cmd, argc, argv, out);
    return status == MF_OK ? check_needed(cmd, out) : status;
}

const char *mf_args_value(const mf_args *args, const char *name)
{
    for (int i = 0; i < args->n_opts; i++)
        if (strcmp(args->opt[i], name) == 0)
            return args->value[i];
    return NULL;
}

void mf_args_put(mf_args *args, const char *name, const char *value)
{
    if (args->n_opts == MF_ARGS_OPTS)
        return; /* no kind has so many fields */
    args->opt[args->n_opts] = name;
    args->value[args->n_opts++] = value;
}
