#ifndef CAUSE_TEXT_H
#define CAUSE_TEXT_H

// What a word in an entry's `cause` says to a person, in the shop's language. A word that is none
// of the program's own, as a version before may have written, is given back as it is.
const char *cause_text(const char *cause);

#endif
