#include "theme.h"

#define RGB(value)                                                                                 \
    { (value) >> 16 & 0xFF, (value) >> 8 & 0xFF, (value)&0xFF, 0xFF }

static const struct theme themes[] = {
    [SCREEN_THEME_NORMAL] = {.ground = RGB(0xF5F3EE),
                             .panel = RGB(0xFFFFFF),
                             .line = RGB(0xC9C5BA),
                             .dark = RGB(0x161A1F),
                             .ink = RGB(0x14171B),
                             .soft = RGB(0x474D55),
                             .light = RGB(0xFFFFFF),
                             .dim = RGB(0xC8CCD2),
                             .work = {RGB(0x0B4678), RGB(0xE6EEF6), RGB(0xFFFFFF), RGB(0x0B4678)},
                             .caution = {RGB(0xF2B134), RGB(0xFFF3DA), RGB(0x14171B),
                                         RGB(0xF2B134)},
                             .stop = {RGB(0x9E1519), RGB(0xFBE9E8), RGB(0xFFFFFF), RGB(0x9E1519)},
                             .fine = {RGB(0x145C32), RGB(0xE6F3EA), RGB(0xFFFFFF), RGB(0x145C32)},
                             .plain = {RGB(0x161A1F), RGB(0xFFFFFF), RGB(0xFFFFFF), RGB(0x161A1F)},
                             .caution_lit = RGB(0xF2B134),
                             .stop_lit = RGB(0xFFA3A0),
                             .fine_lit = RGB(0x7BDB9C),
                             .steel = RGB(0xB4BCC4),
                             .waste = RGB(0xE4DFD0),
                             .hatch = RGB(0x8C846E)},
    [SCREEN_THEME_CONTRAST] = {.ground = RGB(0xFFFFFF),
                               .panel = RGB(0xFFFFFF),
                               .line = RGB(0x000000),
                               .dark = RGB(0x000000),
                               .ink = RGB(0x000000),
                               .soft = RGB(0x1C1C1C),
                               .light = RGB(0xFFFFFF),
                               .dim = RGB(0xF2F2F2),
                               .work = {RGB(0x020E7F), RGB(0xF2F7FF), RGB(0xFFFFFF), RGB(0x020E7F)},
                               .caution = {RGB(0xFFC226), RGB(0xFFF8E6), RGB(0x000000),
                                           RGB(0x000000)},
                               .stop = {RGB(0x780802), RGB(0xFFF2F1), RGB(0xFFFFFF), RGB(0x780802)},
                               .fine = {RGB(0x083731), RGB(0xF0FAF3), RGB(0xFFFFFF), RGB(0x083731)},
                               .plain = {RGB(0x000000), RGB(0xFFFFFF), RGB(0xFFFFFF),
                                         RGB(0x000000)},
                               .caution_lit = RGB(0xFFC94A),
                               .stop_lit = RGB(0xFFC2C0),
                               .fine_lit = RGB(0x9CF5BA),
                               .steel = RGB(0xC4CCD4),
                               .waste = RGB(0xFFFFFF),
                               .hatch = RGB(0x000000),
                               .outline = 3},
};

const struct theme *theme_named(enum screen_theme name) {
    return &themes[name];
}

struct theme_tone theme_tone(const struct theme *theme, enum view_tone tone) {
    switch (tone) {
    case TONE_WORK:
        return theme->work;
    case TONE_CAUTION:
        return theme->caution;
    case TONE_STOP:
        return theme->stop;
    case TONE_FINE:
        return theme->fine;
    case TONE_PLAIN:
        break;
    }
    return theme->plain;
}
