#ifndef PIN_TRY_H
#define PIN_TRY_H

// Tries at PINs, counted on disk before a hash is looked at, so that neither a pulled plug nor a
// turned clock gives tries back. Private to src/store.
//
// Each badge has its count, and all supervisors' counts together are the station's, so that nobody
// gets on by walking from badge to badge. A right PIN takes its own badge's tries away; a locked
// badge counts no more, since it would make those wait who are to unlock it.

#include "connection.h"

#define PIN_TRY_STRANGER "" // everybody who has no PIN: one count, which is not the station's
#define PIN_TRY_STATION "*"

// What the n-th try in a row makes everybody wait who has `free` of them: none before the last of
// those, then 30 s, doubling to 15 min.
int64_t pin_try_wait_ms(int64_t tries, int free);

enum pin_turn { PIN_TURN_GO, PIN_TURN_WAIT, PIN_TURN_LOCKED };

// Counts a try and commits, PIN_TURN_GO; or says that it must not be made: *ret_left_ms to wait.
enum store_result pin_try_begin(struct store *store, const char *badge, enum pin_turn *ret_turn,
                                int64_t *ret_left_ms);

// In a transaction: takes the badge's tries away, with its lock, and ends the station's wait.
enum store_result pin_try_forget(struct store *store, const char *badge);

// In a transaction: whether it is locked. With as many tries as the rules allow it is, whether or
// not the log says so yet.
enum store_result pin_try_locked(struct store *store, const char *badge, bool *ret_locked);

// Writes into the log that the badge is locked, if it is and the log does not say so yet.
enum store_result pin_try_tell(struct store *store, const char *badge);

#endif
