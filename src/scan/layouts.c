#include "layouts.h"

#include <linux/input-event-codes.h>
#include <stddef.h>
#include <string.h>

// Each level in four pieces, by the rows of the keyboard; a blank is a key that writes no ASCII.
//   KEY_GRAVE, KEY_1 to KEY_EQUAL
//   KEY_Q to KEY_RIGHTBRACE
//   KEY_A to KEY_APOSTROPHE, KEY_BACKSLASH
//   KEY_102ND, KEY_Z to KEY_SLASH
#define ROWS 4
static const struct {
    const char *name;
    const char *level[LEVEL_COUNT][ROWS];
} layouts[LAYOUT_COUNT] = {
    [LAYOUT_US] = {"US English",
                   {
                       {"`1234567890-=", "qwertyuiop[]", "asdfghjkl;'\\", "<zxcvbnm,./"},
                       {"~!@#$%^&*()_+", "QWERTYUIOP{}", "ASDFGHJKL:\"|", ">ZXCVBNM<>?"},
                       {"", "", "", "|"},
                   }},
    [LAYOUT_UK] = {"UK English",
                   {
                       {"`1234567890-=", "qwertyuiop[]", "asdfghjkl;'#", "\\zxcvbnm,./"},
                       {" !\" $%^&*()_+", "QWERTYUIOP{}", "ASDFGHJKL:@~", "|ZXCVBNM<>?"},
                       {"|      {[]}\\ ", "@ e", "", "|"},
                   }},
    [LAYOUT_DE] = {"German",
                   {
                       {" 1234567890  ", "qwertzuiop +", "asdfghjkl  #", "<yxcvbnm,.-"},
                       {" !\" $%&/()=? ", "QWERTZUIOP *", "ASDFGHJKL  '", ">YXCVBNM;:_"},
                       {"       {[]}\\ ", "@          ~", "", "|"},
                   }},
    [LAYOUT_FR] = {"French",
                   {
                       {" & \"'(- _  )=", "azertyuiop $", "qsdfghjklm *", "<wxcvbn,;:!"},
                       {"~1234567890 +", "AZERTYUIOP  ", "QSDFGHJKLM% ", ">WXCVBN?./ "},
                       {"  ~#{[|`\\^@]}", "", "@", "|"},
                   }},
    [LAYOUT_ES] = {"Spanish",
                   {
                       {" 1234567890' ", "qwertyuiop +", "asdfghjkl   ", "<zxcvbnm,.-"},
                       {" !\" $%&/()=? ", "QWERTYUIOP *", "ASDFGHJKL   ", ">ZXCVBNM;:_"},
                       {"\\|@#~  {[]}\\ ", "@         []", "          {}", "|"},
                   }},
    [LAYOUT_IT] = {"Italian",
                   {
                       {"\\1234567890' ", "qwertyuiop +", "asdfghjkl   ", "<zxcvbnm,.-"},
                       {"|!\" $%&/()=?^", "QWERTYUIOP *", "ASDFGHJKL   ", ">ZXCVBNM;:_"},
                       {"       {[]}`~", "@         []", "         @#", ""},
                   }},
};

// The row a key stands in, and where; -1 for a key that is not in the tables.
static int place(uint16_t code, size_t *ret_at) {
    if (code == KEY_GRAVE) {
        *ret_at = 0;
        return 0;
    }
    if (code >= KEY_1 && code <= KEY_EQUAL) {
        *ret_at = code - KEY_1 + 1u;
        return 0;
    }
    if (code >= KEY_Q && code <= KEY_RIGHTBRACE) {
        *ret_at = code - KEY_Q + 0u;
        return 1;
    }
    if (code >= KEY_A && code <= KEY_APOSTROPHE) {
        *ret_at = code - KEY_A + 0u;
        return 2;
    }
    if (code == KEY_BACKSLASH) {
        *ret_at = 11;
        return 2;
    }
    if (code == KEY_102ND) {
        *ret_at = 0;
        return 3;
    }
    if (code >= KEY_Z && code <= KEY_SLASH) {
        *ret_at = code - KEY_Z + 1u;
        return 3;
    }
    return -1;
}

static char keypad(uint16_t code) {
    static const char block[] = "789-456+1230."; // KEY_KP7 to KEY_KPDOT
    if (code >= KEY_KP7 && code <= KEY_KPDOT) {
        return block[code - KEY_KP7];
    }
    if (code == KEY_KPASTERISK) {
        return '*';
    }
    return code == KEY_KPSLASH ? '/' : '\0';
}

char layout_char(enum layout layout, uint16_t code, enum layout_level level) {
    size_t at = 0;
    int row = place(code, &at);
    const char *keys;
    if (code == KEY_SPACE) {
        return ' ';
    }
    if (row < 0) {
        return keypad(code);
    }
    keys = layouts[layout].level[level][row];
    return at < strlen(keys) && keys[at] != ' ' ? keys[at] : '\0';
}

bool layout_key(enum layout layout, char c, uint16_t *ret_code, enum layout_level *ret_level) {
    for (int level = 0; level < LEVEL_COUNT && c != '\0'; level++) {
        for (uint16_t code = 1; code <= KEY_102ND; code++) {
            if (keypad(code) == '\0' && layout_char(layout, code, (enum layout_level)level) == c) {
                *ret_code = code;
                *ret_level = (enum layout_level)level;
                return true;
            }
        }
    }
    return false;
}

const char *layout_name(enum layout layout) {
    return layouts[layout].name;
}
