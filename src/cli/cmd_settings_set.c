/* settings set, settings unset: a line of the settings file is written for a person, and
 * everything else in it stays as it is. */
#include "base/fail.h"
#include "base/file.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "cli/settings.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FILE_LIMIT = 65536 };

/* Whether a line of the file sets that name. */
static bool is_line_of(const char *line, size_t len, const char *name)
{
    while (len > 0 && (*line == ' ' || *line == '\t'))
        line++, len--;
    size_t n = strlen(name);
    if (len < n || strncmp(line, name, n) != 0)
        return false;
    while (n < len && (line[n] == ' ' || line[n] == '\t'))
        n++;
    return n < len && line[n] == '=';
}

/* The file without its mark, with one line of that name, where the first of it stood, else at the
 * end; without any when value is NULL. How many lines of it there were. */
static int rewrite(const char *text, const char *name, const char *value, mf_buf *out)
{
    int seen = 0;
    text += mf_utf8_mark(text, strlen(text));
    while (*text != '\0') {
        size_t len = strcspn(text, "\n");
        bool of_it = is_line_of(text, len, name);
        if (of_it && seen == 0 && value != NULL)
            mf_buf_printf(out, "%s = %s\n", name, value);
        if (!of_it) {
            mf_buf_add(out, text, len);
            mf_buf_text(out, "\n");
        }
        seen += of_it;
        text += len + (text[len] == '\n');
    }
    if (seen == 0 && value != NULL)
        mf_buf_printf(out, "%s = %s\n", name, value);
    return seen;
}

/* The folders of the file, as far as they are not there. */
static mf_status make_folders(const char *path, mf_err *err)
{
    char folder[MF_SETTINGS_PATH];
    snprintf(folder, sizeof folder, "%s", path);
    for (char *slash = strchr(folder + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdir(folder, 0700) != 0 && errno != EEXIST)
            return mf_file_fail(err, folder, "make", errno);
        *slash = '/';
    }
    return MF_OK;
}

static mf_status write_line(const char *name, const char *value, int *seen, mf_err *err)
{
    char path[MF_SETTINGS_PATH];
    mf_bytes before = {0};
    mf_buf after = {0};
    mf_status status = MF_OK;
    mf_settings_path(path);
    bool there = access(path, F_OK) == 0;
    if (there)
        status = mf_file_read(&before, path, FILE_LIMIT, err);
    else if (value != NULL)
        status = make_folders(path, err);
    if (status == MF_OK)
        *seen = rewrite(there ? (const char *)before.data : "", name, value, &after);
    if (status == MF_OK && after.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK && (value != NULL || *seen > 0))
        status = mf_file_write(path, mf_buf_str(&after), after.len, 0600, err);
    mf_bytes_free(&before);
    mf_buf_free(&after);
    return status;
}

static mf_status id_of(const char *name, int *id, mf_err *err)
{
    *id = mf_setting_named(name);
    return *id >= 0 ? MF_OK
                    : mf_failf(err, MF_INPUT, "NAME", "", MF_SETTINGS_NAMES,
                               "%.60s is not a setting", name);
}

/* A file is found from every folder: its path is written whole. */
static mf_status whole(mf_cli *cli, int id, const char **value, mf_err *err)
{
    char here[MF_SETTINGS_PATH];
    mf_buf path = {0};
    if (!mf_setting_is_file(id) || **value == '/' || strncmp(*value, "~/", 2) == 0)
        return MF_OK;
    if (getcwd(here, sizeof here) == NULL)
        return mf_file_fail(err, ".", "read", errno);
    mf_buf_printf(&path, "%s/%s", here, *value);
    *value = mf_arena_text(&cli->ids, mf_buf_str(&path));
    mf_buf_free(&path);
    return *value == NULL ? mf_fail_memory(err) : MF_OK;
}

/* Whoever is to sign every entry is a person of the book, where there is one already. */
static mf_status check_by(mf_cli *cli, const char *who, mf_err *err)
{
    if (access(cli->book_path, F_OK) != 0)
        return MF_OK;
    cli->who = who;
    cli->from[MF_SET_BY] = "VALUE";
    mf_status status = mf_cli_book(cli, err);
    return status == MF_OK ? mf_cli_check_who(cli, err) : status;
}

/* What each job would be refused for; a row of the book may name a place that is no state. */
static mf_status check_place(mf_cli *cli, const char *place, mf_err *err)
{
    mf_draft *draft = NULL;
    const char *const field[][2] = {{"place", place}};
    if (access(cli->book_path, F_OK) != 0)
        return MF_OK;
    mf_status status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_draft_of(&draft, "house", field, 1, "VALUE", 0, err);
    if (status == MF_OK)
        status = mf_book_places(cli->book, draft, "VALUE", err);
    mf_draft_free(draft);
    return status;
}

static mf_status check(mf_cli *cli, int id, const char **value, mf_err *err)
{
    const char *text = *value;
    if (text[0] == '\0' || strpbrk(text, "\r\n") != NULL || strchr(" \t", text[0]) != NULL ||
        strchr(" \t", text[strlen(text) - 1]) != NULL) /* it would be read without them */
        return mf_fail(err, MF_INPUT, "VALUE",
                       "a value is one line of words, without blanks around it", "",
                       "\"settings unset\" takes a setting away");
    mf_status status = mf_setting_check(id, text, "VALUE", err);
    if (status == MF_OK && id == MF_SET_BY)
        status = check_by(cli, text, err);
    if (status == MF_OK && id == MF_SET_PLACE)
        status = check_place(cli, text, err);
    return status == MF_OK ? whole(cli, id, value, err) : status;
}

/* What was written is not what is in force where the environment or an option says otherwise. */
static void say_overruled(const mf_cli *cli, int id, const char *from)
{
    if (strcmp(from, "settings file") != 0 && strcmp(from, "default") != 0)
        mf_cli_note(cli, "%s is set by %s, which wins over the file",
                    mf_setting_row((mf_setting_id)id)->name,
                    strcmp(from, "option") == 0 ? "the option" : from);
}

mf_status mf_cmd_settings_set(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    int id = -1, seen = 0;
    const char *value = args->word[1], *from = "";
    (void)cmd;
    mf_status status = id_of(args->word[0], &id, &err);
    if (status == MF_OK) {
        from = cli->from[id];
        status = check(cli, id, &value, &err);
    }
    if (status == MF_OK)
        status = write_line(args->word[0], value, &seen, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        puts("{\"written\": true}");
    else
        mf_cli_line(args->word[0], value);
    say_overruled(cli, id, from);
    return MF_OK;
}

mf_status mf_cmd_settings_unset(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    int id = -1, seen = 0;
    (void)cmd;
    mf_status status = id_of(args->word[0], &id, &err);
    if (status == MF_OK)
        status = write_line(args->word[0], NULL, &seen, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        printf("{\"written\": %s}\n", seen > 0 ? "true" : "false");
    else
        printf("%s: %s\n", args->word[0],
               seen > 0 ? "taken out of the file" : "was not in the file");
    say_overruled(cli, id, cli->from[id]);
    return MF_OK;
}
