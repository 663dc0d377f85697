#ifndef EVENT_H
#define EVENT_H

// What happens at the bench: a scan, a key, the button, a touch. For whoever takes it: the station
// at the saw, the desk beside it.

#include "length.h"

#include <stdbool.h>
#include <stdint.h>

enum event_kind {
    EVENT_TICK,   // time has passed; nothing else
    EVENT_SCAN,   // text: a whole code, from scanner or typed and ended with Enter
    EVENT_KEY,    // key: one typed character for a number field: 0-9 / . space, '\b', or a unit
    EVENT_PRESS,  // the button, short
    EVENT_HELD,   // the button, 2 seconds: something is wrong
    EVENT_ACTION, // action and argument of a view_action that was on the screen
    EVENT_FAULT,  // text: what the scan layer found wrong with a code, in words (layout, ALT mode)
    EVENT_DEVICE, // device and present
    EVENT_WEIGHT, // weight and stable: what lies on the scale now. Nobody's doing, so it counts
                  // for nothing by itself
    EVENT_SELFCHECK, // there is news of what the bench is made of; nobody's doing
    EVENT_ELSEWHERE  // something was put in that another than the station took
};
enum station_device { DEVICE_SCANNER, DEVICE_BUTTON, DEVICE_CAMERA, DEVICE_SCALE, DEVICE_COUNT };

#define EVENT_TEXT_MAX 128
struct event {
    enum event_kind kind;
    char text[EVENT_TEXT_MAX];
    char key;
    int action; // enum view_action_id
    int64_t argument;
    enum station_device device;
    bool present;
    mass_mg weight; // MASS_UNKNOWN: nothing is known, or it is beyond what the scale can weigh
    bool stable;
};

#endif
