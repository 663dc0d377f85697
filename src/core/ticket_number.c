#include "ticket_number.h"

#include <string.h>

// Printed, a keypad first, then a ruler.
static const struct ticket_number numbers[TICKET_NUMBER_COUNT] = {
    {"N1", '1', 0},      {"N2", '2', 0},    {"N3", '3', 0},    {"N4", '4', 0},   {"N5", '5', 0},
    {"N6", '6', 0},      {"N7", '7', 0},    {"N8", '8', 0},    {"N9", '9', 0},   {"N0", '0', 0},
    {"RUBOUT", '\b', 0}, {"NEXT", '\t', 0}, {"POINT", '.', 0}, {"OVER", '/', 0}, {"BLANK", ' ', 0},
    {"R1", 0, 1},        {"R2", 0, 2},      {"R3", 0, 3},      {"R4", 0, 4},     {"R5", 0, 5},
    {"R6", 0, 6},        {"R7", 0, 7},      {"R8", 0, 8},      {"R9", 0, 9},     {"R10", 0, 10},
    {"R11", 0, 11},      {"R12", 0, 12},    {"R13", 0, 13},    {"R14", 0, 14},   {"R15", 0, 15}};

const struct ticket_number *ticket_number(int index) {
    return index >= 0 && index < TICKET_NUMBER_COUNT ? &numbers[index] : NULL;
}

const struct ticket_number *ticket_number_of(const char *text) {
    for (int i = 0; i < TICKET_NUMBER_COUNT; i++) {
        struct ticket ticket;
        if (ticket_make(TICKET_COMMAND, numbers[i].body, &ticket) &&
            strcmp(ticket.text, text) == 0) {
            return &numbers[i];
        }
    }
    return NULL;
}
