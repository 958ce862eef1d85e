/* screen.c - an answer at a terminal: held back, broken where the terminal ends, shown. */
#include "cli/screen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

static struct {
    bool shades;
    int columns, rows; /* of the terminal, 0 = there is none */
    int kept;          /* its descriptor while output is held back, else -1 */
    FILE *held;
    char question[200], word[MF_ANSWER_TEXT]; /* the answer given, "" = none */
    mf_shade shade;
} screen = {.kept = -1};

bool mf_screen_escapes(void)
{
    const char *name = getenv("TERM");
    return name != NULL && name[0] != '\0' && strcmp(name, "dumb") != 0;
}

bool mf_screen_shades(void)
{
    const char *no = getenv("NO_COLOR");
    return mf_screen_escapes() && (no == NULL || no[0] == '\0');
}

int mf_screen_fit(void)
{
    struct winsize size = {0};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 2) {
        screen.columns = size.ws_col;
        mf_cli_set_columns(size.ws_col - 2);
    }
    return size.ws_row;
}

void mf_screen_start(void)
{
    if (!isatty(STDOUT_FILENO))
        return;
    screen.shades = mf_screen_shades();
    screen.rows = mf_screen_fit();
}

/* ---- shades -------------------------------------------------------------------------------- */

void mf_screen_shade(const char *text, mf_shade shade)
{
    static const char *const codes[] = {"\033[1;32m", "\033[1;31m", "\033[1;33m"};
    fputs(screen.shades ? codes[shade] : "", stdout);
    mf_cli_show(text);
    fputs(screen.shades ? "\033[0m" : "", stdout);
}

mf_shade mf_screen_shade_of(mf_answer answer)
{
    return answer == MF_ANSWER_YES  ? MF_SHADE_YES
           : answer == MF_ANSWER_NO ? MF_SHADE_NO
                                    : MF_SHADE_WAIT;
}

static void put_answer(void)
{
    printf("%s  ", screen.question);
    mf_screen_shade(screen.word, screen.shade);
    putchar('\n');
}

void mf_screen_answer(const char *question, const char *word, mf_shade shade)
{
    snprintf(screen.question, sizeof screen.question, "%s", question);
    snprintf(screen.word, sizeof screen.word, "%s", word);
    screen.shade = shade;
    put_answer();
}

/* ---- holding back -------------------------------------------------------------------------- */

/* They speak with a person, go on until they are ended, draw, or print what is kept as it is. */
static bool is_raw(const mf_cmd *cmd)
{
    static mf_cmd_fn *const raw[] = {
        mf_cmd_walk_job,   mf_cmd_walk_steps, mf_cmd_walk_test,   mf_cmd_walk_verification,
        mf_cmd_book_new,   mf_cmd_export,     mf_cmd_field_serve, mf_cmd_field_invite,
        mf_cmd_paper_data, mf_cmd_book_head,  mf_cmd_sync,        mf_cmd_book_check};
    for (size_t i = 0; i < sizeof raw / sizeof raw[0]; i++)
        if (cmd->run == raw[i])
            return true;
    return false;
}

void mf_screen_hold(const mf_cli *cli, const mf_cmd *cmd)
{
    if (screen.columns == 0 || screen.held != NULL || cli->json || (cmd != NULL && is_raw(cmd)))
        return;
    fflush(stdout);
    screen.held = tmpfile();
    screen.kept = screen.held == NULL ? -1 : dup(STDOUT_FILENO);
    if (screen.kept >= 0 && dup2(fileno(screen.held), STDOUT_FILENO) >= 0)
        return;
    if (screen.held != NULL)
        fclose(screen.held);
    screen.held = NULL;
}

/* Bytes of one letter, or of a sequence that shades; *wide is how many columns they take. */
static size_t step(const char *at, size_t len, int *wide)
{
    size_t n = 1;
    *wide = *at == '\033' ? 0 : 1;
    if (*at == '\033')
        n += strcspn(at, "m") < len ? strcspn(at, "m") : 0;
    return *at == '\033' ? n : mf_cli_letters(at, len, 1);
}

