#include "base/file_kind.h"

#include "base/fail.h"
#include "base/mem.h"
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool begins(const unsigned char *bytes, size_t len, const char *with, size_t n)
{
    return len >= n && memcmp(bytes, with, n) == 0;
}

static bool holds(const unsigned char *bytes, size_t len, const char *word)
{
    size_t n = strlen(word);
    for (size_t i = 0; i + n <= len; i++) {
        const unsigned char *at = memchr(bytes + i, word[0], len - n - i + 1);
        if (at == NULL)
            return false;
        i = (size_t)(at - bytes);
        if (memcmp(at, word, n) == 0)
            return true;
    }
    return false;
}

/* https://www.sqlite.org/fileformat2.html, 1.3: the application's number is at offset 68.
 * It is 0 as long as a new book lies in its log alone, so 0 may be a book, too. */
static bool is_book(const unsigned char *bytes, size_t len)
{
    static const unsigned char ours[] = {MF_APPLICATION_ID >> 24, MF_APPLICATION_ID >> 16 & 0xFF,
                                         MF_APPLICATION_ID >> 8 & 0xFF, MF_APPLICATION_ID & 0xFF};
    static const unsigned char none[4] = {0};
    if (!begins(bytes, len, "SQLite format 3", 16))
        return false;
    return len < 72 || memcmp(bytes + 68, ours, 4) == 0 || memcmp(bytes + 68, none, 4) == 0;
}

/* The same, 3.1 and 4.1: beginnings of a rollback journal and of a write-ahead log; and
 * https://www.sqlite.org/walformat.html, 2.1: of its index, a number in the machine's order. */
static bool is_log(const unsigned char *bytes, size_t len)
{
    static const unsigned number = 3007000;
    return begins(bytes, len, "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8) ||
           begins(bytes, len, "\x37\x7f\x06\x82", 4) || begins(bytes, len, "\x37\x7f\x06\x83", 4) ||
           (len >= 136 && memcmp(bytes, &number, sizeof number) == 0);
}

/* One SEQUENCE that is the whole file (X.690, 8.1.3), of a set or of a number: PKCS #12,
 * X.509, PKCS #8 and the older forms of a key all are, and signatures. */
static bool is_der(const unsigned char *bytes, size_t len)
{
    size_t n = len > 4 ? bytes[1] & 0x7FU : 0, body = 0;
    if (len <= 4 || bytes[0] != 0x30)
        return false;
    if (bytes[1] == 0x80) /* of a length that its end tells */
        return bytes[2] == 0x02 || bytes[2] == 0x30 || bytes[2] == 0x06;
    if (bytes[1] < 0x80)
        return 2 + (size_t)bytes[1] == len;
    for (size_t i = 0; n <= sizeof body && i < n && 2 + i < len; i++)
        body = body << 8 | bytes[2 + i];
    return n <= sizeof body && body <= len && 2 + n + body == len;
}

/* RFC 7468, 2: a line of its own, but words may stand before it. */
static bool is_pem(const unsigned char *bytes, size_t len)
{
    return begins(bytes, len, "-----BEGIN ", 11) || holds(bytes, len, "\n-----BEGIN ");
}

/* Of signs that a text has, in UTF-8 or in an older set of signs. */
static bool is_text(const unsigned char *bytes, size_t len)
{
    if (begins(bytes, len, "\xff\xfe", 2) || begins(bytes, len, "\xfe\xff", 2))
        return true; /* UTF-16 says so at its beginning */
    for (size_t i = 0; i < len; i++)
        if (bytes[i] < 0x20 && (bytes[i] == '\0' || strchr("\t\n\r\f", bytes[i]) == NULL))
            return false;
    return true;
}

static bool is_picture(const unsigned char *bytes, size_t len)
{
    return begins(bytes, len, "\xff\xd8\xff", 3) || begins(bytes, len, "\x89PNG\r\n\x1a\n", 8);
}

mf_file_kind mf_file_kind_of(const unsigned char *bytes, size_t len)
{
    if (len == 0)
        return MF_FILE_EMPTY;
    if (is_book(bytes, len))
        return MF_FILE_BOOK;
    if (is_log(bytes, len))
        return MF_FILE_LOG;
    if (begins(bytes, len, "%PDF-", 5))
        return MF_FILE_PDF;
    if (begins(bytes, len, "PK\003\004", 4))
        return holds(bytes, len, "xl/workbook.xml") ? MF_FILE_WORKBOOK : MF_FILE_OTHER;
    if (is_picture(bytes, len))
        return MF_FILE_PICTURE;
    bool text = is_text(bytes, len);
    if (is_pem(bytes, len) || (!text && is_der(bytes, len)))
        return MF_FILE_KEY;
    return text ? MF_FILE_TEXT : MF_FILE_OTHER;
}

/* ---- the log beside a book ------------------------------------------------------------ */

static bool is_book_at(const char *path)
{
    unsigned char head[100];
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    ssize_t n = fd < 0 ? -1 : read(fd, head, sizeof head);
    if (fd >= 0)
        close(fd);
    return n > 0 && is_book(head, (size_t)n);
}

/* What SQLite writes beside a book, and takes from there. */
static const char *const ends[] = {"-wal", "-journal", "-shm"};

static mf_status name_of_book(const char *book, const char *path, mf_err *err)
{
    if (!is_book_at(book))
        return MF_OK;
    return mf_fail(err, MF_INPUT, path, "this name belongs to the book beside it",
                   "the book would be read together with what stands there", "choose another name");
}

mf_status mf_file_no_log(const char *path, mf_err *err)
{
    size_t len = strlen(path);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < sizeof ends / sizeof ends[0]; i++) {
        size_t end = strlen(ends[i]);
        mf_buf book = {0};
        if (len <= end || strcmp(path + len - end, ends[i]) != 0)
            continue;
        mf_buf_add(&book, path, len - end);
        status = book.failed ? mf_fail_memory(err) : name_of_book(book.data, path, err);
        mf_buf_free(&book);
    }
    return status;
}

/* An index alone (-shm) is made anew. */
mf_status mf_file_no_log_beside(const char *path, mf_err *err)
{
    struct stat st;
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < 2; i++) {
        mf_buf log = {0};
        mf_buf_printf(&log, "%s%s", path, ends[i]);
        if (log.failed)
            status = mf_fail_memory(err);
        else if (lstat(log.data, &st) == 0 && st.st_size > 0)
            status =
                mf_failf(err, MF_INPUT, path, "it would be read together with a book made here",
                         "choose another name, or move it to the book that it belongs to",
                         "the log of an earlier book, %s%s, lies there", path, ends[i]);
        mf_buf_free(&log);
    }
    return status;
}
