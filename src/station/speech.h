#ifndef SPEECH_H
#define SPEECH_H

// What a view says aloud: a stop's title, the question, the mark, and always the one thing to do.
// Pure. Lengths are spelled out in English; in other languages their digits are left to the voice.

#include "view.h"

#define SPEECH_MAX 768

// Empty: there is nothing to be said. What is for somebody who sits and reads is never said, nor
// anything of a PIN but what to do.
void speech_of(const struct view *view, char buffer[SPEECH_MAX]);

#endif