/* A command to be copied, alone or behind "next:"; a row of a table that names one is none. */
static bool is_command(const char *line, size_t len)
{
    static const char name[] = "mistfold ";
    size_t at = strspn(line, " ");
    if (at < len && strncmp(line + at, name, sizeof name - 1) != 0) {
        at += strcspn(line + at, " \n");
        if (at >= len || line[at - 1] != ':')
            return false;
        at += strspn(line + at, " ");
    }
    if (at + sizeof name - 1 > len || strncmp(line + at, name, sizeof name - 1) != 0)
        return false;
    char group[24];
    at += sizeof name - 1;
    snprintf(group, sizeof group, "%.*s", (int)strcspn(line + at, " \n"), line + at);
    for (; at + 1 < len; at++)
        if (line[at] == ' ' && line[at + 1] == ' ')
            return false;
    return group[0] == '-' || mf_cmd_group(group);
}

/* How much of a line fits: up to the last blank before the end of the terminal, *skip blanks
 * behind it; all of it where there is none. */
static size_t fitting(const char *line, size_t len, int room, size_t *skip)
{
    size_t at = 0, blank = 0, indent = strspn(line, " ");
    int column = 0, wide = 0;
    *skip = 0;
    while (at < len) {
        size_t n = step(line + at, len - at, &wide);
        if (column + wide > room && blank > 0) {
            size_t end = blank;
            while (end > indent && line[end - 1] == ' ')
                end--;
            *skip = blank - end;
            while (end + *skip < len && line[end + *skip] == ' ')
                ++*skip;
            return end;
        }
        if (line[at] == ' ' && at >= indent)
            blank = at;
        column += wide;
        at += n;
    }
    return len;
}

/* One line on as many as it takes; how many. Those that follow stand under its first word, and a
 * row of a table a little to the right of it. */
static int put_line(const char *line, size_t len)
{
    int lines = 1;
    size_t indent = strspn(line, " "), skip;
    int hang = (int)(indent + 4 < (size_t)screen.columns / 2 ? indent : 0);
    for (size_t i = indent; hang == (int)indent && i + 2 < len; i++)
        if (line[i] == ' ' && line[i + 1] == ' ')
            hang = (int)indent + 4;
    if (is_command(line, len)) {
        fwrite(line, 1, len, stdout);
        putchar('\n');
        return 1 + (int)len / screen.columns;
    }
    for (int room = screen.columns;; room = screen.columns - hang) {
        size_t n = fitting(line, len, room, &skip);
        fwrite(line, 1, n, stdout);
        putchar('\n');
        line += n + skip;
        len -= n + skip;
        if (len == 0)
            return lines;
        printf("%*s", hang, "");
        lines++;
    }
}

static int put_all(const char *text)
{
    int lines = 0;
    while (*text != '\0') {
        size_t len = strcspn(text, "\n");
        lines += put_line(text, len);
        text += len + (text[len] == '\n');
    }
    return lines;
}

/* All that was held back; NULL without memory. */
static char *read_held(void)
{
    long size = ftell(screen.held);
    char *text = size < 0 ? NULL : malloc((size_t)size + 1);
    rewind(screen.held);
    if (text != NULL)
        text[fread(text, 1, (size_t)size, screen.held)] = '\0';
    return text;
}

void mf_screen_show(void)
{
    if (screen.held == NULL)
        return;
    fflush(stdout);
    dup2(screen.kept, STDOUT_FILENO);
    close(screen.kept);
    fseek(screen.held, 0, SEEK_END);
    char *text = read_held();
    fclose(screen.held);
    screen.held = NULL;
    screen.kept = -1;
    int lines = text == NULL ? 0 : put_all(text);
    free(text);
    if (screen.word[0] != '\0' && lines + 2 > screen.rows) {
        putchar('\n');
        put_answer();
    }
}
