/* The kinds of entry and the one table of them. The fields of each kind are in
 * the .inc files, by theme; they are included here so that their lengths are
 * known to the compiler and a row can be added in one place. */
#include "core/kind_rows.h"

/* One field row. The member of the struct is named apart from the field, as a
 * field name carries its unit. */
#define MF_ROW(type, member, name, option, kind_of, flags, doc)                                    \
    {                                                                                              \
        name, option, kind_of, flags, NULL, NULL, 0, 0, offsetof(type, member), doc, MF_UNIT_COUNT \
    }
#define MF_ROW_REF(type, member, name, option, kind_of, flags, ref, doc)                           \
    {                                                                                              \
        name, option, kind_of, flags, NULL, ref, 0, 0, offsetof(type, member), doc, MF_UNIT_COUNT  \
    }
#define MF_ROW_CHOICE(type, member, name, option, flags, words, doc)                               \
    {                                                                                              \
        name, option, MF_F_CHOICE, flags, words, NULL, 0, 0, offsetof(type, member), doc,          \
            MF_UNIT_COUNT                                                                          \
    }
/* Words of choices with commas between them, kept as they stand. */
#define MF_ROW_CHOICES(type, member, name, option, flags, words, doc)                              \
    {                                                                                              \
        name, option, MF_F_IDS, flags, words, NULL, 0, 0, offsetof(type, member), doc,             \
            MF_UNIT_COUNT                                                                          \
    }
#define MF_ROW_NUM(type, member, name, option, kind_of, flags, low, high, doc)                     \
    {                                                                                              \
        name, option, kind_of, flags, NULL, NULL, low, high, offsetof(type, member), doc,          \
            MF_UNIT_COUNT                                                                          \
    }
/* Hundredths of a unit. */
#define MF_ROW_100(type, member, name, option, unit, flags, low, high, doc)                        \
    {                                                                                              \
        name, option, MF_F_HUNDREDTHS, flags, NULL, NULL, low, high, offsetof(type, member), doc,  \
            unit                                                                                   \
    }

#include "core/kind_area.inc"
#include "core/kind_close.inc"
#include "core/kind_firm.inc"
#include "core/kind_house.inc"
#include "core/kind_test.inc"

#define KIND(kind, of_firm, once, doc)                                                             \
    {                                                                                              \
#kind, of_firm, once, mf_fields_##kind,                                                    \
            sizeof mf_fields_##kind / sizeof mf_fields_##kind[0], sizeof(mf_##kind),               \
                                                              offsetof(mf_job, kind), doc          \
    }

const mf_kind mf_kind_rows[] = {
    KIND(firm, true, true, "the firm"),
    KIND(person, true, false, "a person the firm works with"),
    KIND(certificate, true, false, "a certificate of the firm or a person"),
    KIND(instrument, true, false, "an XRF instrument"),
    KIND(profile_row, true, false, "one line of an instrument's performance sheet"),
    KIND(column_map, true, false, "what a head of an instrument's exports means"),
    KIND(local_limit, true, false, "a stricter limit of a state, tribe, city or contract"),
    KIND(own_step, true, false, "a step the firm asks of its crews beyond the rule"),
    KIND(stamp_request, true, false, "a head of the book, sent to a time-stamping authority"),
    KIND(stamp, true, false, "an authority's word that a head of the book existed before a time"),
    KIND(known_key, true, false, "a key whose seals the firm stands by"),
    KIND(adoption, true, false, "entries of this device that a merge brought back"),
    KIND(witness, true, false, "a head of the book that was named from outside it"),
    KIND(device_key, true, false, "the key by which a device signs its chain"),
    KIND(vouched, true, false, "a person's signature for the key of a device"),
    KIND(house, false, true, "a job: one contract at one address"),
    KIND(party, false, false, "somebody who must be told: owner, occupant, facility"),
    KIND(vacancy, false, false, "a unit in which nobody lives while the work goes on"),
    KIND(opening, false, false, "a window or a door"),
    KIND(component, false, false, "a building component"),
    KIND(visit, false, false, "a visit of a child, once or every week"),
    KIND(owner_record, false, false, "the owner's record of paint found free before"),
    KIND(emergency, false, true, "the emergency, and what was not followed because of it"),
    KIND(occupancy, false, true, "how occupants of assisted housing are kept safe"),
    KIND(reading, false, false, "one XRF reading"),
    KIND(intake, false, false, "an export that was read in"),
    KIND(kit_test, false, false, "one test with a recognized kit"),
    KIND(chip, false, false, "one paint chip with its laboratory result"),
    KIND(determination, false, false, "a written determination that paint is free of lead"),
    KIND(notice, false, false, "one delivery of the pamphlet"),
    KIND(scope_change, false, false, "scope, places or dates change after people were told"),
    KIND(assignment, false, false, "a person assigned to the job"),
    KIND(training, false, false, "on-the-job training of one worker"),
    KIND(area, false, false, "a work area: what one containment encloses"),
    KIND(fixture, false, false, "where something is in a work area, for the plan"),
    KIND(surface, false, false, "a surface that cleaning verification wipes"),
    KIND(tick, false, false, "one line of a checklist, ticked"),
    KIND(practice, false, false, "a method by which paint was disturbed"),
    KIND(verification, false, false, "one event of cleaning verification"),
    KIND(dust_sample, false, false, "one dust clearance sample"),
    KIND(completion, false, true, "the end of the renovation"),
    KIND(invoice, false, true, "the final invoice"),
    KIND(handover, false, false, "papers handed to somebody"),
    KIND(certification, false, false, "the certified renovator certifies the record"),
    KIND(sealed, false, false, "a paper that was sealed"),
    KIND(attachment, false, false, "a file kept in the book: photo, certificate, report"),
    KIND(invitation, false, false, "who may hand over entries of the job to a served book"),
};
const size_t mf_kind_count = sizeof mf_kind_rows / sizeof mf_kind_rows[0];
