// For ticket_oracle.py: reads one text a line, prints its MOD 37-2 and its mod-10 check character,
// `-` where there is none.

#include "ticket.h"

#include <stdio.h>
#include <string.h>

int main(void) {
    char line[256];
    while (fgets(line, sizeof line, stdin) != NULL) {
        size_t size = strcspn(line, "\n");
        char iso = ticket_check_char(line, size);
        char gs1 = ticket_gtin_check(line, size);
        printf("%c %c\n", iso != 0 ? iso : '-', gs1 != 0 ? gs1 : '-');
    }
    return 0;
}
