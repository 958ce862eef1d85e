/* The likely next step, said at the end of a command. It is read from what the book
 * holds, so that it is the same whoever asks and in whatever order things were done. */
#include "cli/due.h"
#include "cli/mend.h"

#include <stdio.h>
#include <string.h>

static void put_for(char out[MF_COMMAND_MAX], const char *format, const char *job,
                    const char *party)
{
    const mf_slot slots[] = {{"JOB", job}, {"PARTY", party}};
    mf_command_of(out, format, slots, 2);
}

static void put(char out[MF_COMMAND_MAX], const char *format, const char *job)
{
    put_for(out, format, job, "");
}

/* ---- before demo ------------------------------------------------------------------- */

static bool has_evidence(const mf_job *job)
{
    return job->n_reading + job->n_kit_test + job->n_chip + job->n_determination > 0;
}

static const char *preparing(const mf_job *job, mf_day today)
{
    if (job->n_party == 0)
        return "party add JOB --id owner --role owner --name ...";
    if (job->n_opening == 0)
        return "opening import JOB openings.csv";
    if (job->n_component == 0)
        return "component import JOB components.csv";
    if (!has_evidence(job) && job->n_tick == 0) /* untested paint counts as lead */
        return "test import JOB readings.csv";
    if (job->n_notice == 0)
        return "notice add JOB --party PARTY --method ... --on ...";
    if (job->n_assignment == 0)
        return "crew assign JOB --person ... --duty renovator --on ...";
    if (job->n_area == 0)
        return "job walk --job JOB";
    mf_lack lack = mf_lacking(job, MF_GATE_DEMO, MF_LANG_EN, today);
    return lack.crew > 0 && lack.office == 0 ? "containment walk JOB" : "gate JOB demo";
}

static bool cleaning_open(const mf_job *job, mf_day today)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (size_t a = 0; a < job->n_area; a++)
        for (size_t i = 0; i < count; i++) {
            if (steps[i].phase != MF_PHASE_CLEAN ||
                !mf_step_wanted(job, &steps[i], &job->area[a]) ||
                mf_area_off(job, job->area[a].id, today))
                continue;
            if (!mf_step_settled(mf_step_judge(job, &job->area[a], &steps[i], NULL)))
                return true;
        }
    return false;
}

static bool unverified(const mf_job *job, mf_day today)
{
    for (size_t a = 0; a < job->n_area; a++) {
        mf_ver_area whole;
        mf_verification_area(job, &job->area[a], &whole);
        if (!whole.verified && !mf_area_off(job, job->area[a].id, today))
            return true;
    }
    return false;
}

static const char *working(const mf_job *job, mf_day today)
{
    if (job->n_practice == 0)
        return "practice add JOB --area ... --method hand --person ... --on ... --time ...";
    if (cleaning_open(job, today))
        return "cleaning walk JOB";
    if (job->n_surface == 0)
        return "surface add JOB --area ... --kind sill --id ... --place ... --size ...";
    return unverified(job, today) ? "verification walk JOB" : "gate JOB signs";
}

static const char *completed(const mf_job *job)
{
    if (!mf_job_certified(job))
        return "job certify JOB --person ... --on ...";
    if (job->n_handover == 0)
        return "handover add JOB --party ... --what record --how ... --on ...";
    return "gate JOB handover";
}

void mf_next_of_job(const mf_job *job, mf_day today, char out[MF_COMMAND_MAX])
{
    const char *step = "audit JOB";
    if (job->n_house == 0) {
        out[0] = '\0';
        return;
    }
    switch (mf_stage_of(job, today)) {
    case MF_STAGE_PREPARING:
        step = preparing(job, today);
        break;
    case MF_STAGE_READY:
    case MF_STAGE_WORKING:
    case MF_STAGE_UNVERIFIED:
        step = working(job, today);
        break;
    case MF_STAGE_VERIFIED:
        step = "job complete JOB --on ...";
        break;
    case MF_STAGE_COMPLETED:
        step = completed(job);
        break;
    case MF_STAGE_CLOSED:
    case MF_STAGE_LATE:
        step = job->n_sealed == 0 ? "paper record JOB --out record.pdf --key ..."
                                  : "job bundle JOB --record record.pdf --out ...";
        break;
    case MF_STAGE_ALTERED:
        step = "book check";
        break;
    case MF_STAGE_OUTSIDE:
    case MF_STAGE_CALLED_OFF:
    case MF_STAGE_COUNT:
        break;
    }
    put_for(out, step, job->id, job->n_party == 0 ? "" : job->party[0].id);
}

