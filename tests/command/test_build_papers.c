// `kerfside card` and `kerfside certificate` by the real program, read back with pdftotext.

#include "builds.h"
#include "run.h"
#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static const char *read_back(const char *name) {
    static char text[SCRATCH_TEXT_MAX];
    char command[300];
    snprintf(command, sizeof command, "pdftotext -layout '%s' -", scratch_path(&scratch, name));
    FILE *pipe = popen(command, "re");
    assert_non_null(pipe);
    text[fread(text, 1, sizeof text - 1, pipe)] = '\0';
    assert_int_equal(pclose(pipe), 0);
    return text;
}

static int pages_of(const char *text) {
    int pages = 0;
    for (const char *c = text; *c != '\0'; c++) {
        pages += *c == '\f' ? 1 : 0;
    }
    return pages;
}

static struct entry entry_of(const struct club *club, enum entry_kind kind) {
    static int number;
    struct entry entry = entry_init(kind);
    snprintf(entry.confirm_id, sizeof entry.confirm_id, "%032x", ++number);
    strcpy(entry.bench, "desk");
    strcpy(entry.worker, "W-1000Y");
    entry.wall_ms = INT64_C(1774951200000); // 31 March 2026, 10:00 UTC
    entry.club_id = club->id;
    strcpy(entry.build, club->order.build);
    strcpy(entry.club, club->order.club);
    strcpy(entry.head, club->head.ticket);
    strcpy(entry.shaft, club->shaft.ticket);
    return entry;
}

static void append(struct entry *entry) {
    if (store_append(scratch.store, entry) != STORE_OK) {
        fail_msg("%s: %s", entry_kind_text(entry->kind), store_message(scratch.store));
    }
}

static struct club club_named(const char *build, const char *name) {
    struct club club;
    int64_t id;
    assert_int_equal(store_club_named(scratch.store, build, name, &id), STORE_OK);
    assert_int_equal(store_club(scratch.store, id, &club), STORE_OK);
    return club;
}

// From the tickets to the measured shaft, at the marks of its plan.
static void cut(const char *build, const char *name) {
    struct club club = club_named(build, name);
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    assert_true(club_plan(&club, &rules, &input, &plan));
    struct entry entry = entry_of(&club, ENTRY_TIP_SHOWN);
    entry.planned = plan.tip_mark;
    if (plan.tip_mark > 0) {
        append(&entry);
        entry = entry_of(&club, ENTRY_TIP_CUT);
        entry.planned = entry.made = plan.tip_mark;
        entry.attempt = 1;
        entry.verdict = VERDICT_IN;
        append(&entry);
    }
    if (plan.butt_cut) {
        entry = entry_of(&club, ENTRY_BUTT_SHOWN);
        entry.planned = plan.butt_mark;
        append(&entry);
        entry = entry_of(&club, ENTRY_BUTT_CUT);
        entry.planned = entry.made = plan.butt_mark;
        entry.attempt = 1;
        append(&entry);
    }
    entry = entry_of(&club, ENTRY_MEASURE);
    entry.planned = entry.made = plan.butt_mark;
    entry.verdict = VERDICT_IN;
    strcpy(entry.cause, plan.butt_cut ? "" : "no_butt_cut");
    append(&entry);
}

static void final(const char *build, const char *name, enum entry_kind kind, const char *note) {
    struct club club = club_named(build, name);
    struct entry entry = entry_of(&club, kind);
    if (kind == ENTRY_FINAL_LENGTH) {
        assert_int_equal(length_parse(note, LENGTH_UNIT_INCH, &entry.made, NULL), LENGTH_OK);
        entry.planned = club.order.playing_length;
        strcpy(entry.cause, "rules");
    } else {
        strcpy(entry.note, note);
    }
    append(&entry);
}

