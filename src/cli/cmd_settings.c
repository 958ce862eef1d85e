/* Settings and where each came from. The file holds lines such as
 *   book = ~/firm/firm.book
 * and # comments, nothing else: it must be writable by hand without a manual. */
#include "cli/settings.h"

#include "base/fail.h"
#include "base/file.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "cli/json.h"
#include "cli/tsa.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH_LEN = MF_SETTINGS_PATH, FILE_LIMIT = 65536 };

/* The rows in the order of mf_setting_id. */
static const mf_setting rows[MF_SET_COUNT] = {
    {"book", "MISTFOLD_BOOK", "mistfold.book", "the firm's book"},
    {"by", "MISTFOLD_BY", "", "who is writing"},
    {"lang", "MISTFOLD_LANG", "en", "language: en or es"},
    {"quiet", "MISTFOLD_QUIET", "", "yes = no next step at the end of a command"},
    {"page", "MISTFOLD_PAGE", "letter", "paper size: letter or a4"},
    {"place", "MISTFOLD_PLACE", "", "whose stricter limits hold for new jobs: US-IA"},
    {"steps", "MISTFOLD_STEPS", "", "the firm's own steps: the file \"step import\" takes"},
    {"tsa", "MISTFOLD_TSA", "", "address of the time-stamping authority that is asked"},
    {"tsa-roots", "MISTFOLD_TSA_ROOTS", "", "certificates of those you trust: a PEM file"},
    {"tsa-wait", "MISTFOLD_TSA_WAIT", "30", "seconds to wait for it"},
};

const mf_setting *mf_setting_row(mf_setting_id id)
{
    return &rows[id];
}

void mf_settings_path(char out[PATH_LEN])
{
    const char *xdg = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
    if (xdg != NULL && xdg[0] == '/') /* the XDG rules: a relative path is ignored */
        snprintf(out, PATH_LEN, "%s/mistfold/settings", xdg);
    else
        snprintf(out, PATH_LEN, "%s/.config/mistfold/settings", home == NULL ? "" : home);
}

bool mf_setting_is_file(int id)
{
    return id == MF_SET_BOOK || id == MF_SET_STEPS || id == MF_SET_TSA_ROOTS;
}

static void set(mf_cli *cli, int id, const char *value, const char *from)
{
    const char *home = getenv("HOME");
    char whole[PATH_LEN];
    if (mf_setting_is_file(id) && strncmp(value, "~/", 2) == 0 && home != NULL) {
        snprintf(whole, sizeof whole, "%s/%s", home, value + 2);
        value = whole;
    }
    char *kept = mf_arena_text(&cli->ids, value);
    if (kept == NULL)
        return;
    cli->setting[id] = kept;
    cli->from[id] = from;
}

int mf_setting_named(const char *name)
{
    for (int id = 0; id < MF_SET_COUNT; id++)
        if (strcmp(rows[id].name, name) == 0)
            return id;
    return -1;
}

static mf_status check_page(const char *value, const char *where, mf_err *err)
{
    if (mf_paper_size_named(value) == MF_SIZE_COUNT)
        return mf_failf(err, MF_INPUT, where, "", "the sizes are letter and a4",
                        "%.60s is not a paper size", value);
    return MF_OK;
}

static mf_status check_lang(const char *value, const char *where, mf_err *err)
{
    if (mf_lang_known(value))
        return MF_OK;
    return mf_failf(err, MF_INPUT, where, "", "they are en, English, and es, Spanish",
                    "the language %.60s is not known", value);
}

/* Where the value in force came from. */
static const char *where_from(const mf_cli *cli, int id, const char *option)
{
    return strcmp(cli->from[id], "option") == 0 ? option : cli->from[id];
}

mf_status mf_cli_check_settings(const mf_cli *cli, mf_err *err)
{
    mf_paper_size size;
    mf_status status =
        check_lang(cli->setting[MF_SET_LANG], where_from(cli, MF_SET_LANG, "--lang"), err);
    return status == MF_OK ? mf_cli_sheet(cli, &size, err) : status;
}

mf_status mf_cli_sheet(const mf_cli *cli, mf_paper_size *out, mf_err *err)
{
    *out = mf_paper_size_named(cli->setting[MF_SET_PAGE]);
    return check_page(cli->setting[MF_SET_PAGE], where_from(cli, MF_SET_PAGE, "--page"), err);
}

/* What the file may hold; a value is looked at more closely when it is used. */
static mf_status check_value(int id, const char *value, const char *where, mf_err *err)
{
    if (id == MF_SET_PAGE)
        return check_page(value, where, err);
    return id == MF_SET_LANG ? check_lang(value, where, err) : MF_OK;
}

/* The same field as that of a house. */
static mf_status check_place(const char *value, const char *where, mf_err *err)
{
    mf_draft *draft = NULL;
    const char *const field[][2] = {{"place", value}};
    mf_status status = mf_draft_of(&draft, "house", field, 1, where, 0, err);
    mf_draft_free(draft);
    return status;
}

