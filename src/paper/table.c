#include "paper/table.h"

#include <string.h>

#define PAD_X      3.0F
#define PAD_Y      2.4F
#define DENSE_Y    0.8F
#define MARK_SIZE  7.6F
#define MARK_STEP  10.6F
#define TALL_MARK  17.0F
#define RIGHT_PAD  8.0F
#define GROUP_BAR  2.4F  /* a black bar before the name of a group */
#define FLOW_LEAST 60.0F /* points of a row that may stand alone at the foot of a page */
#define FIRST_KEEP 14.0F /* no table begins with a single row at the foot of a page */

/* One drawn line of a cell. */
typedef struct cell_line {
    mf_line line;
    mf_style style;
    unsigned flags;
    mf_mark mark; /* on the first line only */
    float indent;
} cell_line;

typedef struct cell_box {
    cell_line *lines;
    size_t n;
} cell_box;

static float col_width(const mf_table *table, size_t col)
{
    float sum = 0;
    for (size_t i = 0; i < table->n; i++)
        sum += table->cols[i].share;
    return mf_across(table->page) * table->cols[col].share / sum;
}

/* A right-set column's text ends short of the next column. */
static float text_width(const mf_table *table, size_t col)
{
    return col_width(table, col) - 2 * PAD_X - (table->cols[col].right ? RIGHT_PAD : 0);
}

static mf_style style_in(const mf_cell *cell)
{
    return cell->style == MF_ST_TITLE ? MF_ST_CELL : cell->style;
}

/* One part of a cell as lines of text. */
typedef struct part_lines {
    const mf_line *lines;
    size_t n, count; /* count: of drawn lines, one for a mark without words */
    float indent;
    mf_style style; /* as asked, or smaller */
} part_lines;

/* The width of the widest word. */
static float widest_word(const mf_page *page, mf_style style, const char *text)
{
    float widest = 0;
    for (const char *at = text; *at != '\0';) {
        size_t len = strcspn(at, " \n");
        float wide = mf_haru_width(page->haru, mf_style_of(style)->font, at, len);
        widest = wide > widest ? wide : widest;
        at += len + (at[len] != '\0');
    }
    return widest;
}

/* No word is parted while a smaller size holds it whole. */
static mf_style style_for(const mf_page *page, mf_style style, const char *ready, float width)
{
    mf_style smaller = style == MF_ST_CELL        ? MF_ST_SMALL
                       : style == MF_ST_CELL_BOLD ? MF_ST_SMALL_BOLD
                                                  : style;
    bool helps = smaller != style && widest_word(page, style, ready) > width &&
                 widest_word(page, smaller, ready) <= width;
    return helps ? smaller : style;
}

static part_lines lines_of(mf_table *table, const mf_cell *part, float width)
{
    part_lines out = {.indent = part->mark == MF_MARK_NONE ? 0 : MARK_STEP};
    const char *ready = mf_page_ready(table->page, style_in(part), part->text);
    out.style = style_for(table->page, style_in(part), ready, width - out.indent);
    out.lines = mf_page_lines(table->page, out.style, ready, width - out.indent, &out.n);
    out.count = out.n == 0 && part->mark != MF_MARK_NONE ? 1 : out.n;
    return out;
}

static void add_part(cell_box *box, const mf_cell *part, const part_lines *from)
{
    for (size_t i = 0; i < from->count; i++) {
        mf_line line = i < from->n ? from->lines[i] : (mf_line){"", 0};
        box->lines[box->n++] = (cell_line){line, from->style, part->flags,
                                           i == 0 ? part->mark : MF_MARK_NONE, from->indent};
    }
}

enum { FEW_PARTS = 8 }; /* that most cells have at most */

static void join_parts(mf_table *table, cell_box *box, const mf_cell *cell, part_lines *parts,
                       float width)
{
    size_t n = 0;
    size_t i = 0;
    for (const mf_cell *part = cell; part != NULL; part = part->below) {
        parts[i] = lines_of(table, part, width);
        n += parts[i++].count;
    }
    if (n == 0)
        return;
    box->lines = mf_arena_alloc(table->page->arena, n * sizeof *box->lines);
    if (box->lines == NULL) {
        mf_page_no_memory(table->page);
        return;
    }
    for (const mf_cell *part = cell; part != NULL; part = part->below)
        add_part(box, part, parts++);
}

