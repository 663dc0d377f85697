#ifndef LINE_BREAK_H
#define LINE_BREAK_H

// Where a line of text may end: before a blank, and between the characters of scripts that have no
// blanks (Japanese), but neither before what closes or goes on (`。` `、` `」` `）` `ー`, small
// kana) nor after what opens (`「` `（`). After the classes ID, CL, NS, CJ and OP of Unicode
// Standard Annex 14 and the line-head and line-end rules of JIS X 4051. Pure.

#include <stddef.h>

// Bytes from `at`, where no blank stands, to the first place where a line may end; to the end of
// the text if there is none before. 0 at the end.
size_t line_unit(const char *at);

#endif