// Two irons and a putter bored through, whose trim a supervisor gave and whose shaft is short.
static void shop(void) {
    scratch_write(&scratch, "shaft_models.csv",
                  "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,"
                  "max_tip_trim,max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"
                  "Alder,graphite,parallel,0.370,0.600,41,112,8,5,,none,,\n");
    scratch_write(&scratch, "charts.csv",
                  "model,flex,kind,column,column_weight_g,tip_trim\n"
                  "Alder,S,iron,7,272,1\nAlder,S,iron,8,279,1 1/2\n");
    scratch_write(&scratch, "head_models.csv",
                  "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie,bore\n"
                  "Cove 7,iron,7,272,0.370,1 1/4,1,33,62.5,blind\n"
                  "Cove 8,iron,8,279,0.370,1 1/4,1,37,63,blind\n"
                  "Cove P,putter,,350,0.370,1,,3,70,through\n");
    scratch_write(&scratch, "heads.csv",
                  "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
                  "H-0001A,Cove 7,272,,,1\nH-00028,Cove 8,279,,,1\nH-00036,Cove P,350,,,\n");
    scratch_write(&scratch, "shafts.csv",
                  "ticket,model,flex,raw_length,weight_g,rack\n"
                  "S-0001S,Alder,S,41,112,\nS-0002Q,Alder,S,41,112,\nS-0003O,Alder,S,35,96,\n");
    scratch_write(&scratch, "builds.csv",
                  "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,"
                  "step,uniform_flex,given_trim,extension,loft,lie\n"
                  "77,7,,H-0001A,S-0001S,37,1/8,50,D1,0,no,,,34,\n"
                  "77,8,,H-00028,S-0002Q,36 1/2,1/8,50,D1,0,no,,,,\n"
                  "77,P,,H-00036,S-0003O,35 1/2,1/8,80,,0,no,0,yes,,\n");
    scratch_write(&scratch, "workers.csv", "badge,name,role\nW-1000Y,Ida Brandt,supervisor\n");
    enum store_result result =
        scratch_import(&scratch, "shaft_models.csv", "charts.csv", "head_models.csv", "heads.csv",
                       "shafts.csv", "builds.csv", "workers.csv", NULL);
    if (result != STORE_OK) {
        fail_msg("%s", scratch.messages);
    }
    scratch_write(&scratch, "saw.ini",
                  "[assembly]\nferrule = Black 14 mm\nepoxy = Fell 24\ncure_hours = 24\n"
                  "length_method = rules\n[shop]\nname = Brae Forge\n");
}

static void accept_final(const char *build, const char *name, enum assembly_value value) {
    struct club club = club_named(build, name);
    struct entry entry = entry_of(&club, ENTRY_NOTE);
    struct final_values values;
    assert_int_equal(store_final_values(scratch.store, club.id, &values), STORE_OK);
    entry.refers = values.seq[value];
    strcpy(entry.cause, ENTRY_ACCEPTED);
    strcpy(entry.note, "the customer tried it");
    append(&entry);
}

static void keep(const char *name, const char *as) {
    const char *shots = getenv("KERFSIDE_SHOTS");
    char command[500];
    if (shots != NULL) {
        snprintf(command, sizeof command, "cp '%s' '%s/%s.pdf'", scratch_path(&scratch, name),
                 shots, as);
        assert_int_equal(system(command), 0);
    }
}

static void cards_say_what_is_to_be_done(void **state) {
    (void)state;
    shop();
    run_expect(&scratch, &ran, 0, "card 77 --pdf c.pdf --settings saw.ini");
    run_says(ran.out, "c.pdf: 3 pages");
    const char *text = read_back("c.pdf");
    keep("c.pdf", "card-a4");
    assert_int_equal(pages_of(text), 3);
    run_says(text, "Brae Forge");
    run_says(text, "Build 77, club 7");
    run_says(text, "1 1/4 in, through the paint only");
    run_says(text, "Black 14 mm");
    run_says(text, "Fell 24, cures 24 hours");
    run_says(text, "50 g, cap 1/8 in");
    run_says(text, "34 deg"); // the order's, not the model's 33
    run_says(text, "62.5 deg");
    run_says(text, "after the Equipment Rules");
    // The putter: 35 1/2 - 1/8 + 1/4 = 35 5/8 of a shaft of 35; 1 in of hosel and 1/4 in beyond.
    run_says(text, "1 1/4 in");
    run_says(text, "stands 1/4 in past the ground line; grind it flush");
    run_says(text, "by 5/8 in, the plug glued at least 1 1/4 in");
    assert_null(strstr(text, "not handled before"));
    cut("77", "7");
    run_expect(&scratch, &ran, 0, "card 77-7 --pdf c.pdf --settings saw.ini --paper letter");
    text = read_back("c.pdf");
    assert_int_equal(pages_of(text), 1);
    run_says(text, "Glued when it was cut: not handled before 1 Apr "); // a day later
}

