#ifndef SECRET_H
#define SECRET_H

#include <stdbool.h>

#define SECRET_LINE_MAX 64

// One line from stdin without its end, shown to nobody; the prompt only on a terminal. False:
// nothing was there, or a NUL or more than fits. The caller wipes the line.
bool secret_read(const char *prompt, char line[SECRET_LINE_MAX]);

#endif
