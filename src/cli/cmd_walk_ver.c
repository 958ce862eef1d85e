/* verification walk: what the rule wants next of each sill and section, with the
 * clock of the wait after the second darker wet cloth. */
#include "cli/walk.h"

#include "base/fail.h"

#include <inttypes.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A sill, or one section of a floor or countertop. */
typedef struct mf_spot {
    const char *surface;
    int64_t section, sections;
    bool sill;
    mf_ver_section state;
} mf_spot;

typedef struct ver_walk {
    mf_walk walk;
    mf_spot *spots;
    int n, at, room;
    int64_t wait; /* minutes of the rule's wait */
    bool looked, beeped, why;
} ver_walk;

static int64_t now_of(const mf_cli *cli)
{
    return (int64_t)cli->today * INT64_C(24) * 60 + cli->minute;
}

/* Room for each sill and section of the area. */
static bool make_room(ver_walk *w, const mf_area *area)
{
    int64_t n = 1;
    const mf_job *job = w->walk.job;
    for (size_t i = 0; i < job->n_surface; i++)
        if (strcmp(job->surface[i].area, area->id) == 0)
            n += mf_sections_of(job, &job->surface[i]);
    if (w->spots != NULL && n <= w->room)
        return true;
    mf_spot *spots = n > INT_MAX ? NULL : realloc(w->spots, (size_t)n * sizeof *spots);
    if (spots == NULL)
        return false;
    w->spots = spots;
    w->room = (int)n;
    return true;
}

static void add_spots(ver_walk *w, const mf_area *area, const mf_surface *surface)
{
    int64_t sections = mf_sections_of(w->walk.job, surface);
    for (int64_t s = 1; s <= sections; s++) {
        mf_spot *spot = &w->spots[w->n++];
        *spot = (mf_spot){surface->id, s, sections, surface->kind == MF_SURFACE_SILL, {0}};
        mf_verification_replay(w->walk.job, area, surface, s, &spot->state);
    }
}

static mf_status list_spots(ver_walk *w, mf_err *err)
{
    mf_ver_area whole;
    const mf_job *job = w->walk.job;
    const mf_area *area = mf_job_area(job, w->walk.area);
    w->n = 0;
    if (area != NULL) { /* NULL: withdrawn at another keyboard in the meantime */
        if (!make_room(w, area))
            return mf_fail_memory(err);
        mf_verification_area(job, area, &whole);
        w->looked = whole.looked_clean;
        for (size_t i = 0; i < job->n_surface; i++)
            if (strcmp(job->surface[i].area, area->id) == 0)
                add_spots(w, area, &job->surface[i]);
    }
    w->at = w->at < w->n ? w->at : -1;
    return MF_OK;
}

static int64_t minutes_left(const ver_walk *w, const mf_spot *spot)
{
    if (spot->state.wait_from == MF_NUM_NONE) /* nobody knows since when: what follows is refused */
        return 0;
    int64_t left = spot->state.wait_from + w->wait - now_of(w->walk.cli);
    return left > 0 ? left : 0;
}

/* Whether it was seen dry, and another section of the surface that waits was not: no dry cloth
 * before all of it is dry. */
static bool rest_is_wet(const ver_walk *w, const mf_spot *spot)
{
    bool dry = spot->state.state == MF_VS_WAITING && spot->state.dry_seen != MF_NUM_NONE;
    for (int i = 0; dry && i < w->n; i++) {
        const mf_spot *it = &w->spots[i];
        if (strcmp(it->surface, spot->surface) == 0 && it->state.state == MF_VS_WAITING &&
            it->state.dry_seen == MF_NUM_NONE)
            return true;
    }
    return false;
}

/* A spot that can go on now: it is not clean and not merely waiting for time. */
static bool ready(const ver_walk *w, const mf_spot *spot)
{
    if (spot->state.state == MF_VS_CLEAN)
        return false;
    if (spot->state.state != MF_VS_WAITING)
        return true;
    return minutes_left(w, spot) == 0 && !rest_is_wet(w, spot);
}

static int clean_of(const ver_walk *w)
{
    int n = 0;
    for (int i = 0; i < w->n; i++)
        n += w->spots[i].state.state == MF_VS_CLEAN;
    return n;
}

/* The next spot from `from` on: one that can go on now, else one that waits. */
static void go_to_next(ver_walk *w, int from)
{
    int waiting = -1;
    for (int i = 0; i < w->n; i++) {
        int at = (from + i) % w->n;
        if (ready(w, &w->spots[at])) {
            w->at = at;
            return;
        }
        if (waiting < 0 && w->spots[at].state.state == MF_VS_WAITING)
            waiting = at;
    }
    w->at = waiting;
}

