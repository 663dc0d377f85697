# Sourced by install: what a kiosk needs, looked at one by one.
# shellcheck shell=bash disable=SC2154
wrong=0

good() {
    echo "  good     $*"
}
bad() {
    echo "  MISSING  $*"
    wrong=$((wrong + 1))
}
hint() {
    echo "  think of $*"
}

value() { # value SECTION KEY: of the settings, empty when there is none
    sed -n "/^\[$1\]/,/^\[/ s/^$2 *= *//p" "$settings" 2>/dev/null | head -n 1 || true
}

linked() { # linked UNIT: masked, in files
    [ "$(readlink "/etc/systemd/system/$1")" = /dev/null ]
}

check_program() {
    local changed
    if ! installed kerfside; then
        bad "the package kerfside: kiosk/install of a checkout, or apt-get install ./kerfside_*.deb"
        return
    fi
    changed=$(dpkg -V kerfside 2>/dev/null | grep -v ' c ' || true)
    if [ -n "$changed" ]; then
        bad "files as they were installed (fonts, program, units); these are not: ${changed//$'\n'/; }"
    else
        good "program $(dpkg-query -W -f='${Version}' kerfside), its files as they were installed"
    fi
    [ "$(. /etc/os-release && echo "${VERSION_CODENAME:-}")" = bookworm ] ||
        hint "another system than Debian 12, which is what was tried"
}

check_user() {
    if ! getent passwd kerfside >/dev/null; then
        bad "the user kerfside: install the package again"
    elif [ "$(stat -c '%U %a' "$data" 2>/dev/null)" != "kerfside 700" ]; then
        bad "the folder $data as the bench's alone: install -d -o kerfside -g kerfside -m 700 $data"
    else
        good "user kerfside, and $data for nobody else"
    fi
}

check_data() {
    local why free
    if [ ! -e "$database" ]; then
        bad "a database: kerfside-shop import FILE.csv..., or kerfside-shop restore COPY"
    elif ! why=$(kerfside-shop people 2>&1 >/dev/null); then
        bad "a database that can be read: $why"
    else
        good "database $database"
    fi
    free=$(df --output=avail -m "$data" 2>/dev/null | tail -n 1 || true)
    if [ "${free:-0}" -lt 1024 ]; then
        bad "room: ${free:-0} MB free where the log is, 1024 MB should be"
    else
        good "$free MB free where the log is"
    fi
}

check_backup() {
    local folder
    folder=$(value backup folder)
    if [ -z "$folder" ]; then
        bad "a folder for copies on another disk: [backup] folder in $settings"
    elif ! runuser -u kerfside -- test -w "$folder" 2>/dev/null; then
        bad "the folder for copies, $folder, where the user kerfside may write"
    elif [ "$(stat -c %d "$folder")" = "$(stat -c %d "$data")" ]; then
        bad "another disk for copies: $folder is on the same one as the log"
    else
        good "copies go to $folder, another disk"
    fi
}

