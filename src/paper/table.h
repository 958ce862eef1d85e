/* table.h - tables that go on over pages.
 *
 * Cells wrap; a row is never parted unless it is taller than a page; the heads
 * are repeated on each new page. */
#ifndef MF_PAPER_TABLE_H
#define MF_PAPER_TABLE_H

#include "paper/mark.h"
#include "paper/page.h"

enum { MF_COLS_MAX = 12 };

typedef struct mf_col {
    const char *head;
    float share; /* of the table's width, against the other columns' shares */
    bool right;  /* numbers: set against the right edge */
} mf_col;

enum { MF_CELL_STRUCK = 1 };

/* A cell: an optional mark, its text, and further parts below it. */
typedef struct mf_cell mf_cell;
struct mf_cell {
    mf_mark mark;
    mf_style style; /* MF_ST_TITLE (0) = MF_ST_CELL */
    unsigned flags;
    const char *text;   /* NULL = "" */
    const char *anchor; /* of the row: what links to this name arrive at */
    const char *link;   /* the whole cell leads to the anchor of that name */
    const mf_cell *below;
};

typedef struct mf_table {
    mf_page *page;
    const mf_col *cols;
    size_t n;
    bool upright;      /* rules between the columns too: a form to write in */
    bool dense;        /* rows close together: long lists of one line each */
    bool flows;        /* a row goes on over pages rather than leave a foot empty */
    bool bare;         /* no heads, no rules: pairs of label and value */
    float row_height;  /* at least; 0 = as the text needs */
    const char *first; /* in place of the first head, with what the table is of; NULL = none */
    const char *group; /* a name that waits for its first row; NULL = none */
    int heads_on;      /* page that has the heads; 0 = none yet */
    bool begun;        /* its element is open */
} mf_table;

void mf_table_row(mf_table *table, const mf_cell *cells);
/* A row over the full width, set apart: a group's name. It stays with the next row. */
void mf_table_group(mf_table *table, const char *text);
/* The closing rule and a gap. */
void mf_table_end(mf_table *table);

#endif
