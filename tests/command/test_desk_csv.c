// The desk's lists as files: what the real bench writes beside the database, held against what the
// database has, asked in another way.

#include "run.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;
static char text[65536];

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    run_expect(&scratch, &ran, 0, "demo --db shop.db");
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void bench(const char *steps) {
    char all[512];
    snprintf(all, sizeof all, "clock 2026-03-31T08:15\nscan W-00029\nkey F5\n%s", steps);
    scratch_write(&scratch, "steps", all);
    run(&scratch, &ran, "bench --db shop.db --script steps");
    if (ran.status != 0) {
        fail_msg("%s", ran.err);
    }
}

static void read_file(const char *name) {
    FILE *file = fopen(scratch_path(&scratch, name), "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
}

static size_t lines(void) {
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, "\r\n")) != NULL; at += 2) {
        count++;
    }
    return count;
}

// Every line that the query makes is one of the file.
static size_t expect_lines(const char *sql) {
    sqlite3 *db;
    sqlite3_stmt *statement;
    size_t count = 0;
    assert_int_equal(
        sqlite3_open_v2(scratch_path(&scratch, "shop.db"), &db, SQLITE_OPEN_READONLY, NULL), 0);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
    while (sqlite3_step(statement) == SQLITE_ROW) {
        char line[256];
        snprintf(line, sizeof line, "\r\n%s\r\n", (const char *)sqlite3_column_text(statement, 0));
        if (strstr(text, line) == NULL) {
            fail_msg("not in the file: %s", line);
        }
        count++;
    }
    sqlite3_finalize(statement);
    sqlite3_close(db);
    return count;
}

static void writes_the_stock(void **state) {
    (void)state;
    bench("key 7\nexpect DESK LIST STOCK\nkey F2\nsee Written beside the database: "
          "stock-2026-03-31.csv.\nkey F2\nsee stock-2026-03-31-2.csv.\n");
    read_file("stock-2026-03-31.csv");
    assert_memory_equal(text, "part,model,flex,free,reserved,needed,short,least,wanted,to_order",
                        64);
    size_t count = expect_lines(
        "WITH wish AS (SELECT c.wished_model AS model, c.wished_flex AS flex, count(*) AS clubs "
        "FROM club AS c JOIN build AS b ON b.name = c.build WHERE b.status = 'released' "
        "AND c.cancelled = 0 AND c.stage = 'pending' AND c.wished_model <> '' "
        "AND c.id NOT IN (SELECT club FROM shaft WHERE club IS NOT NULL) GROUP BY 1, 2), "
        "kind AS (SELECT model, flex FROM shaft WHERE life = 'raw' UNION SELECT model, flex FROM "
        "wish UNION SELECT model, flex FROM stock_level WHERE part = 'shaft'), "
        "sum AS (SELECT k.model, k.flex, (SELECT count(*) FROM shaft AS s WHERE s.model = k.model "
        "AND s.flex = k.flex AND life = 'raw' AND club IS NULL) AS free, (SELECT count(*) FROM "
        "shaft AS s WHERE s.model = k.model AND s.flex = k.flex AND life = 'raw' AND club IS NOT "
        "NULL) AS reserved, coalesce(w.clubs, 0) AS needed, l.least, l.wanted FROM kind AS k "
        "LEFT JOIN wish AS w USING (model, flex) LEFT JOIN stock_level AS l ON l.part = 'shaft' "
        "AND l.model = k.model AND l.flex = k.flex) "
        "SELECT format('shaft,%s,%s,%d,%d,%d,%d,%s,%s,%d', model, flex, free, reserved, needed, "
        "max(needed - free, 0), least, wanted, CASE WHEN least IS NULL THEN max(needed - free, 0) "
        "WHEN free - needed < least THEN wanted - free + needed ELSE 0 END) FROM sum");
    count += expect_lines(
        "WITH sum AS (SELECT m.name, (SELECT count(*) FROM head AS h WHERE h.model = m.name AND "
        "h.club IS NULL) AS free, (SELECT count(*) FROM head AS h JOIN club AS c ON c.id = h.club "
        "WHERE h.model = m.name AND c.stage = 'pending') AS reserved, l.least, l.wanted FROM "
        "head_model AS m LEFT JOIN stock_level AS l ON l.part = 'head' AND l.model = m.name) "
        "SELECT format('head,%s,,%d,%d,0,0,%s,%s,%d', name, free, reserved, least, wanted, "
        "CASE WHEN free < least THEN wanted - free ELSE 0 END) FROM sum");
    assert_int_equal(lines(), count + 1);
    read_file("stock-2026-03-31-2.csv");
    assert_int_equal(lines(), count + 1);
}

// Clubs whose parts are fetched: of released orders, due some day, not begun.
#define FETCHED                                                                                    \
    " JOIN build AS b ON b.name = c.build WHERE b.status = 'released' AND c.cancelled = 0 "        \
    "AND c.due <> '' AND c.stage = 'pending'"

static void writes_what_to_fetch(void **state) {
    (void)state;
    bench("key 7\nkey F11\nexpect DESK LIST PICK\nkey F2\nsee pick-2026-03-31.csv.\n");
    read_file("pick-2026-03-31.csv");
    assert_memory_equal(text, "rack,part,ticket,model,flex,order,club,due\r\n", 44);
    size_t count =
        expect_lines("SELECT s.rack || ',shaft,' || s.ticket || ',' || s.model || ',' || s.flex || "
                     "',' || c.build || ',' || c.name || ',' || c.due FROM shaft AS s JOIN club AS "
                     "c ON c.id = s.club" FETCHED);
    count += expect_lines("SELECT ',head,' || h.ticket || ',' || h.model || ',,' || c.build || ',' "
                          "|| c.name || ',' || c.due FROM head AS h JOIN club AS c ON c.id = "
                          "h.club" FETCHED);
    count += expect_lines("SELECT ',no shaft,,' || wished_model || ',' || wished_flex || ',' || "
                          "build || ',' || c.name || ',' || due FROM club AS c" FETCHED
                          " AND c.id NOT IN (SELECT club FROM shaft WHERE club IS NOT NULL)");
    count += expect_lines("SELECT ',no head,,,,' || build || ',' || c.name || ',' || due FROM club "
                          "AS c" FETCHED
                          " AND c.id NOT IN (SELECT club FROM head WHERE club IS NOT NULL)");
    assert_int_equal(lines(), count + 1);
}

// No name is left for the file.
static void says_when_it_cannot(void **state) {
    (void)state;
    char name[64];
    for (int i = 1; i <= 1000; i++) { // as many as a day may have
        if (i == 1) {
            snprintf(name, sizeof name, "pick-2026-04-01.csv");
        } else {
            snprintf(name, sizeof name, "pick-2026-04-01-%d.csv", i);
        }
        scratch_write(&scratch, name, "");
    }
    scratch_write(&scratch, "steps",
                  "clock 2026-04-01T08:15\nscan W-00029\nkey F5\nkey 7\nkey "
                  "F11\nkey F2\nsee No file was written: File exists.\n");
    run(&scratch, &ran, "bench --db shop.db --script steps");
    if (ran.status != 0) {
        fail_msg("%s", ran.err);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(writes_the_stock),
        cmocka_unit_test(writes_what_to_fetch),
        cmocka_unit_test(says_when_it_cannot),
    };
    return cmocka_run_group_tests(tests, opened, closed);
}
