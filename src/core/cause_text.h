#ifndef CAUSE_TEXT_H
#define CAUSE_TEXT_H

// What an entry of the log says, for a person, in the shop's language.

#include "entry.h"

// What a word in an entry's `cause` says. A word that is none
// of the program's own, as a version before may have written, is given back as it is.
const char *cause_text(const char *cause);

// `tip cut`.
const char *entry_kind_words(enum entry_kind kind);

#endif
