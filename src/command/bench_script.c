// Drives the bench from a file of steps, with a clock that moves only when the script lets it.
// Keys, button and time go through the very functions that the live bench uses.
//
//   scan TEXT            a scanner's burst, ended with Enter
//   type TEXT  enter     a person at the keyboard
//   press  hold          the button
//   action NAME [VALUE]  a touch; a length for PICK, else a number
//   row N                a touch of the log's Nth row
//   key F4               a touch of what has this key on the screen
//   wait MS  clock TIME  time passes; local wall time, 2026-03-31T08:15
//   device scanner|button|scale gone|back
//   weigh LINE           a line as a scale sends it
//   shot NAME            DIR/NAME.png
//   expect STATE [CAUSE] ends the script with status 1 if the bench stands elsewhere
//   see TEXT             the same if TEXT is nowhere on the screen
//   selfcheck            from here on it looks at itself, as the live bench does, from its start

#include "bench_scale.h"
#include "command.h"
#include "layouts.h"
#include "text.h"

#include <errno.h>
#include <linux/input-event-codes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define STEP_MAX 512
#define SCAN_GAP_US 4000
#define TYPE_GAP_US 120000
#define PRESS_US 100000
#define AFTER_US 500000 // between two steps; the button has a dead time

struct script {
    struct bench *bench;
    const char *path;
    const char *shots;
    int line;
    int status; // in the end, if every step is done
};

static int complain(const struct script *script, int status, const char *what, const char *detail) {
    fprintf(stderr, "%s:%d: %s%s\n", script->path, script->line, what, detail);
    return status;
}

static int64_t patience(const struct bench *bench) {
    int64_t station = bench_patience(bench);
    int64_t selfcheck = bench_selfcheck_patience(bench);
    return selfcheck >= 0 && (station < 0 || selfcheck < station) ? selfcheck : station;
}

static void turn(struct bench *bench) {
    bench_tick(bench);
    bench_tidy(bench);
    bench_selfcheck_tick(bench);
    if (bench->selfcheck.going) {
        bench_selfcheck_wait(bench);
        bench_selfcheck_tick(bench);
    }
    bench_draw(bench);
}

// Stops at every moment at which something is due. Its clock stands still while a log is checked.
static void pass(struct bench *bench, int64_t us) {
    bench_signing_wait(&bench->check);
    bench_practice_wait(bench);
    int64_t until = bench->clock.mono_us + us;
    int64_t due = patience(bench);
    while (due >= 0 && bench->clock.mono_us + due < until) {
        bench_clock_pass(&bench->clock, due > 1000 ? due : 1000);
        turn(bench);
        due = patience(bench);
    }
    if (bench->clock.mono_us < until) {
        bench_clock_pass(&bench->clock, until - bench->clock.mono_us);
    }
    turn(bench);
}

static void key(struct bench *bench, uint16_t code, bool down) {
    bench_key(bench, &bench->keys, code, down, bench->clock.mono_us);
}

static void press_key(struct bench *bench, uint16_t code, bool shift, int64_t gap_us) {
    pass(bench, gap_us);
    if (shift) {
        key(bench, KEY_LEFTSHIFT, true);
    }
    key(bench, code, true);
    key(bench, code, false);
    if (shift) {
        key(bench, KEY_LEFTSHIFT, false);
    }
}

static bool write_text(struct bench *bench, const char *text, int64_t gap_us) {
    for (; *text != '\0'; text++) {
        uint16_t code;
        enum layout_level level;
        if (!layout_key(LAYOUT_US, *text, &code, &level)) {
            return false;
        }
        press_key(bench, code, level == LEVEL_SHIFT, gap_us);
    }
    return true;
}

static int scan(struct script *script, const char *text) {
    if (!write_text(script->bench, text, SCAN_GAP_US)) {
        return complain(script, COMMAND_USAGE, "no key writes a character of ", text);
    }
    press_key(script->bench, KEY_ENTER, false, SCAN_GAP_US);
    return COMMAND_DONE;
}

static int type(struct script *script, const char *text) {
    if (!write_text(script->bench, text, TYPE_GAP_US)) {
        return complain(script, COMMAND_USAGE, "no key writes a character of ", text);
    }
    return COMMAND_DONE;
}

static int enter(struct script *script, const char *text) {
    (void)text;
    press_key(script->bench, KEY_ENTER, false, TYPE_GAP_US);
    return COMMAND_DONE;
}

