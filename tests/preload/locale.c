/* locale.so, for LD_PRELOAD: every program speaks the language of the environment, as
 * one does whose toolkit calls setlocale. A decimal comma must change nothing. */
#include <locale.h>
#include <stdlib.h>
#include <string.h>

__attribute__((constructor)) static void speak(void)
{
    const char *want = getenv("LC_ALL");
    if (want == NULL || strncmp(want, "de_DE", 5) != 0)
        return;
    if (setlocale(LC_ALL, "") == NULL || strcmp(localeconv()->decimal_point, ",") != 0)
        abort(); /* a test under no such locale would test nothing */
}