static void a_certificate_waits_for_all_values(void **state) {
    (void)state;
    shop();
    cut("77", "7");
    cut("77", "8");
    run_expect(&scratch, &ran, 1, "certificate 77 --pdf z.pdf --settings saw.ini");
    run_says(ran.err, "Build 77 is not done: club 7: no length, no swingweight; club 8: no length, "
                      "no swingweight; club P: not cut.");
    assert_int_equal(access(scratch_path(&scratch, "z.pdf"), F_OK), -1);
    run_expect(&scratch, &ran, 0, "certificate 77 --draft --pdf z.pdf --settings saw.ini");
    const char *text = read_back("z.pdf");
    keep("z.pdf", "certificate-draft");
    run_says(text, "DRAFT: this build is not done");
    run_says(text, "missing");
    cut("77", "P");
    final("77", "7", ENTRY_FINAL_LENGTH, "37 1/16");
    final("77", "7", ENTRY_FINAL_SWINGWEIGHT, "D0.5");
    final("77", "7", ENTRY_FINAL_LIE, "62");
    final("77", "8", ENTRY_FINAL_LENGTH, "36 1/2");
    final("77", "8", ENTRY_FINAL_SWINGWEIGHT, "D2.5");
    final("77", "P", ENTRY_FINAL_LENGTH, "35 3/8");
    final("77", "P", ENTRY_FINAL_SWINGWEIGHT, "C0");
    run_expect(&scratch, &ran, 1, "certificate 77 --pdf z.pdf --settings saw.ini");
    run_says(ran.err, "club 8: swingweight out; club P: swingweight out.");
    final("77", "8", ENTRY_FINAL_SWINGWEIGHT, "D1.5");
    scratch_write(&scratch, "saw.ini", "[assembly]\nwanted = length\n[shop]\nname = Brae Forge\n");
    run_expect(&scratch, &ran, 0, "certificate 77 --pdf z.pdf --settings saw.ini");
    text = read_back("z.pdf");
    keep("z.pdf", "certificate-a4");
    assert_int_equal(pages_of(text), 1);
    assert_null(strstr(text, "DRAFT"));
    run_says(text, "Brae Forge");
    run_says(text, "Certificate of build 77");
    run_says(text, "Built by Ida Brandt (W-1000Y), cut 2026-03-31");
    run_says(text, "37 1/16 in");
    run_says(text, "35 7/8 in"); // of shaft in club 7: 37 - 1 - 1/8
    run_says(text, "D0.5");
    run_says(text, "62 deg");
    run_says(text, "Length of 7, 8, P: after the Equipment Rules");
    run_says(text, "length ± 1/8 in, swingweight ± 1 point");
    run_expect(&scratch, &ran, 0, "certificate 77 --pdf z.pdf --settings saw.ini --paper letter");
    assert_int_equal(pages_of(read_back("z.pdf")), 1);
    keep("z.pdf", "certificate-letter");
}

static void a_certificate_says_what_was_accepted(void **state) {
    (void)state;
    shop();
    static const char *const clubs[] = {"7", "8", "P"};
    static const char *const lengths[] = {"37", "36 1/2", "35 1/2"};
    static const char *const weights[] = {"D1", "D2.5", "C0"};
    for (size_t i = 0; i < 3; i++) {
        cut("77", clubs[i]);
        final("77", clubs[i], ENTRY_FINAL_LENGTH, lengths[i]);
        final("77", clubs[i], ENTRY_FINAL_SWINGWEIGHT, weights[i]);
    }
    accept_final("77", "P", ASSEMBLY_SWINGWEIGHT);
    run_expect(&scratch, &ran, 1, "certificate 77 --pdf z.pdf --settings saw.ini");
    run_says(ran.err, "Build 77 is not done: club 8: swingweight out.");
    run_expect(&scratch, &ran, 0, "certificate 77 --draft --pdf z.pdf --settings saw.ini");
    const char *text = read_back("z.pdf");
    run_says(text, "D2.5 (out)");
    run_says(text, "C0.0 (accepted)");
    accept_final("77", "8", ASSEMBLY_SWINGWEIGHT);
    run_expect(&scratch, &ran, 0, "certificate 77 --pdf z.pdf --settings saw.ini");
    text = read_back("z.pdf");
    keep("z.pdf", "certificate-accepted");
    assert_null(strstr(text, "DRAFT"));
    assert_null(strstr(text, "(out)"));
    run_says(text, "D2.5 (accepted)");
    assert_int_equal(pages_of(text), 1);
    run_expect(&scratch, &ran, 0, "card 77-8 --pdf c.pdf --settings saw.ini");
    run_says(read_back("c.pdf"), "out, accepted");
    // Measured again, it is nobody's word any more.
    final("77", "8", ENTRY_FINAL_SWINGWEIGHT, "D2.5");
    run_expect(&scratch, &ran, 1, "certificate 77 --pdf z.pdf --settings saw.ini");
    run_says(ran.err, "Build 77 is not done: club 8: swingweight out.");
}

static struct builds_done done_of(const char *build) {
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct assembly assembly = ASSEMBLY_DEFAULT;
    struct assembly_tolerance tolerance = ASSEMBLY_TOLERANCE_DEFAULT;
    struct builds_done done;
    assert_int_equal(builds_done(scratch.store, build, &rules, &assembly, &tolerance, &done),
                     STORE_OK);
    return done;
}

