#include "paper_size.h"

#include "language.h"

#include <stdlib.h>
#include <string.h>

static const char *const names[] = {[PAGE_A4] = "a4", [PAGE_LETTER] = "letter"};

static enum page_paper usual(void) {
    static const char *const variables[] = {"LC_ALL", "LC_PAPER", "LANG"};
    for (size_t i = 0; i < sizeof variables / sizeof variables[0]; i++) {
        const char *value = getenv(variables[i]);
        if (value != NULL && value[0] != '\0') {
            return language_on_letter(value) ? PAGE_LETTER : PAGE_A4;
        }
    }
    return PAGE_A4;
}

enum page_paper paper_size(unsigned setting) {
    return setting == 0 ? usual() : (enum page_paper)(setting - 1);
}

bool paper_size_take(const char *asked, unsigned setting, enum page_paper *ret_paper) {
    if (asked == NULL) {
        *ret_paper = paper_size(setting);
        return true;
    }
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(asked, names[i]) == 0) {
            *ret_paper = (enum page_paper)i;
            return true;
        }
    }
    return false;
}

const char *paper_size_name(enum page_paper paper) {
    return names[paper];
}
