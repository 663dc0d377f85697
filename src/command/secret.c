#include "secret.h"

#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

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
    got = fgets(line, SECRET_LINE_MAX, stdin) != NULL;
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        fputc('\n', stderr);
    }
    if (got) {
        line[strcspn(line, "\r\n")] = '\0';
    }
    return got;
}
