#include "serial_line.h"

#include <stddef.h>
#include <sys/ioctl.h>
#include <termios.h>

static const struct {
    int baud;
    speed_t speed;
} bauds[] = {
    {1200, B1200},     {2400, B2400},     {4800, B4800},     {9600, B9600},
    {19200, B19200},   {38400, B38400},   {57600, B57600},   {115200, B115200},
    {230400, B230400}, {460800, B460800}, {921600, B921600},
};

static bool speed_of(int baud, speed_t *ret_speed) {
    for (size_t i = 0; i < sizeof bauds / sizeof bauds[0]; i++) {
        if (bauds[i].baud == baud) {
            *ret_speed = bauds[i].speed;
            return true;
        }
    }
    return false;
}

bool serial_baud_known(int baud) {
    speed_t speed;
    return speed_of(baud, &speed);
}

bool serial_line_open(int fd, int baud) {
    struct termios line;
    speed_t speed;
    if (!speed_of(baud, &speed) || tcgetattr(fd, &line) != 0) {
        return false; // no terminal: some other file
    }
    cfmakeraw(&line);
    line.c_cflag &= ~(tcflag_t)(CRTSCTS | CSTOPB | HUPCL);
    line.c_cflag |= CLOCAL | CREAD;
    line.c_cc[VMIN] = 0;
    line.c_cc[VTIME] = 0;
    if (cfsetspeed(&line, speed) != 0 || tcsetattr(fd, TCSANOW, &line) != 0) {
        return false;
    }
    ioctl(fd, TIOCEXCL); // where it is not known, nobody else asks for it either
    tcflush(fd, TCIFLUSH);
    return true;
}
