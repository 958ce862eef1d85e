/* The questions: gate JOB NAME, audit JOB. */
#include "base/fail.h"
#include "cli/json.h"
#include "cli/mend.h"
#include "cli/screen.h"

#include <assert.h>
#include <mistfold/assisted.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct answer {
    const mf_job *job;
    mf_finding *findings;
    size_t n;
    size_t left_out; /* entries dated after the day that was asked about */
    mf_answer answer;
    int64_t unknown; /* entries of kinds that this version does not know */
} answer;

static mf_status ask(const mf_audit_ask *question, answer *out, mf_err *err)
{
    out->job = question->job;
    if (!mf_findings(question, &out->findings, &out->n))
        return mf_fail_memory(err);
    out->answer = mf_audit_answer(out->findings, out->n, question->gates);
    return MF_OK;
}

/* A limit is told where it is not a plain verified federal one: whose it is, from
 * when, and how sure that is. */
static void print_limit(const mf_cli *cli, const char *label, const mf_limit *limit)
{
    char number[80], from[MF_DAY_TEXT];
    mf_words_number(cli->lang, limit->value, limit->unit, number, sizeof number);
    mf_day_text(limit->from, from);
    printf("    %s %s %s %s, %s, %s%s%s [%s]\n", mf_cli_word(cli, label), limit->name,
           mf_cmp_text(limit->cmp), number, limit->place, limit->citation,
           from[0] == '\0' ? "" : ", ", from, mf_words_fact(cli->lang, limit->status));
    if (limit->status != MF_VERIFIED && limit->note[0] != '\0') {
        printf("      ");
        mf_cli_wrap(limit->note, 6, 6);
    }
}

static void print_limits(const mf_cli *cli, const mf_finding *finding)
{
    const mf_limit *limit = finding->limit;
    if (limit != NULL && (finding->beside != NULL || limit->status != MF_VERIFIED))
        print_limit(cli, "label.decides", limit);
    if (finding->beside != NULL)
        print_limit(cli, "label.beside", finding->beside);
}

/* The sentence, and on a line of its own the command that can be copied. */
static void print_next(const mf_cli *cli, const mf_job *job, const mf_finding *finding)
{
    char next[1024], command[MF_COMMAND_MAX];
    if (mf_verdict_asks(finding->verdict) &&
        mf_words_next(cli->lang, finding, next, sizeof next) > 0) {
        printf("    %s ", mf_cli_word(cli, "label.next"));
        mf_cli_wrap(next, 4, 10);
    }
    mf_mend_of(command, job, finding);
    if (command[0] != '\0')
        printf("    %s %s\n", mf_cli_word(cli, "label.do"), command);
}

static void print_finding(const mf_cli *cli, const mf_job *job, const mf_finding *finding)
{
    static const char *const marks[] = {"ok", "NO", "! ", "- ", "..", "NO"};
    const mf_requirement *req = finding->requirement;
    assert(req != NULL); /* audit.h: every finding names its requirement */
    char why[1024];
    const char *words = mf_words2(cli->lang, "req", req->id);
    putchar('\n');
    if (finding->verdict == MF_LACKING || finding->verdict == MF_NOT_NOW)
        mf_screen_shade(marks[finding->verdict], MF_SHADE_NO);
    else
        fputs(marks[finding->verdict], stdout);
    fputs("  ", stdout);
    mf_cli_wrap(words == NULL ? req->id : words, 4, 4);
    mf_words_why(cli->lang, finding, why, sizeof why);
    printf("    ");
    mf_cli_wrap(why, 4, 4);
    print_next(cli, job, finding);
    printf("    %s", req->citation);
    if (req->status != MF_VERIFIED)
        printf(" [%s %s]", mf_cli_word(cli, "label.fact"), mf_words_fact(cli->lang, req->status));
    if (finding->evidence != NULL && finding->evidence[0] != '\0')
        printf(" (%s %s)", mf_cli_word(cli, "label.entry"), finding->evidence);
    putchar('\n');
    print_limits(cli, finding);
}

