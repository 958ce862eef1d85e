/* A tenth of a small component is more than the rule lets go without safe work: which one is small
 * goes by what it is, and not by the type somebody found to log it. 24 CFR 35.1350(d)(3). */
#include "core/small_part.h"

#include "core/area_rooms.h"
#include "core/spelling.h"
#include "core/text.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* What is large, and words that say no more than which one of it. A label of other words may be of
 * anything. Common practice, no source. */
static const char *const large[] = {
#include "core/large_parts.inc"
};
static const char *const which[] = {
#include "core/large_parts_which.inc"
};

/* What is small though it is on a wall. Examples of the paragraph and common practice. */
static const char *const small[] = {
#include "core/small_parts.inc"
};

static bool is_one(const char *word, const char *const *of, size_t n)
{
    size_t i = 0;
    while (i < n && mf_goes_on(word, of[i]) == 0)
        i++;
    return i < n;
}

/* Each word of it is one of a large part, or tells which. */
static bool says_large(const char *label)
{
    bool any = false;
    for (size_t i = 0; label[i] != '\0'; i++) {
        if (mf_letter_at(label + i).is != MF_LETTER || !mf_word_begins(label, i))
            continue;
        bool names = is_one(label + i, large, COUNT(large));
        any = any || names;
        if (!names && !is_one(label + i, which, COUNT(which)))
            return false;
    }
    return any;
}

bool mf_small_part(const mf_component *component)
{
    const char *label = mf_or_empty(component->label);
    if (component->type == MF_COMP_WALL)
        return mf_words_hold_one(label, small, COUNT(small));
    return component->type != MF_COMP_OTHER || !says_large(label);
}

/* Of what nobody named, each is of a type of its own. */
bool mf_same_part_type(const mf_component *a, const mf_component *b)
{
    bool labelled = a->type == MF_COMP_OTHER || a->type == MF_COMP_WALL;
    if (a->type != b->type || a->side != b->side)
        return false;
    if (!labelled || mf_same(a->id, b->id))
        return true;
    return mf_given(a->label) && mf_same_room(a->label, b->label);
}
