/* A window by what people call it. 40 CFR 745.83: window replacement is never minor, whatever the
 * type is that somebody found to log it, and whether or not it was logged as an opening. */
#include "core/opening_parts.h"

#include "core/area_rooms.h"
#include "core/text.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* In the languages of the papers. Common practice, no source. */
static const char *const windows[] = {"window",  "windows",  "windowsill", "windowsills",
                                      "sash",    "sashes",   "casement",   "casements",
                                      "ventana", "ventanas", "ventanal",   "ventanales"};
static const char *const described[] = {"window",    "windows", "sash",     "sashes",  "casement",
                                        "casements", "ventana", "ventanas", "ventanal"};
static const char *const replaces[] = {
    "replace",   "replaces", "replaced",   "replacing", "replacement", "replacements",
    "new",       "swap",     "reemplazar", "reemplazo", "reemplaza",   "remplazar",
    "remplazo",  "cambiar",  "cambio",     "cambia",    "sustituir",   "sustitución",
    "sustituye", "nueva",    "nuevas",     "nuevo",     "nuevos"};

/* A type that says of itself what the part belongs to is believed. */
static bool type_leaves_open(mf_component_type type)
{
    return type == MF_COMP_OTHER || type == MF_COMP_JAMB || type == MF_COMP_STOP ||
           type == MF_COMP_APRON || type == MF_COMP_INTERIOR_CASING ||
           type == MF_COMP_EXTERIOR_CASING;
}

bool mf_named_window(const mf_component *component)
{
    return type_leaves_open(component->type) &&
           (mf_words_hold_one(mf_or_empty(component->label), windows, COUNT(windows)) ||
            mf_words_hold_one(mf_or_empty(component->id), windows, COUNT(windows)));
}

bool mf_window_by_name(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (it->removed == MF_YES && mf_job_opening(job, it->opening) == NULL &&
            mf_named_window(it))
            return true;
    }
    return false;
}

bool mf_window_described(const mf_job *job)
{
    const char *words = job->n_house > 0 ? mf_or_empty(job->house[0].description) : "";
    if (!mf_words_hold_one(words, described, COUNT(described)) ||
        !mf_words_hold_one(words, replaces, COUNT(replaces)))
        return false;
    for (size_t i = 0; i < job->n_opening; i++)
        if (job->opening[i].kind == MF_OPENING_WINDOW)
            return false;
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_of_window(job, &job->component[i]))
            return false;
    return true;
}
