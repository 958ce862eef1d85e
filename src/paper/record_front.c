/* The first page: who and where, the four questions, what is lacking, cautions. */
#include "paper/days.h"
#include "paper/record.h"
#include "paper/renovators.h"

#include <mistfold/assisted.h>
#include <mistfold/house.h>
#include <mistfold/person.h>
#include <string.h>

typedef struct tally {
    size_t of[MF_VERDICT_COUNT];
    mf_answer answer;
    mf_day due; /* of what is pending */
} tally;

static tally count(const mf_rec *rec, mf_gate gate)
{
    tally sum = {.answer = MF_ANSWER_YES, .due = MF_DAY_NONE};
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if ((finding->requirement->gates & (1U << gate)) == 0)
            continue;
        mf_answer answer = mf_audit_answer(finding, 1, 1U << gate);
        mf_day due = mf_audit_due(finding, 1);
        sum.of[finding->verdict]++;
        sum.answer = answer < sum.answer ? answer : sum.answer;
        if (due != MF_DAY_NONE && (sum.due == MF_DAY_NONE || due < sum.due))
            sum.due = due;
    }
    return sum;
}

/* The largest style in which the job's id fits beside the title. */
static mf_style id_style(mf_rec *rec)
{
    static const mf_style styles[] = {MF_ST_TITLE, MF_ST_SECTION, MF_ST_LARGE, MF_ST_SMALL_BOLD};
    const char *id = mf_page_ready(&rec->page, MF_ST_TITLE, rec->job->id);
    for (size_t i = 0; i < 3; i++) {
        mf_font font = mf_style_of(styles[i])->font;
        if (mf_haru_width(rec->page.haru, font, id, strlen(id)) < mf_across(&rec->page) - 140)
            return styles[i];
    }
    return styles[3];
}

static void title(mf_rec *rec)
{
    mf_page *page = &rec->page;
    page->y = 40;
    mf_page_put(page, MF_ST_TITLE, MF_INK_ACCENT, (mf_point){MF_LEFT, page->y},
                mf_phrase(rec, "record"));
    mf_page_put_right(page, id_style(rec), (mf_point){mf_right(page), page->y}, rec->job->id);
    page->y += 27;
    mf_haru_line(page->haru, MF_INK_ACCENT, 2.2F, (mf_point){MF_LEFT, page->y},
                 (mf_point){mf_right(page), page->y});
    page->y += 7;
}

static const char *firm_certificate(mf_rec *rec)
{
    const mf_certificate *near = NULL;
    mf_day day = rec->house.start == MF_DAY_NONE ? rec->ask->today : rec->house.start;
    const mf_certificate *held = mf_certified(rec->job, "firm", MF_DISC_FIRM, day, &near);
    if (held == NULL)
        held = near;
    if (held == NULL)
        return mf_phrase(rec, "not-given");
    return mf_fill(rec, "certificate-through", held->number,
                   mf_day_words(rec, mf_certificate_last_day_for(rec->job, held)), NULL);
}

/* Assisted housing and an emergency ask for more, or for less: said on the first page. */
static const char *particulars(mf_rec *rec)
{
    const char *said = "";
    if (mf_assisted_holds(rec->job))
        said = mf_phrase(rec, "front-assisted");
    else if (rec->house.assisted == MF_YES)
        said = mf_phrase(rec, "front-assisted-exempt");
    if (rec->house.emergency == MF_YES || rec->job->n_emergency > 0)
        said = mf_join(rec, said, "\n", mf_phrase(rec, "emergency-claimed"));
    return *said == '\0' ? mf_phrase(rec, "front-nothing-special") : said;
}

static void facts(mf_rec *rec)
{
    static const char *const labels[] = {"address", "firm", "firm-certificate", "front-renovator",
                                         "work",    "days", "answered-for",     "particulars"};
    const mf_firm *firm = rec->job->n_firm == 0 ? NULL : &rec->job->firm[rec->job->n_firm - 1];
    const char *values[8] = {
        mf_stated(rec, mf_join(rec, rec->house.address, ", ", rec->house.unit)),
        firm == NULL ? mf_phrase(rec, "not-given") : mf_stated(rec, firm->name),
        firm_certificate(rec),
        mf_stated(rec, mf_renovators_words(rec, false)),
        mf_stated(rec, rec->house.description),
        mf_planned_days(rec),
        mf_fill(rec, "answered-on", mf_day_words(rec, rec->ask->today), rec->ask->printed_at, NULL),
        particulars(rec)};
    mf_pairs(rec, labels, values, 8);
}

/* ---- the four questions -------------------------------------------------------- */

