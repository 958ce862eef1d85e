/* Manual pages in mdoc(7), written from the same rows that are parsed: the pages
 * cannot say what the program does not do. The build calls "mistfold --man". */
#include "cli/man.h"
#include "cli/settings.h"

#include <stdio.h>
#include <string.h>

/* Text with what roff would take for its own written so that it is shown. */
static void text(const char *words)
{
    if (*words == '.' || *words == '\'')
        fputs("\\&", stdout);
    for (; *words != '\0'; words++) {
        if (*words == '\\')
            fputs("\\e", stdout);
        else if (*words == '-')
            fputs("\\-", stdout);
        else
            putchar(*words);
    }
}

static void line(const char *words)
{
    text(words);
    putchar('\n');
}

/* A macro line: quotes around the argument, so that a comma is no macro's end. */
static void argument(const char *macro, const char *words)
{
    printf("%s \"", macro);
    for (; *words != '\0'; words++)
        fputs(*words == '"' ? "\"\"" : *words == '\\' ? "\\e" : (char[2]){*words, '\0'}, stdout);
    puts("\"");
}

static void title(const mf_cmd *cmd, char out[64], char between)
{
    snprintf(out, 64, "mistfold%c%s%s%.30s", between, cmd->group,
             cmd->action[0] ? (char[2]){between, '\0'} : "", cmd->action);
}

static void head(const char *name, const char *summary)
{
    char upper[64];
    size_t i = 0;
    for (const char *c = name; *c != '\0' && i < sizeof upper - 1; c++)
        upper[i++] = (char)(*c >= 'a' && *c <= 'z' ? *c - 'a' + 'A' : *c);
    upper[i] = '\0';
    printf(".\\\" Made from the program's own tables.\n.Dd $Mdocdate$\n.Dt %s 1\n.Os\n"
           ".Sh NAME\n.Nm %s\n",
           upper, name);
    argument(".Nd", summary);
}

static void item(const char *name, const char *value, const char *doc, const char *needed)
{
    printf(".It Fl \\-%s", name);
    if (value != NULL && value[0] != '\0')
        printf(" Ar %s", value);
    putchar('\n');
    line(doc);
    if (needed[0] != '\0')
        line(needed);
}

static void field_item(const mf_cmd *cmd, const mf_field *field)
{
    item(field->option, mf_help_form(field->type), field->doc, mf_help_needed(cmd, field));
    if (field->choices == NULL)
        return;
    puts(".br");
    fputs(field->type == MF_F_IDS ? "Any of " : "One of ", stdout);
    for (size_t i = 0; field->choices[i] != NULL; i++) {
        fputs(i == 0 ? "" : field->choices[i + 1] == NULL ? " or " : ", ", stdout);
        text(field->choices[i]);
    }
    puts(".");
}

static void options(const mf_cmd *cmd)
{
    const mf_kind *kind = cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    if (kind == NULL && cmd->opts == NULL)
        return;
    puts(".Bl -tag -width Ds");
    for (size_t i = 0; kind != NULL && i < kind->n_fields; i++)
        if (mf_field_is_typed(&kind->fields[i]))
            field_item(cmd, &kind->fields[i]);
    for (const mf_opt *opt = cmd->opts; opt != NULL && opt->name != NULL; opt++)
        item(opt->name, opt->value, opt->doc, opt->needed ? "(needed)" : "");
    puts(".El");
}

static void exit_status(void)
{
    puts(".Sh EXIT STATUS\n.Bl -tag -width Ds -compact\n.It 0\nyes, or done\n.It 1\n"
         "no, not yet, or something to look at\n.It 2\nwrong use\n.It 3\nbad input; nothing of it "
         "was written\n.It 4\n"
         "the book or the system failed\n.El");
}

static void caution(void)
{
    puts(".Sh CAVEATS\nLead dust hurts children and workers.\n.Nm mistfold\nrecords and checks; "
         "it certifies nothing.\nCertified practice, the authorized state or tribal program and "
         "local codes\ngovern, and the stricter rule wins.");
}

static void variable(const char *name, const char *doc)
{
    printf(".It Ev %s\n", name);
    line(doc);
}

static void environment(void)
{
    puts(".Sh ENVIRONMENT\nAn option wins over a variable, a variable over the settings file.\n"
         ".Bl -tag -width Ds");
    for (int id = 0; id < MF_SET_COUNT; id++)
        variable(mf_setting_row((mf_setting_id)id)->env, mf_setting_row((mf_setting_id)id)->doc);
    variable("NO_COLOR", "when set, nothing is colored or bold");
    variable("TERM", "dumb, or not set: a terminal that can do neither");
    variable("TMPDIR", "where a workbook is put together before it is written");
    variable("XDG_CONFIG_HOME", "the folder of the settings, else ~/.config");
    puts(".El");
}

