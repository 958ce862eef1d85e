/* What "job walk" offers next: it follows from what is known, and every offer is a question
 * that can be left. Nothing is logged that the person was not shown. */
#include "cli/usual.h"
#include "cli/walk_job.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef enum offer_what {
    OFFER_NONE,
    OFFER_OWNER,
    OFFER_OCCUPANT,
    OFFER_OPENING,
    OFFER_PARTS,
    OFFER_INSIDE,
    OFFER_OUTSIDE,
    OFFER_SURFACES,
    OFFER_CREW,
    OFFER_NOTICE
} offer_what;

typedef struct offer {
    offer_what what;
    const mf_opening *opening; /* of the job as it is loaded now */
    const mf_area *area;
    const mf_party *party;
} offer;

/* ---- what is missing ------------------------------------------------------------------ */

static const mf_party *party_of(const mf_job *job, mf_role role)
{
    for (size_t i = 0; i < job->n_party; i++)
        if (job->party[i].role == role)
            return &job->party[i];
    return NULL;
}

static bool occupant_unknown(const mf_job *job)
{
    const mf_house *house = &job->house[0];
    return mf_is_housing(house) && house->owner_occupied != MF_YES && job->n_vacancy == 0 &&
           party_of(job, MF_ROLE_OCCUPANT) == NULL;
}

static bool replaces(const mf_job *job, mf_opening_kind kind)
{
    return mf_house_does(&job->house[0], kind == MF_OPENING_WINDOW ? MF_WORK_WINDOW_REPLACEMENT
                                                                   : MF_WORK_DOOR_REPLACEMENT);
}

static bool in_area(const mf_job *job, const mf_opening *opening, mf_side side)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (job->area[i].side == side && mf_id_in_list(job->area[i].openings, opening->id))
            return true;
    return false;
}

/* It has that side, and no work area has it there. */
static bool outside_every_area(const mf_job *job, const mf_opening *opening, mf_side side)
{
    const char *word = side == MF_SIDE_INTERIOR ? "interior" : "exterior";
    return !in_area(job, opening, side) && !mf_id_in_list(opening->absent, word);
}

static const mf_opening *first_outside(const mf_job *job, mf_side side)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (outside_every_area(job, &job->opening[i], side))
            return &job->opening[i];
    return NULL;
}

static const mf_area *without_surfaces(const mf_job *job)
{
    for (size_t i = 0; i < job->n_area; i++) {
        bool found = job->area[i].side != MF_SIDE_INTERIOR;
        for (size_t s = 0; s < job->n_surface && !found; s++)
            found = strcmp(job->surface[s].area, job->area[i].id) == 0;
        if (!found)
            return &job->area[i];
    }
    return NULL;
}

static bool has_renovator(const mf_job *job)
{
    for (size_t i = 0; i < job->n_assignment; i++)
        if (job->assignment[i].duty == MF_DUTY_RENOVATOR)
            return true;
    return false;
}

const mf_party *mf_offer_untold(const mf_job *job)
{
    for (size_t p = 0; p < job->n_party; p++) {
        bool told = false;
        for (size_t i = 0; i < job->n_notice && !told; i++)
            told = strcmp(job->notice[i].party, job->party[p].id) == 0;
        if (!told)
            return &job->party[p];
    }
    return NULL;
}

static offer find(const mf_job *job)
{
    offer it = {OFFER_NONE, NULL, NULL, NULL};
    bool openings = replaces(job, MF_OPENING_WINDOW) || replaces(job, MF_OPENING_DOOR);
    if (party_of(job, MF_ROLE_OWNER) == NULL)
        it.what = OFFER_OWNER;
    else if (occupant_unknown(job))
        it.what = OFFER_OCCUPANT;
    else if (job->n_opening == 0 && openings)
        it.what = OFFER_OPENING;
    else if ((it.opening = mf_opening_unlisted(job)) != NULL)
        it.what = OFFER_PARTS;
    else if ((it.opening = first_outside(job, MF_SIDE_INTERIOR)) != NULL)
        it.what = OFFER_INSIDE;
    else if ((it.opening = first_outside(job, MF_SIDE_EXTERIOR)) != NULL)
        it.what = OFFER_OUTSIDE;
    else if ((it.area = without_surfaces(job)) != NULL)
        it.what = OFFER_SURFACES;
    else if (!has_renovator(job))
        it.what = OFFER_CREW;
    else if ((it.party = mf_offer_untold(job)) != NULL)
        it.what = OFFER_NOTICE;
    return it;
}

/* ---- in words ----------------------------------------------------------------------------- */

