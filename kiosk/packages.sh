#!/usr/bin/env bash
# Installs the Debian packages that building needs, if any is missing; with `tests` also those that
# the tests and benchmarks need, with `guides` what puts the guides on paper. Quick when all are there:
# asks dpkg only. Works as root, and with sudo as a user.
set -euo pipefail

packages=(
    gcc cmake ninja-build pkg-config gettext
    libsdl2-dev libsdl2-ttf-dev libpng-dev libcairo2-dev libfreetype-dev libsqlite3-dev
    libsodium-dev libssl-dev libinih-dev libzbar-dev libturbojpeg0-dev libzint-dev libsystemd-dev
    libcmocka-dev libxkbcommon-dev xkb-data
)
if [ "${1:-}" = tests ]; then
    packages+=(
        git clang lld libclang-rt-14-dev clang-format clang-tidy cppcheck gcovr
        xvfb xdotool imagemagick poppler-utils weasyprint sqlite3
        zbar-tools zxing-cpp-tools systemd
        python3 python3-stdnum python3-scipy calculix-ccx
        fonts-ipaexfont-gothic fontconfig locales
    )
fi
if [ "${1:-}" = guides ]; then
    packages+=(weasyprint poppler-utils)
fi
missing=()
for package in "${packages[@]}"; do
    if ! dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed'; then
        missing+=("$package")
    fi
done
if [ ${#missing[@]} -eq 0 ]; then
    exit 0
fi
sudo=()
if [ "$(id -u)" -ne 0 ]; then
    sudo=(sudo)
fi
"${sudo[@]}" apt-get update
"${sudo[@]}" apt-get install -y --no-install-recommends "${missing[@]}"