mf_status mf_setting_check(int id, const char *value, const char *where, mf_err *err)
{
    if (id == MF_SET_QUIET && strcmp(value, "yes") != 0 && strcmp(value, "no") != 0)
        return mf_failf(err, MF_INPUT, where, "", "write yes or no", "%.60s is neither yes nor no",
                        value);
    if (id == MF_SET_PLACE)
        return check_place(value, where, err);
    if (id == MF_SET_TSA)
        return mf_tsa_url(value, where, err);
    if (id == MF_SET_TSA_WAIT)
        return mf_tsa_wait(value, where, &(long){0}, err);
    return check_value(id, value, where, err);
}

static mf_status take_line(mf_cli *cli, char *line, const char *where, mf_err *err)
{
    line = mf_trim(line);
    if (*line == '#' || *line == '\0')
        return MF_OK;
    char *equals = strchr(line, '=');
    if (equals == NULL)
        return mf_failf(err, MF_INPUT, where, "", "write NAME = VALUE, or # before a comment",
                        "\"%.60s\" has no =", line);
    *equals = '\0';
    const char *name = mf_trim(line), *value = mf_trim(equals + 1);
    int id = mf_setting_named(name);
    if (id < 0)
        return mf_failf(err, MF_INPUT, where, "", MF_SETTINGS_NAMES, "%.60s is not a setting",
                        name);
    mf_status status = check_value(id, value, where, err);
    if (status == MF_OK)
        set(cli, id, strcmp(value, "no") == 0 && id == MF_SET_QUIET ? "" : value, "settings file");
    return status;
}

static mf_status take_file(mf_cli *cli, const char *path, mf_err *err)
{
    mf_bytes bytes = {0};
    char where[PATH_LEN + 16];
    if (access(path, F_OK) != 0)
        return MF_OK; /* having none is the usual case */
    mf_status status = mf_file_read(&bytes, path, FILE_LIMIT, err);
    if (status != MF_OK) /* or the book of the defaults would be written to without a word */
        return status;
    char *rest = (char *)bytes.data + mf_utf8_mark((const char *)bytes.data, bytes.len);
    for (int number = 1; status == MF_OK && *rest != '\0'; number++) {
        size_t len = strcspn(rest, "\n");
        bool last = rest[len] == '\0';
        rest[len] = '\0';
        snprintf(where, sizeof where, "%s:%d", path, number);
        status = take_line(cli, rest, where, err);
        rest += len + !last;
    }
    mf_bytes_free(&bytes);
    return status;
}

static void apply(mf_cli *cli)
{
    cli->book_path = cli->setting[MF_SET_BOOK];
    cli->who = cli->setting[MF_SET_BY];
    cli->lang = mf_lang_of(cli->setting[MF_SET_LANG]);
    cli->quiet = cli->setting[MF_SET_QUIET][0] != '\0';
}

mf_status mf_settings_read(mf_cli *cli, mf_err *err)
{
    char path[PATH_LEN];
    for (int id = 0; id < MF_SET_COUNT; id++) {
        cli->setting[id] = rows[id].otherwise;
        cli->from[id] = "default";
    }
    mf_settings_path(path);
    mf_status status = take_file(cli, path, err);
    for (int id = 0; id < MF_SET_COUNT; id++) {
        const char *value = rows[id].env == NULL ? NULL : getenv(rows[id].env);
        if (value != NULL && value[0] != '\0')
            set(cli, id, value, rows[id].env);
    }
    apply(cli);
    return status;
}

void mf_settings_option(mf_cli *cli, const char *name)
{
    int id = mf_setting_named(name);
    if (id >= 0)
        cli->from[id] = "option";
}

/* ---- settings show ----------------------------------------------------------------------- */

/* What is in force, options included. */
static const char *in_force(const mf_cli *cli, int id)
{
    switch (id) {
    case MF_SET_BOOK:
        return cli->book_path;
    case MF_SET_BY:
        return cli->who;
    case MF_SET_LANG:
        return cli->lang == MF_LANG_ES ? "es" : "en";
    case MF_SET_QUIET:
        return cli->quiet ? "yes" : "no";
    default:
        return cli->setting[id];
    }
}

static mf_status show_json(const mf_cli *cli, const char *path)
{
    json_t *root = json_object(), *all = json_object();
    json_object_set_new(root, "file", json_string(path));
    for (int id = 0; id < MF_SET_COUNT; id++) {
        json_t *one = json_object();
        const char *value = in_force(cli, id);
        json_object_set_new(one, "value", value[0] ? json_string(value) : json_null());
        json_object_set_new(one, "from", json_string(cli->from[id]));
        json_object_set_new(all, rows[id].name, one);
    }
    json_object_set_new(root, "settings", all);
    return mf_json_print(root);
}

mf_status mf_cmd_settings_show(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    char path[PATH_LEN];
    (void)cmd;
    (void)args;
    mf_settings_path(path);
    if (cli->json)
        return show_json(cli, path);
    printf("file  %s\n\n", path);
    for (int id = 0; id < MF_SET_COUNT; id++) {
        mf_cli_pad(rows[id].name, 10);
        mf_cli_pad(in_force(cli, id)[0] ? in_force(cli, id) : "-", 34);
        mf_cli_pad(cli->from[id], 16);
        puts(rows[id].doc);
    }
    puts("\nAn option wins over the environment, that over the file. To set one for good:\n"
         "    mistfold settings set book ~/firm/firm.book");
    return MF_OK;
}
