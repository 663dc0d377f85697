#ifndef TONGUES_H
#define TONGUES_H

// Chooses the language of all texts: the catalogues by libc's gettext, figures and days by
// language.h. Before there are threads, since it sets the environment, also for children.

#include <stdbool.h>

// As the environment says: LANGUAGE, else LC_ALL, LC_MESSAGES, LANG; English where none of them
// names a language of ours.
void tongues_begin(void);

// That of the setting: 0 as tongues_begin has it, else language_at(setting - 1). False: its font is
// missing, which is said on stderr, and texts are English.
bool tongues_use(unsigned setting);

// The code of the language in use, `de`.
const char *tongues_code(void);

#endif
