#include "scan_set.h"

#include "ticket.h"

#include <stdio.h>
#include <string.h>

static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

const char *set_group_name(int group) {
    static const char *const names[SET_GROUPS] = {
        "clean", "rotation", "blur", "noise", "low contrast", "perspective",
        "dust",  "scratch",  "tube", "small", "shade",        "all at once"};
    return names[group];
}

// Most shops number with four to six characters.
static void make_ticket(uint64_t *random, char *text) {
    struct ticket ticket;
    char body[TICKET_BODY_MAX + 1];
    do {
        size_t size = 4 + scene_random(random) % 3;
        bool letters = scene_random(random) % 3 == 0;
        for (size_t i = 0; i < size; i++) {
            body[i] = alphabet[scene_random(random) % (letters ? 36 : 10)];
        }
        body[size] = '\0';
    } while (!ticket_make((enum ticket_kind)(scene_random(random) % 3), body, &ticket));
    snprintf(text, WEDGE_TEXT_MAX, "%s", ticket.text);
}

static struct scene plain(uint64_t *random, int high, bool qr) {
    struct scene scene = SCENE_DEFAULT;
    scene.seed = scene_random(random);
    scene.width = high * 16 / 9;
    scene.height = high;
    scene.symbol = qr ? SCENE_QR : SCENE_CODE128;
    scene.module = scene_between(random, 2.4, 3.2) * (qr ? 1.2 : 1);
    scene.x = scene_between(random, 0.4, 0.6);
    scene.y = scene_between(random, 0.4, 0.65);
    scene.angle = scene_between(random, -6, 6);
    scene.noise = scene_between(random, 2, 5);
    scene.blur = 0.5;
    make_ticket(random, scene.text);
    return scene;
}

// `level` 0 to 1.
static void spoil(struct scene *s, int group, double level, uint64_t *random) {
    double way = scene_random(random) % 2 == 0 ? 1 : -1;
    switch (group) {
    case 1:
        s->angle = way * (8 + 82 * level) + 180.0 * (double)(scene_random(random) % 2);
        break;
    case 2:
        s->blur = 0.6 + 2.6 * level;
        break;
    case 3:
        s->noise = 6 + 44 * level;
        break;
    case 4:
        s->ink = 128 - 60 * (1 - level) - 3;
        s->paper = 128 + 60 * (1 - level) + 3;
        break;
    case 5:
        s->tilt = way * (8 + 62 * level) * scene_between(random, 0.3, 1);
        s->turn = (8 + 52 * level) * scene_between(random, 0.3, 1);
        break;
    case 6:
        s->dust = (int)(3 + 140 * level);
        break;
    case 7:
        s->scratch = 0.1 + 0.9 * level;
        break;
    case 8: // a 0.335 to 0.600 in tube with modules of 0.25 to 0.375 mm has such radii
        s->tube = 30 - 19 * level;
        s->angle += 12 * level * way;
        break;
    case 9:
        s->module *= 1 - 0.62 * level;
        break;
    case 10:
        s->shade = 0.3 + 0.68 * level;
        s->paper = 200;
        break;
    case 11:
        s->angle = scene_between(random, -180, 180);
        s->tilt = 40 * level * way;
        s->blur = 0.6 + 1.0 * level;
        s->noise = 5 + 20 * level;
        s->ink = 40 + 50 * level;
        s->paper = 220 - 60 * level;
        s->dust = (int)(30 * level);
        s->shade = 0.5 * level;
        break;
    default:
        break;
    }
}

struct scene set_scene(uint64_t seed, int index, int *ret_group) {
    uint64_t random = seed * 1000003 + (uint64_t)index;
    int group = index % SET_GROUPS;
    bool qr = index / SET_GROUPS % 2 == 1;
    bool large = index / SET_GROUPS / 2 % 2 == 1;
    int level = index / SET_GROUPS / 4;
    struct scene scene = plain(&random, large ? 1080 : 720, qr);
    spoil(&scene, group, (double)level / (SET_LEVELS - 1), &random);
    *ret_group = group;
    return scene;
}

static void wrong_check(char *text, uint64_t *random) {
    char *last = text + strlen(text) - 1;
    char right = *last;
    while (*last == right) {
        *last = alphabet[scene_random(random) % 36];
    }
}

static void digits(char *text, size_t count, uint64_t *random) {
    for (size_t i = 0; i < count; i++) {
        text[i] = alphabet[scene_random(random) % 10];
    }
    text[count] = '\0';
}

struct scene set_negative(uint64_t seed, int index) {
    uint64_t random = seed * 7777777 + (uint64_t)index;
    struct scene s = plain(&random, index % 5 == 0 ? 1080 : 720, index % 2 == 0);
    s.angle = scene_between(&random, -180, 180);
    s.noise = scene_between(&random, 2, 30);
    s.blur = scene_between(&random, 0.4, 1.5);
    s.tilt = scene_between(&random, -30, 30);
    switch (index % 10) {
    case 0:
        s.bare = true;
        break;
    case 1:
        s.symbol = SCENE_NOTHING;
        break;
    case 2:
    case 3:
        wrong_check(s.text, &random);
        break;
    case 4: // blurred and torn and scratched beyond reading
    case 5:
        wrong_check(s.text, &random);
        s.torn = scene_between(&random, 0, 0.6);
        s.dust = 120;
        s.blur = scene_between(&random, 0.8, 3);
        break;
    case 6: // somebody else's, with what may pass for a ticket's beginning
        snprintf(s.text, sizeof s.text, "%c-", "HSBWK"[scene_random(&random) % 5]);
        digits(s.text + 2, 14 + scene_random(&random) % 6, &random);
        break;
    case 7:
        s.symbol = scene_random(&random) % 2 == 0 ? SCENE_CODE39 : SCENE_DATAMATRIX;
        break;
    case 8:
        s.symbol = SCENE_ITF;
        digits(s.text, 10 + 2 * (scene_random(&random) % 4), &random);
        break;
    default: // a parcel's
        digits(s.text, 8 + scene_random(&random) % 13, &random);
        break;
    }
    return s;
}