static void fill_box(mf_table *table, cell_box *box, const mf_cell *cell, float width)
{
    part_lines few[FEW_PARTS];
    part_lines *parts = few;
    size_t n = 0;
    *box = (cell_box){0};
    for (const mf_cell *part = cell; part != NULL; part = part->below)
        n++;
    if (n > FEW_PARTS)
        parts = mf_arena_alloc(table->page->arena, n * sizeof *parts);
    if (parts == NULL)
        mf_page_no_memory(table->page);
    else
        join_parts(table, box, cell, parts, width);
}

static float pad_y(const mf_table *table)
{
    return table->dense ? DENSE_Y : PAD_Y;
}

static float box_height(const mf_table *table, const cell_box *box, size_t from)
{
    float height = 2 * pad_y(table);
    for (size_t i = from; i < box->n; i++)
        height += mf_style_of(box->lines[i].style)->leading;
    return height;
}

static void draw_mark(mf_page *page, const cell_line *line, mf_point at)
{
    float size = line->style == MF_ST_TALL ? TALL_MARK : MARK_SIZE;
    float drop = (mf_style_of(line->style)->leading - size) / 2;
    mf_mark_draw(page->haru, line->mark, (mf_point){at.x, at.y + drop}, size);
}

static void strike(mf_page *page, const mf_style_row *row, mf_point at, float width)
{
    float y = at.y + row->leading * 0.52F;
    mf_haru_line(page->haru, MF_INK_BLACK, 0.6F, (mf_point){at.x, y}, (mf_point){at.x + width, y});
}

/* Where the letters of a line stand, below its top. */
static float baseline(const mf_style_row *row)
{
    return (row->leading - row->font.size) / 2 + row->font.size * 0.82F;
}

static void draw_cell_line(mf_page *page, const cell_line *line, mf_point at, float width,
                           bool right, bool more)
{
    const mf_style_row *row = mf_style_of(line->style);
    if (line->mark != MF_MARK_NONE)
        draw_mark(page, line, at);
    float wide = mf_haru_width(page->haru, row->font, line->line.text, line->line.len);
    at.x += right ? width - wide - RIGHT_PAD : line->indent;
    mf_point base = {at.x, at.y + baseline(row)};
    mf_page_line(page, row->font, row->ink, base, line->line);
    if (more && line->line.text[line->line.len] == '\0') /* parts of a cell are kept apart */
        mf_haru_text(page->haru, row->font, row->ink, (mf_point){base.x + wide, base.y}, " ", 1);
    if (line->flags & MF_CELL_STRUCK)
        strike(page, row, at, wide);
}

/* The lowest letters among the first lines of a row's cells. */
static float row_baseline(const mf_table *table, const cell_box *boxes, const size_t *from)
{
    float lowest = 0;
    for (size_t i = 0; i < table->n; i++) {
        if (from[i] >= boxes[i].n || boxes[i].lines[from[i]].style == MF_ST_TALL)
            continue;
        float own = baseline(mf_style_of(boxes[i].lines[from[i]].style));
        lowest = own > lowest ? own : lowest;
    }
    return lowest;
}

/* Draws lines of one cell until height is used up, the first one on the row's baseline (0 =
 * its own); returns the next line. */
static size_t draw_box(mf_table *table, const cell_box *box, size_t from, mf_point at, float width,
                       float height, bool right, float base)
{
    float used = 2 * pad_y(table);
    size_t i = from;
    at.x += PAD_X;
    at.y += pad_y(table);
    if (base > 0 && from < box->n && box->lines[from].style != MF_ST_TALL)
        at.y += base - baseline(mf_style_of(box->lines[from].style));
    for (; i < box->n; i++) {
        float leading = mf_style_of(box->lines[i].style)->leading;
        if (used + leading > height + 0.01F)
            break;
        draw_cell_line(table->page, &box->lines[i], at, width - 2 * PAD_X, right, i + 1 < box->n);
        used += leading;
        at.y += leading;
    }
    return i;
}