/* Each verdict once, and their sum; what none has is left out, but for lacking. */
static const char *tally_words(mf_rec *rec, const tally *sum)
{
    static const struct {
        mf_verdict verdict;
        const char *id;
    } parts[MF_VERDICT_COUNT] = {{MF_MET, "tally-shown"},       {MF_LACKING, "tally-lacking"},
                                 {MF_WARNING, "tally-warning"}, {MF_PENDING, "tally-pending"},
                                 {MF_NOT_NOW, "tally-not-now"}, {MF_NOT_DUE, "tally-not-due"}};
    const char *words = "";
    size_t all = 0;
    for (size_t i = 0; i < MF_VERDICT_COUNT; i++) {
        size_t n = sum->of[parts[i].verdict];
        all += n;
        if (n > 0 || parts[i].verdict == MF_LACKING)
            words = mf_join(rec, words, ", ",
                            mf_fill(rec, parts[i].id, mf_count_words(rec, n), NULL, NULL));
    }
    return mf_fill(rec, "tally", mf_count_words(rec, all), words, NULL);
}

typedef struct answer {
    const char *question;
    const char *reason;
    mf_answer answer;
    mf_mark mark;
} answer;

static void draw_answer(mf_rec *rec, int number, const answer *said)
{
    mf_page *page = &rec->page;
    const mf_point at = {MF_LEFT + 40, page->y + 20};
    const char *word = mf_phrase2(rec, "word", mf_answer_name(said->answer));
    float width = mf_across(page) - (said->answer == MF_ANSWER_NOT_YET ? 220 : 110);
    float reason = mf_page_block(page, MF_ST_CELL, at, width, said->reason, false);
    float height = reason < 14 ? 37 : reason + 26;
    mf_page_need(page, height + 5);
    float y = page->y;
    bool loud = said->mark == MF_MARK_CROSS;
    mf_haru_rect(page->haru, MF_INK_NONE, loud ? MF_INK_BLACK : MF_INK_RULE, loud ? 1.5F : 0.6F,
                 (mf_point){MF_LEFT, y}, (mf_point){mf_across(page), height});
    mf_mark_draw(page->haru, said->mark, (mf_point){MF_LEFT + 10, y + height / 2 - 9.5F}, 19);
    mf_page_put(page, MF_ST_LARGE, MF_INK_BLACK, (mf_point){MF_LEFT + 40, y + 4},
                mf_print(rec, "%d  %s", number, said->question));
    mf_page_put_right(page, MF_ST_TITLE, (mf_point){mf_right(page) - 12, y + height / 2 - 12},
                      word);
    mf_page_block(page, MF_ST_CELL, (mf_point){MF_LEFT + 40, y + 20}, width, said->reason, true);
    page->y += height + 5;
}

static answer ask_rule(mf_rec *rec)
{
    mf_cover_answer cover;
    mf_cover_judge(rec->job, &cover);
    tally sum = count(rec, MF_GATE_RULE);
    const char *why = mf_enum(rec, MF_FAM_COVER, (int)cover.why);
    if (cover.emergency)
        why = mf_join(rec, why, " ", mf_phrase(rec, "emergency-claimed"));
    bool yes = cover.cover == MF_COVER_YES;
    return (answer){mf_phrase2(rec, "gate", mf_gate_name(MF_GATE_RULE)),
                    mf_print(rec, "%s\n%s.", why, tally_words(rec, &sum)),
                    yes ? MF_ANSWER_YES : MF_ANSWER_NO, yes ? MF_MARK_TICK : MF_MARK_DASH};
}

/* Why it is no for the time alone, or nothing. */
static const char *not_now_words(mf_rec *rec, mf_gate gate)
{
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict == MF_NOT_NOW && (finding->requirement->gates & (1U << gate)) != 0)
            return mf_print(rec, "%s\n", mf_why_words(rec, finding));
    }
    return "";
}

static answer ask_gate(mf_rec *rec, mf_gate gate)
{
    tally sum = count(rec, gate);
    static const mf_mark marks[] = {[MF_ANSWER_NO] = MF_MARK_CROSS,
                                    [MF_ANSWER_NOT_NOW] = MF_MARK_DASH,
                                    [MF_ANSWER_NOT_YET] = MF_MARK_OPEN,
                                    [MF_ANSWER_YES] = MF_MARK_TICK};
    return (answer){mf_phrase2(rec, "gate", mf_gate_name(gate)),
                    mf_print(rec, "%s%s.", not_now_words(rec, gate), tally_words(rec, &sum)),
                    sum.answer, marks[sum.answer]};
}