static void button(struct bench *bench, int64_t us) {
    bench_button(bench, true, bench->clock.mono_us);
    pass(bench, us);
    bench_button(bench, false, bench->clock.mono_us);
}

static int press(struct script *script, const char *text) {
    (void)text;
    button(script->bench, PRESS_US);
    return COMMAND_DONE;
}

static int hold(struct script *script, const char *text) {
    (void)text;
    button(script->bench, (int64_t)script->bench->settings->hold_ms * 1000 + PRESS_US);
    return COMMAND_DONE;
}

static void touch(struct bench *bench, enum view_action_id action, int64_t argument) {
    struct screen_input input = {
        .kind = SCREEN_TOUCH, .down = true, .action = action, .argument = argument};
    bench_touch(bench, &input);
    pass(bench, PRESS_US);
    input.down = false;
    bench_touch(bench, &input);
}

static bool find_action(const char *name, size_t size, enum view_action_id *ret_action) {
    static const struct {
        const char *name;
        enum view_action_id id;
    } actions[] = {
#define X(name) {#name, ACTION_##name},
        VIEW_ACTION_IDS(X)
#undef X
    };
    for (size_t i = 0; i < sizeof actions / sizeof actions[0]; i++) {
        if (strlen(actions[i].name) == size && strncmp(actions[i].name, name, size) == 0) {
            *ret_action = actions[i].id;
            return true;
        }
    }
    return false;
}

static int action(struct script *script, const char *text) {
    size_t size = strcspn(text, " ");
    const char *value = text + size + strspn(text + size, " ");
    enum view_action_id id;
    int64_t argument = strtoll(value, NULL, 10);
    if (!find_action(text, size, &id)) {
        return complain(script, COMMAND_USAGE, "there is no action ", text);
    }
    if (id == ACTION_PICK && length_parse(value, LENGTH_UNIT_INCH, &argument, NULL) != LENGTH_OK) {
        return complain(script, COMMAND_USAGE, "this is no length: ", value);
    }
    touch(script->bench, id, argument);
    return COMMAND_DONE;
}

// The key that stands on something on the screen.
static int named_key(struct script *script, const char *text) {
    const struct view *view = bench_view(script->bench);
    for (size_t i = 0; i < view->action_count; i++) {
        if (strcmp(view->action[i].key, text) == 0) {
            touch(script->bench, view->action[i].id, view->action[i].argument);
            return COMMAND_DONE;
        }
    }
    return complain(script, COMMAND_REFUSED, "nothing on the screen has the key ", text);
}

static int row(struct script *script, const char *text) {
    const struct view *view = bench_view(script->bench);
    size_t number = strtoul(text, NULL, 10);
    bool set = view->body == VIEW_SET;
    size_t count = set ? view->set.row_count : view->body == VIEW_LOG ? view->log.row_count : 0;
    if (number < 1 || number > count) {
        return complain(script, COMMAND_REFUSED, "there is no such row on the screen: ", text);
    }
    touch(script->bench, ACTION_ROW,
          set ? view->set.first + (int64_t)number - 1 : view->log.row[number - 1].seq);
    return COMMAND_DONE;
}

static int wait(struct script *script, const char *text) {
    pass(script->bench, strtoll(text, NULL, 10) * 1000);
    return COMMAND_DONE;
}

static int set_clock(struct script *script, const char *text) {
    if (!bench_clock_set(&script->bench->clock, text)) {
        return complain(script, COMMAND_USAGE, "this is no time like 2026-03-31T08:15: ", text);
    }
    return COMMAND_DONE;
}

static int device(struct script *script, const char *text) {
    static const struct {
        const char *text;
        enum station_device device;
        bool present;
    } cases[] = {{"scanner gone", DEVICE_SCANNER, false}, {"scanner back", DEVICE_SCANNER, true},
                 {"button gone", DEVICE_BUTTON, false},   {"button back", DEVICE_BUTTON, true},
                 {"scale gone", DEVICE_SCALE, false},     {"scale back", DEVICE_SCALE, true}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        if (strcmp(cases[i].text, text) == 0) {
            bench_device(script->bench, cases[i].device, cases[i].present);
            return COMMAND_DONE;
        }
    }
    return complain(script, COMMAND_USAGE,
                    "a device is scanner, button or scale, gone or back, not ", text);
}

// A line as a scale sends it.
static int weigh(struct script *script, const char *text) {
    struct scale_reading reading;
    scale_line(text, strlen(text), script->bench->settings->scale_unit, &reading, NULL);
    bench_scale_reading(script->bench, &reading);
    return COMMAND_DONE;
}

