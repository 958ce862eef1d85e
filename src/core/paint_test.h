/* paint_test.h - what single tests found, and of which components they tell. */
#ifndef MF_CORE_PAINT_TEST_H
#define MF_CORE_PAINT_TEST_H

#include <mistfold/paint.h>

/* Whether the reading is of the paint of a component, and not of a film. */
bool mf_of_paint(const mf_reading *reading);

/* mf_reading_class_in, worked out once where the job has an index. */
mf_paint_class mf_class_kept(const mf_job *job, const mf_reading *reading);

/* The first reading of the component's paint that says another substrate than its entry does;
 * NULL = there is none. What a reading comes to, and which kits serve, depends on the substrate
 * (HUD Guidelines ch. 7 s. III, IV.E), so nothing but a chip frees it until one is corrected. */
const mf_reading *mf_substrate_against(const mf_job *job, const mf_component *component);

/* Whether a kit test or chip of one component speaks for another: the component
 * itself, or parts of one integrated whole, unless they look separately repainted
 * or refinished (745.82(a)(2)-(3)), or are not painted. */
bool mf_speaks_for(const char *tested, const mf_component *component);

/* Whether a negative test of one component may free another. Not of a part that was
 * withdrawn, has no paint or was repainted by itself, nor when another part of the whole is
 * lead: then the whole is not of one paint, and each part needs its own test. */
bool mf_frees(const mf_job *job, const char *tested, const mf_component *component);

/* Whether the determination names the component. */
bool mf_determined(const mf_determination *it, const char *component);

/* One that names nothing is of all that its assessor read as negative. */
bool mf_determined_by_readings(const mf_determination *it);

/* Whether a test or a determination of the component itself says that it is free, whoever made it,
 * whenever and with what: beside a positive one the file says both (745.86(a)). What nobody said
 * of the test, such as the substrates of a kit, does not take its word out of the file. */
bool mf_called_free(const mf_job *job, const mf_component *component);

#endif
