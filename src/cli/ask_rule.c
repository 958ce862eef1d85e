/* Which questions are of no use after what was answered, and what follows from it; see
 * ask_rule.h. */
#include "cli/ask_rule.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The answer before this one to the option that a rule such as "=role ..." names. */
static const char *answer_for(const mf_ask_given *a, int at, const char *rule)
{
    size_t len = strcspn(rule, " ") - 1;
    for (int by = 0; by < at; by++)
        if (strlen(a->asks[by].option) == len && strncmp(a->asks[by].option, rule + 1, len) == 0)
            return a->asked->text[by];
    return "";
}

static bool in_list(const char *list, const char *answer)
{
    size_t len = strlen(answer), stop = strcspn(list, ";");
    while (stop > 0) {
        size_t one = strcspn(list, ",;");
        if (one == len && strncmp(list, answer, len) == 0)
            return true;
        one += list[one] == ',';
        list += one;
        stop -= one < stop ? one : stop;
    }
    return false;
}

/* What a rule such as "?rare no:yes yes:?" has for the answer; NULL = nothing. */
static const char *by_answer(const mf_ask_given *a, int at, const char *rule, char out[MF_ASK_TEXT])
{
    char key[MF_ASK_TEXT];
    snprintf(key, sizeof key, " %.250s:", answer_for(a, at, rule));
    const char *found = strstr(rule, key);
    if (found == NULL)
        return NULL;
    found += strlen(key);
    snprintf(out, MF_ASK_TEXT, "%.*s", (int)strcspn(found, " ;"), found);
    return out;
}

static bool any_yes(const mf_ask_given *a, int at, const char *list)
{
    for (int by = 0; by < at; by++)
        if (in_list(list, a->asks[by].option) && strcmp(a->asked->text[by], "yes") == 0)
            return true;
    return false;
}

static bool old_enough(const mf_ask_given *a, int at)
{
    const mf_limit *limit = mf_limit_on(MF_LIMIT_YEAR_BUILT, a->cli->today);
    const char *year = answer_for(a, at, "?year-built ");
    return limit == NULL || year[0] == '\0' || mf_limit_holds(limit, strtol(year, NULL, 10));
}

static bool begun(const mf_ask_given *a, int at)
{
    bool well_formed;
    mf_day day = mf_day_parse(answer_for(a, at, "?start "), &well_formed);
    return day != MF_DAY_NONE && day <= a->cli->today;
}

/* One part of a rule: true when the question is passed over by it; its answer is in out. */
static bool passed_by(const mf_ask_given *a, int at, const char *rule, char out[MF_ASK_TEXT])
{
    out[0] = '\0';
    switch (rule[0]) {
    case '?':
        return !in_list(rule + strcspn(rule, " ") + 1, answer_for(a, at, rule));
    case '|':
        return !any_yes(a, at, rule + 1);
    case '<':
        return !old_enough(a, at);
    case '>':
        return !begun(a, at);
    case '=':
        snprintf(out, MF_ASK_TEXT, "%s", a->asked->text[at]);
        return true;
    case '!':
        if (rule[1] == '?')
            return by_answer(a, at, rule + 1, out) == NULL || strcmp(out, "?") != 0;
        snprintf(out, MF_ASK_TEXT, "%s", rule + 1);
        return true;
    default:
        return false;
    }
}

bool mf_ask_passed_over(const mf_ask_given *a, int at, char out[MF_ASK_TEXT])
{
    const char *rule = a->asks[at].rule;
    while (rule != NULL && *rule != '\0') {
        if (passed_by(a, at, rule, out))
            return true;
        rule += strcspn(rule, ";");
        rule += *rule == ';';
    }
    return false;
}

const char *mf_ask_otherwise(const mf_ask_given *a, int at, char out[MF_ASK_TEXT])
{
    const char *text = a->asks[at].otherwise;
    if (text == NULL || text[0] != '=')
        return text;
    return by_answer(a, at, text, out) == NULL ? "" : out;
}
