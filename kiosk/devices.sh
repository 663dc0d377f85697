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

# In the settings: `device` of a section, device2 to device4 for more scanners.
devices_set() { # devices_set NAME PATH
    local section=${1%[0-9]} key=device${1##*[a-z]}
    if [ "$section" = scanner ] && [[ $(devices_subsystem "$1") = tty ]]; then
        section=serial
    fi
    sed -i "/^\[$section\]/,/^\[/ s|^$key *=.*|$key = $2|" "$settings"
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
    [ ! -e "$devices_rules" ] || old=$(cat "$devices_rules")
    for name in "${devices_names[@]}"; do
        old=$(grep -v "KERFSIDE_NAME}=\"${name%[0-9]}[0-9]*\"" <<<"$old" || true)
    done
    {
        [ -z "$old" ] || echo "$old"
        printf '%s\n' "${devices_lines[@]}"
    } | write "$devices_rules"
    for name in "${devices_names[@]}"; do
        devices_set "$name" "/dev/kerfside/$name"
    done
}