static size_t count_of(const answer *found, mf_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < found->n; i++)
        n += found->findings[i].verdict == verdict;
    return n;
}

/* Findings of one requirement stand together; fifty that read alike hide the one
 * that does not, so unless all were asked for only the first few are shown. Each unit
 * of a building is named, as somebody lives there. */
enum { ALIKE_SHOWN = 3 };

static void say_more(const mf_cli *cli, size_t hidden)
{
    if (hidden > 0)
        printf("    %s %zu\n", mf_cli_word(cli, "label.more"), hidden);
}

static void print_of(const mf_cli *cli, const answer *found, mf_verdict verdict, bool all)
{
    const mf_requirement *last = NULL;
    size_t alike = 0, hidden = 0;
    for (size_t i = 0; i < found->n; i++) {
        const mf_finding *finding = &found->findings[i];
        if (finding->verdict != verdict)
            continue;
        if (finding->requirement != last) {
            say_more(cli, hidden);
            alike = hidden = 0;
        }
        last = finding->requirement;
        if (all || finding->in_unit[0] != '\0' || alike++ < ALIKE_SHOWN)
            print_finding(cli, found->job, finding);
        else
            hidden++;
    }
    say_more(cli, hidden);
}

static mf_status print_json(const mf_cli *cli, const char *job, const char *gate, mf_day day,
                            const answer *found)
{
    json_t *root = json_object();
    json_t *array = json_array();
    json_object_set_new(root, "job", json_string(job));
    json_object_set_new(root, "gate", json_string(gate));
    json_object_set_new(root, "on", mf_json_day(day));
    json_object_set_new(root, "answer", json_string(mf_answer_name(found->answer)));
    json_object_set_new(root, "due", mf_json_day(mf_audit_due(found->findings, found->n)));
    for (size_t i = 0; i < found->n; i++)
        json_array_append_new(array, mf_json_finding(cli, found->job, &found->findings[i]));
    json_object_set_new(root, "left_out", json_integer((json_int_t)found->left_out));
    json_object_set_new(root, "findings", array);
    json_object_set_new(root, "unknown_entries", json_integer(found->unknown));
    json_object_set_new(root, "caution", json_string(mf_cli_word(cli, "caution.short")));
    return mf_json_print(root);
}

static void print_count(const mf_cli *cli, const char *label, size_t n)
{
    if (n > 0)
        printf("%s: %zu, ", mf_cli_word(cli, label), n);
}

static void print_text(const mf_cli *cli, const answer *found, const mf_args *args)
{
    size_t lacking = count_of(found, MF_LACKING), met = count_of(found, MF_MET);
    print_count(cli, "label.not-now", count_of(found, MF_NOT_NOW)); /* as a no it stands first */
    printf("%s: %zu, ", mf_cli_word(cli, "label.lacking"), lacking);
    print_count(cli, "label.pending", count_of(found, MF_PENDING));
    printf("%s: %zu, %s: %zu\n", mf_cli_word(cli, "label.met"), met,
           mf_cli_word(cli, "label.warnings"), count_of(found, MF_WARNING));
    bool all = mf_args_value(args, "all") != NULL;
    print_of(cli, found, MF_NOT_NOW, all);
    print_of(cli, found, MF_LACKING, all);
    print_of(cli, found, MF_PENDING, all);
    print_of(cli, found, MF_WARNING, all);
    if (all) {
        print_of(cli, found, MF_MET, all);
        print_of(cli, found, MF_NOT_DUE, all);
    }
    mf_cli_caution(cli);
}