static void a_build_is_done_when_its_clubs_are(void **state) {
    (void)state;
    struct builds_done done;
    shop();
    done = done_of("77");
    assert_int_equal(done.clubs, 3);
    assert_int_equal(done.done, 0);
    assert_string_equal(done.missing, "club 7: not cut; club 8: not cut; club P: not cut");
    cut("77", "7");
    final("77", "7", ENTRY_FINAL_LENGTH, "37 1/4");
    final("77", "7", ENTRY_FINAL_SWINGWEIGHT, "D1");
    done = done_of("77");
    assert_int_equal(done.done, 0);
    assert_string_equal(done.missing, "club 7: length out; club 8: not cut; club P: not cut");
    accept_final("77", "7", ASSEMBLY_LENGTH);
    assert_int_equal(done_of("77").done, 1);
    final("77", "7", ENTRY_FINAL_LENGTH, "37 1/4");
    assert_int_equal(done_of("77").done, 0);
    final("77", "7", ENTRY_FINAL_LENGTH, "37 1/8");
    done = done_of("77");
    assert_int_equal(done.done, 1);
    assert_string_equal(done.missing, "club 8: not cut; club P: not cut");
    // Lines that were cancelled keep nobody waiting.
    scratch_write(&scratch, "builds.csv",
                  "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,"
                  "step,uniform_flex,cancelled\n"
                  "77,8,,,,36 1/2,1/8,50,D1,0,no,yes\n77,P,,,,35 1/2,1/8,80,,0,no,yes\n");
    if (scratch_import(&scratch, "builds.csv", NULL) != STORE_OK) {
        fail_msg("%s", scratch.messages);
    }
    done = done_of("77");
    assert_int_equal(done.clubs, 1);
    assert_int_equal(done.done, 1);
    assert_string_equal(done.missing, "");
}

static void a_set_tells_what_is_out(void **state) {
    (void)state;
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct assembly assembly = ASSEMBLY_DEFAULT;
    struct assembly_tolerance tolerance = ASSEMBLY_TOLERANCE_DEFAULT;
    static struct set set;
    shop();
    cut("77", "7");
    final("77", "7", ENTRY_FINAL_LENGTH, "37 1/8");    // at the limit of 1/8 in
    final("77", "7", ENTRY_FINAL_SWINGWEIGHT, "D2.1"); // ordered D1, 1 point
    final("77", "7", ENTRY_FINAL_FREQUENCY, "305");    // nothing to hold it against
    assert_int_equal(builds_set(scratch.store, "77", &rules, &assembly, &tolerance, &set),
                     STORE_OK);
    assert_false(set.club[0].point[SET_LENGTH].measured_out);
    assert_true(set.club[0].point[SET_SWINGWEIGHT].measured_out);
    assert_true(set.club[0].point[SET_FREQUENCY].measured_known);
    assert_false(set.club[0].point[SET_FREQUENCY].measured_out);
    assert_false(set.club[1].point[SET_SWINGWEIGHT].measured_out);
    final("77", "7", ENTRY_FINAL_LENGTH, "37 3/16");
    final("77", "7", ENTRY_FINAL_SWINGWEIGHT, "D2");
    assert_int_equal(builds_set(scratch.store, "77", &rules, &assembly, &tolerance, &set),
                     STORE_OK);
    assert_true(set.club[0].point[SET_LENGTH].measured_out);
    assert_false(set.club[0].point[SET_SWINGWEIGHT].measured_out);
    assert_int_equal(builds_set(scratch.store, "77", &rules, &assembly, NULL, &set), STORE_OK);
    assert_false(set.club[0].point[SET_LENGTH].measured_out);
}

static void wrong_use_is_said(void **state) {
    (void)state;
    shop();
    run_expect(&scratch, &ran, 2, "card 77");
    run_says(ran.err, "--pdf");
    run_expect(&scratch, &ran, 2, "certificate --pdf z.pdf");
    run_expect(&scratch, &ran, 2, "card 77 --pdf z.pdf --draft");
    run_expect(&scratch, &ran, 2, "certificate 77 --pdf z.pdf --paper a5");
    run_expect(&scratch, &ran, 1, "certificate 78 --pdf z.pdf");
    run_says(ran.err, "There is no build 78");
    run_expect(&scratch, &ran, 1, "card 77-9 --pdf z.pdf");
    run_says(ran.err, "There is no club 77-9");
    assert_int_equal(access(scratch_path(&scratch, "z.pdf"), F_OK), -1);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(cards_say_what_is_to_be_done),
        STEP(a_certificate_waits_for_all_values),
        STEP(a_certificate_says_what_was_accepted),
        STEP(a_build_is_done_when_its_clubs_are),
        STEP(a_set_tells_what_is_out),
        STEP(wrong_use_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
