/* Which change of each limit is stricter, and which of two rows is. */
#include "core/limit_rows.h"

#define FEWER MF_STRICTER_FEWER
#define MORE  MF_STRICTER_MORE

/* FEWER where the test lets something pass or exempts it; MORE where it puts a
 * duty on. What is not named here nobody else may set: the plausible loading is a
 * check of our own. */
static const mf_stricter stricter[MF_LIMIT_COUNT + 1] = {
    [MF_LIMIT_YEAR_BUILT] = MORE,         /* covers later houses */
    [MF_LIMIT_PAINT_LOADING] = MORE,      /* less lead is lead-based paint */
    [MF_LIMIT_PAINT_WEIGHT] = MORE,       /* the same */
    [MF_LIMIT_MINOR_INTERIOR] = FEWER,    /* less is minor */
    [MF_LIMIT_MINOR_EXTERIOR] = FEWER,    /* the same */
    [MF_LIMIT_MINOR_DAYS] = MORE,         /* jobs further apart count together */
    [MF_LIMIT_PAMPHLET_DAYS] = FEWER,     /* closer before the start */
    [MF_LIMIT_MAILING_DAYS] = FEWER,      /* earlier */
    [MF_LIMIT_FLOOR_SHEET] = FEWER,       /* further */
    [MF_LIMIT_GROUND_SHEET] = FEWER,      /* further */
    [MF_LIMIT_EXTERIOR_OPENINGS] = MORE,  /* more openings closed */
    [MF_LIMIT_PROPERTY_LINE] = MORE,      /* containment called for farther from the line */
    [MF_LIMIT_CLEAN_MARGIN] = FEWER,      /* further */
    [MF_LIMIT_HEAT_GUN] = FEWER,          /* cooler */
    [MF_LIMIT_SECTION_UNDIVIDED] = FEWER, /* smaller surfaces are divided */
    [MF_LIMIT_SECTION_PART] = FEWER,      /* into smaller parts */
    [MF_LIMIT_DRY_WAIT] = FEWER,          /* longer */
    [MF_LIMIT_DUST_FLOOR] = FEWER,        /* less dust passes */
    [MF_LIMIT_DUST_SILL] = FEWER,         /* the same */
    [MF_LIMIT_DUST_TROUGH] = FEWER,       /* the same */
    [MF_LIMIT_SAMPLE_WAIT] = FEWER,       /* later */
    [MF_LIMIT_COMPOSITE_WIPES] = FEWER,   /* fewer wipes in one */
    [MF_LIMIT_SAMPLE_ROOMS] = FEWER,      /* more rooms */
    [MF_LIMIT_HANDOVER_DAYS] = FEWER,     /* sooner */
    [MF_LIMIT_RETENTION_YEARS] = FEWER,   /* longer */
    [MF_LIMIT_FIRM_YEARS] = FEWER,        /* shorter */
    [MF_LIMIT_RENEWAL_DAYS] = FEWER,      /* sent earlier */
    [MF_LIMIT_AMEND_DAYS] = FEWER,        /* amended sooner */
    [MF_LIMIT_COURSE_YEARS] = FEWER,      /* shorter */
    [MF_LIMIT_COURSE_ONLINE_YEARS] = FEWER,
    [MF_LIMIT_CALIBRATION_HOURS] = FEWER, /* more often */
    [MF_LIMIT_CHILD_AGE] = MORE,          /* older children count too */
    [MF_LIMIT_ZERO_BEDROOM_CHILD] = MORE,
    [MF_LIMIT_VISIT_DAYS] = MORE, /* fewer visits make a facility */
    [MF_LIMIT_VISIT_MINUTES] = MORE,
    [MF_LIMIT_VISIT_WEEK] = MORE,
    [MF_LIMIT_VISIT_YEAR] = MORE,
    [MF_LIMIT_ASSISTED_INTERIOR] = FEWER,
    [MF_LIMIT_ASSISTED_EXTERIOR] = FEWER,
    [MF_LIMIT_ASSISTED_PART] = FEWER,
    [MF_LIMIT_ASSISTED_HEAT_GUN] = FEWER,
    [MF_LIMIT_DRY_SPOT_INTERIOR] = FEWER,
    [MF_LIMIT_DRY_SPOT_EXTERIOR] = FEWER,
    [MF_LIMIT_STAY_MINUTES] = FEWER,
    [MF_LIMIT_STAY_DAYS] = FEWER,
    [MF_LIMIT_STAY_MARGIN] = FEWER,
    [MF_LIMIT_SIGN_DISTANCE] = FEWER,     /* from farther away */
    [MF_LIMIT_SAMPLE_OUTSIDE] = FEWER,    /* nearer */
    [MF_LIMIT_BLOOD_LEAD] = FEWER,        /* a higher level alone makes the case an emergency */
    [MF_LIMIT_ASSESSOR_YEARS] = FEWER,    /* shorter */
    [MF_LIMIT_EMERGENCY_DAYS] = FEWER,    /* excuses for less long */
    [MF_LIMIT_COUNT] = MF_STRICTER_NEVER, /* what mf_limit_named makes of an unknown name */
};

mf_stricter mf_limit_stricter(mf_limit_id id)
{
    return (unsigned)id <= MF_LIMIT_COUNT ? stricter[id] : MF_STRICTER_NEVER;
}

static bool looks_down(mf_cmp cmp)
{
    return cmp == MF_LT || cmp == MF_LE;
}

/* The last value for which the test holds. */
static int64_t edge(const mf_limit *row)
{
    switch (row->cmp) {
    case MF_LT:
        return row->value - 1;
    case MF_GT:
        return row->value + 1;
    case MF_LE:
    case MF_GE:
        break;
    }
    return row->value;
}

bool mf_limit_as_strict(const mf_limit *a, const mf_limit *b)
{
    mf_stricter way = mf_limit_stricter(a->id);
    if (a->id != b->id || way == MF_STRICTER_NEVER || looks_down(a->cmp) != looks_down(b->cmp))
        return false;
    bool fewer = looks_down(a->cmp) ? edge(a) <= edge(b) : edge(a) >= edge(b);
    bool more = looks_down(a->cmp) ? edge(a) >= edge(b) : edge(a) <= edge(b);
    return way == MF_STRICTER_FEWER ? fewer : more;
}