/* The openings of one room, or of one side of the house, that no work area has, with commas. */
static void openings_with(const mf_job *job, const mf_opening *first, mf_side side,
                          char out[MF_WALK_LINE])
{
    size_t len = 0;
    out[0] = '\0';
    for (size_t i = 0; i < job->n_opening && len < MF_WALK_LINE; i++) {
        const mf_opening *it = &job->opening[i];
        bool same = side == MF_SIDE_INTERIOR ? mf_same_room(it->room, first->room)
                                             : mf_same_room(it->elevation, first->elevation);
        if (same && outside_every_area(job, it, side))
            len +=
                (size_t)snprintf(out + len, MF_WALK_LINE - len, "%s%s", len > 0 ? "," : "", it->id);
    }
}

/* The sills of the windows of an area, with commas. */
static void sills_in(const mf_job *job, const mf_area *area, char out[MF_WALK_LINE])
{
    size_t len = 0;
    out[0] = '\0';
    for (size_t i = 0; i < job->n_opening && len < MF_WALK_LINE; i++) {
        const mf_opening *it = &job->opening[i];
        if (mf_id_in_list(area->openings, it->id) && mf_usual_sill(it->kind, it->absent))
            len +=
                (size_t)snprintf(out + len, MF_WALK_LINE - len, "%s%s", len > 0 ? "," : "", it->id);
    }
}

/* "Work area A1, kitchen, around W01,W02": the words of the offer and what it is about. */
static void words_of(const mf_walk *walk, const offer *it, char out[MF_WALK_LINE])
{
    static const char *const ids[] = {
        [OFFER_NONE] = "",
        [OFFER_OWNER] = "offer.owner",
        [OFFER_OCCUPANT] = "offer.occupant",
        [OFFER_OPENING] = "offer.opening",
        [OFFER_PARTS] = "offer.parts",
        [OFFER_INSIDE] = "offer.inside",
        [OFFER_OUTSIDE] = "offer.outside",
        [OFFER_SURFACES] = "offer.surfaces",
        [OFFER_CREW] = "offer.crew",
        [OFFER_NOTICE] = "offer.notice",
    };
    char list[MF_WALK_LINE] = "";
    const char *about = "";
    mf_side side = it->what == OFFER_OUTSIDE ? MF_SIDE_EXTERIOR : MF_SIDE_INTERIOR;
    if (it->what == OFFER_INSIDE || it->what == OFFER_OUTSIDE)
        openings_with(walk->job, it->opening, side, list);
    if (it->what == OFFER_PARTS)
        about = it->opening->id;
    else if (it->what == OFFER_INSIDE)
        about = it->opening->room;
    else if (it->what == OFFER_OUTSIDE)
        about = it->opening->elevation;
    else if (it->what == OFFER_SURFACES)
        about = it->area->place;
    else if (it->what == OFFER_NOTICE)
        about = it->party->name;
    out[0] = '\0';
    if (it->what != OFFER_NONE)
        snprintf(out, MF_WALK_LINE, "%.120s%s%.60s%s%.90s", mf_walk_word(walk, ids[it->what]),
                 about[0] == '\0' ? "" : ": ", about, list[0] == '\0' ? "" : ", ", list);
}

void mf_offer_words(mf_walk *walk, char out[MF_WALK_LINE])
{
    offer it = find(walk->job);
    words_of(walk, &it, out);
}

/* ---- doing it ------------------------------------------------------------------------------- */

static mf_status run_owner(mf_walk *walk, const char *title, mf_err *err)
{
    const mf_preset known[] = {
        {"role", "owner", false}, {"id", "owner", false}, {"address", "", false}};
    return mf_round_run(walk, mf_round_named("party"), title, known, 3, err);
}

/* One key on a screen of its own: 'y', 'n' (also by Enter, where that is a no), MF_KEY_LEAVE. */
static int ask_yes_no(mf_walk *walk, const char *title, const char *words_id, const char *keys_id,
                      bool enter_is_no)
{
    for (;;) {
        mf_term_page(&walk->term);
        mf_term_title(title);
        mf_term_rule_of(&walk->term);
        printf("\n  ");
        mf_cli_wrap(mf_walk_word(walk, words_id), 2, 2);
        mf_walk_foot(walk, keys_id);
        int key = mf_term_key(&walk->term, -1);
        if (mf_ask_yes(key, walk->cli->lang))
            return 'y';
        if (key == 'n' || (enter_is_no && (key == '\r' || key == '\n')))
            return 'n';
        if (key == 'q' || key == MF_KEY_LEAVE || key == 27)
            return MF_KEY_LEAVE;
        mf_walk_no_key(walk, key);
    }
}

