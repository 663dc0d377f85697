#error "only src/command may include systemd/sd-daemon.h"