/* The wait that ends first, or NULL. */
static const mf_spot *first_wait(const ver_walk *w)
{
    const mf_spot *first = NULL;
    for (int i = 0; i < w->n; i++)
        if (w->spots[i].state.state == MF_VS_WAITING &&
            (first == NULL || w->spots[i].state.wait_from < first->state.wait_from))
            first = &w->spots[i];
    return first;
}

/* ---- the screen ---------------------------------------------------------------------- */

static void name_of(const mf_spot *spot, char out[96])
{
    if (spot->sections > 1)
        snprintf(out, 96, "%s %" PRId64 "/%" PRId64, spot->surface, spot->section, spot->sections);
    else
        snprintf(out, 96, "%s", spot->surface);
}

static void show_wait(const ver_walk *w, const mf_spot *spot, char *out, size_t size)
{
    const int64_t day = INT64_C(24) * 60;
    char until[MF_MINUTE_TEXT], name[96];
    name_of(spot, name);
    mf_minute_text((int32_t)((spot->state.wait_from + w->wait) % day), until);
    snprintf(out, size, "%s: %s %s (%" PRId64 " min)", name, mf_walk_word(&w->walk, "walk.wait"),
             until, minutes_left(w, spot));
}

/* What is asked of a spot now, and the keys for it. */
static const char *ask_of(const ver_walk *w, const mf_spot *spot, const char **keys)
{
    switch (spot->state.state) {
    case MF_VS_UNWIPED:
        *keys = "walk.keys-wet";
        return "walk.ver-first";
    case MF_VS_RECLEAN:
        *keys = "walk.keys-reclean";
        return "walk.ver-reclean";
    case MF_VS_SECOND:
        *keys = spot->sill ? "walk.keys-second-sill" : "walk.keys-wet";
        return spot->sill ? "walk.ver-second-sill" : "walk.ver-second";
    case MF_VS_WAITING:
        if (spot->state.dry_seen == MF_NUM_NONE) {
            *keys = "walk.keys-seen-dry";
            return "walk.ver-dry";
        }
        if (rest_is_wet(w, spot)) {
            *keys = "walk.keys-wait";
            return "walk.ver-rest";
        }
        *keys = minutes_left(w, spot) > 0 ? "walk.keys-wait" : "walk.keys-dry-cloth";
        return minutes_left(w, spot) > 0 ? "walk.ver-wait" : "walk.ver-dry-cloth";
    case MF_VS_CLEAN:
        break;
    }
    *keys = "walk.keys-verified";
    return "ver.clean";
}

/* "(sill, W01)": an id alone does not say where to wipe. */
static void show_place(const mf_walk *walk, const char *surface)
{
    for (size_t i = 0; i < walk->job->n_surface; i++) {
        const mf_surface *it = &walk->job->surface[i];
        if (strcmp(it->id, surface) != 0 || strcmp(it->area, walk->area) != 0)
            continue;
        printf(
            "%s(%s, ", mf_cli_columns() < 78 ? "\n  " : "   ",
            mf_words2(walk->cli->lang, "choice", mf_cli_choice("surface", "kind", (int)it->kind)));
        mf_cli_text(stdout, it->place, mf_cli_letters(it->place, strlen(it->place), 40));
        putchar(')');
    }
}

static void show_spot(ver_walk *w, const mf_spot *spot, const char **keys)
{
    char name[96], line[200];
    name_of(spot, name);
    mf_term_gap();
    printf("  ");
    mf_term_bold(name);
    printf("   %d %s, %d %s", spot->state.wet, mf_walk_word(&w->walk, "ver.wet"), spot->state.dry,
           mf_walk_word(&w->walk, "ver.dry"));
    if (!mf_term_low())
        show_place(&w->walk, spot->surface);
    putchar('\n');
    const char *ask = mf_walk_word(&w->walk, ask_of(w, spot, keys));
    if (!w->why || !mf_term_low()) { /* a reason takes its place there */
        mf_term_gap();
        printf("  ");
        mf_cli_wrap(ask, 2, 2);
    }
    const mf_spot *wait = first_wait(w);
    if (wait != NULL && minutes_left(w, wait) > 0) {
        show_wait(w, wait, line, sizeof line);
        mf_term_gap();
        printf("  ");
        mf_cli_wrap(line, 2, 2);
    }
}