static const char *handover_words(mf_rec *rec)
{
    tally sum = count(rec, MF_GATE_HANDOVER);
    if (sum.answer == MF_ANSWER_NOT_NOW) /* for what was said of the other questions */
        return "";
    if (sum.answer != MF_ANSWER_NOT_YET)
        return mf_phrase(rec, sum.answer == MF_ANSWER_YES ? "handover-yes" : "handover-no");
    return sum.due == MF_DAY_NONE
               ? mf_phrase(rec, "handover-later")
               : mf_fill(rec, "handover-not-yet", mf_day_words(rec, sum.due), NULL, NULL);
}

static void answers(mf_rec *rec)
{
    mf_page_heading(&rec->page, MF_ST_HEAD,
                    mf_fill(rec, "questions", mf_day_words(rec, rec->ask->today), NULL, NULL));
    answer said = ask_rule(rec);
    draw_answer(rec, 1, &said);
    said = ask_gate(rec, MF_GATE_DEMO);
    draw_answer(rec, 2, &said);
    said = ask_gate(rec, MF_GATE_SIGNS);
    draw_answer(rec, 3, &said);
    said = ask_gate(rec, MF_GATE_INSPECTION);
    said.reason = mf_print(rec, "%s %s", said.reason, handover_words(rec));
    draw_answer(rec, 4, &said);
}

/* ---- what is lacking, cautions ---------------------------------------------------- */

static const char *const cautions[] = {"caution.certifies-nothing", "caution.practice",
                                       "caution.stricter", "caution.harm", "caution.facts"};

static float caution_lines(mf_rec *rec, mf_point at, bool draw)
{
    float used = 0;
    const float width = mf_across(&rec->page) - 24;
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0]; i++) {
        mf_point here = {at.x, at.y + used};
        if (draw)
            mf_haru_disc(rec->page.haru, MF_INK_BLACK, MF_INK_NONE, 0,
                         (mf_point){here.x - 5, here.y + 5}, 1.1F);
        used +=
            mf_page_block(&rec->page, MF_ST_CELL, here, width, mf_phrase(rec, cautions[i]), draw);
        used += 1;
    }
    return used;
}

static float caution_height(mf_rec *rec)
{
    return caution_lines(rec, (mf_point){0, 0}, false) + 28;
}

static void draw_cautions(mf_rec *rec)
{
    mf_page *page = &rec->page;
    float height = caution_height(rec);
    mf_page_need(page, height);
    if (page->n_pages == 1) /* at the foot of the first page */
        page->y = mf_bottom(page) - height;
    mf_haru_rect(page->haru, MF_INK_NONE, MF_INK_RULE, 0.6F, (mf_point){MF_LEFT, page->y},
                 (mf_point){mf_across(page), height});
    mf_page_put(page, MF_ST_BOLD, MF_INK_BLACK, (mf_point){MF_LEFT + 8, page->y + 6},
                mf_phrase(rec, "cautions"));
    caution_lines(rec, (mf_point){MF_LEFT + 16, page->y + 21}, true);
    page->y += height;
}

static size_t all_of(const mf_rec *rec, mf_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < rec->n_findings; i++)
        n += rec->findings[i].verdict == verdict;
    return n;
}

/* How grave it is when a requirement lacks: what was done that is prohibited, then dust
 * that is there, then what keeps dust in, then who may work, then the papers. */
static int gravity(const mf_requirement *asked)
{
    static const char *const grave[] = {
        "method-allowed,assisted-method",
        "surface-verified,dust-level,visual-inspection,visual-outside,dust-recleaned,"
        "assisted-clearance,assisted-recleaned,cleaned-by-crew",
        "floor-sheet,ground-sheet,isolate,line-containment,contained-first,contained-still,"
        "signs-first,barriers-whole,barriers-each-day,waste-contained,assisted-occupants-out,"
        "assisted-contained-first",
        "firm-certified,renovator-assigned,renovator-certified,worker-trained,book-unaltered"};
    const int n = (int)(sizeof grave / sizeof grave[0]);
    for (int i = 0; i < n; i++)
        if (mf_id_in_list(grave[i], asked->id))
            return i;
    const unsigned house = 1U << MF_GATE_DEMO | 1U << MF_GATE_SIGNS;
    return (asked->gates & house) != 0 ? n : n + 1;
}
enum { GRAVITIES = 6 };

/* How many findings of that verdict have the requirement of this one; 0 when
 * an earlier finding has told so already. */
static size_t times_of(const mf_rec *rec, size_t at, mf_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *other = &rec->findings[i];
        if (other->verdict != verdict || other->requirement != rec->findings[at].requirement)
            continue;
        if (i < at)
            return 0;
        n++;
    }
    return n;
}