/* "May demo start at J-1926, A1, on 2026-09-14?  NO" */
static void print_question(const mf_cli *cli, const char *job, mf_gate gate, const char *area,
                           mf_day day, const answer *found)
{
    char word[MF_ANSWER_TEXT];
    mf_cli_answer(cli, found->answer, mf_audit_due(found->findings, found->n), word);
    char date[MF_DAY_TEXT];
    mf_day_text(day, date);
    mf_screen_answer(mf_gate_question(cli, gate), word, mf_screen_shade_of(found->answer));
    printf("%s%s%s, %s\n", job, area[0] ? ", " : "", area, date);
}

/* The requirement whose finding has the number by which the rule does not cover the work. */
static const char *deciding(mf_cover_why why)
{
    return why == MF_COVER_NO_FACILITY ? "facility-visits"
           : why == MF_COVER_MINOR     ? "minor-area"
                                       : "";
}

/* Another law may ask where this rule does not, and a no is read as the end of it. */
static void print_assisted(const mf_cli *cli, const mf_job *job)
{
    mf_assisted_answer assisted;
    if (job->n_house == 0 || job->house[0].assisted != MF_YES)
        return;
    mf_assisted_judge(job, &assisted);
    mf_cli_wrap(mf_cli_word(cli, !assisted.holds          ? "cover.assisted-exempt"
                                 : assisted.over          ? "cover.assisted"
                                 : assisted.limit == NULL ? "cover.assisted-none"
                                                          : "cover.assisted-small"),
                0, 0);
}

static void print_cover(const mf_cli *cli, const mf_cover_answer *cover, const answer *found)
{
    char why[1024];
    mf_cli_wrap(mf_words_cover(cli->lang, cover->why), 0, 0);
    for (size_t i = 0; i < found->n; i++) {
        if (strcmp(found->findings[i].requirement->id, deciding(cover->why)) != 0)
            continue;
        mf_words_why(cli->lang, &found->findings[i], why, sizeof why);
        mf_cli_wrap(why, 0, 0);
    }
    if (cover->emergency)
        mf_cli_wrap(mf_cli_word(cli, "cover.emergency"), 0, 0);
    print_assisted(cli, found->job);
}

static mf_status answer_gate(mf_cli *cli, const mf_args *args, const mf_job *job, mf_gate gate,
                             mf_day day, answer *found, mf_err *err)
{
    const char *area = mf_args_value(args, "area");
    area = area == NULL ? "" : area;
    if (area[0] != '\0' && mf_job_area(job, area) == NULL)
        return mf_failf(err, MF_INPUT, "--area", "", "see \"area list\"",
                        "there is no work area %s", area);
    mf_audit_ask question = {job, day, 1u << gate, area};
    mf_status status = ask(&question, found, err);
    if (status != MF_OK)
        return status;
    mf_cover_answer cover = {.cover = MF_COVER_YES};
    if (gate == MF_GATE_RULE || !cli->json)
        mf_cover_judge(job, &cover);
    if (gate == MF_GATE_RULE) /* answered by what covers the job, not by what is lacking */
        found->answer = cover.cover == MF_COVER_YES ? MF_ANSWER_YES : MF_ANSWER_NO;
    if (cli->json) {
        status = print_json(cli, job->id, mf_gate_name(gate), day, found);
    } else {
        print_question(cli, job->id, gate, area, day, found);
        if (gate == MF_GATE_RULE || cover.cover != MF_COVER_YES)
            print_cover(cli, &cover, found); /* a yes for want of a rule must say so */
        print_text(cli, found, args);
    }
    return status != MF_OK ? status : found->answer == MF_ANSWER_YES ? MF_OK : MF_NO;
}

static mf_status look(mf_cli *cli, mf_job *job, mf_gate gate, answer *found, mf_err *err)
{
    mf_book_report report = {0};
    mf_status status = mf_cli_look(cli, job, false, &report, err);
    if (gate == MF_GATE_INSPECTION && status != MF_SYSTEM)
        mf_cli_note(cli,
                    "read and checked now: %lld entries (this job and others at its address, the "
                    "firm, what was new); %lld of other jobs were checked when they came in, "
                    "\"book check\" reads all",
                    (long long)report.entries, (long long)report.earlier);
    mf_cli_unknown(cli, &report);
    found->unknown = report.unknown;
    if (status != MF_NO)
        return status;
    return mf_gate_speaks(job, gate) ? MF_OK : (err->status = MF_SYSTEM); /* it is no no */
}