/* Outside, and where all is carpet, there is nothing to wipe. */
static const char *end_words(const ver_walk *w)
{
    if (w->n == 0)
        return w->walk.gate_open ? "walk.ver-end-look" : "walk.ver-end-look-shut";
    return w->walk.gate_open ? "walk.ver-end" : "walk.ver-end-shut";
}

static const char *show(ver_walk *w)
{
    char left[120];
    const char *keys = "walk.keys-verified";
    mf_walk *walk = &w->walk;
    snprintf(left, sizeof left, "%s %d/%d, %s: %d", mf_walk_word(walk, "ver.clean"), clean_of(w),
             w->n, mf_walk_word(walk, "walk.left"), w->n - clean_of(w));
    mf_walk_head(walk, left);
    if (!w->looked) {
        mf_term_gap();
        printf("  ");
        mf_cli_wrap(mf_walk_word(walk, "walk.ver-look"), 2, 2);
        keys = "walk.keys-look";
    } else if (w->at >= 0) {
        show_spot(w, &w->spots[w->at], &keys);
    } else {
        mf_term_gap();
        printf("  ");
        mf_cli_wrap(mf_walk_word(walk, end_words(w)), 2, 2);
        if (!walk->gate_open)
            printf("    mistfold gate %s signs --area %s\n", walk->job_id, walk->area);
    }
    if (w->why) {
        mf_term_gap();
        printf("  %s ", mf_walk_word(walk, "walk.why"));
        mf_cli_wrap(mf_walk_word(walk, w->looked ? "walk.ver-why" : "walk.ver-why-look"), 2,
                    mf_walk_why_column(walk));
    }
    snprintf(left, sizeof left, "%s %s", mf_walk_word(walk, "walk.by"), walk->renovator);
    if (!w->why || !mf_term_low()) /* a reason is long */
        mf_walk_by(left);
    mf_walk_foot(walk, keys);
    return keys;
}

/* ---- answers ---------------------------------------------------------------------------- */

static mf_status log_event(ver_walk *w, const mf_spot *spot, const char *event, const char *cloth,
                           mf_err *err)
{
    mf_walk_entry entry;
    char section[24], name[96] = "", what[200];
    mf_walk_entry_begin(&w->walk, &entry);
    mf_args_put(&entry.args, "event", event);
    mf_args_put(&entry.args, "person", w->walk.renovator);
    if (spot != NULL) {
        snprintf(section, sizeof section, "%" PRId64, spot->section);
        mf_args_put(&entry.args, "surface", spot->surface);
        mf_args_put(&entry.args, "section", section);
        name_of(spot, name);
    }
    const char *words = mf_words2(w->walk.cli->lang, "paper.wipe", event);
    snprintf(what, sizeof what, "%s%s%s", name, name[0] ? ": " : "", words == NULL ? event : words);
    if (cloth != NULL)
        mf_args_put(&entry.args, "cloth", cloth);
    mf_status status = mf_log_verification(w->walk.cli, &entry.args, err);
    return mf_walk_logged(&w->walk, status, what, err);
}

/* A key at a spot: the event it stands for where the spot is, or NULL. */
static const char *event_of(const ver_walk *w, const mf_spot *spot, int key, const char **cloth)
{
    bool wet = spot->state.state == MF_VS_UNWIPED || spot->state.state == MF_VS_SECOND;
    *cloth = NULL;
    if (wet && (key == 'm' || key == 'd')) {
        *cloth = "new";
        return key == 'm' ? "wet-match" : "wet-darker";
    }
    /* A fresh fold of the same cloth: the second wet cloth of a sill only. */
    if (spot->state.state == MF_VS_SECOND && spot->sill && (key == 'f' || key == 'g')) {
        *cloth = "fresh-fold";
        return key == 'f' ? "wet-match" : "wet-darker";
    }
    if (spot->state.state == MF_VS_RECLEAN && key == 'c')
        return "recleaned";
    if (spot->state.state != MF_VS_WAITING)
        return NULL;
    if (spot->state.dry_seen == MF_NUM_NONE && key == 'y')
        return "seen-dry";
    bool dry = spot->state.dry_seen != MF_NUM_NONE && !rest_is_wet(w, spot);
    if (dry && key == 'c' && minutes_left(w, spot) == 0) {
        *cloth = "new";
        return "dry-wipe";
    }
    return NULL;
}

