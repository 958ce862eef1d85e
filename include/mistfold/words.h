/* mistfold/words.h - the wording of steps, findings and messages.
 *
 * The words are data in forms/, English and Spanish side by side, built into
 * the library. Ids are stable; a missing Spanish wording falls back to English.
 */
#ifndef MISTFOLD_WORDS_H
#define MISTFOLD_WORDS_H

#include <mistfold/audit.h>
#include <mistfold/clean.h>
#include <mistfold/cleared.h>
#include <mistfold/err.h>
#include <mistfold/house.h>
#include <mistfold/kind.h>
#include <mistfold/paint.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_lang { MF_LANG_EN, MF_LANG_ES, MF_LANG_COUNT } mf_lang;

/* "en" or "es" (also "es-MX" and the like); English for anything else. */
MF_API mf_lang mf_lang_of(const char *code);
/* Whether code names one of them: "en", "es", or one of the two with a country ("es-MX",
 * "en_US"). */
MF_API bool mf_lang_known(const char *code);

/* The wording of id; NULL when there is none. */
MF_API const char *mf_words(mf_lang lang, const char *id);

/* The wording of prefix + "." + id, e.g. ("step", "signs"); NULL when none. */
MF_API const char *mf_words2(mf_lang lang, const char *prefix, const char *id);

/* How sure a fact is: "seen in print", "from memory" ... */
MF_API const char *mf_words_fact(mf_lang lang, mf_status_of_fact status);

/* Where a sill or section stands, and how a work area was found clean or that it was not. */
MF_API const char *mf_words_ver_state(mf_lang lang, mf_ver_state state);
MF_API const char *mf_words_cleared(mf_lang lang, mf_cleared how);

/* What to do in a step of the lists, and why ("" = not said): in the words of forms, or in
 * those of the firm for a step of its own (job may be NULL). Never NULL. */
MF_API const char *mf_words_step(mf_lang lang, const mf_job *job, const char *id);
MF_API const char *mf_words_step_why(mf_lang lang, const mf_job *job, const char *id);

/* A finding's reason as a sentence, placeholders filled. Returns the length it
 * needs; writes at most size bytes incl. NUL. */
MF_API size_t mf_words_why(mf_lang lang, const mf_finding *finding, char *out, size_t size);

/* What is asked and what came of it, as one text where no other says what is asked. Returns and
 * writes as above. */
MF_API size_t mf_words_asked(mf_lang lang, const mf_finding *finding, char *out, size_t size);

/* What to do about a finding: the words "then.<reason>" where the reason asks for something
 * of its own, else "next.<requirement>"; placeholders filled, returns and writes as above. */
MF_API size_t mf_words_next(mf_lang lang, const mf_finding *finding, char *out, size_t size);

/* Where a correction is told: what a field is called, and what it held, as a person reads it, a
 * number with its unit, "yes", "not given". In room, a constant or the text of the value itself;
 * never NULL. */
enum { MF_WORDS_HELD = 80 };
MF_API const char *mf_words_field(mf_lang lang, const mf_field *field);
MF_API const char *mf_words_held(mf_lang lang, const mf_field *field, const mf_value *value,
                                 char room[MF_WORDS_HELD]);

/* What is wrong and how to mend it as one sentence: the words "error.<name>" with the
 * parts of the error for {1} to {3}, else its own English "what; mend". Returns and
 * writes as mf_words_why. */
MF_API size_t mf_words_error(mf_lang lang, const mf_err *err, char *out, size_t size);

/* What the judgment says by number, in words; never NULL. Words under
 * "cover.<name>", "doubt.<name>", "refused.<name>", "paint.<name>", "basis.<name>". */
MF_API const char *mf_words_cover(mf_lang lang, mf_cover_why why);
MF_API const char *mf_words_doubt(mf_lang lang, mf_paint_doubt doubt); /* "" for none */
MF_API const char *mf_words_refusal(mf_lang lang, mf_ver_refusal refusal);
MF_API const char *mf_words_verdict(mf_lang lang, mf_paint_verdict verdict);
MF_API const char *mf_words_basis(mf_lang lang, mf_paint_basis basis);

/* A number with its unit, as printed: "6.00 ft", "1.0 mg/cm2 ...", "5 ug/ft2". */
MF_API size_t mf_words_number(mf_lang lang, int64_t number, mf_unit unit, char *out, size_t size);

/* num / den micrograms per cm2 in mg/cm2, cut after three decimals and then ended
 * by "..": never rounded up to a limit. den > 0. */
MF_API size_t mf_words_ratio(int64_t num, int64_t den, char *out, size_t size);

/* A number given in 1e-9, cut after 0 to 9 places. */
MF_API size_t mf_words_nano(int64_t nano, int places, char *out, size_t size);

/* A loading as the instrument would show it, "0.43", "-0.10", ">9.90" in mg/cm2. */
MF_API size_t mf_words_loading(int64_t ug_cm2, mf_qualifier qualifier, char *out, size_t size);

#ifdef __cplusplus
}
#endif
#endif