/* Of a no the next step is not to ask again: it is what mends the first reason. */
static void say_next(mf_cli *cli, const mf_job *job, mf_gate gate, mf_day day, const answer *found)
{
    char asked[MF_COMMAND_MAX];
    const char *name = mf_gate_name(gate);
    const mf_slot slots[] = {{"JOB", job->id}, {"GATE", name}};
    mf_next_of_job(job, day, cli->next);
    mf_command_of(asked, "gate JOB GATE", slots, 2);
    for (size_t i = 0; i < found->n && strcmp(cli->next, asked) == 0; i++) {
        char mend[MF_COMMAND_MAX] = "";
        if (found->findings[i].verdict == MF_LACKING)
            mf_mend_of(mend, job, &found->findings[i]);
        if (mend[0] != '\0')
            snprintf(cli->next, sizeof cli->next, "%s", mend);
    }
}

mf_status mf_cmd_gate(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_day day;
    answer found = {0};
    mf_gate gate = mf_gate_named(args->word[1]);
    if (gate == MF_GATE_COUNT) {
        mf_failf(&err, MF_INPUT, "gate", "", cmd->example,
                 "%s is not a question; they are rule, demo, signs, handover, inspection",
                 args->word[1]);
        return mf_cli_fail(&err);
    }
    mf_status status = mf_cli_day(cli, args, &day, &err);
    if (status == MF_OK)
        status = mf_cli_job_until(cli, args->word[0], day, &job, &found.left_out, &err);
    if (status == MF_OK)
        status = look(cli, job, gate, &found, &err);
    bool checked = status == MF_OK;
    if (checked)
        status = answer_gate(cli, args, job, gate, day, &found, &err);
    bool answered = checked && (status == MF_OK || status == MF_NO);
    bool as_it_is =
        found.left_out == 0; /* else the next step follows from how it stands now: next.c */
    if (answered && as_it_is && !cli->quiet && !cli->json)
        say_next(cli, job, gate, day, &found);
    free(found.findings);
    mf_book_job_free(job);
    return answered ? status : mf_cli_fail(&err);
}

mf_status mf_cmd_audit(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_day day;
    answer found = {0};
    (void)cmd;
    mf_status status = mf_cli_day(cli, args, &day, &err);
    if (status == MF_OK)
        status = mf_cli_job_until(cli, args->word[0], day, &job, &found.left_out, &err);
    if (status == MF_OK)
        status = look(cli, job, MF_GATE_INSPECTION, &found, &err);
    mf_audit_ask question = {job, day, 0, ""};
    if (status == MF_OK)
        status = ask(&question, &found, &err);
    if (status == MF_OK && cli->json) {
        status = print_json(cli, job->id, "all", day, &found);
    } else if (status == MF_OK) {
        print_of(cli, &found, MF_MET, true);
        print_of(cli, &found, MF_NOT_DUE, true);
        print_of(cli, &found, MF_NOT_NOW, true);
        print_of(cli, &found, MF_WARNING, true);
        print_of(cli, &found, MF_PENDING, true);
        print_of(cli, &found, MF_LACKING, true);
        putchar('\n');
        print_count(cli, "label.not-now", count_of(&found, MF_NOT_NOW));
        printf("%s: %zu\n", mf_cli_word(cli, "label.lacking"), count_of(&found, MF_LACKING));
        mf_cli_caution(cli);
    }
    free(found.findings);
    mf_book_job_free(job);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    return found.answer == MF_ANSWER_YES ? MF_OK : MF_NO;
}