/* Who lives there, or that nobody does: which of the two is asked, and by whom it was said. */
static mf_status run_occupant(mf_walk *walk, const char *title, mf_err *err)
{
    static const mf_ask ask_vacancy[] = {
        {"said-by", NULL, NULL, NULL}, {"on", NULL, NULL, NULL}, {NULL, NULL, NULL, NULL}};
    static const mf_round vacancy = {"vacancy", "jobwalk.vacancy", ask_vacancy};
    const mf_preset known[] = {
        {"role", "occupant", false}, {"id", "tenant", false}, {"address", "", false}};
    switch (ask_yes_no(walk, title, "offer.lives", "offer.keys-yes-no", false)) {
    case 'y':
        return mf_round_run(walk, mf_round_named("party"), title, known, 3, err);
    case 'n':
        return mf_round_run(walk, &vacancy, NULL, NULL, 0, err);
    default:
        return MF_NO;
    }
}

/* Where the work replaces only one kind of opening that; NULL = both, or neither. */
static const char *only_kind(const mf_job *job)
{
    bool windows = replaces(job, MF_OPENING_WINDOW), doors = replaces(job, MF_OPENING_DOOR);
    return windows == doors ? NULL : windows ? "window" : "door";
}

/* The kind follows where there is only one; a second room is asked for until there is none. */
static mf_status run_opening(mf_walk *walk, const char *title, mf_err *err)
{
    const char *kind = only_kind(walk->job);
    char id[MF_WALK_ID];
    bool door = kind != NULL && strcmp(kind, "door") == 0;
    snprintf(id, sizeof id, "%c%02zu", door ? 'D' : 'W', walk->job->n_opening + 1);
    const mf_preset known[] = {
        {"id", id, kind == NULL}, {"story", "", false}, {"kind", kind, false}};
    return mf_round_run(walk, mf_round_named("opening"), title, known, kind == NULL ? 2 : 3, err);
}

/* After each opening: is there another, of the kind that is asked for then? */
static mf_status run_more(mf_walk *walk, mf_err *err)
{
    const char *title = mf_walk_word(walk, "offer.opening"), *kind = only_kind(walk->job);
    walk->more = false;
    switch (ask_yes_no(walk, title,
                       kind == NULL                  ? "offer.more"
                       : strcmp(kind, "window") == 0 ? "offer.more-windows"
                                                     : "offer.more-doors",
                       "offer.keys-more", true)) {
    case 'y':
        return run_opening(walk, title, err);
    case 'n':
        return MF_OK;
    default:
        return MF_NO;
    }
}

static mf_status run_area(mf_walk *walk, const offer *it, const char *title, mf_err *err)
{
    char id[MF_WALK_ID], list[MF_WALK_LINE], place[160];
    bool inside = it->what == OFFER_INSIDE;
    openings_with(walk->job, it->opening, inside ? MF_SIDE_INTERIOR : MF_SIDE_EXTERIOR, list);
    snprintf(id, sizeof id, "A%zu", walk->job->n_area + 1);
    snprintf(place, sizeof place, "%.150s", inside ? it->opening->room : it->opening->elevation);
    const mf_preset known[] = {{"id", id, false},
                               {"side", inside ? "interior" : "exterior", false},
                               {"place", place, false},
                               {"openings", list, false}};
    return mf_round_run(walk, mf_round_named("area"), title, known, 4, err);
}

static mf_status run_crew(mf_walk *walk, const char *title, mf_err *err)
{
    char day[MF_DAY_TEXT];
    mf_day_text(walk->job->house[0].start, day);
    const mf_preset known[] = {{"duty", "renovator", false}, {"on", day, false}};
    return mf_round_run(walk, mf_round_named("assignment"), title, known, 2, err);
}

/* ---- the surfaces of a room ------------------------------------------------------------------ */

/* That of the last sill: sizes repeat. */
static const char *last_sill(const mf_job *job, char out[MF_SIDE_TEXT])
{
    for (size_t i = job->n_surface; i > 0; i--) {
        const mf_surface *it = &job->surface[i - 1];
        if (it->kind != MF_SURFACE_SILL)
            continue;
        snprintf(out, MF_SIDE_TEXT, "%" PRId64 ".%02" PRId64, it->size_sqft_100 / 100,
                 it->size_sqft_100 % 100);
        return out;
    }
    return NULL;
}

static void floor_of(const mf_area *area, char out[MF_SIDE_TEXT])
{
    char sides[80];
    out[0] = '\0';
    snprintf(sides, sizeof sides, "%" PRId64 ".%02" PRId64 " x %" PRId64 ".%02" PRId64,
             area->length_ft_100 / 100, area->length_ft_100 % 100, area->width_ft_100 / 100,
             area->width_ft_100 % 100);
    if (area->carpet != MF_YES && !mf_square_feet(sides, out))
        out[0] = '\0';
}