static mf_status spot_key(ver_walk *w, int key, mf_err *err)
{
    const char *cloth;
    const mf_spot *spot = &w->spots[w->at];
    const char *event = event_of(w, spot, key, &cloth);
    if (key == 's' || key == ' ')
        go_to_next(w, w->at + 1);
    else if (key == 'b')
        w->at -= w->at > 0;
    else if (event == NULL)
        mf_walk_no_key(&w->walk, key);
    if (event == NULL)
        return MF_OK;
    int at = w->at;
    mf_status status = log_event(w, spot, event, cloth, err);
    if (status == MF_OK)
        status = list_spots(w, err);
    w->beeped = false;
    if (status == MF_OK && (at >= w->n || !ready(w, &w->spots[at])))
        go_to_next(w, at + 1);
    return status;
}

/* Dust that is seen sends every sill and section back to the start. */
static bool sure(ver_walk *w)
{
    int key = MF_KEY_NONE;
    while (key == MF_KEY_NONE) {
        snprintf(w->walk.said, sizeof w->walk.said, "%s", mf_walk_word(&w->walk, "walk.ver-sure"));
        show(w);
        key = mf_term_key(&w->walk.term, -1);
    }
    return key == 'y';
}

static mf_status key_of(ver_walk *w, int key, mf_err *err)
{
    mf_status status = MF_OK;
    if (key == 'w') {
        w->why = !w->why;
    } else if (key == 'i') {
        return mf_walk_who(&w->walk, true) ? MF_OK : MF_NO;
    } else if (!w->looked && (key == 'c' || key == 'd')) {
        status = log_event(w, NULL, key == 'c' ? "look-clean" : "look-dirty", NULL, err);
        if (status == MF_OK)
            status = list_spots(w, err);
        go_to_next(w, 0);
    } else if (w->looked && key == 'x') {
        if (!sure(w))
            return MF_OK;
        status = log_event(w, NULL, "look-dirty", NULL, err);
        if (status == MF_OK)
            status = list_spots(w, err);
    } else if (w->looked && w->at >= 0) {
        status = spot_key(w, key, err);
    } else {
        mf_walk_no_key(&w->walk, key);
    }
    return status;
}

/* Rings once when a wait is over. */
static void ring(ver_walk *w)
{
    const mf_spot *wait = first_wait(w);
    if (wait == NULL || w->beeped || minutes_left(w, wait) > 0)
        return;
    w->beeped = true;
    fputs("\a", stdout);
}

static mf_status walk_verification(ver_walk *w, mf_err *err)
{
    mf_status status = list_spots(w, err);
    /* the stricter wait of a place, too */
    w->wait = mf_limit_for(w->walk.job, MF_LIMIT_DRY_WAIT, w->walk.cli->today)->value;
    go_to_next(w, 0);
    while (status == MF_OK) {
        show(w);
        ring(w);
        int key = mf_term_key(&w->walk.term, 20);
        if (key == 'q' || key == MF_KEY_LEAVE)
            return MF_NO;
        mf_cli_clock(w->walk.cli);
        status = key == MF_KEY_NONE ? MF_OK : key_of(w, key, err);
        if (status == MF_OK && key == MF_KEY_NONE && w->at >= 0 && !ready(w, &w->spots[w->at]))
            go_to_next(w, w->at);
    }
    return status;
}

/* Wipes belong to interior areas with surfaces; without them there is nothing to ask. */
static mf_status check_area(const mf_walk *walk, mf_err *err)
{
    const mf_area *area = mf_job_area(walk->job, walk->area);
    for (size_t i = 0; i < walk->job->n_surface; i++)
        if (strcmp(walk->job->surface[i].area, walk->area) == 0)
            return MF_OK;
    if (area->side == MF_SIDE_EXTERIOR)
        return MF_OK;
    return mf_failf(err, MF_INPUT, walk->area,
                    "40 CFR 745.85(b) asks for each sill, floor and "
                    "countertop of the work area",
                    "add them: mistfold surface add, or 4 in mistfold job walk --job JOB",
                    "no surface of it was listed to be wiped");
}

mf_status mf_cmd_walk_verification(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    ver_walk w = {.at = -1};
    mf_status status = mf_walk_open(&w.walk, cli, cmd, args, MF_GATE_SIGNS,
                                    "use \"mistfold verification log\" instead", &err);
    if (status == MF_OK)
        status = check_area(&w.walk, &err);
    if (status == MF_OK && !mf_walk_who(&w.walk, true))
        status = MF_NO;
    if (status == MF_OK && w.walk.renovator[0] == '\0')
        status = mf_fail(&err, MF_INPUT, "verification", "only a certified renovator verifies",
                         "40 CFR 745.85(b), 745.90(b)", "come back with one");
    if (status == MF_OK)
        status = walk_verification(&w, &err);
    free(w.spots);
    return mf_walk_close(&w.walk, status, &err);
}
