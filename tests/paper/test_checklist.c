/* What EPA's sample recordkeeping checklist lists (OMB 2070-0155, published with the information
 * collection request of 2015; its contents in our own short words) and where the record shows
 * it. The job is fixture_job.h, in which all of it was done; an item fails when its section does
 * not show it. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

typedef struct item {
    const char *asks;    /* in our words */
    const char *section; /* of the record, as its heading has it */
    const char *shows;
} item;

static const item items[] = {
    {"the firm", "1 House and people", "Invented Windows"},
    {"date and place", "1 House and people", "2 Test Street"},
    {"the work in short", "1 House and people", "window replacement"},
    {"who was assigned", "1 House and people", "certified renovator assigned from"},
    {"trained workers", "1 House and people", "Lee"},
    {"who sampled dust", "1 House and people", "certified inspector"},
    {"certificates on file", "1 House and people", "Number, issuer"},
    {"training and its topics", "1 House and people", "Training on the job"},
    {"kits, places, results", "5 Tests", "Test kits"},
    {"signs at the entrance", "7 Work areas", "Post a warning sign at every way into"},
    {"objects out or covered", "7 Work areas", "Carry furniture"},
    {"ducts", "7 Work areas", "air vent"},
    {"windows inside", "7 Work areas", "Shut all windows in the work area"},
    {"windows outside within 20 ft", "7 Work areas", "Shut every window within 20 ft"},
    {"doors inside", "7 Work areas", "Shut the doors in the work area"},
    {"doors outside within 20 ft", "7 Work areas", "Shut every door within 20 ft"},
    {"doors in use", "7 Work areas", "On the door you walk through"},
    {"floor", "7 Work areas", "Tape plastic over the floor"},
    {"ground, 10 ft", "7 Work areas", "Lay plastic on the ground at least 10 ft"},
    {"vertical containment", "7 Work areas", "property line"},
    {"waste on site and on the way", "7 Work areas", "Cover or close the waste on the truck"},
    {"chips and debris", "8 Cleaning", "Gather chips and debris"},
    {"sheeting misted and folded", "8 Cleaning", "Spray the sheeting lightly with water"},
    {"surfaces vacuumed and wiped", "8 Cleaning", "HEPA vacuum"},
    {"verification and its cloths", "9 Cleaning verification", "Cloths used: wet"},
    {"dust samples instead", "10 Dust samples", "Invented Laboratory"},
    {"the renovator certifies", "17 Statement", "certified renovator, certificate"},
};

static fixture fx;

/* From its heading to the end. The contents, which stand on the page of the first section, are
 * drawn after it and before all others. */
static const char *section_of(const char *text, const char *heading)
{
    const char *last = strstr(text, heading);
    if (strncmp(heading, "1 ", 2) == 0)
        return last;
    for (const char *at = last; at != NULL; at = strstr(at + 1, heading))
        last = at;
    return last;
}

/* Whether the item stands in its section, before the next one of the list begins. */
static bool shown(const char *text, size_t at)
{
    const size_t n = sizeof items / sizeof items[0];
    const char *section = section_of(text, items[at].section), *end = NULL;
    size_t next = at;
    while (next < n && strcmp(items[next].section, items[at].section) == 0)
        next++;
    if (next < n)
        end = section_of(text, items[next].section);
    const char *found = section == NULL ? NULL : strstr(section, items[at].shows);
    return found != NULL && (end == NULL || found < end);
}

static void every_item_is_shown(void **state)
{
    const paper_world *w = *state;
    fx_good(&fx);
    fx_texts(&fx);
    mf_paper_ask ask = paper_ask(&fx.job);
    paper_record_to(w->folder, "list.pdf", &ask);
    paper_shell(w->folder, "pdftotext -raw list.pdf - | tr -s '\\n\\f ' ' ' > list.txt");
    char *text = paper_slurp(w->folder, "list.txt");
    assert_non_null(strstr(text, "sample recordkeeping checklist (OMB 2070-0155)"));
    for (size_t i = 0; i < sizeof items / sizeof items[0]; i++)
        if (!shown(text, i))
            fail_msg("%s: section \"%s\" does not show \"%s\"", items[i].asks, items[i].section,
                     items[i].shows);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_item_is_shown),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
