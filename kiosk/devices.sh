# Sourced by install: devices that are the bench's alone. Each is known by what udev knows of it, gets
# a name in /dev/kerfside and a line in the settings.
# shellcheck shell=bash disable=SC2154
devices_rules=/etc/udev/rules.d/69-kerfside-devices.rules
devices_names=() # scanner, scanner2, button...
devices_lines=() # the rule of each

property() { # property NAME: of the device whose udevadm export is in $facts
    sed -n "s/^$1=//p" <<<"$facts" | head -n 1
}

devices_take() { # devices_take KIND NODE
    local kind=$1 node=$2 name=$1 count=1 facts rule match
    [ -e "$node" ] || die "--$kind $node: there is no such device. Plug it in; ls /dev/input/by-id /dev/serial/by-id."
    for taken in "${devices_names[@]}"; do
        [[ $taken != "$kind"* ]] || count=$((count + 1))
    done
    [ "$count" -eq 1 ] || name=$kind$count
    if [ "$count" -gt 4 ] || { [ "$kind" != scanner ] && [ "$count" -gt 1 ]; }; then
        die "--$kind $node: four scanners at most, one of anything else."
    fi
    facts=$(udevadm info --query=property --name="$node") || die "--$kind $node: udev does not know it."
    match=$(device_match "$facts") ||
        die "--$kind $node: it has neither maker and model nor a socket to be known by again."
    rule="SUBSYSTEM==\"$(property SUBSYSTEM)\", $match, ENV{KERFSIDE_NAME}=\"$name\""
    if [ "$kind $(property SUBSYSTEM)" = "scanner tty" ] &&
        [ "$(grep -c '^SUBSYSTEM=="tty".*NAME}="scanner' <<<"$(printf '%s\n' "${devices_lines[@]}")")" -ge 2 ]; then
        die "--$kind $node: two scanners at serial lines at most."
    fi
    [ "$(property SUBSYSTEM)" != input ] || rule="KERNEL==\"event*\", $rule"
    [ "$(property SUBSYSTEM)" != video4linux ] || rule="ATTR{index}==\"0\", $rule"
    devices_names+=("$name")
    devices_lines+=("$rule")
}

# By maker, model and serial number; without a number two of a kind are told apart by their socket. Of
# a device with several interfaces the one that was named.
device_match() { # device_match FACTS
    local facts=$1 key value match="" vendor
    vendor=$(property ID_VENDOR_ID)
    for key in ID_VENDOR_ID ID_MODEL_ID ID_SERIAL_SHORT ID_USB_INTERFACE_NUM; do
        value=$(property $key)
        [ -z "$value" ] || match+=", ENV{$key}==\"$value\""
    done
    if [ -z "$vendor" ] || [ -z "$(property ID_SERIAL_SHORT)" ]; then
        value=$(property ID_PATH)
        [ -n "$value" ] || return 1
        match+=", ENV{ID_PATH}==\"$value\""
    fi
    echo "${match#, }"
}

# Puts a line into the settings, in place of the one there or into its section, which may be missing.
setting_put() { # setting_put SECTION KEY VALUE
    if sed -n "/^\[$1\]/,/^\[/ { /^$2 *=/p }" "$settings" | grep -q .; then
        sed -i "/^\[$1\]/,/^\[/ s|^$2 *=.*|$2 = $3|" "$settings"
    elif grep -q "^\[$1\]" "$settings"; then
        sed -i "0,/^\[$1\]/ s|^\[$1\].*|&\n$2 = $3|" "$settings"
    else
        printf '\n[%s]\n%s = %s\n' "$1" "$2" "$3" >>"$settings"
    fi
}

# Names of a kind that was named now and before go; those named now stand in their sections in turn.
devices_settings() {
    local name section key keyboards=0 lines=0 count
    for name in "${devices_names[@]}"; do
        sed -i "s|^\(device[2-4]\{0,1\} *=\) */dev/kerfside/${name%[0-9]}[0-9]* *$|\1|" "$settings"
    done
    for name in "${devices_names[@]}"; do
        section=${name%[0-9]} count=1
        if [ "$section" = scanner ] && [ "$(devices_subsystem "$name")" = tty ]; then
            section=serial lines=$((lines + 1)) count=$lines
        elif [ "$section" = scanner ]; then
            keyboards=$((keyboards + 1)) count=$keyboards
        fi
        key=device
        [ "$count" -eq 1 ] || key+=$count
        setting_put "$section" "$key" "/dev/kerfside/$name"
    done
}

devices_subsystem() { # devices_subsystem NAME: of one that was taken
    local i
    for i in "${!devices_names[@]}"; do
        [ "${devices_names[i]}" != "$1" ] || sed -n 's/.*SUBSYSTEM=="\([a-z0-9]*\)".*/\1/p' <<<"${devices_lines[i]}"
    done
}

# Of a kind that was named now the old lines go, all others stay.
devices_keep() {
    local name old=""
    [ ${#devices_names[@]} -gt 0 ] || return 0
    [ ! -L "$settings" ] || die "$settings is a link; put the file itself there." # the folder is the bench's
    [ -e "$settings" ] || die "there is no $settings to name devices in: kerfside settings --sample >$settings"
    [ ! -e "$devices_rules" ] || old=$(cat "$devices_rules")
    for name in "${devices_names[@]}"; do
        old=$(grep -v "KERFSIDE_NAME}=\"${name%[0-9]}[0-9]*\"" <<<"$old" || true)
    done
    {
        [ -z "$old" ] || echo "$old"
        printf '%s\n' "${devices_lines[@]}"
    } | write "$devices_rules"
    devices_settings
}
