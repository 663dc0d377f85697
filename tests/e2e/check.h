#ifndef CHECK_H
#define CHECK_H

// What every test of the program begins with: cmocka and what its header needs before it.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

#endif
