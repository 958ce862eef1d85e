/* What two devices said of one thing without knowing of each other. A device refuses a
 * second entry of a thing; after a merge there may be two, and both stay until one of them is
 * corrected or withdrawn. Records that contradict each other show nothing (40 CFR 745.86(a)). */
#include "core/audit_rows.h"

#include "core/minor.h"
#include "core/named.h"
#include "core/text.h"
#include "core/two_terms.h"
#include <mistfold/address.h>

enum { MOST = 50 }; /* that are told of one job; the next ones when these are settled */

static const char *text_at(const void *item, const mf_field *field)
{
    const char *text;
    memcpy(&text, (const unsigned char *)item + field->offset, sizeof text);
    return mf_or_empty(text);
}

/* By what a person tells one thing of the kind from another; NULL = by nothing. */
static const mf_field *name_of(const mf_kind *kind)
{
    return mf_same(kind->name, "certificate") ? mf_field_named(kind, "number") : mf_kind_key(kind);
}

/* The firm's own things concern the job that names them: its instruments, its people and their
 * certificates. A step of the firm's own is no requirement. */
static bool concerns(const mf_job *job, const mf_kind *kind, const void *item)
{
    if (!kind->of_firm)
        return true;
    if (mf_same(kind->name, "certificate")) {
        const char *holder = mf_or_empty(((const mf_certificate *)item)->holder);
        return mf_same(holder, "firm") || mf_job_names(job, "person", holder, strlen(holder));
    }
    if (!mf_same(kind->name, "instrument") && !mf_same(kind->name, "person"))
        return false;
    const char *id = text_at(item, mf_kind_key(kind));
    return mf_job_names(job, kind->name, id, strlen(id));
}

/* A certificate has no id, and one that is renewed may keep its number. */
static const unsigned char *last_term(const mf_job *job, size_t i)
{
    const mf_certificate *it = &job->certificate[i], *last = it, *other = it;
    while ((other = mf_certificate_contradicting(job, it, other)) != NULL)
        last = other;
    return (const unsigned char *)last;
}

static const unsigned char *last_of(const mf_job *job, const mf_kind *kind,
                                    const unsigned char *items, size_t count, size_t i)
{
    const unsigned char *last = items + (count - 1) * kind->size;
    if (kind->once)
        return last;
    if (mf_same(kind->name, "certificate"))
        return last_term(job, i);
    const mf_field *key = mf_kind_key(kind);
    const char *id = text_at(items + i * kind->size, key);
    if (mf_same(kind->name, "component")) /* of which there are most */
        return (const unsigned char *)mf_job_component(job, id);
    while (!mf_same(text_at(last, key), id))
        last -= kind->size;
    return last;
}

static bool may_be_again(const mf_kind *kind)
{
    return kind->once || name_of(kind) != NULL;
}

/* The index-th entry after which another one names the same thing; how many there are up to
 * it. */
static size_t find_again(const mf_job *job, size_t index, mf_again *out)
{
    size_t n = 0, n_kinds, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        const unsigned char *items = mf_kind_items(job, &kinds[k], &count);
        if (!may_be_again(&kinds[k]))
            continue;
        for (size_t i = 0; i < count && n <= index; i++) {
            const unsigned char *item = items + i * kinds[k].size;
            const unsigned char *last = last_of(job, &kinds[k], items, count, i);
            if (last == item || !concerns(job, &kinds[k], item))
                continue;
            *out = (mf_again){&kinds[k], item, last};
            n++;
        }
    }
    return n;
}

size_t mf_again_count(const mf_job *job)
{
    mf_again found;
    return find_again(job, MOST - 1, &found);
}

mf_again mf_again_at(const mf_job *job, size_t index)
{
    mf_again found = {NULL, NULL, NULL};
    find_again(job, index, &found);
    return found;
}

const char *mf_again_name(const mf_again *again)
{
    return again->kind->once ? again->kind->name : text_at(again->item, name_of(again->kind));
}

const char *mf_entry_of(const void *item)
{
    const mf_src *src = item; /* the first member of every kind */
    return mf_or_empty(src->entry);
}

/* ---- one thing, or two? ------------------------------------------------------------------- */

static bool same_address(const char *a, const char *b)
{
    return mf_may_be_one_place(a, "", b, "");
}

/* The fields by which somebody at the job tells one thing from another. Where two entries of one
 * id differ in one of them, what else names the id may mean either. */
static const struct {
    const char *kind, *field;
    bool (*same)(const char *a, const char *b);
} tells_apart[] = {
    {"house", "address", same_address}, {"house", "unit", mf_same_unit}, {"party", "name", mf_same},
    {"area", "place", mf_same_room},    {"area", "side", mf_same},
};

/* The field by which the two are two things, NULL = none; what is not said tells nothing. */
static const mf_field *two_by(const mf_again *again)
{
    for (size_t i = 0; i < sizeof tells_apart / sizeof tells_apart[0]; i++) {
        if (!mf_same(again->kind->name, tells_apart[i].kind))
            continue;
        const mf_field *field = mf_field_named(again->kind, tells_apart[i].field);
        const mf_value a = mf_item_value(field, again->item);
        const mf_value b = mf_item_value(field, again->last);
        if (a.given && b.given && !tells_apart[i].same(a.text, b.text))
            return field;
    }
    return NULL;
}

static bool say_again(const mf_again *again, mf_finding *out)
{
    const mf_field *field = mf_item_differs(again->kind, again->item, again->last);
    mf_say(out, MF_MET, "said-alike");
    out->other = mf_entry_of(again->last);
    if (field != NULL)
        out->field = field->option;
    return field != NULL;
}

void mf_show_said_twice(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    if (say_again(&subject->again, out))
        mf_say(out, MF_LACKING, "said-otherwise");
}

/* The other questions are answered by whichever entry is the stricter, as far as all of them
 * could be judged. */
void mf_show_said_stricter(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    if (!say_again(&subject->again, out))
        return;
    if (mf_same(subject->again.kind->name, "person")) {
        mf_say(out, MF_LACKING, "said-person-twice"); /* whose certificates they are, who knows? */
        return;
    }
    const mf_field *field = two_by(&subject->again);
    bool party = mf_same(subject->again.kind->name, "party"); /* who is told, and decides no more */
    if (field != NULL && (!party || mf_records_owed(asked))) {
        mf_say(out, MF_LACKING, "said-two-things");
        out->field = field->option;
        return;
    }
    mf_say(out, asked->too_many ? MF_LACKING : MF_WARNING,
           asked->too_many ? "said-too-often" : "said-stricter");
}

void mf_say_two_terms(const mf_job *job, const mf_certificate *it, mf_finding *out)
{
    const mf_certificate *other = mf_certificate_contradicting(job, it, NULL);
    if (other == NULL)
        return;
    mf_say(out, MF_LACKING, "certificate-two-terms");
    out->other = mf_entry_of(other);
}
