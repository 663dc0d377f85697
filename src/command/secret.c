#include "secret.h"

#include <stdio.h>
#include <termios.h>
#include <unistd.h>

// Past stdio, whose buffer nobody wipes. A NUL, or more than fits, makes the line worth nothing;
// it is read to its end all the same.
static bool read_line(char line[SECRET_LINE_MAX]) {
    char c = '\0';
    size_t size = 0;
    bool whole = true;
    ssize_t got = read(STDIN_FILENO, &c, 1);
    bool there = got == 1;
    for (; got == 1 && c != '\n'; got = read(STDIN_FILENO, &c, 1)) {
        if (c == '\0' || size == SECRET_LINE_MAX - 1) {
            whole = false;
        } else {
            line[size++] = c;
        }
    }
    if (size > 0 && line[size - 1] == '\r') {
        size--;
    }
    line[size] = '\0';
    return there && whole;
}

bool secret_read(const char *prompt, char line[SECRET_LINE_MAX]) {
    struct termios shown, hidden;
    bool terminal = tcgetattr(STDIN_FILENO, &shown) == 0;
    bool got;
    if (terminal) {
        fputs(prompt, stderr);
        hidden = shown;
        hidden.c_lflag &= ~(tcflag_t)ECHO;
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
    }
    got = read_line(line);
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        fputc('\n', stderr);
    }
    return got;
}