static mf_status log_surfaces(mf_walk *walk, const mf_usual_room *room, mf_err *err)
{
    mf_batch batch = {0};
    mf_usual_surfaces(&batch, room, 0);
    return mf_walk_log_batch(walk, &batch, "offer.surfaces-kept", err);
}

/* One size for all sills; the floor is as large as the room. Both are named above the question. */
static mf_status run_surfaces(mf_walk *walk, const mf_area *area, const char *title, mf_err *err)
{
    char sills[MF_WALK_LINE], floor[MF_SIDE_TEXT], last[MF_SIDE_TEXT], whole[2 * MF_WALK_LINE];
    mf_asked asked = {0};
    sills_in(walk->job, area, sills);
    floor_of(area, floor);
    const mf_ask asks[] = {{"size", last_sill(walk->job, last), NULL, "offer.sill-size"},
                           {NULL, NULL, NULL, NULL}};
    snprintf(whole, sizeof whole, "%s%s%s%s%s%s%s%s%s", title, sills[0] ? ". " : "",
             sills[0] ? mf_walk_word(walk, "offer.sills") : "", sills[0] ? " " : "", sills,
             floor[0] ? ". " : "", floor[0] ? mf_walk_word(walk, "offer.floor") : "",
             floor[0] ? " " : "", floor);
    if (sills[0] == '\0' && floor[0] == '\0')
        return mf_round_run(walk, mf_round_named("surface"), title, NULL, 0, err);
    if (sills[0] != '\0' &&
        !mf_ask_fields(walk->cli, &walk->term, mf_kind_named("surface"), whole, asks, &asked))
        return MF_NO;
    const mf_usual_room room = {area->id, area->place, sills, asked.text[0], floor};
    return log_surfaces(walk, &room, err);
}

/* ---- the pamphlet ------------------------------------------------------------------------------
 */

/* What the delivery lacks is named at once, while the paper lies on the table. */
static void say_lacks(mf_walk *walk, const char *party)
{
    mf_audit_ask question = {walk->job, walk->cli->today,
                             1u << MF_GATE_DEMO | 1u << MF_GATE_INSPECTION, NULL};
    mf_finding *found;
    size_t n;
    if (!mf_findings(&question, &found, &n))
        return;
    for (size_t i = 0; i < n; i++) {
        bool asked_later = strncmp(found[i].requirement->id, "handover", strlen("handover")) == 0;
        if (found[i].verdict != MF_LACKING || asked_later || strcmp(found[i].subject, party) != 0)
            continue;
        char words[500];
        size_t len = strlen(walk->said);
        mf_words_why(walk->cli->lang, &found[i], words, sizeof words);
        snprintf(walk->said + len, sizeof walk->said - len, "%s%s", len > 0 ? ". " : "", words);
    }
    free(found);
}

static mf_status run_notice(mf_walk *walk, const mf_party *to, const char *title, mf_err *err)
{
    char party[MF_WALK_ID], name[160];
    snprintf(party, sizeof party, "%s", to->id);
    snprintf(name, sizeof name, "%.150s", to->name);
    const mf_preset known[] = {{"party", party, false}, {"signer", name, true}};
    mf_status status = mf_round_run(walk, mf_round_named("notice"), title, known, 2, err);
    if (status == MF_OK)
        say_lacks(walk, party);
    return status;
}

mf_status mf_offer_run(mf_walk *walk, bool *done, mf_err *err)
{
    offer it = find(walk->job);
    char title[MF_WALK_LINE];
    words_of(walk, &it, title);
    if (walk->more && it.what != OFFER_PARTS)
        return run_more(walk, err);
    *done = it.what != OFFER_NONE;
    switch (it.what) {
    case OFFER_OWNER:
        return run_owner(walk, title, err);
    case OFFER_OCCUPANT:
        return run_occupant(walk, title, err);
    case OFFER_OPENING:
        return run_opening(walk, title, err);
    case OFFER_PARTS:
        return mf_walk_parts(walk, it.opening, err);
    case OFFER_INSIDE:
    case OFFER_OUTSIDE:
        return run_area(walk, &it, title, err);
    case OFFER_SURFACES:
        return run_surfaces(walk, it.area, title, err);
    case OFFER_CREW:
        return run_crew(walk, title, err);
    case OFFER_NOTICE:
        return run_notice(walk, it.party, title, err);
    case OFFER_NONE:
        break;
    }
    return MF_OK;
}
