/* What people read: one-line errors, notes, padded and wrapped text. */
#include "base/fail.h"
#include "base/utf8.h"
#include "cli/json.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statvfs.h>

/* ---- text of others ----------------------------------------------------------------------- */

void mf_cli_text(FILE *to, const char *text, size_t len)
{
    size_t step = 0;
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        if (step > 0 && mf_utf8_is_seen(c))
            fwrite(text + at, 1, step, to);
        else
            fputc('?', to);
        step = step == 0 ? 1 : step;
    }
}

void mf_cli_show(const char *text)
{
    mf_cli_text(stdout, text, strlen(text));
}

void mf_cli_line(const char *label, const char *text)
{
    printf("%s ", label);
    mf_cli_show(text);
    putchar('\n');
}

/* ---- errors and notes --------------------------------------------------------------------- */

static bool as_json; /* of the whole run: what fails may know nothing of it */

void mf_cli_json_errors(void)
{
    as_json = true;
}

/* On one line of standard error; false when there is no memory, and nothing was said. */
static bool say_json(json_t *root)
{
    char *text = mf_json_text(root, JSON_COMPACT);
    json_decref(root);
    if (text != NULL)
        fprintf(stderr, "%s\n", text);
    free(text);
    return text != NULL;
}

static bool fail_json(const mf_err *err)
{
    json_t *root = json_object(), *one = json_object();
    json_object_set_new(one, "status", json_integer((json_int_t)err->status));
    json_object_set_new(one, "where", json_string(err->where));
    json_object_set_new(one, "what", json_string(err->what));
    json_object_set_new(one, "why", json_string(err->why));
    json_object_set_new(one, "mend", json_string(err->mend));
    json_object_set_new(root, "error", one);
    return say_json(root);
}

static void put_part(const char *before, const char *text, const char *after)
{
    if (text[0] == '\0')
        return;
    fputs(before, stderr);
    mf_cli_text(stderr, text, strlen(text));
    fputs(after, stderr);
}

static void note(const char *line)
{
    if (as_json && say_json(json_pack("{s:s}", "note", line)))
        return;
    put_part("note: ", line, "\n");
}

/* where: what (why); mend */
mf_status mf_cli_fail(const mf_err *err)
{
    if (as_json && fail_json(err))
        return err->status;
    fputs("mistfold: ", stderr);
    put_part("", err->where, ": ");
    put_part("", err->what, "");
    put_part(" (", err->why, ")");
    put_part("; ", err->mend, "");
    fputc('\n', stderr);
    return err->status;
}

mf_status mf_cli_at(mf_err *err, const char *path)
{
    snprintf(err->where, sizeof err->where, "%s", path);
    return err->status;
}

void mf_cli_adopted(const mf_book_report *report)
{
    if (report->adopted > 0)
        mf_cli_warn("%s", report->adopted_first);
}

mf_status mf_cli_look(const mf_cli *cli, mf_job *job, bool whole, mf_book_report *out, mf_err *err)
{
    mf_status status = whole ? mf_book_check(cli->book, out, err)
                             : mf_book_check_job(cli->book, job->id, out, err);
    mf_cli_adopted(out);
    if (status == MF_OK && job->integrity == MF_INTEGRITY_BROKEN)
        status = mf_fail(err, MF_NO, "", "the book was altered while it was read", "", "ask again");
    if (status == MF_OK || status == MF_NO)
        job->integrity = status == MF_OK ? MF_INTEGRITY_GOOD : MF_INTEGRITY_BROKEN;
    return status;
}

mf_status mf_cli_unaltered(const mf_cli *cli, mf_job *job, mf_err *err)
{
    mf_book_report report = {0};
    mf_status status = job == NULL ? MF_OK : mf_cli_look(cli, job, false, &report, err);
    return status == MF_NO ? (err->status = MF_SYSTEM) : status;
}

mf_status mf_cli_made(mf_status status, const mf_err *altered, mf_err *err)
{
    if (status != MF_OK || altered->status == MF_OK)
        return status;
    *err = *altered;
    return err->status = MF_SYSTEM;
}

void mf_cli_note(const mf_cli *cli, const char *format, ...)
{
    va_list args;
    char line[2000];
    if (cli->json)
        return;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    note(line);
}

void mf_cli_warn(const char *format, ...)
{
    va_list args;
    char line[2000];
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    note(line);
}

/* On a disk that cannot be written nobody can mend it, and some know no modes. */
void mf_cli_warn_mode(const char *path)
{
    struct stat st;
    struct statvfs disk;
    if (stat(path, &st) != 0 || (st.st_mode & (S_IRGRP | S_IWGRP | S_IROTH | S_IWOTH)) == 0 ||
        (statvfs(path, &disk) == 0 && (disk.f_flag & ST_RDONLY) != 0))
        return;
    mf_cli_warn("%s can be read by other users of this computer (mode %03o); to keep it to "
                "yourself: chmod 600 %s",
                path, (unsigned)st.st_mode & 0777, path);
}

void mf_cli_unknown(const mf_cli *cli, const mf_book_report *report)
{
    if (report->unknown > 0)
        mf_cli_note(
            cli,
            "%lld entries are of kinds that this version does not know and count for nothing "
            "here: ask again with a newer version",
            (long long)report->unknown);
}

const char *mf_cli_word(const mf_cli *cli, const char *id)
{
    const char *words = mf_words(cli->lang, id);
    return words == NULL ? id : words;
}

void mf_cli_caution(const mf_cli *cli)
{
    putchar('\n');
    mf_cli_wrap(mf_cli_word(cli, "caution.short"), 0, 0);
}

int mf_cli_characters(const char *text, size_t len)
{
    int n = 0;
    for (size_t i = 0; i < len; i++)
        n += ((unsigned char)text[i] & 0xC0) != 0x80;
    return n;
}

void mf_cli_wrote(const mf_cli *cli, const char *path)
{
    if (cli->json)
        puts("{\"written\": true}");
    else
        printf("wrote %s\n", path);
}

size_t mf_cli_letters(const char *text, size_t stop, int wide)
{
    size_t len = 0;
    for (int i = 0; len < stop && i < wide; i++)
        do
            len++;
        while (len < stop && ((unsigned char)text[len] & 0xC0) == 0x80);
    return len;
}

void mf_cli_pad(const char *text, int width)
{
    int n = mf_cli_characters(text, strlen(text));
    mf_cli_show(text);
    printf("%*s", n < width ? width - n : 1, "");
}

static int columns = 78;

void mf_cli_set_columns(int wide)
{
    enum { WIDEST = 78, NARROWEST = 30 };
    columns = wide > WIDEST ? WIDEST : wide < NARROWEST ? NARROWEST : wide;
}

int mf_cli_columns(void)
{
    return columns;
}

void mf_cli_wrap(const char *text, int indent, int first_column)
{
    int column = first_column;
    bool fresh = true;
    while (*text != '\0') {
        size_t len = strcspn(text, " \n");
        int n = mf_cli_characters(text, len);
        if (!fresh && column + 1 + n > columns) {
            printf("\n%*s", indent, "");
            column = indent;
            fresh = true;
        }
        column += printf("%s", fresh ? "" : " ") + n;
        mf_cli_text(stdout, text, len);
        fresh = false;
        text += len;
        while (*text == ' ' || *text == '\n')
            text++;
    }
    putchar('\n');
}
