#include "ticket_wrap.h"

#define PI 3.14159265358979
#define VISIBLE (50 * PI / 180) // both ways from the line of sight

static double between(length_nm diameter) {
    if (diameter < TICKET_WRAP_LEAST) { // LENGTH_UNKNOWN is
        return (double)TICKET_WRAP_LEAST;
    }
    return (double)(diameter < TICKET_WRAP_MOST ? diameter : TICKET_WRAP_MOST);
}

length_nm ticket_wrap_height(length_nm diameter) {
    return (length_nm)(between(diameter) * VISIBLE);
}

length_nm ticket_wrap_round(length_nm diameter) {
    return (length_nm)(between(diameter) * PI);
}