static void files(void)
{
    puts(".Sh FILES\n.Bl -tag -width Ds\n.It Pa mistfold.book\n"
         "the firm's book in the working folder, unless\n.Fl \\-book ,\n.Ev MISTFOLD_BOOK\nor "
         "the settings name another.\nWhile it is in use, files of that name with\n.Pa "
         "-wal\nand\n.Pa -shm\nstand beside it and belong to it.\n"
         ".It Pa mistfold.book.*.key\nthe key by which a device signs; see\n.Xr mistfold-book-key "
         "1\n"
         ".It Pa mistfold.book.*.sync\nwhat was seen at a place where devices meet; see\n.Xr "
         "mistfold-sync 1\n"
         ".It Pa ~/.config/mistfold/settings\none setting a line; see\n.Xr "
         "mistfold-settings-show 1\n.It Pa share/mistfold/places/\n"
         "under the prefix of the installation: stricter limits of some places, to be read in "
         "by\n.Xr mistfold-limit-import 1\n.It Pa share/doc/mistfold/\nthe guides, and the sample "
         "job\n.El");
}

/* What a page of one command says of it: which book, whose name, in which language. */
static void environment_of_command(void)
{
    puts(".Sh ENVIRONMENT");
    for (int id = 0; id < MF_SET_COUNT; id++)
        printf(".Ev %s ,\n", mf_setting_row((mf_setting_id)id)->env);
    puts("and\n.Ev NO_COLOR\nas in\n.Xr mistfold 1 .\n.Sh FILES\n.Pa mistfold.book\nand\n"
         ".Pa ~/.config/mistfold/settings\nas in\n.Xr mistfold 1 .");
}

static void command_page(const mf_cmd *cmd)
{
    mf_buf names = {0};
    char name[64], words[64];
    title(cmd, name, '-');
    title(cmd, words, ' ');
    head(name, cmd->summary);
    printf(".Sh SYNOPSIS\n.Nm %s\n", words);
    if (cmd->kind != NULL || cmd->opts != NULL)
        puts(".Op options");
    if (cmd->args[0] != '\0')
        printf(".Ar %s\n", cmd->args);
    puts(".Sh DESCRIPTION");
    line(cmd->summary);
    mf_help_names(cmd, &names);
    if (names.len > 0)
        puts(".Pp");
    if (names.len > 0)
        line(mf_buf_str(&names));
    mf_buf_free(&names);
    puts(".Pp\nThe options of\n.Xr mistfold 1\nmay be given as well.");
    options(cmd);
    environment_of_command();
    exit_status();
    puts(".Sh EXAMPLES\n.Bd -literal -offset indent");
    line(cmd->example);
    puts(".Ed\n.Sh SEE ALSO\n.Xr mistfold 1");
    caution();
}

static void program_page(void)
{
    size_t count;
    char name[64];
    const mf_cmd *cmds = mf_cmds(&count);
    head("mistfold", "keeps a lead-safe renovation job compliant and proves it");
    puts(".Sh SYNOPSIS\n.Nm mistfold\n.Op options\n.Ar GROUP ACTION\n.Op Ar ...\n"
         ".Sh DESCRIPTION\nKeeps the record of a renovation under 40 CFR part 745 subpart E: what "
         "was\ntested, contained, cleaned, verified and handed over; and answers whether demo\nmay "
         "start, whether the signs may come down and whether the file would stand up.\n.Pp\n"
         "Ids may be abbreviated where only one thing begins so.\n.Pp\n"
         "These options are understood by every command:\n.Bl -tag -width Ds");
    for (const mf_opt *opt = mf_args_common(); opt->name != NULL; opt++)
        item(opt->name, opt->value, opt->doc, "");
    puts(".El\n.Pp\nThe commands:\n.Bl -tag -width Ds");
    for (size_t i = 0; i < count; i++) {
        title(&cmds[i], name, '-');
        printf(".It Xr %s 1\n", name);
        line(cmds[i].summary);
    }
    puts(".El");
    environment();
    files();
    exit_status();
    puts(".Sh EXAMPLES\n.Bd -literal -offset indent\nmistfold book new\n"
         "mistfold gate J\\-1926 demo \\-\\-area A1\n.Ed");
    caution();
}

/* "" = the page of the program; "names" = the names of all pages, a line each. */
mf_status mf_man(const char *page)
{
    size_t count;
    char name[64];
    const mf_cmd *cmds = mf_cmds(&count);
    bool names = strcmp(page, "names") == 0;
    if (names)
        puts("mistfold");
    if (strcmp(page, "mistfold") == 0) {
        program_page();
        return MF_OK;
    }
    for (size_t i = 0; i < count; i++) {
        title(&cmds[i], name, '-');
        if (names) {
            puts(name);
        } else if (strcmp(name, page) == 0) {
            command_page(&cmds[i]);
            return MF_OK;
        }
    }
    return names ? MF_OK : MF_USAGE;
}
