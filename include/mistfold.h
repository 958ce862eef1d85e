/* mistfold.h - the whole library: every room's header and the version.
 *
 * mistfold records a lead-safe renovation job and checks it against 40 CFR part
 * 745 subpart E. It records and checks; it certifies nothing. Certified
 * practice, the authorized state or tribal program and local codes govern, and
 * the stricter rule wins.
 */
#ifndef MISTFOLD_H
#define MISTFOLD_H

#include <mistfold/area.h>
#include <mistfold/assisted.h>
#include <mistfold/audit.h>
#include <mistfold/book.h>
#include <mistfold/clean.h>
#include <mistfold/cleared.h>
#include <mistfold/contain.h>
#include <mistfold/day.h>
#include <mistfold/device.h>
#include <mistfold/dust.h>
#include <mistfold/emergency.h>
#include <mistfold/entries.h>
#include <mistfold/err.h>
#include <mistfold/fact.h>
#include <mistfold/heads.h>
#include <mistfold/house.h>
#include <mistfold/job.h>
#include <mistfold/kind.h>
#include <mistfold/limit.h>
#include <mistfold/measure.h>
#include <mistfold/notice.h>
#include <mistfold/paint.h>
#include <mistfold/paper.h>
#include <mistfold/person.h>
#include <mistfold/place.h>
#include <mistfold/plan.h>
#include <mistfold/program.h>
#include <mistfold/qr.h>
#include <mistfold/reading.h>
#include <mistfold/record.h>
#include <mistfold/retest.h>
#include <mistfold/schedule.h>
#include <mistfold/seal.h>
#include <mistfold/segment.h>
#include <mistfold/special.h>
#include <mistfold/stage.h>
#include <mistfold/stamp.h>
#include <mistfold/sync.h>
#include <mistfold/told.h>
#include <mistfold/units.h>
#include <mistfold/words.h>

#define MISTFOLD_VERSION "0.2.0"

#endif
