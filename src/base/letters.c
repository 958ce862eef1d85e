#include "base/letters.h"

#include <string.h>

enum { LONGEST = 40 };

char mf_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool mf_begins(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

char *mf_trim(char *text)
{
    text += strspn(text, " \t");
    size_t len = strlen(text);
    while (len > 0 && strchr(" \t\r", text[len - 1]) != NULL)
        text[--len] = '\0';
    return text;
}

bool mf_same_but_case(const char *a, const char *b)
{
    while (*a != '\0' && mf_lower(*a) == mf_lower(*b)) {
        a++;
        b++;
    }
    return *a == '\0' && *b == '\0';
}

static int least(int a, int b, int c)
{
    int low = a < b ? a : b;
    return low < c ? low : c;
}

int mf_letters_apart(const char *a, const char *b)
{
    int row[LONGEST + 1];
    size_t na = strlen(a), nb = strlen(b);
    if (na > LONGEST || nb > LONGEST)
        return MF_FAR_APART;
    for (size_t j = 0; j <= nb; j++)
        row[j] = (int)j;
    for (size_t i = 1; i <= na; i++) {
        int corner = row[0];
        row[0] = (int)i;
        for (size_t j = 1; j <= nb; j++) {
            int above = row[j];
            int swap = corner + (mf_lower(a[i - 1]) != mf_lower(b[j - 1]));
            row[j] = least(above + 1, row[j - 1] + 1, swap);
            corner = above;
        }
    }
    return row[nb] < MF_FAR_APART ? row[nb] : MF_FAR_APART;
}
