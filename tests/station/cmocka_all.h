#ifndef CMOCKA_ALL_H
#define CMOCKA_ALL_H

// What cmocka needs in front of it, in its order.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#endif
