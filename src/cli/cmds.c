/* The commands of the program: one row each. To add a command, add a row here and
 * a function in the file of its group. */
#include "cli/cli.h"

#include <string.h>

#include "cli/cmds_opts.inc"

static const mf_cmd rows[] = {
    {"book", "new", "", NULL, NULL, opt_new, mf_cmd_book_new, "make a new book",
     "mistfold --book firm.book book new"},
    {"book", "key", "", NULL, NULL, opt_book_key, mf_cmd_book_key,
     "make a key by which this device signs what it logs", "mistfold book key --reason lost"},
    {"book", "vouch", "DEVICE", NULL, NULL, opt_vouch, mf_cmd_book_vouch,
     "sign that the key of a device is that device's", "mistfold book vouch truck --key rosa.p12"},
    {"book", "check", "[FILE...]", NULL, NULL, opt_check, mf_cmd_book_check,
     "recompute every hash, compare every table made from the journal",
     "mistfold book check --against *.pdf"},
    {"book", "rebuild", "", NULL, NULL, NULL, mf_cmd_book_rebuild,
     "rebuild the views and tables from the journal", "mistfold book rebuild"},
    {"book", "head", "[FILE]", NULL, NULL, opt_head, mf_cmd_book_head,
     "one hash that changes with any entry, and the last entry of every device",
     "mistfold book head --qr"},
    {"book", "witness", "[FILE|TEXT...]", NULL, NULL, opt_witness, mf_cmd_book_witness,
     "note a head named from outside: the book is held against it from then on",
     "mistfold book witness heads.txt --from truck"},
    {"book", "stamp", "", NULL, NULL, opt_stamp, mf_cmd_book_stamp,
     "have a time-stamping authority confirm when the book's head existed",
     "mistfold book stamp --tsa https://tsa.example/ --tsa-roots roots.pem"},
    {"book", "backup", "FILE", NULL, NULL, opt_progress, mf_cmd_book_backup,
     "a whole copy to keep, made while the book is in use", "mistfold book backup 2026-09.book"},
    {"book", "copy", "FILE", NULL, NULL, opt_copy, mf_cmd_book_copy,
     "a copy to work with on another device, merged again later",
     "mistfold book copy truck.book --device truck"},
    {"book", "merge", "FILE", NULL, NULL, opt_merge, mf_cmd_book_merge,
     "take over what another device's book has and this one has not",
     "mistfold book merge truck.book"},

    LOG("firm", "add", "", "firm", "the firm's name and address",
        "firm add --name \"Example Windows\" --address \"1 Sample St\""),
    LOG("person", "add", "", "person", "a person the firm works with",
        "person add --id rosa --name \"Rosa Example\""),
    {"person", "list", "", NULL, "person", NULL, mf_cmd_list, "everybody in the book",
     "mistfold person list"},
    LOG("certificate", "add", "", "certificate", "a certificate of the firm or a person",
        "certificate add --holder rosa --discipline renovator --number R-1 --issuer \"Training "
        "Example\" --issued 2024-03-04 --expires 2029-03-04 --hands-on yes"),
    {"certificate", "list", "", NULL, "certificate", NULL, mf_cmd_list,
     "all certificates with their dates", "mistfold certificate list"},
    {"certificate", "check", "", NULL, NULL, opt_on, mf_cmd_certificate_check,
     "the firm's checklist: which certificates hold, and which run out when",
     "mistfold certificate check --on 2026-12-31"},
    LOG("instrument", "add", "", "instrument", "an XRF instrument and its tolerances",
        "instrument add --serial X-100 --film 1.02 --cal-low 0.8 --cal-high 1.2"),
    {"instrument", "profile", "FILE", NULL, "profile_row", opt_import, mf_cmd_import_kind,
     "an instrument's performance profile from a CSV file",
     "mistfold instrument profile profile.csv"},
    {"instrument", "list", "", NULL, "instrument", NULL, mf_cmd_list, "all instruments",
     "mistfold instrument list"},

    {"job", "open", "", "house", NULL, opt_job_open, mf_cmd_job_open,
     "open a job: the house and the work; or a whole house from one text file",
     "mistfold job open --id J-1926 --address \"12 Sample Lane\" --building dwelling "
     "--owner-occupied no --work window-replacement --description \"12 windows\" --start "
     "2026-09-14"},
    {"job", "walk", "", "house", NULL, opt_job_walk, mf_cmd_walk_job,
     "open a job by answering questions", "mistfold job walk"},
    {"job", "list", "", NULL, NULL, opt_job_list, mf_cmd_job_list, "all jobs, by state or by words",
     "mistfold job list --state preparing --find sample"},
    {"job", "show", "JOB", NULL, NULL, NULL, mf_cmd_job_show,
     "one job at a glance, with the questions answered", "mistfold job show J-1926"},
    LOG("job", "complete", "JOB", "completion", "the renovation is completed",
        "job complete J-1926 --on 2026-09-17"),
    LOG("job", "invoice", "JOB", "invoice", "the final invoice was delivered",
        "job invoice J-1926 --on 2026-09-25"),
    LOG("job", "certify", "JOB", "certification", "the certified renovator certifies the record",
        "job certify J-1926 --person rosa --on 2026-09-18"),
    {"job", "bundle", "[JOB]", NULL, NULL, opt_bundle, mf_cmd_bundle,
     "a folder for an inspector, who checks it with stock tools: of one job, or of all by days and "
     "state, with an index",
     "mistfold job bundle J-1926 --out J-1926 --record record.pdf"},

    LOG("party", "add", "JOB", "party", "somebody who must be told",
        "party add J-1926 --id owner --role owner --name \"Ida Sample\""),
    {"party", "list", "JOB", NULL, "party", NULL, mf_cmd_list, "owner, occupants, facility",
     "mistfold party list J-1926"},
    LOG("party", "vacant", "JOB", "vacancy", "a unit, or the dwelling, in which nobody lives",
        "party vacant J-1926 --unit 2B --on 2026-09-01 --said-by \"Ida Sample, owner\""),
    LOG("notice", "add", "JOB", "notice", "a delivery of the pamphlet",
        "notice add J-1926 --party owner --method acknowledged --on 2026-08-20 --signed-on "
        "2026-08-20 --signer \"Ida Sample\""),
    {"notice", "list", "JOB", NULL, "notice", NULL, mf_cmd_list, "all deliveries",
     "mistfold notice list J-1926"},

    LOG("notice", "change", "JOB", "scope_change", "scope, places or dates of the work change",
        "notice change J-1926 --what \"the stair hall as well\" --on 2026-09-16"),
    LOG("visit", "add", "JOB", "visit", "a child's visit, once or every week",
        "visit add J-1926 --child c1 --on 2026-01-05 --minutes 180 --weekly-until 2026-12-28"),
    {"visit", "list", "JOB", NULL, "visit", NULL, mf_cmd_list, "visits of children",
     "mistfold visit list J-1926"},
    LOG("emergency", "add", "JOB", "emergency", "the emergency, and what was not followed for it",
        "emergency add J-1926 --nature \"storm broke two windows\" --on 2026-09-14 --cause "
        "sudden-event --waived pamphlet,signs --reason \"open to the rain\""),
    {"emergency", "list", "JOB", NULL, "emergency", NULL, mf_cmd_list, "the emergency as logged",
     "mistfold emergency list J-1926"},
    LOG("occupancy", "add", "JOB", "occupancy", "assisted housing: how occupants are kept safe",
        "occupancy add J-1926 --stay few-days --kept-out yes --from 2026-09-14 --until 2026-09-16 "
        "--margin 10 --reachable yes --other-hazard no"),
    {"occupancy", "list", "JOB", NULL, "occupancy", NULL, mf_cmd_list,
     "how occupants are kept safe", "mistfold occupancy list J-1926"},

    LOG("opening", "add", "JOB", "opening", "a window or a door",
        "opening add J-1926 --id W01 --kind window --room kitchen --elevation north"),
    {"opening", "import", "JOB FILE", NULL, "opening", opt_import, mf_cmd_import_kind,
     "openings from a CSV file", "mistfold opening import J-1926 openings.csv"},
    {"opening", "schedule", "JOB", NULL, NULL, opt_schedule, mf_cmd_opening_schedule,
     "worst finding by opening and component, and what each opening needs",
     "mistfold opening schedule J-1926 --removal within-frame"},
    {"opening", "list", "JOB", NULL, "opening", opt_schedule, mf_cmd_opening_list,
     "the opening schedule, and all openings as they were logged",
     "mistfold opening list J-1926 --removal within-frame"},
    LOG("component", "add", "JOB", "component", "a building component",
        "component add J-1926 --id W01.sash --opening W01 --type sash --side interior "
        "--substrate wood"),
    {"component", "import", "JOB FILE", NULL, "component", opt_import, mf_cmd_import_kind,
     "components from a CSV file", "mistfold component import J-1926 components.csv"},
    {"component", "list", "JOB", NULL, "component", NULL, mf_cmd_list, "all components",
     "mistfold component list J-1926"},

    {"test", "import", "JOB FILE", NULL, NULL, opt_intake, mf_cmd_import_readings,
     "readings from an XRF export",
     "mistfold test import J-1926 readings.csv --map \"Reading No=number,PbC=result\""},
    {"test", "log", "JOB", "reading", NULL, opt_reading, mf_cmd_reading,
     "one XRF reading by hand; what is not typed is repeated from the last one",
     "mistfold test log J-1926 --component sash --opening W02 --result \">9.9\" --time 09:31"},
    {"test", "walk", "JOB", NULL, NULL, NULL, mf_cmd_walk_test,
     "readings one after the other: the next part is offered, a number and Enter is one",
     "mistfold test walk J-1926"},
    LOG("test", "kit", "JOB", "kit_test", "one test with a recognized kit",
        "test kit J-1926 --component D01.slab --tester rosa --maker \"as printed\" --model \"as "
        "printed\" --recognized yes --result negative --on 2026-08-12"),
    LOG("test", "chip", "JOB", "chip", "one paint chip with its laboratory result",
        "test chip J-1926 --component W01.sash --sampler rosa --laboratory \"Lab Example\" "
        "--lab-address \"2 Sample St\" --nllap yes --weight 0.02% --on 2026-08-12"),
    LOG("test", "determine", "JOB", "determination",
        "a certified inspector's or risk assessor's written determination",
        "test determine J-1926 --assessor ines --report R-7 --copy-held yes --on 2026-08-14"),
    LOG("test", "owner-record", "JOB", "owner_record",
        "the owner's record of an inspection that found paint free",
        "test owner-record J-1926 --report \"R-12 of 2019\" --assessor \"A. Example\" --discipline "
        "inspector --number I-5 --on 2019-05-02 --expires 2020-05-02 --copy-held yes"),
    {"test", "owner-records", "JOB", NULL, "owner_record", NULL, mf_cmd_list, "the owner's records",
     "mistfold test owner-records J-1926"},
    {"test", "list", "JOB", NULL, NULL, NULL, mf_cmd_paint_list,
     "what the evidence says of each component", "mistfold test list J-1926"},
    {"test", "combinations", "JOB", NULL, NULL, NULL, mf_cmd_combinations,
     "testing combinations, and the rule for walls", "mistfold test combinations J-1926"},
    {"test", "retest", "JOB", NULL, NULL, opt_retest, mf_cmd_retest,
     "the retest check with every step, or ten to read again",
     "mistfold test retest J-1926 --seed 17"},
    {"test", "readings", "JOB", NULL, "reading", NULL, mf_cmd_list, "all readings",
     "mistfold test readings J-1926"},

    {"plan", "units", "", NULL, NULL, opt_units, mf_cmd_plan_units,
     "how many units of a building to test, and which",
     "mistfold plan units --count 200 --built 1962 --seed 17"},
    {"plan", "report", "", NULL, NULL, opt_jobs, mf_cmd_plan_report,
     "counts by component type, without a verdict; shares to the nearest 0.01 % (100.00 = all)",
     "mistfold plan report --jobs J-1926,J-1927"},
    {"convert", "area", "AREA", NULL, NULL, NULL, mf_cmd_convert_area,
     "an area in inches or centimeters", "mistfold convert area \"11 5/8 x 12 1/8\""},
    {"convert", "chip", "", NULL, NULL, opt_chip, mf_cmd_convert_chip,
     "lead of a chip by area and by weight",
     "mistfold convert chip --lead-ug 3000 --area \"5 x 5 cm\" --mass-mg 500"},

    LOG("crew", "assign", "JOB", "assignment", "assign a renovator or a worker",
        "crew assign J-1926 --person rosa --duty renovator --on 2026-09-14"),
    {"crew", "train", "JOB", "training", NULL, NULL, mf_cmd_log_training,
     "on-the-job training of one worker",
     "mistfold crew train J-1926 --worker teo --trainer rosa --topics \"containment; cleaning\" "
     "--on 2026-09-14"},
    {"crew", "list", "JOB", NULL, "assignment", NULL, mf_cmd_list, "who is assigned",
     "mistfold crew list J-1926"},

    LOG("area", "add", "JOB", "area", "a work area: what one containment encloses",
        "area add J-1926 --id A1 --side interior --place kitchen --openings W01,W02 --length 14 "
        "--width 12"),
    {"area", "list", "JOB", NULL, "area", NULL, mf_cmd_list, "all work areas",
     "mistfold area list J-1926"},
    LOG("plan", "place", "JOB", "fixture", "where an opening, a flap or a sign is, for the plan",
        "plan place J-1926 --area A1 --what opening --opening W01 --wall north --at 3.5"),
    {"plan", "list", "JOB", NULL, "fixture", NULL, mf_cmd_list, "what was placed",
     "mistfold plan list J-1926"},
    LOG("surface", "add", "JOB", "surface", "a surface that verification wipes",
        "surface add J-1926 --id floor --area A1 --kind floor --place kitchen --size 96"),
    {"surface", "import", "JOB FILE", NULL, "surface", opt_import, mf_cmd_import_kind,
     "surfaces from a CSV file", "mistfold surface import J-1926 surfaces.csv"},
    {"surface", "list", "JOB", NULL, "surface", NULL, mf_cmd_list, "all surfaces",
     "mistfold surface list J-1926"},

    {"containment", "list", "JOB", NULL, NULL, opt_area, mf_cmd_steps_list,
     "the containment list with its state", "mistfold containment list J-1926 --area A1"},
    {"containment", "tick", "JOB", "tick", NULL, NULL, mf_cmd_log_tick,
     "tick steps of the containment list",
     "mistfold containment tick J-1926 --area A1 --step signs,windows-closed --state done "
     "--person teo --renovator rosa --on 2026-09-14"},
    {"containment", "walk", "JOB", NULL, NULL, opt_area, mf_cmd_walk_steps,
     "walk the containment list with single keys", "mistfold containment walk J-1926 --area A1"},
    {"practice", "add", "JOB", "practice", NULL, NULL, mf_cmd_log_practice,
     "a method by which paint was disturbed",
     "mistfold practice add J-1926 --area A1 --method hand --person teo --on 2026-09-14 --time "
     "16:00"},
    {"cleaning", "list", "JOB", NULL, NULL, opt_area, mf_cmd_steps_list,
     "the cleaning list with its state", "mistfold cleaning list J-1926"},
    {"cleaning", "tick", "JOB", "tick", NULL, NULL, mf_cmd_log_tick,
     "tick steps of the cleaning list",
     "mistfold cleaning tick J-1926 --area A1 --step sheeting --state done --person teo "
     "--renovator rosa --on 2026-09-16"},
    {"cleaning", "walk", "JOB", NULL, NULL, opt_area, mf_cmd_walk_steps,
     "walk the cleaning list with single keys", "mistfold cleaning walk J-1926 --area A1"},
    {"verification", "list", "JOB", NULL, NULL, NULL, mf_cmd_verification_list,
     "where every sill and section stands", "mistfold verification list J-1926"},
    {"verification", "log", "JOB", "verification", NULL, NULL, mf_cmd_log_verification,
     "one event of cleaning verification",
     "mistfold verification log J-1926 --area A1 --surface floor --section 1 --event wet-match "
     "--cloth new --person rosa --on 2026-09-16 --time 15:10"},
    {"verification", "walk", "JOB", NULL, NULL, opt_area, mf_cmd_walk_verification,
     "walk the verification with its clock", "mistfold verification walk J-1926 --area A1"},
    LOG("dust", "add", "JOB", "dust_sample", "a dust clearance sample",
        "dust add J-1926 --area A1 --place kitchen --surface floor --sampler ines --laboratory "
        "\"Lab Example\" --nllap yes --required yes --result 3.2 --on 2026-09-16"),
    LOG("handover", "add", "JOB", "handover", "papers handed to somebody",
        "handover add J-1926 --party owner --what record --how \"by hand\" --on 2026-09-20"),

    {"due", "", "", NULL, NULL, opt_due, mf_cmd_due, "what is late, what is next, who must act",
     "mistfold due --who rosa"},
    {"attach", "add", "JOB FILE", NULL, NULL, opt_attach, mf_cmd_attach_add,
     "keep a photo, certificate or report in the book",
     "mistfold attach add J-1926 receipt.pdf --about office/212"},
    {"attach", "list", "JOB", NULL, "attachment", NULL, mf_cmd_list, "all attachments",
     "mistfold attach list J-1926"},
    {"attach", "export", "JOB ATTACHMENT", NULL, NULL, opt_attach_export, mf_cmd_attach_export,
     "write an attachment to a file, as it was attached",
     "mistfold attach export J-1926 office/215 --out receipt.pdf"},
    {"gate", "", "JOB NAME", NULL, NULL, opt_gate, mf_cmd_gate,
     "ask: rule, demo, signs, handover, inspection", "mistfold gate J-1926 demo --area A1"},
    {"audit", "", "JOB", NULL, NULL, opt_on, mf_cmd_audit,
     "every requirement with its paragraph and evidence", "mistfold audit J-1926"},

    {"export", "", "[JOB]", NULL, NULL, opt_export, mf_cmd_export,
     "a job, or all jobs by days and state, for spreadsheets, scripts and calendars",
     "mistfold export --format csv --since 2026-01-01 --until 2026-12-31 --out jobs.csv"},

    {"entry", "list", "JOB", NULL, NULL, NULL, mf_cmd_entry_list, "the journal of a job",
     "mistfold entry list J-1926"},
    {"entry", "show", "ENTRY", NULL, NULL, NULL, mf_cmd_entry_show, "one entry whole",
     "mistfold entry show truck1/17"},
    {"entry", "correct", "ENTRY", NULL, NULL, opt_correct, mf_cmd_entry_correct,
     "correct an entry; both stay on record",
     "mistfold entry correct truck1/17 --set \"result=0.4\" --reason \"typed 4.0\""},
    {"entry", "withdraw", "ENTRY", NULL, NULL, opt_withdraw, mf_cmd_entry_withdraw,
     "withdraw an entry; it stays on record",
     "mistfold entry withdraw truck1/17 --reason \"logged for the wrong house\""},

    {"entry", "export", "JOB", NULL, NULL, opt_entry_export, mf_cmd_entry_export,
     "write the entries of a job with their attachments to a file, for a phone",
     "mistfold entry export J-1926 --out J-1926.entries"},
    {"entry", "import", "FILE", NULL, NULL, opt_progress, mf_cmd_entry_import,
     "take in what a phone logged; the same file again adds nothing",
     "mistfold entry import phone.entries"},

    {"field", "page", "JOB", NULL, NULL, opt_field_page, mf_cmd_field_page,
     "one HTML file for a crew's phone, which answers and logs without a network",
     "mistfold --lang es field page J-1926 --out field.html --person rosa"},
    {"field", "invite", "JOB", NULL, NULL, opt_invite, mf_cmd_field_invite,
     "let a person hand over what they logged at the house: an address and a QR code",
     "mistfold field invite J-1926 --person rosa --until 2026-09-20 --qr invite.png"},
    {"field", "serve", "", NULL, NULL, opt_serve, mf_cmd_field_serve,
     "serve the pages of jobs, and take in what phones logged", "mistfold field serve"},

    {"sync", "", "[PLACE]", NULL, NULL, opt_sync, mf_cmd_sync,
     "meet the firm's other devices at a folder or a server: take over theirs, hand out ours",
     "mistfold sync folder:/mnt/share/firm"},

    {"settings", "show", "", NULL, NULL, NULL, mf_cmd_settings_show,
     "what is set, and where it came from", "mistfold settings show"},
    {"settings", "set", "NAME VALUE", NULL, NULL, NULL, mf_cmd_settings_set,
     "set once what else is typed each time: the book, who is writing, the language, the size of "
     "paper",
     "mistfold settings set by rosa"},
    {"settings", "unset", "NAME", NULL, NULL, NULL, mf_cmd_settings_unset,
     "take a setting away again", "mistfold settings unset page"},

    {"limit", "list", "", NULL, NULL, opt_limit, mf_cmd_limit_list,
     "every number of the rule in force on a day, and the stricter ones of places",
     "mistfold limit list --on 2025-06-01 --job J-1926"},
    {"limit", "import", "FILE", NULL, "local_limit", opt_import, mf_cmd_import_kind,
     "stricter limits of a place from a CSV file (docs/places.md)",
     "mistfold limit import forms/places/US-IA.csv --dry-run"},
    LOG("limit", "add", "", "local_limit", "one stricter limit of a place or a contract",
        "limit add --limit retention-years --value 5 --place J-1926 --status verified --citation "
        "\"contract of 2026-08-01, clause 7\""),
    {"limit", "places", "", NULL, "local_limit", NULL, mf_cmd_list,
     "the stricter limits in the book, as they were taken in", "mistfold limit places"},

    LOG("step", "add", "", "own_step", "a step the firm asks of its crews beyond the rule",
        "step add --id shoe-covers --phase contain --side both --text \"Put shoe covers by the "
        "door.\" --from 2026-10-01"),
    {"step", "import", "[FILE]", NULL, "own_step", opt_import, mf_cmd_import_steps,
     "steps of the firm from a CSV file, or from that of the settings (docs/own-steps.md)",
     "mistfold step import own-steps.csv --dry-run"},
    {"step", "list", "", NULL, "own_step", NULL, mf_cmd_list, "the firm's own steps",
     "mistfold step list"},

    {"paper", "record", "JOB", NULL, NULL, opt_record, mf_cmd_paper_record,
     "print the job record, sealed when a key is given",
     "mistfold paper record J-1926 --out record.pdf --key rosa.p12"},
    {"paper", "preview", "JOB", NULL, NULL, opt_preview, mf_cmd_paper_preview,
     "a page of the job record as a picture, to look at before it is printed or sealed",
     "mistfold paper preview J-1926 --out page.png --open"},
    {"paper", "records", "FOLDER", NULL, NULL, opt_on, mf_cmd_paper_records,
     "print the record of every job, unsealed, into a folder", "mistfold paper records archive"},
    {"paper", "summary", "JOB", NULL, NULL, opt_summary, mf_cmd_paper_summary,
     "print the summary for owner and occupant",
     "mistfold paper summary J-1926 --lang es --out summary.pdf"},
    {"paper", "blank", "NAME", NULL, NULL, opt_blank, mf_cmd_paper_blank,
     "print a paper for the clipboard, blank or filled in",
     "mistfold paper blank verification --job J-1926 --area A1 --out sheet.pdf"},
    {"paper", "seal", "FILE", NULL, NULL, opt_seal, mf_cmd_paper_seal,
     "put another seal on a paper",
     "mistfold paper seal record.pdf --key rosa.p12 --as owner --drawn hand.png"},
    {"paper", "stamp", "FILE", NULL, NULL, opt_paper_stamp, mf_cmd_paper_stamp,
     "have a time-stamping authority confirm when a sealed paper existed",
     "mistfold paper stamp record.pdf --tsa https://tsa.example/ --tsa-roots roots.pem"},
    {"paper", "data", "FILE", NULL, NULL, NULL, mf_cmd_paper_data,
     "the record as data, taken out of its paper", "mistfold paper data record.pdf"},
    {"paper", "check", "FILE", NULL, NULL, opt_paper_check, mf_cmd_paper_check,
     "was this paper altered since it was sealed?", "mistfold paper check record.pdf"},

    {"key", "new", "FILE", NULL, NULL, opt_key_new, mf_cmd_key_new, "make a key that seals papers",
     "mistfold key new rosa.p12 --name \"Rosa Example\" --capacity \"certified renovator\""},
    {"key", "show", "FILE", NULL, NULL, opt_key, mf_cmd_key_show,
     "whose key it is, and its fingerprint", "mistfold key show rosa.p12"},
    {"key", "trust", "", "known_key", NULL, NULL, mf_cmd_key_trust,
     "note whose key a fingerprint is: papers it seals are then good",
     "mistfold key trust --fingerprint "
     "2ef4683129ecf3f13a8f18629bf95729efeed27de87e5e05570c25d59c80e600 --person rosa --as "
     "renovator,firm"},
    {"key", "list", "", NULL, "known_key", NULL, mf_cmd_list, "the keys whose seals are good",
     "mistfold key list"},

    {"help", "", "[GROUP] [ACTION]", NULL, NULL, NULL, mf_cmd_help,
     "what a command does, with an example", "mistfold help gate"},
    {"version", "", "", NULL, NULL, NULL, mf_cmd_version, "the version", "mistfold version --json"},
};

const mf_cmd *mf_cmds(size_t *count)
{
    *count = sizeof rows / sizeof rows[0];
    return rows;
}

const mf_cmd *mf_cmd_named(const char *group, const char *action)
{
    for (size_t i = 0; group != NULL && i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].group, group) == 0 &&
            (rows[i].action[0] == '\0' || (action != NULL && strcmp(rows[i].action, action) == 0)))
            return &rows[i];
    return NULL;
}

bool mf_cmd_of_job(const mf_cmd *cmd)
{
    return strncmp(cmd->args + (cmd->args[0] == '['), "JOB", 3) == 0;
}

bool mf_cmd_group(const char *group)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].group, group) == 0)
            return true;
    return false;
}
