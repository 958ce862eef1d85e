/* Access: title and language told to the reader's program, contents, bookmarks and
 * links, and a fax: the pages at 100 dpi in one bit, read by tesseract, which is not
 * ours. The job is invented. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int set_up(void **state)
{
    paper_world_records(state);
    const paper_world *w = *state;
    paper_shell(w->folder, "qpdf --qdf --object-streams=disable record.pdf plain.pdf");
    return 0;
}

static long number(const paper_world *w, const char *command)
{
    return strtol(paper_shell(w->folder, command), NULL, 10);
}

/* ISO 32000-1, 14.9.2 and 12.2: /Lang of the catalog, /DisplayDocTitle. */
static void says_title_and_language(void **state)
{
    paper_world *w = *state;
    assert_int_equal(number(w, "grep -ac '/Lang (en)' plain.pdf"), 1);
    assert_int_equal(number(w, "grep -ac '/Lang (es)' registro.pdf"), 1);
    assert_int_equal(number(w, "grep -ac '/DisplayDocTitle true' plain.pdf"), 1);
    assert_non_null(strstr(paper_shell(w->folder, "pdfinfo record.pdf"), "Job record J-1926"));
}

/* One of the two columns of the contents, as wide as the room between them. */
#define COLUMN "pdftotext -x $x -y 76 -W 206 -H 150 -f 2 -l 2 -layout record.pdf -"

/* A bookmark for every section, and the contents name each with its page. */
static void contents_and_bookmarks(void **state)
{
    paper_world *w = *state;
    long sections = number(w, "pdftotext record.pdf - | grep -cE '^17 .* signatures$'");
    assert_int_equal(sections, 2); /* in the contents and where it stands */
    assert_int_equal(number(w, "grep -ac '/Title ' plain.pdf"), 17 + 1); /* and the document's */
    assert_int_equal(number(w, "for x in 40 246; do " COLUMN
                               "; done | tr -d '\\f' | grep -cE '^ *[0-9]+ "
                               ".* [0-9]+ *$'"),
                     17);
}

/* The page that the contents give for a section has that section's heading. */
static void the_contents_are_right(void **state)
{
    paper_world *w = *state;
    assert_string_equal(
        paper_shell(w->folder,
                    "for x in 40 246; do " COLUMN "; done | tr -d '\\f' | sed -nE "
                    "'s/^ *([0-9]+) +(.*[^ ]) +([0-9]+) *$/\\3 \\1 \\2/p' | while read page rest; "
                    "do pdftotext -f $page -l $page record.pdf - | grep -qxF \"$rest\" || echo "
                    "\"$page $rest\"; done"),
        "");
}

/* Links: from the contents to every section, from findings to the rows of their
 * evidence; each leads to a page of the paper. */
static void links_lead_somewhere(void **state)
{
    paper_world *w = *state;
    long links = number(w, "grep -ac '/Subtype /Link' plain.pdf");
    assert_true(links > 17 + 10);
    assert_int_equal(number(w, "grep -ac '/FitH' plain.pdf"), links);
}

/* ---- structure: ISO 32000-1, 14.7 and 14.8, as poppler reads it ------------------------- */

/* Every section is a heading, in the order of the contents; no heading and no table stands in
 * another table; each figure says what it shows. */
static void headings_tables_figures(void **state)
{
    paper_world *w = *state;
    paper_shell(w->folder, "pdfinfo -struct-text record.pdf > tree 2> tree.err; "
                           "pdfinfo record.pdf | grep Tagged > tagged");
    assert_string_equal(paper_shell(w->folder, "cat tree.err"), "");
    assert_non_null(strstr(paper_shell(w->folder, "cat tagged"), "yes"));
    assert_int_equal(number(w, "grep -cE '^ +H2 ' tree"), 17 + 1); /* and the contents */
    assert_int_equal(number(w, "grep -cE '^  (H2|H3|Table) |^    H2 ' tree"),
                     number(w, "grep -cE '^ +(H2|H3|Table) ' tree"));
    assert_string_equal(paper_shell(w->folder,
                                    "grep -A1 '^  H2 ' tree | grep -oE '\"[0-9]+ ' | tr -d '\"' | "
                                    "sort -nc && echo in order"),
                        "in order\n");
    assert_int_equal(number(w, "grep -ac '/S /Figure' plain.pdf"),
                     number(w, "grep -ac '/Alt ' plain.pdf"));
    assert_true(number(w, "grep -ac '/S /Figure' plain.pdf") >= 4);
}

