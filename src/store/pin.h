#ifndef PIN_H
#define PIN_H

// How long the n-th wrong PIN in a row makes everybody with that badge wait. Private to src/store.

#include <stdint.h>

int64_t pin_wait_ms(int64_t tries);

#endif
