#ifndef STATION_STATE_H
#define STATION_STATE_H

// Private to src/station; complete only so that a bench can be copied by value.

struct station {
    struct station_settings settings;
    const struct station_ops *ops;
    enum station_state state;
    enum station_saving saving;
};

#endif