/* A cell of a table is a cell of a row; a mark is the sign it stands for; the head is read once,
 * however many pages repeat it. */
static void rows_and_cells(void **state)
{
    paper_world *w = *state;
    paper_shell(w->folder, "pdfinfo -struct-text record.pdf > tree");
    assert_true(number(w, "grep -cE '^ +TD' tree") > 500);
    assert_int_equal(number(w, "grep -E '^(  |    |        )TD' tree | wc -l"),
                     0); /* in rows alone */
    assert_int_equal(
        number(w, "grep -c '\"Requirement and citation\"' tree"),
        number(w, "grep -A3 -E '^ +TH' tree | grep -c '\"Requirement and citation\"'"));
    assert_true(number(w, "grep -ac '/ActualText' plain.pdf") > 50);
    assert_int_equal(
        number(w, "grep -E '[a-z][.;][A-Z0-9]' tree | grep -vE '[A-Z0-9][0-9]*[.][a-z]' | wc -l"),
        0); /* words kept apart */
}

/* What is marked is ended, on every page, and what runs along the edge is of no element. */
static void marks_are_balanced(void **state)
{
    paper_world *w = *state;
    assert_int_equal(number(w, "grep -acE ' BDC$| BMC$' plain.pdf"),
                     number(w, "grep -acE '^EMC$' plain.pdf"));
    paper_shell(w->folder, "pdfinfo -struct-text record.pdf > tree");
    assert_int_equal(number(w, "grep -E 'page [0-9]+ of [0-9]+' tree | wc -l"), 0);
    assert_int_equal(number(w, "awk '/^ *(P|H[1-3]) / { getline l; n += l !~ /\"|Span/ } "
                               "END { print n + 0 }' tree"),
                     0); /* nor is an empty element of it */
    assert_int_equal(number(w, "awk '/^ +TR/ { n += head && !said; head = said = 0 } "
                               "/^ +TH/ { head = 1 } /\"/ { said = 1 } END { print n + 0 }' tree"),
                     0);
    assert_int_equal(number(w, "pdftotext record.pdf - | grep -cE 'page [0-9]+ of [0-9]+'"),
                     number(w, "pdfinfo record.pdf | awk '/^Pages/ { print $2 }'"));
}

static void read_fax(const paper_world *w, int page)
{
    char command[256];
    snprintf(command, sizeof command,
             "pdftoppm -r 100 -mono -f %d -l %d record.pdf fax && mv fax*.pbm fax.pbm && tesseract "
             "fax.pbm read --dpi 100 2> /dev/null",
             page, page);
    paper_shell(w->folder, command);
}

/* The first page as a fax brings it: the questions, the answers and the day. */
static void a_fax_can_be_read(void **state)
{
    static const char *const parts[] = {"J-1926", "May demo start", "signs come down",
                                        "stand up to an inspection", "lacking"};
    paper_world *w = *state;
    read_fax(w, 1);
    char *text = paper_slurp(w->folder, "read.txt");
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strstr(text, parts[i]) == NULL)
            fail_msg("the fax lacks \"%s\":\n%s", parts[i], text);
    free(text);
}

/* What stands on a shaded ground stays free of dots: fewer than one pixel in twelve of
 * the caution box's margin is black. */
static void shades_stay_light(void **state)
{
    paper_world *w = *state;
    assert_true(number(w, "pdftoppm -r 100 -mono -f 1 -l 1 record.pdf m && mv m*.pbm m.pbm && "
                          "python3 -c \"d = open('m.pbm', 'rb').read(); n = d.split(b'\\n', 2); "
                          "w, h = map(int, n[1].split()); r = n[2]; s = (w + 7) // 8; "
                          "b = sum(bin(r[y * s + x]).count('1') for y in range(880, 1000) "
                          "for x in range(90, 96)); print(b * 12 // (120 * 48))\"") == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_title_and_language), cmocka_unit_test(contents_and_bookmarks),
        cmocka_unit_test(the_contents_are_right),  cmocka_unit_test(links_lead_somewhere),
        cmocka_unit_test(a_fax_can_be_read),       cmocka_unit_test(headings_tables_figures),
        cmocka_unit_test(rows_and_cells),          cmocka_unit_test(marks_are_balanced),
        cmocka_unit_test(shades_stay_light),
    };
    return cmocka_run_group_tests(tests, set_up, paper_world_end);
}
