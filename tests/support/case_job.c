/* Jobs from lines of text: every kind is filled through its table of fields. */
#include "support/case_job.h"

#include <mistfold/contain.h>
#include <mistfold/place.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void case_split(case_line *out, char *text)
{
    char *at = text;
    out->n = 0;
    while (out->n < CASE_WORDS) {
        at += strspn(at, " \t\n");
        if (*at == '\0' || *at == '#')
            return;
        bool quoted = *at == '"';
        at += quoted;
        out->word[out->n++] = at;
        at += strcspn(at, quoted ? "\"" : " \t\n");
        if (*at == '\0')
            return;
        *at++ = '\0';
    }
}

/* ---- lists ------------------------------------------------------------------------- */

static unsigned char *list_member(case_job *made, const mf_kind *kind)
{
    return (unsigned char *)&made->job + kind->list_offset;
}

size_t case_count(case_job *made, const mf_kind *kind)
{
    size_t n;
    memcpy(&n, list_member(made, kind) + sizeof(void *), sizeof n);
    return n;
}

static void set_count(case_job *made, const mf_kind *kind, size_t n)
{
    memcpy(list_member(made, kind) + sizeof(void *), &n, sizeof n);
}

unsigned char *case_item(case_job *made, const mf_kind *kind, size_t i)
{
    void *list;
    memcpy(&list, list_member(made, kind), sizeof list);
    return (unsigned char *)list + i * kind->size;
}

/* Copies every list of the fixture into one with room for more. */
static bool roomy(case_job *made)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    if (n_kinds > CASE_KINDS)
        return false;
    made->job = made->fx.job;
    for (size_t k = 0; k < n_kinds; k++) {
        size_t n = case_count(made, &kinds[k]);
        void *list = calloc(CASE_LIST, kinds[k].size);
        if (list == NULL || n > CASE_LIST)
            abort();
        if (n > 0)
            memcpy(list, case_item(made, &kinds[k], 0), n * kinds[k].size);
        made->list[k] = list;
        memcpy(list_member(made, &kinds[k]), &list, sizeof list);
    }
    return true;
}

static void before_work(fixture *fx)
{
    mf_job *job = &fx->job;
    job->n_tick = job->n_practice = job->n_verification = job->n_dust_sample = 0;
    job->n_completion = job->n_invoice = job->n_handover = job->n_certification = 0;
    job->n_sealed = job->n_correction = 0;
}

/* Everything set up for the first morning, and nothing torn out yet. */
static void contained(fixture *fx)
{
    size_t kept = 0;
    for (size_t i = 0; i < fx->job.n_tick; i++)
        if (mf_step_named(fx->tick[i].step)->phase == MF_PHASE_CONTAIN)
            fx->tick[kept++] = fx->tick[i];
    before_work(fx);
    fx->job.n_tick = kept;
}

/* A job of which nothing has been said yet, in a book that is whole. */
static void nothing_said(fixture *fx)
{
    fx->job.id = "J-1";
    fx->job.integrity = MF_INTEGRITY_GOOD;
}

bool case_base(case_job *made, const char *name)
{
    memset(made, 0, sizeof *made);
    if (strcmp(name, "empty") == 0)
        nothing_said(&made->fx);
    else if (strcmp(name, "facility") == 0)
        fx_facility(&made->fx);
    else if (strcmp(name, "units") == 0)
        fx_multi_unit(&made->fx);
    else if (strcmp(name, "assisted") == 0)
        fx_assisted(&made->fx);
    else if (strcmp(name, "assisted-minor") == 0)
        fx_assisted_minor(&made->fx);
    else if (strcmp(name, "dwelling") == 0 || strcmp(name, "before") == 0 ||
             strcmp(name, "contained") == 0)
        fx_good(&made->fx);
    else
        return false;
    if (strcmp(name, "before") == 0)
        before_work(&made->fx);
    if (strcmp(name, "contained") == 0)
        contained(&made->fx);
    return roomy(made);
}

void case_free(case_job *made)
{
    for (size_t k = 0; k < CASE_KINDS; k++)
        free(made->list[k]);
    memset(made, 0, sizeof *made);
}

/* ---- fields -------------------------------------------------------------------------- */

const char *case_keep(case_job *made, const char *text)
{
    size_t size = strlen(text) + 1;
    if (made->used + size > CASE_TEXT)
        abort();
    char *at = made->text + made->used;
    memcpy(at, text, size);
    made->used += size;
    return at;
}

static bool is_text(const mf_field *field)
{
    return field->type == MF_F_TEXT || field->type == MF_F_ID || field->type == MF_F_IDS;
}

/* mf_day, minutes and enums are 32 bits wide */
size_t case_width(const mf_field *field)
{
    bool small = field->type == MF_F_DATE || field->type == MF_F_TIME ||
                 field->type == MF_F_CHOICE || field->type == MF_F_YESNO;
    return small ? sizeof(int32_t) : sizeof(int64_t);
}

