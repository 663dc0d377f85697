#ifndef DEMO_H
#define DEMO_H

// The invented workshop of db/demo, to try and to practise on.

#include "store.h"

#define DEMO_SUPERVISOR "W-0001B"
#define DEMO_PIN_SIZE 7

// The folder of its files, or NULL: they are not installed.
const char *demo_folder(void);

// Fills a new database. Orders are due from today on. False: store_message says why, or stderr did.
bool demo_fill(struct store *store, const char *folder, char ret_pin[DEMO_PIN_SIZE]);

#endif
