/* Words beside a signature. 40 CFR 745.84(a)(1)(i), (a)(2)(i): owner or "an adult occupant" sign.
 * Which words say it is common practice, no source: what is not among them is asked for. */
#include "core/signer.h"

#include "core/area_rooms.h"

#include <stddef.h>

/* On which side of a lease whoever is called so stands. */
typedef enum side { EITHER = 1, RENTS = 2, LETS = 4 } side;

static const struct {
    const char *word;
    side of;
} what[] = {
    {"owner", LETS},          {"co-owner", LETS},   {"landlord", LETS},
    {"landlady", LETS},       {"lessor", LETS},     {"manager", LETS},
    {"agent", EITHER},        {"trustee", EITHER},  {"representative", EITHER},
    {"attorney", EITHER},     {"executor", EITHER}, {"guardian", EITHER},
    {"president", EITHER},    {"director", EITHER}, {"officer", EITHER},
    {"partner", EITHER},      {"member", EITHER},   {"principal", EITHER},
    {"tenant", RENTS},        {"occupant", EITHER}, {"resident", EITHER},
    {"renter", RENTS},        {"lessee", RENTS},    {"adult", EITHER},
    {"spouse", EITHER},       {"wife", EITHER},     {"husband", EITHER},
    {"mother", EITHER},       {"father", EITHER},   {"parent", EITHER},
    {"signed", EITHER},       {"jr", EITHER},       {"sr", EITHER},
    {"ii", EITHER},           {"iii", EITHER},      {"dueño", LETS},
    {"dueña", LETS},          {"arrendador", LETS}, {"propietario", LETS},
    {"propietaria", LETS},    {"gerente", LETS},    {"apoderado", EITHER},
    {"apoderada", EITHER},    {"encargado", LETS},  {"administrador", LETS},
    {"administradora", LETS}, {"encargada", LETS},  {"representante", EITHER},
    {"inquilino", RENTS},     {"inquilina", RENTS}, {"ocupante", EITHER},
    {"residente", EITHER},    {"adulto", EITHER},   {"adulta", EITHER},
    {"esposo", EITHER},       {"esposa", EITHER},   {"madre", EITHER},
    {"padre", EITHER},        {"firmado", EITHER},  {"firmada", EITHER},
    {"directora", EITHER},
};

static const char *const none[] = {
    "refused",   "refuses",    "declined",     "unsigned",    "not",         "no signature",
    "missing",   "absent",     "pending",      "unable",      "later",       "without",
    "to be",     "will sign",  "awaiting",     "by phone",    "verbal",      "verbally",
    "oral",      "minor",      "child",        "years old",   "year old",    "negó",
    "rehusó",    "no firmó",   "no quiso",     "sin firma",   "sin firmar",  "falta",
    "ausente",   "signed for", "signed by",    "firmado por", "firmada por", "former",
    "formerly",  "ex",         "previous",     "anterior",    "antiguo",     "antigua",
    "pendiente", "después",    "por teléfono", "menor",       "años",
};

static bool says_side(const char *words, unsigned sides)
{
    for (size_t i = 0; i < sizeof what / sizeof what[0]; i++)
        if ((what[i].of & sides) != 0 && mf_words_hold(words, what[i].word))
            return true;
    return false;
}

bool mf_says_what_signer_is(const char *words)
{
    return says_side(words, EITHER | RENTS | LETS);
}

bool mf_says_signer_rents(const char *words)
{
    return says_side(words, RENTS);
}

bool mf_says_signer_lets(const char *words)
{
    return says_side(words, LETS);
}

bool mf_says_unsigned(const char *words)
{
    return mf_words_hold_one(words, none, sizeof none / sizeof none[0]);
}

/* That nobody was at home is a reason why nobody signed, and not that it was not delivered. */
bool mf_says_undelivered(const char *words)
{
    static const char *const undelivered[] = {"not delivered",   "undelivered",   "not given",
                                              "never delivered", "never given",   "to be delivered",
                                              "sin entregar",    "no se entrego", "no entregado"};
    return mf_words_hold_one(words, undelivered, sizeof undelivered / sizeof undelivered[0]);
}

bool mf_says_nobody(const char *words)
{
    static const char *const nobody[] = {"nobody", "no one", "none", "n/a", "nadie", "ninguno"};
    return mf_words_hold_one(words, nobody, sizeof nobody / sizeof nobody[0]);
}