static void put(const mf_field *field, unsigned char *item, int64_t number, const char *text)
{
    unsigned char *at = item + field->offset;
    int32_t small = (int32_t)number;
    if (is_text(field))
        memcpy(at, &text, sizeof text);
    else if (case_width(field) == sizeof small)
        memcpy(at, &small, sizeof small);
    else
        memcpy(at, &number, sizeof number);
}

void case_set_number(const mf_field *field, unsigned char *item, int64_t number)
{
    put(field, item, number, "");
}

/* As a field that was not given reads (job.h). */
static void blank(const mf_field *field, unsigned char *item)
{
    int64_t number = MF_NUM_NONE;
    if (field->type == MF_F_DATE)
        number = MF_DAY_NONE;
    else if (field->type == MF_F_TIME)
        number = MF_MINUTE_NONE;
    else if (field->type == MF_F_CHOICE || field->type == MF_F_YESNO)
        number = 0;
    put(field, item, number, "");
}

bool case_blank(const mf_field *field, unsigned char *item)
{
    unsigned char before[sizeof(int64_t)] = {0}, *at = item + field->offset;
    const char *text = "";
    if (is_text(field)) {
        memcpy(&text, at, sizeof text);
        blank(field, item);
        return text != NULL && text[0] != '\0';
    }
    memcpy(before, at, case_width(field));
    blank(field, item);
    return memcmp(before, at, case_width(field)) != 0;
}

/* An entry has one sign: "more than" beats "less than", and that an exact number, in whatever order
 * a line says them. */
static void sign(const mf_kind *kind, unsigned char *item, int64_t said)
{
    const mf_field *qualifier = mf_field_named(kind, "qualifier");
    mf_qualifier now;
    if (qualifier == NULL)
        return;
    memcpy(&now, item + qualifier->offset, sizeof now);
    if (said == MF_QUAL_OVER || now == MF_QUAL_EXACT)
        put(qualifier, item, said, "");
}

static bool is_sign(const mf_kind *kind, const mf_field *field)
{
    return field == mf_field_named(kind, "qualifier");
}

static bool set(case_job *made, const mf_kind *kind, unsigned char *item, const char *option,
                const char *value)
{
    const mf_field *field = mf_field_named(kind, option);
    mf_parsed parsed = {0};
    if (field == NULL) {
        snprintf(made->problem, sizeof made->problem, "%s has no option --%s", kind->name, option);
        return false;
    }
    if (strcmp(value, "none") == 0 && field->type != MF_F_CHOICE) {
        blank(field, item);
        return true;
    }
    mf_slip slip = mf_field_parse(field, value, "", MF_DAY_NONE, &parsed);
    if (slip != MF_SLIP_NONE) {
        snprintf(made->problem, sizeof made->problem, "--%s \"%s\": %s", option, value,
                 mf_slip_name(slip));
        return false;
    }
    if (is_sign(kind, field))
        sign(kind, item, parsed.number);
    else
        put(field, item, parsed.number, is_text(field) ? case_keep(made, value) : "");
    if ((field->flags & MF_F_QUALIFIED) != 0)
        sign(kind, item, (int64_t)parsed.qualifier);
    return true;
}

/* ---- lines ---------------------------------------------------------------------------- */

static int first_option(const case_line *line)
{
    int i = 2;
    while (i < line->n && strncmp(line->word[i], "--", 2) != 0)
        i++;
    return i;
}

/* A line that says a number anew says its sign anew, whichever of two it is of. */
static void unsay_sign(const mf_kind *kind, unsigned char *item, const case_line *line)
{
    for (int i = first_option(line); i < line->n; i += 2) {
        const char *word = line->word[i];
        const mf_field *field = strncmp(word, "--", 2) == 0 ? mf_field_named(kind, word + 2) : NULL;
        if (field != NULL && ((field->flags & MF_F_QUALIFIED) != 0 || is_sign(kind, field)))
            blank(mf_field_named(kind, "qualifier"), item);
    }
}

static bool set_all(case_job *made, const mf_kind *kind, unsigned char *item, const case_line *line)
{
    unsay_sign(kind, item, line);
    for (int i = first_option(line); i < line->n; i += 2) {
        if (strncmp(line->word[i], "--", 2) != 0 || i + 1 >= line->n) {
            snprintf(made->problem, sizeof made->problem, "no option and value: %s", line->word[i]);
            return false;
        }
        if (!set(made, kind, item, line->word[i] + 2, line->word[i + 1]))
            return false;
    }
    return true;
}

static bool holds_word(const mf_kind *kind, const unsigned char *item, const char *word)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        const char *text = "";
        if (!is_text(&kind->fields[i]))
            continue;
        memcpy(&text, item + kind->fields[i].offset, sizeof text);
        if (text != NULL && strcmp(text, word) == 0)
            return true;
    }
    return false;
}

