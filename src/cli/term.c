/* Raw single keys by termios. Signals that would end the program are held back
 * while the terminal is ours, so that it can be given back first. */
#include "cli/term.h"

#include "base/fail.h"
#include "cli/screen.h"

#include <ctype.h>
#include <errno.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { CTRL_C = 3, CTRL_D = 4, BACKSPACE = 8, CTRL_U = 21, ESCAPE = 27, DELETE = 127 };

static void held(sigset_t *set)
{
    sigemptyset(set);
    sigaddset(set, SIGTERM);
    sigaddset(set, SIGHUP);
}

static bool asked_to_end(void)
{
    sigset_t set;
    return sigpending(&set) == 0 &&
           (sigismember(&set, SIGTERM) == 1 || sigismember(&set, SIGHUP) == 1);
}

static volatile sig_atomic_t resized; /* since the last page was laid out */

static void note_size(int signal)
{
    (void)signal;
    resized = 1;
}

/* poll must end early: no SA_RESTART. */
static void watch_size(mf_term *term)
{
    struct sigaction action = {.sa_handler = note_size};
    sigemptyset(&action.sa_mask);
    sigaction(SIGWINCH, &action, &term->size_before);
}

mf_status mf_term_check(const char *instead, mf_err *err)
{
    if (isatty(STDIN_FILENO) && isatty(STDOUT_FILENO))
        return MF_OK;
    return mf_fail(err, MF_USAGE, "walk", "it asks a person at a terminal, and here is none", "",
                   instead);
}

mf_status mf_term_open(mf_term *term, mf_err *err)
{
    sigset_t hold;
    memset(term, 0, sizeof *term);
    if (tcgetattr(STDIN_FILENO, &term->before) != 0)
        return mf_fail(err, MF_SYSTEM, "terminal", "its settings cannot be read", "",
                       "try another terminal");
    struct termios raw = term->before;
    raw.c_lflag &= (tcflag_t) ~(ICANON | ECHO | ISIG | IEXTEN);
    raw.c_iflag &= (tcflag_t) ~(IXON);
    raw.c_cc[VMIN] = 1;
    raw.c_cc[VTIME] = 0;
    tcsetattr(STDIN_FILENO, TCSAFLUSH, &raw);
    held(&hold);
    sigprocmask(SIG_BLOCK, &hold, &term->signals_before);
    watch_size(term);
    term->open = true;
    term->plain = !mf_screen_escapes();
    if (!term->plain)
        fputs("\033[?1049h", stdout); /* the other screen: what was on this one comes back */
    return MF_OK;
}

void mf_term_close(mf_term *term)
{
    if (!term->open)
        return;
    term->open = false;
    fputs(term->plain ? "\n" : "\033[?1049l", stdout);
    fflush(stdout);
    tcsetattr(STDIN_FILENO, TCSAFLUSH, &term->before);
    sigprocmask(SIG_SETMASK, &term->signals_before, NULL);
    sigaction(SIGWINCH, &term->size_before, NULL);
}

/* One byte, or MF_KEY_NONE, or MF_KEY_LEAVE. */
static int read_byte(int milliseconds)
{
    struct pollfd ready = {.fd = STDIN_FILENO, .events = POLLIN};
    unsigned char byte;
    int n = poll(&ready, 1, milliseconds);
    if (asked_to_end())
        return MF_KEY_LEAVE;
    if (n == 0 || (n < 0 && errno == EINTR))
        return MF_KEY_NONE;
    return n > 0 && read(STDIN_FILENO, &byte, 1) == 1 ? byte : MF_KEY_LEAVE;
}

/* An arrow and the like arrives as Escape and more in one go: one key, not many. */
static void drop_sequence(void)
{
    while (read_byte(30) >= 0)
        ;
}

/* A held-back signal does not wake poll: look once a second. MF_KEY_NONE too when the size of
 * the terminal changed and the screen can be drawn anew (sized). */
static int wait_byte(int seconds, bool sized)
{
    int byte;
    fflush(stdout);
    for (int waited = 0; (byte = read_byte(1000)) == MF_KEY_NONE;)
        if ((sized && resized) || (seconds >= 0 && ++waited >= seconds))
            break;
    return byte;
}

int mf_term_key(mf_term *term, int seconds)
{
    (void)term;
    int byte = wait_byte(seconds, true);
    if (byte == CTRL_C || byte == CTRL_D)
        return MF_KEY_LEAVE;
    if (byte == ESCAPE)
        drop_sequence();
    return byte >= 0 && byte < 128 ? tolower(byte) : byte;
}

static bool low; /* fewer lines than a terminal of 24 */

