#include "club_name.h"
#include "ticket.h"

#include <string.h>

static bool is_build_ticket(const char *name) {
    struct ticket ticket;
    return ticket_parse(name, &ticket) == TICKET_OK && ticket.kind == TICKET_BUILD;
}

bool club_name_is_build(const char *name) {
    return strchr(name, '-') == NULL || is_build_ticket(name);
}

void club_name_split(char *name, const char **ret_build, const char **ret_club) {
    char *hyphen = strchr(name, '-');
    char *second = hyphen != NULL ? strchr(hyphen + 1, '-') : NULL;
    *ret_build = name;
    if (hyphen == NULL) {
        *ret_club = name + strlen(name); // the whole is a build
        return;
    }
    if (second != NULL) {
        *second = '\0';
        if (is_build_ticket(name)) {
            hyphen = second;
        } else {
            *second = '-';
        }
    }
    *hyphen = '\0';
    *ret_club = hyphen + 1;
}