check_session() {
    local name package lacking=()
    name=$(basename "$(readlink "$choice")" .conf 2>/dev/null)
    if [ -z "$name" ]; then
        bad "a way to the display: $(basename "$0") --session xorg"
        return
    fi
    for package in $(needed "$name"); do
        installed "$package" || lacking+=("$package")
    done
    if [ ${#lacking[@]} -gt 0 ]; then
        bad "packages of the session $name: apt-get install ${lacking[*]}"
    else
        good "session $name"
    fi
    if compgen -G '/dev/dri/card*' >/dev/null; then
        good "a graphics card: $(echo /dev/dri/card*)"
    else
        bad "a graphics card's node in /dev/dri"
    fi
    for name in gdm3 lightdm sddm; do
        ! installed "$name" || bad "this machine for the bench alone: $name is installed, apt-get remove $name"
    done
}

check_unit() {
    if [ ! -e /etc/systemd/system/multi-user.target.wants/kerfside.service ]; then
        bad "the bench among what begins with the machine: systemctl enable kerfside"
    elif ! runs; then
        hint "a start of the machine: systemd does not run here, so nothing is known about the bench"
    elif ! systemctl --quiet is-active kerfside.service; then
        bad "the bench: it does not run. systemctl status kerfside; journalctl -u kerfside"
    else
        good "the bench runs: $(systemctl show -P StatusText kerfside.service)"
    fi
}

check_lock() {
    # getty-static begins logins on five more terminals where there is no D-Bus.
    if linked getty@tty1.service && linked getty-static.service && linked ctrl-alt-del.target; then
        good "no login on a terminal, no restart by Ctrl-Alt-Del"
    else
        bad "logins and Ctrl-Alt-Del shut: systemctl mask getty@tty1 getty-static ctrl-alt-del.target"
    fi
    if [ ! -e /etc/sysctl.d/60-kerfside.conf ] || { runs && [ "$(cat /proc/sys/kernel/sysrq 2>/dev/null || echo 0)" != 0 ]; }; then
        bad "kernel.sysrq = 0, so that no key speaks to the kernel"
    else
        good "no key speaks to the kernel"
    fi
    installed openssh-server ||
        hint "a way in for you: with no ssh the only one is the boot menu (systemd.unit=rescue.target)"
}

check_clock() {
    if ! runs; then
        hint "the clock: is it set by a time server?"
    elif [ "$(timedatectl show -P NTPSynchronized 2>/dev/null)" = yes ]; then
        good "the clock is set by a time server"
    else
        bad "a clock set by a time server: apt-get install systemd-timesyncd, and the network"
    fi
    [ -e /dev/rtc0 ] || hint "a clock with a battery: without one it begins in the past when there is no network"
}

check_devices() {
    local section key node
    for section in scanner serial scale button camera; do
        for key in device device2 device3 device4; do
            node=$(value $section $key)
            if [ -z "$node" ]; then
                continue
            elif [ ! -e "$node" ]; then
                bad "$node, the $section of the settings: plug it in, or name it to $(basename "$0")"
            elif ! runuser -u kerfside -- test -r "$node"; then
                bad "$node to be readable by the user kerfside: name it to $(basename "$0") --$section"
            else
                good "$section $node"
            fi
        done
    done
    for key in modemmanager brltty; do
        ! installed $key || bad "serial lines for the bench alone: $key takes them; apt-get remove $key"
    done
}

check_printer() {
    if [ "$(value labels print)" != yes ]; then
        hint "a printer: [labels] print is no, papers lie in $data"
    elif ! command -v lp >/dev/null; then
        bad "a way to the printer: apt-get install cups cups-client"
    elif ! lpstat -e 2>/dev/null | grep -q .; then
        bad "a printer that CUPS knows: lpadmin -p NAME -E -v URI -m everywhere"
    else
        good "printers: $(lpstat -e | tr '\n' ' ')"
    fi
}

check_rest() {
    if [ -e /etc/localtime ] || [ -e /etc/timezone ]; then
        good "time zone $(cat /etc/timezone 2>/dev/null || readlink /etc/localtime)"
    else
        bad "a time zone: dpkg-reconfigure tzdata"
    fi
    hint "the machine's own setup: on after a power cut, no start from USB, a password"
    hint "a disk that keeps what it says it has written (with protection against power loss)"
    [ ! -e /dev/watchdog0 ] ||
        hint "RuntimeWatchdogSec=30 in /etc/systemd/system.conf: this board can restart a system that stands still"
}

check() {
    wrong=0
    needs_root
    check_program
    check_user
    check_data
    check_backup
    check_session
    check_unit
    check_lock
    check_clock
    check_devices
    check_printer
    check_rest
    if [ "$wrong" -gt 0 ]; then
        echo "$wrong missing."
        return 1
    fi
    echo "Nothing is missing."
}