static void rule(mf_table *table, mf_ink ink, float thick)
{
    if (!table->bare)
        mf_haru_line(table->page->haru, ink, thick, (mf_point){MF_LEFT, table->page->y},
                     (mf_point){mf_right(table->page), table->page->y});
}

/* ---- heads -------------------------------------------------------------------------- */

static float fill_heads(mf_table *table, cell_box *boxes)
{
    float height = 0;
    for (size_t i = 0; i < table->n; i++) {
        const bool own = i == 0 && table->first != NULL;
        const mf_cell head = {.style = MF_ST_SMALL_BOLD,
                              .text = own ? table->first : table->cols[i].head};
        fill_box(table, &boxes[i], &head, text_width(table, i));
        float tall = box_height(table, &boxes[i], 0);
        height = tall > height ? tall : height;
    }
    return height;
}

static void draw_heads(mf_table *table, const cell_box *boxes, float height)
{
    mf_page *page = table->page;
    float x = MF_LEFT;
    const bool again = table->heads_on != 0; /* read once */
    if (again)
        mf_haru_edge(page->haru, true);
    mf_haru_begin(page->haru, MF_TAG_TR, NULL);
    rule(table, MF_INK_RULE, 0.4F); /* no grey ground: a fax makes dots of it, and misreads */
    for (size_t i = 0; i < table->n; i++) {
        float width = col_width(table, i);
        mf_haru_begin(page->haru, MF_TAG_TH, NULL);
        draw_box(table, &boxes[i], 0, (mf_point){x, page->y}, width, height, table->cols[i].right,
                 0);
        mf_haru_end(page->haru);
        x += width;
    }
    mf_haru_end(page->haru);
    if (again)
        mf_haru_edge(page->haru, false);
    page->y += height;
    rule(table, MF_INK_ACCENT, 0.8F);
    table->heads_on = page->n_pages;
}

static float group_height(const mf_table *table)
{
    if (table->group == NULL)
        return 0;
    return mf_page_block(table->page, MF_ST_CELL_BOLD, (mf_point){0, 0},
                         mf_across(table->page) - GROUP_BAR - 2 * PAD_X, table->group, false) +
           3.6F;
}

static void draw_group(mf_table *table, float height)
{
    mf_page *page = table->page;
    if (table->group == NULL)
        return;
    mf_haru_rect(page->haru, MF_INK_BLACK, MF_INK_NONE, 0, (mf_point){MF_LEFT, page->y + 1},
                 (mf_point){GROUP_BAR, height - 2});
    mf_haru_begin(page->haru, MF_TAG_TR, NULL);
    mf_haru_span(page->haru, mf_haru_begin(page->haru, MF_TAG_TH, NULL), (int)table->n);
    mf_page_block(page, MF_ST_CELL_BOLD, (mf_point){MF_LEFT + GROUP_BAR + PAD_X, page->y + 2},
                  mf_across(page) - GROUP_BAR - 2 * PAD_X, table->group, true);
    mf_haru_end(page->haru);
    mf_haru_end(page->haru);
    table->group = NULL;
    page->y += height;
    rule(table, MF_INK_RULE, 0.4F);
}

/* Makes room for a row of that height, with the heads when they are due and the
 * group's name that waits for its first row. */
static void make_room(mf_table *table, float height)
{
    mf_page *page = table->page;
    cell_box boxes[MF_COLS_MAX];
    float group = group_height(table);
    bool due = !table->bare && table->heads_on != page->n_pages;
    float heads = due ? fill_heads(table, boxes) : 0;
    mf_page_need(page,
                 height + group + (due ? heads : 0) + (table->heads_on == 0 ? FIRST_KEEP : 0));
    if (!table->begun)
        mf_haru_begin(page->haru, MF_TAG_TABLE, NULL);
    table->begun = true;
    if (!table->bare && table->heads_on != page->n_pages) {
        heads = due ? heads : fill_heads(table, boxes);
        draw_heads(table, boxes, heads);
    }
    draw_group(table, group);
}

/* ---- rows ---------------------------------------------------------------------------- */

