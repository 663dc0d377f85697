// What stands on a ticket besides its number.

#include "text.h"
#include "ticket_label.h"

#include <stdio.h>
#include <string.h>

static struct text line(struct ticket_label *label, int index) {
    return text_open(label->words[index], sizeof label->words[index]);
}

static struct ticket_label begin(const char *ticket) {
    struct ticket_label label = {.diameter = LENGTH_UNKNOWN};
    snprintf(label.ticket, sizeof label.ticket, "%s", ticket);
    return label;
}

struct ticket_label ticket_label_head(const struct head *head, const char *build,
                                      const char *club) {
    struct ticket_label label = begin(head->ticket);
    int at = 0;
    struct text text = line(&label, at++);
    text_add(&text, head->model);
    text = line(&label, at++);
    text_add(&text, "Head");
    text_add(&text, head->engraved[0] != '\0' ? ", engraved " : "");
    text_add(&text, head->engraved);
    if (head->weight != MASS_UNKNOWN) {
        text = line(&label, at++);
        text_add(&text, "Measured ");
        text_add_mass(&text, head->weight);
    }
    if (build[0] != '\0') {
        text = line(&label, at++);
        text_add(&text, "Club ");
        text_add(&text, build);
        text_add(&text, "-");
        text_add(&text, club);
    }
    return label;
}

struct ticket_label ticket_label_shaft(const struct shaft *shaft, length_nm diameter) {
    struct ticket_label label = begin(shaft->ticket);
    int at = 0;
    label.wraps = true;
    label.diameter = diameter;
    struct text text = line(&label, at++);
    text_add(&text, shaft->model);
    text_add(&text, shaft->flex[0] != '\0' ? ", flex " : "");
    text_add(&text, shaft->flex);
    text = line(&label, at++);
    text_add(&text, "Shaft");
    if (shaft->raw_length != LENGTH_UNKNOWN) {
        text_add(&text, ", raw ");
        text_add_length(&text, shaft->raw_length);
    }
    if (shaft->weight != MASS_UNKNOWN) {
        text_add(&text, ", ");
        text_add_mass(&text, shaft->weight);
    }
    if (shaft->rack[0] != '\0') {
        text = line(&label, at++);
        text_add(&text, "Rack ");
        text_add(&text, shaft->rack);
    }
    return label;
}

struct ticket_label ticket_label_worker(const char *badge, const char *name, const char *role) {
    struct ticket_label label = begin(badge);
    snprintf(label.words[0], sizeof label.words[0], "%s", name);
    snprintf(label.words[1], sizeof label.words[1], "Badge, %s", role);
    return label;
}

struct ticket_label ticket_label_build(const struct ticket *ticket, const char *build, size_t count,
                                       const char *clubs, const char *due) {
    struct ticket_label label = begin(ticket->text);
    int at = 0;
    struct text text = line(&label, at++);
    text_add(&text, "Build ");
    text_add(&text, build);
    text = line(&label, at++);
    text_add_number(&text, (int64_t)count);
    text_add(&text, count == 1 ? " club" : " clubs");
    text_add(&text, clubs[0] != '\0' ? ": " : "");
    text_add(&text, clubs);
    if (due[0] != '\0') {
        text = line(&label, at++);
        text_add(&text, "Due ");
        text_add(&text, due);
    }
    return label;
}

// Those of the station's scanning.c. The button alone confirms.
static const struct {
    const char *body;
    const char *words;
} commands[] = {
    {"OUT", "Sign off"},
    {"BACK", "Back to the first screen"},
    {"FIT", "Dry fit again before the butt cut"},
    {"WRONG", "Something is wrong"},
    {"YZAQWM", "Scanner check"},
    {"REVIEW", "Review, for a supervisor"},
};

bool ticket_label_command(int index, struct ticket_label *ret_label) {
    struct ticket ticket;
    if (index < 0 || index >= (int)(sizeof commands / sizeof commands[0]) ||
        !ticket_make(TICKET_COMMAND, commands[index].body, &ticket)) {
        return false;
    }
    *ret_label = begin(ticket.text);
    snprintf(ret_label->words[0], sizeof ret_label->words[0], "%s", commands[index].words);
    snprintf(ret_label->words[1], sizeof ret_label->words[1], "Command");
    return true;
}
