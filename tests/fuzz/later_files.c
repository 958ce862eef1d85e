/* Writes the papers of the target "later" as files, for other programs to look at.
 *   later_files FOLDER UPDATE...   FOLDER/base.pdf, and of each update that the check finds
 *   nothing wrong with FOLDER/N.pdf; prints N, and page, x, y, w, h of what the seal draws */
#include "base/file.h"
#include "fuzz/fuzz.h"
#include "fuzz/later.h"

#include <stdio.h>

enum { UPDATE_MAX = 1 << 20 };

static void keep(const char *folder, const char *name, const mf_buf *file)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s.pdf", folder, name);
    fuzz_write(path, file->data, file->len);
}

static void judge(const char *folder, int n, const mf_buf *paper, const char *path)
{
    char name[16];
    mf_buf file = {0};
    mf_bytes update = {0};
    mf_seal_check check;
    FUZZ_HOLDS(mf_file_read(&update, path, UPDATE_MAX, NULL) == MF_OK);
    mf_buf_add(&file, paper->data, paper->len);
    fuzz_later_add(&file, update.data, update.len);
    if (mf_seal_verify(&check, (const unsigned char *)file.data, file.len, NULL) == MF_OK) {
        const mf_seal_place *look = &check.seal[check.n - 1].look;
        snprintf(name, sizeof name, "%d", n);
        keep(folder, name, &file);
        printf("%d %d %g %g %g %g\n", n, look->page, (double)look->x, (double)look->y,
               (double)look->w, (double)look->h);
    }
    mf_bytes_free(&update);
    mf_buf_free(&file);
}

int main(int argc, char **argv)
{
    mf_buf paper = {0};
    if (argc < 3) {
        fputs("later_files FOLDER UPDATE...\n", stderr);
        return 2;
    }
    fuzz_later_paper(&paper);
    keep(argv[1], "base", &paper);
    for (int i = 2; i < argc; i++)
        judge(argv[1], i - 1, &paper, argv[i]);
    mf_buf_free(&paper);
    return 0;
}