static float rest_height(const mf_table *table, const cell_box *boxes, const size_t *from)
{
    float height = table->row_height;
    for (size_t i = 0; i < table->n; i++) {
        float own = box_height(table, &boxes[i], from[i]);
        height = own > height ? own : height;
    }
    return height;
}

static void upright_rules(mf_table *table, float height)
{
    float x = MF_LEFT;
    float y = table->page->y;
    for (size_t i = 0; i <= table->n; i++) {
        mf_haru_line(table->page->haru, MF_INK_RULE, 0.4F, (mf_point){x, y},
                     (mf_point){x, y + height});
        x += i < table->n ? col_width(table, i) : 0;
    }
}

static void begin_or_go_on(mf_haru *haru, mf_tag tag, int *elem)
{
    if (*elem == MF_UNTAGGED)
        *elem = mf_haru_begin(haru, tag, NULL);
    else
        mf_haru_again(haru, *elem);
}

/* Draws one slice of the row; returns whether anything is left of it. */
static bool draw_slice(mf_table *table, const cell_box *boxes, size_t *from, float height,
                       int *elem)
{
    mf_page *page = table->page;
    float x = MF_LEFT;
    bool left = false;
    const float base = row_baseline(table, boxes, from);
    begin_or_go_on(page->haru, MF_TAG_TR, &elem[MF_COLS_MAX]);
    for (size_t i = 0; i < table->n; i++) {
        float width = col_width(table, i);
        begin_or_go_on(page->haru, MF_TAG_TD, &elem[i]);
        from[i] = draw_box(table, &boxes[i], from[i], (mf_point){x, page->y}, width, height,
                           table->cols[i].right, base);
        mf_haru_end(page->haru);
        left = left || from[i] < boxes[i].n;
        x += width;
    }
    mf_haru_end(page->haru);
    if (table->upright)
        upright_rules(table, height);
    page->y += height;
    return left;
}

/* The names of the row's places, and where its cells lead. */
static void note_places(mf_table *table, const mf_cell *cells, float height)
{
    mf_page *page = table->page;
    float x = MF_LEFT;
    for (size_t i = 0; i < table->n; i++) {
        float width = col_width(table, i);
        mf_page_anchor(page, cells[i].anchor);
        mf_page_link(page, (mf_point){x, page->y}, (mf_point){width, height}, cells[i].link);
        x += width;
    }
}

/* What is left of the page when the row does not fit but a few lines of it do. */
static float flowing(const mf_table *table, float height)
{
    const float left = mf_page_left(table->page) - group_height(table);
    bool begun = table->heads_on == table->page->n_pages;
    return begun && height > left && left >= FLOW_LEAST ? left : height;
}

void mf_table_row(mf_table *table, const mf_cell *cells)
{
    cell_box boxes[MF_COLS_MAX] = {0};
    size_t from[MF_COLS_MAX] = {0};
    for (size_t i = 0; i < table->n && i < MF_COLS_MAX; i++)
        fill_box(table, &boxes[i], &cells[i], text_width(table, i));
    if (mf_haru_failed(table->page->haru))
        return;
    const float most = mf_bottom(table->page) - MF_TOP - 80; /* the heads take the rest */
    bool left = true;
    bool first = true;
    int elem[MF_COLS_MAX + 1]; /* of the cells, then of the row, which a page may part */
    for (size_t i = 0; i <= MF_COLS_MAX; i++)
        elem[i] = MF_UNTAGGED;
    while (left) {
        float height = rest_height(table, boxes, from);
        height = height > most ? most : height;
        if (table->flows)
            height = flowing(table, height);
        make_room(table, height);
        if (first)
            note_places(table, cells, height);
        first = false;
        left = draw_slice(table, boxes, from, height, elem);
        rule(table, MF_INK_RULE, 0.4F);
    }
}

void mf_table_group(mf_table *table, const char *text)
{
    table->group = text;
}

void mf_table_end(mf_table *table)
{
    rule(table, MF_INK_RULE, 0.4F);
    if (table->begun)
        mf_haru_end(table->page->haru);
    table->begun = false;
    mf_page_gap(table->page, table->bare ? 4 : 8);
}
