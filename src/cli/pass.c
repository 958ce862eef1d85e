/* The passphrase of a key: from a file descriptor or the terminal, never from
 * argv or the environment, where other users and logs could see it. */
#include "base/fail.h"
#include "cli/cli.h"

#include <errno.h>
#include <fcntl.h>
#include <openssl/crypto.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif
#include <sys/resource.h>
#include <termios.h>
#include <unistd.h>

void mf_pass_wipe(char pass[MF_PASS_MAX])
{
    OPENSSL_cleanse(pass, MF_PASS_MAX);
}

/* A core file would hold the passphrase, and the key that it opens. Another process of the
 * same user cannot look into this one either. Failing does no harm that was not there. */
void mf_pass_no_core(void)
{
    const struct rlimit none = {0, 0};
    setrlimit(RLIMIT_CORE, &none);
#ifdef PR_SET_DUMPABLE
    prctl(PR_SET_DUMPABLE, 0);
#endif
}

/* One line without its newline, read into its place alone; -1 when it is too long or cannot
 * be read. */
static long read_line(int fd, char out[MF_PASS_MAX])
{
    size_t len = 0;
    ssize_t got;
    while ((got = read(fd, &out[len], 1)) == 1 && out[len] != '\n')
        if (++len == MF_PASS_MAX - 1)
            return -1;
    out[len] = '\0';
    return got < 0 ? -1 : (long)len;
}

/* ---- at the terminal ------------------------------------------------------------------ */

static volatile sig_atomic_t caught;

static void catch (int number)
{
    caught = number;
}

/* Whoever leaves with Ctrl-C, or is ended, must find the terminal showing what is typed:
 * the signal is caught, without starting the read again, and raised when that is so. */
static const int ending[] = {SIGINT, SIGQUIT, SIGTERM, SIGHUP, SIGTSTP};
enum { ENDING = sizeof ending / sizeof ending[0] };

static void catch_signals(struct sigaction before[ENDING])
{
    struct sigaction ours = {.sa_handler = catch};
    sigemptyset(&ours.sa_mask);
    caught = 0;
    for (int i = 0; i < ENDING; i++)
        if (sigaction(ending[i], &ours, &before[i]) == 0 && before[i].sa_handler == SIG_IGN)
            sigaction(ending[i], &before[i], NULL);
}

static void give_signals_back(const struct sigaction before[ENDING])
{
    for (int i = 0; i < ENDING; i++)
        sigaction(ending[i], &before[i], NULL);
    if (caught != 0)
        raise(caught);
}

static bool ask_terminal(int tty, const char *prompt, char out[MF_PASS_MAX])
{
    struct termios before, quiet;
    struct sigaction signals[ENDING];
    if (tcgetattr(tty, &before) != 0 || write(tty, prompt, strlen(prompt)) < 0)
        return false;
    quiet = before;
    quiet.c_lflag &= (tcflag_t)~ECHO;
    catch_signals(signals);
    tcsetattr(tty, TCSAFLUSH, &quiet);
    long len = read_line(tty, out);
    tcsetattr(tty, TCSAFLUSH, &before);
    bool whole = write(tty, "\n", 1) == 1 && len > 0 && caught == 0;
    if (caught != 0)
        mf_pass_wipe(out);
    give_signals_back(signals);
    return whole;
}

static mf_status from_terminal(const char *prompt, bool twice, char out[MF_PASS_MAX], mf_err *err)
{
    char again[MF_PASS_MAX] = "";
    int tty = open("/dev/tty", O_RDWR | O_CLOEXEC);
    if (tty < 0)
        return mf_fail(err, MF_USAGE, "passphrase", "there is no terminal to ask on", "",
                       "give --passphrase-fd N with the passphrase on that file descriptor");
    mf_status status = MF_OK;
    if (!ask_terminal(tty, prompt, out))
        status = mf_fail(err, MF_INPUT, "passphrase", "is empty or could not be read", "",
                         "type it and press Enter");
    else if (twice && (!ask_terminal(tty, "again: ", again) || strcmp(out, again) != 0))
        status = mf_fail(err, MF_INPUT, "passphrase", "the two do not agree", "", "start again");
    mf_pass_wipe(again);
    close(tty);
    return status;
}

mf_status mf_pass_read(const mf_args *args, const char *prompt, bool twice, char out[MF_PASS_MAX],
                       mf_err *err)
{
    const char *text = mf_args_value(args, "passphrase-fd");
    mf_pass_no_core();
    if (text == NULL)
        return from_terminal(prompt, twice, out, err);
    char *end = NULL;
    long fd = strtol(text, &end, 10);
    if (end == text || *end != '\0' || fd < 0 || fd > 1023)
        return mf_fail(err, MF_INPUT, "--passphrase-fd", "is not a file descriptor", "",
                       "give a number such as 3, and redirect it: 3<FILE");
    errno = 0;
    if (read_line((int)fd, out) <= 0)
        return mf_fail(err, errno == EIO ? MF_SYSTEM : MF_INPUT, "--passphrase-fd",
                       "nothing could be read from it", "",
                       "put one line with the passphrase on that file descriptor");
    return MF_OK;
}
