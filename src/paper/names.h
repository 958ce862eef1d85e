/* names.h - the words of each enumeration, by family. */
#ifndef MF_PAPER_NAMES_H
#define MF_PAPER_NAMES_H

#include <mistfold/words.h>

typedef enum mf_family {
    MF_FAM_BASIS,
    MF_FAM_BUILDING,
    MF_FAM_CLASS,
    MF_FAM_CLOTH,
    MF_FAM_COMPONENT,
    MF_FAM_COVER,
    MF_FAM_DELIVERY,
    MF_FAM_DISCIPLINE,
    MF_FAM_DOUBT,
    MF_FAM_DUST_SURFACE,
    MF_FAM_DUST_VERDICT,
    MF_FAM_DUTY,
    MF_FAM_EMPLOYER,
    MF_FAM_FACT,
    MF_FAM_GROUND,
    MF_FAM_METHOD,
    MF_FAM_NOTICE,
    MF_FAM_OPENING,
    MF_FAM_PAINT,
    MF_FAM_PHASE,
    MF_FAM_REFUSAL,
    MF_FAM_RESULT,
    MF_FAM_ROLE,
    MF_FAM_SIDE,
    MF_FAM_STEP,
    MF_FAM_SUBSTRATE,
    MF_FAM_SURFACE,
    MF_FAM_VERDICT,
    MF_FAM_WHEN,
    MF_FAM_WIPE,
    MF_FAM_WORK,
    MF_FAM_COUNT
} mf_family;

/* "paper.component.sash"; "" for a value outside the family. */
const char *mf_name_id(mf_family family, int value);
/* Its words; "?" for a value outside the family. */
const char *mf_name(mf_lang lang, mf_family family, int value);

#endif
