/* Photos of an entry, told beside it. */
#include "paper/photos.h"

#include <string.h>

static const char *numbers_of(mf_rec *rec, const char *entry, const char **first)
{
    const char *list = "";
    *first = NULL;
    for (size_t i = 0; i < rec->ask->n_photos; i++) {
        const mf_paper_photo *photo = &rec->ask->photos[i];
        if (*entry == '\0' || strcmp(photo->about, entry) != 0)
            continue;
        if (*first == NULL)
            *first = photo->entry;
        list = mf_join(rec, list, ", ", mf_print(rec, "%zu", i + 1));
    }
    return list;
}

static mf_cell with_note(mf_rec *rec, mf_cell cell, const char *words, const char *link)
{
    mf_cell note = mf_small(words);
    note.below = cell.below;
    cell.below = mf_below(rec, note);
    if (cell.link == NULL)
        cell.link = link;
    return cell;
}

mf_cell mf_with_photos(mf_rec *rec, mf_cell cell, const char *entry)
{
    const char *first = NULL;
    const char *list = numbers_of(rec, entry, &first);
    if (first == NULL)
        return cell;
    return with_note(rec, cell, mf_fill(rec, "see-photo", list, NULL, NULL), first);
}

/* "sheeting.jpg sha256:<64 hex digits>", as the tick keeps it. */
mf_cell mf_with_named_photo(mf_rec *rec, mf_cell cell, const mf_tick *tick)
{
    const char *mark = " sha256:";
    const char *hash = strstr(tick->photo, mark);
    if (*tick->photo == '\0')
        return cell;
    for (size_t i = 0; hash != NULL && i < rec->ask->n_photos; i++) {
        const mf_paper_photo *photo = &rec->ask->photos[i];
        if (strcmp(photo->sha256, hash + strlen(mark)) != 0)
            continue;
        if (strcmp(photo->about, tick->src.entry) == 0)
            return cell; /* told already */
        return with_note(rec, cell,
                         mf_fill(rec, "see-photo", mf_print(rec, "%zu", i + 1), NULL, NULL),
                         photo->entry);
    }
    return with_note(rec, cell, mf_fill(rec, "photo-elsewhere", tick->photo, NULL, NULL), NULL);
}
