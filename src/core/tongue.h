#ifndef TONGUE_H
#define TONGUE_H

// Texts that a person reads, marked where they stand so that they can be found and put into other
// words. N_ marks one in a table, which _ takes out of it later.

#define _(text) (text)
#define N_(text) text

#endif