/* A screen is laid out for the terminal as it is now: somebody may have turned the tablet. */
static void fit(void)
{
    enum { FULL_HEIGHT = 24 };
    resized = 0;
    int rows = mf_screen_fit();
    low = rows > 0 && rows < FULL_HEIGHT;
}

bool mf_term_low(void)
{
    return low;
}

void mf_term_gap(void)
{
    if (!low)
        putchar('\n');
}

static void rule_from(int column)
{
    for (int i = column; i < mf_cli_columns(); i++)
        putchar('-');
    putchar('\n');
}

void mf_term_rule(void)
{
    rule_from(0);
}

/* A line of its own would be too much on a low screen. */
void mf_term_rule_of(const mf_term *term)
{
    if (term->of[0] == '\0') {
        mf_term_rule();
        return;
    }
    mf_cli_pad(term->of, 0);
    rule_from(mf_cli_characters(term->of, strlen(term->of)) + 1);
}

void mf_term_page(const mf_term *term)
{
    fit();
    fputs(term->plain ? "\n\n" : "\033[H\033[2J", stdout);
}

void mf_term_bold(const char *text)
{
    fputs(mf_screen_shades() ? "\033[1m" : "", stdout);
    mf_cli_show(text);
    fputs(mf_screen_shades() ? "\033[0m" : "", stdout);
}

void mf_term_title(const char *text)
{
    fputs(mf_screen_shades() ? "\033[1m" : "", stdout);
    mf_cli_wrap(text, 0, 0);
    fputs(mf_screen_shades() ? "\033[0m" : "", stdout);
}

void mf_term_keys(const char *text, int indent)
{
    int column = indent;
    printf("%*s", indent, "");
    while (*text != '\0') {
        const char *bar = strstr(text, " | ");
        size_t len = bar == NULL ? strlen(text) : (size_t)(bar - text);
        int width = mf_cli_characters(text, len);
        if (column > indent && column + 3 + width > mf_cli_columns()) {
            printf("\n%*s", indent, "");
            column = indent;
        }
        column += printf("%s", column > indent ? " | " : "") + width;
        mf_cli_text(stdout, text, len);
        text += len + (bar == NULL ? 0 : 3);
    }
    putchar('\n');
}

/* ---- a line of typing ------------------------------------------------------------- */

static size_t last_letter(const char *text, size_t len)
{
    while (len > 0 && ((unsigned char)text[len - 1] & 0xC0) == 0x80)
        len--;
    return len > 0 ? len - 1 : 0;
}

static size_t rub_out(char *out, size_t len)
{
    if (len > 0)
        fputs("\b \b", stdout);
    len = last_letter(out, len);
    out[len] = '\0';
    return len;
}

static size_t rub_out_all(char *out, size_t len)
{
    while (len > 0)
        len = rub_out(out, len);
    return len;
}

/* How a line is typed: behind what stands there; given up when the size changes. */
typedef struct line_way {
    bool goes_on, sized;
} line_way;

static mf_typed type_line(const char *prompt, char *out, size_t size, line_way way)
{
    bool goes_on = way.goes_on;
    size_t len = strlen(out);
    mf_cli_show(prompt);
    putchar(' ');
    mf_cli_show(out);
    for (;;) {
        int byte = wait_byte(-1, way.sized);
        if (byte == MF_KEY_NONE)
            return goes_on ? MF_TYPED_SIZED_ON : MF_TYPED_SIZED;
        if (byte == '\r' || byte == '\n')
            break;
        if (byte == ESCAPE)
            drop_sequence();
        if (byte == ESCAPE)
            return MF_TYPED_BACK;
        if (byte == CTRL_C || byte == CTRL_D || byte == MF_KEY_LEAVE)
            return MF_TYPED_LEAVE;
        if (byte == BACKSPACE || byte == DELETE) {
            len = rub_out(out, len);
        } else if (byte == CTRL_U) {
            len = rub_out_all(out, len);
        } else if (byte >= ' ' && (!goes_on || len + 1 < size)) {
            len = goes_on ? len : rub_out_all(out, len);
            out[len++] = (char)byte;
            out[len] = '\0';
            putchar(byte);
        }
        goes_on = true;
    }
    putchar('\n');
    return MF_TYPED_LINE;
}

mf_typed mf_term_line(mf_term *term, const char *prompt, char *out, size_t size)
{
    (void)term;
    return type_line(prompt, out, size, (line_way){false, false});
}

mf_typed mf_term_line_on(mf_term *term, const char *prompt, char *out, size_t size)
{
    (void)term;
    return type_line(prompt, out, size, (line_way){true, false});
}

mf_typed mf_term_line_sized(mf_term *term, const char *prompt, char *out, size_t size, bool on)
{
    (void)term;
    return type_line(prompt, out, size, (line_way){on, true});
}