/* One thing to tell: what, why, what to do. Returns its height. */
static float told_lines(mf_rec *rec, const mf_finding *finding, size_t times, mf_point at,
                        bool draw)
{
    float width = mf_right(&rec->page) - at.x;
    const char *why = mf_why_words(rec, finding);
    if (times > 1)
        why = mf_join(rec, why, " ",
                      mf_fill(rec, "and-like-it", mf_count_words(rec, times - 1), NULL, NULL));
    float used =
        mf_page_block(&rec->page, MF_ST_CELL_BOLD, at, width,
                      mf_print(rec, "%s (%s)", mf_phrase2(rec, "req", finding->requirement->id),
                               finding->requirement->citation),
                      draw);
    used += mf_page_block(
        &rec->page, MF_ST_CELL, (mf_point){at.x, at.y + used}, width,
        mf_join(rec, why, " ", mf_fill(rec, "next-do", mf_next_words(rec, finding), NULL, NULL)),
        draw);
    return used + 4;
}

/* Draws one while there is room above the cautions; false when there is none. */
static bool tell(mf_rec *rec, size_t at, size_t times)
{
    mf_page *page = &rec->page;
    const mf_finding *finding = &rec->findings[at];
    float height = told_lines(rec, finding, times, (mf_point){MF_LEFT + 14, 0}, false);
    if (page->n_pages > 1 || mf_page_left(page) < height + caution_height(rec) + 14)
        return false;
    mf_page_need(page, height);
    mf_mark_draw(page->haru, mf_verdict_mark(finding->verdict), (mf_point){MF_LEFT, page->y + 1},
                 8.4F);
    told_lines(rec, finding, times, (mf_point){MF_LEFT + 14, page->y}, true);
    page->y += height;
    return true;
}

/* The findings of a verdict, the gravest first, one for each requirement, as far as the
 * first page holds them; then how many more there are. */
static void tell_first(mf_rec *rec, mf_verdict verdict)
{
    size_t told = 0, n = all_of(rec, verdict);
    bool room = true;
    for (int grave = 0; grave < GRAVITIES; grave++)
        for (size_t i = 0; room && i < rec->n_findings; i++) {
            const mf_finding *finding = &rec->findings[i];
            if (finding->verdict != verdict || gravity(finding->requirement) != grave)
                continue;
            size_t times = times_of(rec, i, verdict);
            if (times == 0)
                continue;
            room = tell(rec, i, times);
            told += room ? times : 0;
        }
    if (told < n)
        mf_page_text(&rec->page, MF_ST_SMALL,
                     mf_fill(rec, "more-told", mf_count_words(rec, n - told), NULL, NULL));
}

/* What is owed and whose last day has not passed, while there is room for some. */
static void draw_pending(mf_rec *rec)
{
    mf_page *page = &rec->page;
    if (all_of(rec, MF_PENDING) == 0 || page->n_pages > 1 ||
        mf_page_left(page) < caution_height(rec) + 90)
        return;
    mf_page_heading(page, MF_ST_HEAD, mf_phrase(rec, "not-yet-due"));
    tell_first(rec, MF_PENDING);
}

static void draw_lacking(mf_rec *rec)
{
    mf_page *page = &rec->page;
    size_t n = all_of(rec, MF_LACKING);
    const char *id = n == 0 ? "nothing-lacking" : n == 1 ? "one-lacking" : "things-lacking";
    tally sum = {.due = MF_DAY_NONE};
    for (size_t i = 0; i < rec->n_findings; i++)
        sum.of[rec->findings[i].verdict]++;
    mf_page_heading(page, MF_ST_HEAD, mf_fill(rec, id, mf_count_words(rec, n), NULL, NULL));
    mf_page_text(page, MF_ST_SMALL, mf_fill(rec, "tally-all", tally_words(rec, &sum), NULL, NULL));
    tell_first(rec, MF_LACKING);
    draw_pending(rec);
    mf_page_need(page, 0);
}

/* Warnings block nothing; they are told here while there is room for some. */
static void draw_warnings(mf_rec *rec)
{
    mf_page *page = &rec->page;
    if (all_of(rec, MF_WARNING) == 0 || page->n_pages > 1 ||
        mf_page_left(page) < caution_height(rec) + 90)
        return;
    mf_page_heading(page, MF_ST_HEAD, mf_phrase(rec, "to-know"));
    tell_first(rec, MF_WARNING);
}

void mf_record_front(mf_rec *rec)
{
    title(rec);
    facts(rec);
    answers(rec);
    draw_lacking(rec);
    draw_warnings(rec);
    draw_cautions(rec);
}