static bool holds_all(const mf_kind *kind, const unsigned char *item, const case_line *line)
{
    for (int i = 2; i < first_option(line); i++) {
        if (!holds_word(kind, item, line->word[i]))
            return false;
    }
    return true;
}

static bool add(case_job *made, const mf_kind *kind, const case_line *line)
{
    size_t n = case_count(made, kind);
    char entry[32];
    if (n >= CASE_LIST)
        abort();
    unsigned char *item = case_item(made, kind, n);
    memset(item, 0, kind->size);
    for (size_t i = 0; i < kind->n_fields; i++)
        blank(&kind->fields[i], item);
    snprintf(entry, sizeof entry, "case/%zu", made->used);
    const mf_src src = {case_keep(made, entry), "", "rosa", ""};
    memcpy(item, &src, sizeof src); /* every kind begins with its source */
    set_count(made, kind, n + 1);
    return set_all(made, kind, item, line);
}

static bool change(case_job *made, const mf_kind *kind, const case_line *line)
{
    for (size_t i = case_count(made, kind); i > 0; i--) {
        unsigned char *item = case_item(made, kind, i - 1);
        if (holds_all(kind, item, line))
            return set_all(made, kind, item, line);
    }
    snprintf(made->problem, sizeof made->problem, "no such %s to change", kind->name);
    return false;
}

void case_take_away(case_job *made, const mf_kind *kind, size_t i)
{
    size_t n = case_count(made, kind);
    unsigned char *at = case_item(made, kind, i);
    memmove(at, at + kind->size, (n - i - 1) * kind->size);
    set_count(made, kind, n - 1);
}

void case_put_back(case_job *made, const mf_kind *kind, size_t i, const void *item)
{
    size_t n = case_count(made, kind);
    unsigned char *at = case_item(made, kind, i);
    memmove(at + kind->size, at, (n - i) * kind->size);
    memcpy(at, item, kind->size);
    set_count(made, kind, n + 1);
}

static bool drop(case_job *made, const mf_kind *kind, const case_line *line)
{
    size_t n = case_count(made, kind), kept = 0;
    for (size_t i = 0; i < n; i++) {
        unsigned char *item = case_item(made, kind, i);
        if (holds_all(kind, item, line))
            continue;
        memmove(case_item(made, kind, kept++), item, kind->size);
    }
    set_count(made, kind, kept);
    snprintf(made->problem, sizeof made->problem, "no such %s to drop", kind->name);
    return kept < n;
}

/* A correction made on another device: of the same entry, in other words. */
static bool correct(case_job *made, const case_line *line)
{
    size_t n = made->job.n_correction;
    if (line->n != 4 || n >= FX_FEW) {
        snprintf(made->problem, sizeof made->problem, "correct ENTRY BY-ENTRY BODY");
        return false;
    }
    made->fx.correction[n] = (mf_correction){.src = {case_keep(made, line->word[2]), "", "lee", ""},
                                             .target = case_keep(made, line->word[1]),
                                             .replaces = case_keep(made, line->word[1]),
                                             .kind = "surface",
                                             .reason = "measured again",
                                             .before = "",
                                             .after = case_keep(made, line->word[3])};
    made->job.n_correction = n + 1;
    return true;
}

/* What a row of a place says of its limit, as it is worked out when a book is read. */
static bool with_limits(case_job *made, const mf_kind *kind, bool good)
{
    for (size_t i = 0; kind == mf_kind_named("local_limit") && i < case_count(made, kind); i++)
        mf_local_limit_fill((mf_local_limit *)(void *)case_item(made, kind, i));
    return good;
}

/* When it is where it is asked, and how many minutes its zone is ahead. */
static bool clock_of(case_job *made, const case_line *line)
{
    if (line->n != 3) {
        snprintf(made->problem, sizeof made->problem, "clock UTC MINUTES");
        return false;
    }
    made->job.clock = (mf_clock){case_keep(made, line->word[1]), strtol(line->word[2], NULL, 10)};
    return true;
}

bool case_apply(case_job *made, const case_line *line)
{
    if (strcmp(line->word[0], "correct") == 0)
        return correct(made, line);
    if (strcmp(line->word[0], "altered") == 0) {
        made->job.integrity = MF_INTEGRITY_BROKEN;
        return true;
    }
    if (strcmp(line->word[0], "clock") == 0)
        return clock_of(made, line);
    const mf_kind *kind = line->n < 2 ? NULL : mf_kind_named(line->word[1]);
    if (kind == NULL) {
        snprintf(made->problem, sizeof made->problem, "no kind of entry");
        return false;
    }
    if (strcmp(line->word[0], "add") == 0)
        return with_limits(made, kind, add(made, kind, line));
    if (strcmp(line->word[0], "change") == 0)
        return with_limits(made, kind, change(made, kind, line));
    return drop(made, kind, line);
}
