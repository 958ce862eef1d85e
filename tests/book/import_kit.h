/* import_kit.h - a book for exports to be read into, and a good export. All
 * constructed. */
#ifndef TESTS_IMPORT_KIT_H
#define TESTS_IMPORT_KIT_H

#include "book_kit.h"

#define HEAD                                                                                       \
    "Number,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate,Color,Result,Unit\n"

/* kit_house, and two stops of one side in its opening. */
static inline int kit_with_stops(void **state)
{
    kit_with_house(state);
    kit *k = *state;
    kit_log(k, "component", "J-1", "id", "W01.stop-l", "opening", "W01", "type", "stop", "side",
            "interior", "substrate", "wood");
    kit_log(k, "component", "J-1", "id", "W01.stop-r", "opening", "W01", "type", "stop", "side",
            "interior", "substrate", "wood");
    return 0;
}

static inline mf_status import(kit *k, const char *csv, bool dry_run, mf_import_report *report)
{
    k->err = (mf_err){0};
    return mf_import_readings(k->book, "J-1", "xrf.csv", csv, strlen(csv), &k->now, dry_run, report,
                              &k->err);
}

static const char good[] = HEAD
    "1,X-100,rosa,2026-09-14,08:00,,Calibration,,wood,red,1.0,mg/cm2\n"
    "2,X-100,rosa,2026-09-14,08:05,W01,Sash,Interior,wood,white,1.43,mg/cm2\n"
    "3,X-100,ana,2026-09-14,08:06,W01,sash,EXTERIOR,wood,,-0.1,\n"
    "4,X-100,rosa,2026-09-14,08:07,,wall-n,interior,plaster,\"white, over green\",>9.9,mg/cm2\n"
    "5,X-100,rosa,2026-09-14,,W01,W01.stop-r,interior,wood,,430,ug/cm2\n";

#endif
