/* The requirements as a table: audit_list.inc taken three times. */
#include "core/audit_rows.h"

#define RULE       (1u << MF_GATE_RULE)
#define DEMO       (1u << MF_GATE_DEMO)
#define SIGNS      (1u << MF_GATE_SIGNS)
#define HANDOVER   (1u << MF_GATE_HANDOVER)
#define INSPECTION (1u << MF_GATE_INSPECTION)

/* 1. The place of each row. */
#define ROW(name, ...)             ROW_##name,
#define ALWAYS_ROW(name, ...)      ROW_##name,
#define FILE_ROW(name, ...)        ROW_##name,
#define FREE_ROW(name, ...)        ROW_##name,
#define PARTY_ROW(name, ...)       ROW_##name,
#define OWED_ROW(name, ...)        ROW_##name,
#define STEP_ALWAYS_ROW(name, ...) ROW_##name,
#define STEP_ROW(name, ...)        ROW_##name,
enum {
#include "core/audit_list.inc"
    N_ROWS
};
#undef ROW
#undef ALWAYS_ROW
#undef FILE_ROW
#undef FREE_ROW
#undef PARTY_ROW
#undef OWED_ROW
#undef STEP_ALWAYS_ROW
#undef STEP_ROW

/* 2. The rows. Every step is wanted by an inspector, whatever else asks for it. */
#define FULL(name, id, cite, gates, status, each, holds, step, role, applies, shown)               \
    [ROW_##name] = {{id, cite, gates, status}, each, holds, step, role, applies, shown},
#define ROW(name, id, cite, gates, status, each, applies, shown)                                   \
    FULL(name, id, cite, gates, status, each, MF_HOLDS_COVERED, "", MF_ROLE_OWNER, applies, shown)
#define ALWAYS_ROW(name, id, cite, gates, status, each, applies, shown)                            \
    FULL(name, id, cite, gates, status, each, MF_HOLDS_ALWAYS, "", MF_ROLE_OWNER, applies, shown)
#define FILE_ROW(name, id, cite, gates, status, each, applies, shown)                              \
    FULL(name, id, cite, gates, status, each, MF_HOLDS_FILE, "", MF_ROLE_OWNER, applies, shown)
#define FREE_ROW(name, id, cite, gates, status, each, applies, shown)                              \
    FULL(name, id, cite, gates, status, each, MF_HOLDS_FREE, "", MF_ROLE_OWNER, applies, shown)
#define PARTY_ROW(name, id, cite, gates, status, role, applies, shown)                             \
    FULL(name, id, cite, gates, status, MF_EACH_PARTY, MF_HOLDS_COVERED, "", role, applies, shown)
#define OWED_ROW(name, id, cite, gates, status, role, applies, shown)                              \
    FULL(name, id, cite, gates, status, MF_EACH_OWED, MF_HOLDS_FREE, "", role, applies, shown)
#define STEP_ALWAYS_ROW(name, id, cite, gate, status)                                              \
    FULL(name, id, cite, (gate) | INSPECTION, status, MF_EACH_AREA, MF_HOLDS_ALWAYS, id,           \
         MF_ROLE_OWNER, mf_if_step, mf_show_step)
#define STEP_ROW(name, id, cite, gate, status)                                                     \
    FULL(name, id, cite, (gate) | INSPECTION, status, MF_EACH_AREA, MF_HOLDS_COVERED, id,          \
         MF_ROLE_OWNER, mf_if_step, mf_show_step)
static const mf_audit_row rows[] = {
#include "core/audit_list.inc"
};
#undef ROW
#undef ALWAYS_ROW
#undef FILE_ROW
#undef FREE_ROW
#undef PARTY_ROW
#undef OWED_ROW
#undef STEP_ALWAYS_ROW
#undef STEP_ROW

/* 3. What callers outside this room may see of them. */
#define ROW(name, ...)             &rows[ROW_##name].requirement,
#define ALWAYS_ROW(name, ...)      &rows[ROW_##name].requirement,
#define FILE_ROW(name, ...)        &rows[ROW_##name].requirement,
#define FREE_ROW(name, ...)        &rows[ROW_##name].requirement,
#define PARTY_ROW(name, ...)       &rows[ROW_##name].requirement,
#define OWED_ROW(name, ...)        &rows[ROW_##name].requirement,
#define STEP_ALWAYS_ROW(name, ...) &rows[ROW_##name].requirement,
#define STEP_ROW(name, ...)        &rows[ROW_##name].requirement,
static const mf_requirement *const requirements[] = {
#include "core/audit_list.inc"
};

const mf_audit_row *mf_audit_rows(size_t *count)
{
    *count = N_ROWS;
    return rows;
}

const mf_requirement *const *mf_requirements(size_t *count)
{
    *count = N_ROWS;
    return requirements;
}
