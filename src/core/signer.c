/* Words beside a signature. 40 CFR 745.84(a)(1)(i), (a)(2)(i): owner or "an adult occupant" sign.
 * Which words say it is common practice, no source: what is not among them is asked for. */
#include "core/signer.h"

#include "core/area_rooms.h"

#include <stddef.h>

static const char *const what[] = {
    "owner",
    "co-owner",
    "landlord",
    "landlady",
    "lessor",
    "manager",
    "agent",
    "trustee",
    "representative",
    "attorney",
    "executor",
    "guardian",
    "president",
    "director",
    "officer",
    "partner",
    "member",
    "principal",
    "tenant",
    "occupant",
    "resident",
    "renter",
    "lessee",
    "adult",
    "spouse",
    "wife",
    "husband",
    "mother",
    "father",
    "parent",
    "signed",
    "jr",
    "sr",
    "ii",
    "iii",
    "dueño",
    "dueña",
    "arrendador",
    "propietario",
    "propietaria",
    "gerente",
    "apoderado",
    "apoderada",
    "encargado",
    "administrador",
    "administradora",
    "encargada",
    "representante",
    "inquilino",
    "inquilina",
    "ocupante",
    "residente",
    "adulto",
    "adulta",
    "esposo",
    "esposa",
    "madre",
    "padre",
    "firmado",
    "firmada",
    "directora",
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

bool mf_says_what_signer_is(const char *words)
{
    return mf_words_hold_one(words, what, sizeof what / sizeof what[0]);
}

bool mf_says_unsigned(const char *words)
{
    return mf_words_hold_one(words, none, sizeof none / sizeof none[0]);
}

bool mf_says_signer_rents(const char *words)
{
    static const char *const rents[] = {"tenant", "renter", "lessee", "inquilino", "inquilina"};
    return mf_words_hold_one(words, rents, sizeof rents / sizeof rents[0]);
}

bool mf_says_signer_lets(const char *words)
{
    static const char *const lets[] = {
        "landlord",  "landlady",  "lessor",        "owner",         "co-owner",   "manager",
        "dueño",     "dueña",     "propietario",   "propietaria",   "arrendador", "gerente",
        "encargado", "encargada", "administrador", "administradora"};
    return mf_words_hold_one(words, lets, sizeof lets / sizeof lets[0]);
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