/* ---- commands that are of no one job -------------------------------------------------- */

static const char *of_firm(const mf_job *firm)
{
    if (firm->n_firm == 0)
        return "firm add --name ... --address ...";
    if (firm->n_person == 0)
        return "person add --id ... --name ...";
    if (firm->n_certificate == 0)
        return "certificate add --holder firm --discipline firm --number ... --issuer ... --issued "
               "... --expires ...";
    return NULL;
}

static bool note_job(const char *job, const char *address, mf_day start, void *data)
{
    (void)address;
    (void)start;
    snprintf(data, 48, "%s", job);
    return false; /* one is enough */
}

static bool note_item(const mf_due_item *item, void *data)
{
    return note_job(item->job, "", item->day, data);
}

/* The job that starts next or is to be handed over next, else any: looked up, however
 * many there are. */
static void next_job(mf_book *book, char job[48])
{
    if (mf_book_due(book, "start", MF_DAY_NONE, note_item, job, NULL) == MF_OK && job[0] == '\0' &&
        mf_book_due(book, "handover", MF_DAY_NONE, note_item, job, NULL) == MF_OK && job[0] == '\0')
        mf_book_jobs(book, note_job, job, NULL);
}

static void firm_or_jobs(mf_cli *cli, char out[MF_COMMAND_MAX])
{
    mf_job *firm = NULL;
    char job[48] = "";
    if (mf_cli_job(cli, "", &firm, NULL) != MF_OK)
        return;
    const char *step = of_firm(firm);
    mf_book_job_free(firm);
    if (step == NULL) {
        next_job(cli->book, job);
        step = job[0] == '\0' ? "job walk" : "job show JOB";
    }
    put(out, step, job);
}

/* Fixed steps of the commands that leave nothing in the book to go by. */
static const char *fixed(const mf_cmd *cmd)
{
    static const char *const rows[][3] = {
        {"due", "", "job list"},
        {"book", "check", "due"},
        {"book", "rebuild", "book check"},
        {"limit", "list", "due"},
        {"key", "new", "paper record JOB --out record.pdf --key ..."},
        {"key", "show", "paper record JOB --out record.pdf --key ..."},
        {"paper", "check", "book check"},
        {"paper", "containment", "containment walk JOB"},
        {"entry", "show", "book check"},
        {"field", "invite", "field serve"},
        {"entry", "correct", "book check"},
        {"entry", "withdraw", "book check"},
        {"settings", "show", "due"},
        {"settings", "set", "settings show"},
        {"settings", "unset", "settings show"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i][0], cmd->group) == 0 && strcmp(rows[i][1], cmd->action) == 0)
            return rows[i][2];
    return NULL;
}

static void of_job_command(mf_cli *cli, const mf_cmd *cmd, const mf_args *args,
                           char out[MF_COMMAND_MAX])
{
    mf_job *job = NULL;
    const char *id = args->n_words > 0 ? args->word[0] : mf_args_value(args, "id");
    (void)cmd;
    if (id == NULL || mf_cli_job(cli, id, &job, NULL) != MF_OK)
        return;
    mf_next_of_job(job, cli->today, out);
    mf_book_job_free(job);
}

/* Commands whose output is kept in a file or fed to a program say only that. */
static bool only_data(const mf_cmd *cmd)
{
    return strcmp(cmd->group, "export") == 0 || strcmp(cmd->action, "bundle") == 0 ||
           strcmp(cmd->action, "serve") == 0 ||
           (strcmp(cmd->group, "book") == 0 && strcmp(cmd->action, "head") == 0);
}

void mf_next_say(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    const char *step = fixed(cmd);
    bool of_job = mf_cmd_of_job(cmd) || (cmd->kind != NULL && strcmp(cmd->kind, "house") == 0);
    if (cli->json || cli->quiet || only_data(cmd))
        return;
    if (cli->next[0] == '\0' && step != NULL)
        put(cli->next, step, "JOB");
    else if (cli->next[0] == '\0' && of_job)
        of_job_command(cli, cmd, args, cli->next);
    else if (cli->next[0] == '\0' && cli->book != NULL)
        firm_or_jobs(cli, cli->next);
    if (cli->next[0] != '\0')
        mf_cli_line(mf_cli_word(cli, "label.next"), cli->next);
}
