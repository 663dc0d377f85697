#include "family.h"

#include <stdlib.h>

static bool known(int64_t a, int64_t b) {
    return a != LENGTH_UNKNOWN && b != LENGTH_UNKNOWN;
}

bool family_head_off(mass_mg weight, mass_mg catalogue) {
    return known(weight, catalogue) && llabs(weight - catalogue) >= FAMILY_HEAD;
}

bool family_length_off(length_nm length, length_nm catalogue) {
    return known(length, catalogue) && llabs(length - catalogue) >= FAMILY_LENGTH;
}

bool family_shaft_off(mass_mg weight, mass_mg catalogue) {
    return known(weight, catalogue) &&
           100 * llabs(weight - catalogue) > FAMILY_SHAFT_PERCENT * catalogue;
}
