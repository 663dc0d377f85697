#include "theme.h"

struct theme_tone theme_tone(enum view_tone tone) {
    switch (tone) {
    case TONE_WORK:
        return (struct theme_tone){THEME_BLUE, THEME_BLUE_PALE, THEME_LIGHT};
    case TONE_CAUTION:
        return (struct theme_tone){THEME_AMBER, THEME_AMBER_PALE, THEME_INK};
    case TONE_STOP:
        return (struct theme_tone){THEME_RED, THEME_RED_PALE, THEME_LIGHT};
    case TONE_FINE:
        return (struct theme_tone){THEME_GREEN, THEME_GREEN_PALE, THEME_LIGHT};
    case TONE_PLAIN:
        break;
    }
    return (struct theme_tone){THEME_DARK, THEME_PANEL, THEME_LIGHT};
}
