// What stands on a ticket besides its number.

#include "text.h"
#include "ticket_label.h"
#include "ticket_number.h"
#include "tongue.h"

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
    // TRANSLATORS: on the ticket of a head, %1 the number on its sole.
    text_say(&text, head->engraved[0] != '\0' ? _("Head, engraved %1") : _("Head"), head->engraved);
    if (head->weight != MASS_UNKNOWN) {
        text = line(&label, at++);
        char mass[LENGTH_TEXT_MAX];
        struct text grams = text_open(mass, sizeof mass);
        text_add_mass(&grams, head->weight);
        text_say(&text, _("Measured %1"), mass);
    }
    if (build[0] != '\0') {
        text = line(&label, at++);
        text_say(&text, _("Club %1-%2"), build, club);
    }
    return label;
}

struct ticket_label ticket_label_shaft(const struct shaft *shaft, length_nm diameter) {
    struct ticket_label label = begin(shaft->ticket);
    int at = 0;
    label.wraps = true;
    label.diameter = diameter;
    struct text text = line(&label, at++);
    text_say(&text, shaft->flex[0] != '\0' ? _("%1, flex %2") : "%1", shaft->model, shaft->flex);
    text = line(&label, at++);
    char raw[LENGTH_TEXT_MAX];
    struct text length = text_open(raw, sizeof raw);
    text_add_length(&length, shaft->raw_length);
    text_say(&text, shaft->raw_length != LENGTH_UNKNOWN ? _("Shaft, raw %1") : _("Shaft"), raw);
    if (shaft->weight != MASS_UNKNOWN) {
        text_add(&text, ", ");
        text_add_mass(&text, shaft->weight);
    }
    if (shaft->rack[0] != '\0') {
        text = line(&label, at++);
        text_say(&text, _("Rack %1"), shaft->rack);
    }
    return label;
}

struct ticket_label ticket_label_worker(const char *badge, const char *name, const char *role) {
    struct ticket_label label = begin(badge);
    snprintf(label.words[0], sizeof label.words[0], "%s", name);
    snprintf(label.words[1], sizeof label.words[1], _("Badge, %s"), role);
    return label;
}

struct ticket_label ticket_label_build(const struct ticket *ticket, const char *build, size_t count,
                                       const char *clubs, const char *due) {
    struct ticket_label label = begin(ticket->text);
    int at = 0;
    struct text text = line(&label, at++);
    text_say(&text, _("Build %1"), build);
    text = line(&label, at++);
    text_say(&text, tongue_plural("%1 club", "%1 clubs", count),
             text_number((int64_t)count).digits);
    text_add(&text, clubs[0] != '\0' ? ": " : "");
    text_add(&text, clubs);
    if (due[0] != '\0') {
        text = line(&label, at++);
        text_say(&text, _("Due %1"), due);
    }
    return label;
}

// Those of the station's scanning.c. The button alone confirms.
static const struct {
    const char *body;
    const char *words;
} commands[] = {
    {"OUT", N_("Sign off")},
    {"BACK", N_("Back to the first screen")},
    {"FIT", N_("Dry fit again before the butt cut")},
    {"WRONG", N_("Something is wrong")},
    {"YZAQWM", N_("Scanner check")},
    {"REVIEW", N_("Review, for a supervisor")},
};

bool ticket_label_command(int index, struct ticket_label *ret_label) {
    struct ticket ticket;
    if (index < 0 || index >= (int)(sizeof commands / sizeof commands[0]) ||
        !ticket_make(TICKET_COMMAND, commands[index].body, &ticket)) {
        return false;
    }
    *ret_label = begin(ticket.text);
    snprintf(ret_label->words[0], sizeof ret_label->words[0], "%s", _(commands[index].words));
    snprintf(ret_label->words[1], sizeof ret_label->words[1], "%s", _("Command"));
    return true;
}

// What it types, as large as a line of words is.
static void number_words(const struct ticket_number *number, char *buffer, size_t size) {
    char fraction[LENGTH_TEXT_MAX];
    switch (number->key) {
    case 0:
        length_text_fraction(number->sixteenths * (LENGTH_INCH / 16), fraction);
        snprintf(buffer, size, "%s in", fraction);
        break;
    case '\b':
        snprintf(buffer, size, "%s", _("Rub out"));
        break;
    case '\t':
        snprintf(buffer, size, "%s", _("Next field"));
        break;
    case ' ':
        snprintf(buffer, size, "%s", _("Blank"));
        break;
    default:
        snprintf(buffer, size, "%c", number->key);
    }
}

bool ticket_label_number(int index, struct ticket_label *ret_label) {
    const struct ticket_number *number = ticket_number(index);
    struct ticket ticket;
    if (number == NULL || !ticket_make(TICKET_COMMAND, number->body, &ticket)) {
        return false;
    }
    *ret_label = begin(ticket.text);
    number_words(number, ret_label->title, sizeof ret_label->title);
    snprintf(ret_label->words[0], sizeof ret_label->words[0], "%s", ticket.text);
    snprintf(ret_label->words[1], sizeof ret_label->words[1], "%s", _("Number"));
    return true;
}