static int shot(struct script *script, const char *text) {
    char path[STEP_MAX + 512];
    char problems[1024];
    if (script->shots == NULL) {
        return COMMAND_DONE;
    }
    if (mkdir(script->shots, 0777) != 0 && errno != EEXIST) {
        return complain(script, COMMAND_REFUSED, "cannot make the folder ", script->shots);
    }
    snprintf(path, sizeof path, "%s/%s.png", script->shots, text);
    if (!screen_shot(script->bench->screen, path)) {
        return complain(script, COMMAND_REFUSED, "cannot write ", path);
    }
    printf("shot %s\n", path);
    if (screen_problems(script->bench->screen, problems, sizeof problems) > 0) {
        script->status = complain(script, COMMAND_REFUSED, "the screen does not fit: ", problems);
    }
    return COMMAND_DONE;
}

static int expect(struct script *script, const char *text) {
    char found[64];
    bench_state(script->bench, found, sizeof found);
    if (strncmp(found, text, strlen(text)) != 0 ||
        (found[strlen(text)] != '\0' && found[strlen(text)] != ' ')) {
        fprintf(stderr, "%s:%d: expected %s, found %s\n", script->path, script->line, text, found);
        return COMMAND_REFUSED;
    }
    return COMMAND_DONE;
}

// A view is made of texts: if one of them holds this one, it is somewhere in its bytes.
static int see(struct script *script, const char *text) {
    const struct view *view = bench_view(script->bench);
    if (memmem(view, sizeof *view, text, strlen(text)) == NULL) {
        return complain(script, COMMAND_REFUSED, "not on the screen: ", text);
    }
    return COMMAND_DONE;
}

// Every text of the view, one a line behind `text` and a word of one's own.
static int texts(struct script *script, const char *word) {
    const char *at = (const char *)bench_view(script->bench);
    const char *end = at + sizeof(struct view);
    while (at < end) {
        size_t size = strnlen(at, (size_t)(end - at));
        size_t good = 0;
        for (size_t step = 1; good < size && step > 0; good += step) {
            step = (unsigned char)at[good] < ' ' ? 0 : text_utf8_size(at + good, size - good);
        }
        if (size > 1 && good == size) {
            printf("text %s %s\n", word, at);
        }
        at += size + 1;
    }
    return COMMAND_DONE;
}

static int selfcheck(struct script *script, const char *text) {
    (void)text;
    script->bench->selfcheck.unasked = false;
    return COMMAND_DONE;
}

static const struct {
    const char *name;
    int (*run)(struct script *script, const char *text);
} steps[] = {
    {"scan", scan},     {"type", type},           {"enter", enter},
    {"press", press},   {"hold", hold},           {"action", action},
    {"row", row},       {"wait", wait},           {"clock", set_clock},
    {"device", device}, {"shot", shot},           {"expect", expect},
    {"see", see},       {"weigh", weigh},         {"key", named_key},
    {"texts", texts},   {"selfcheck", selfcheck},
};

static int step(struct script *script, const char *line) {
    size_t size = strcspn(line, " ");
    const char *text = line + size + strspn(line + size, " ");
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        if (strlen(steps[i].name) == size && strncmp(steps[i].name, line, size) == 0) {
            int status = steps[i].run(script, text);
            if (status == COMMAND_DONE && steps[i].run != wait) {
                pass(script->bench, AFTER_US);
            }
            return status;
        }
    }
    return complain(script, COMMAND_USAGE, "there is no step ", line);
}

int bench_script(struct bench *bench, const char *path, const char *shots, int skip) {
    struct script script = {.bench = bench, .path = path, .shots = shots};
    char line[STEP_MAX];
    int status = COMMAND_DONE;
    FILE *file = fopen(path, "re");
    if (file == NULL) {
        fprintf(stderr, "kerfside bench: cannot read %s: %s.\n", path, strerror(errno));
        return COMMAND_USAGE;
    }
    bench_draw(bench);
    puts("ready");
    while (status == COMMAND_DONE && bench->practice.leaves == BENCH_STAYS &&
           fgets(line, sizeof line, file) != NULL) {
        script.line++;
        bench->script_line = script.line;
        if (script.line <= skip) {
            continue;
        }
        line[strcspn(line, "\n")] = '\0';
        if (line[0] != '\0' && line[0] != '#') {
            status = step(&script, line);
        }
    }
    fclose(file);
    return status == COMMAND_DONE ? script.status : status;
}
