#!/bin/sh
# Install the Debian packages that are missing: deps.sh [build] [check]
# Where everything is there this is quick and needs no network.
set -eu

build='gcc libc6-dev make pkg-config libiniparser-dev libcsv-dev
	libsqlite3-dev libutf8proc-dev zlib1g-dev
	libsodium-dev libqrencode-dev libncurses-dev'
check='git clang clang-format clang-tidy cppcheck libclang-rt-14-dev
	libcriterion-dev sqlite3 python3 expect tmux mandoc strace
	e2fsprogs mount
	postgresql chromium poppler-utils zbar-tools
	fontconfig fonts-dejavu-core
	fonts-liberation fonts-lohit-deva'

wanted=
for set in "$@"; do
	case $set in
	build) wanted="$wanted $build" ;;
	check) wanted="$wanted $check" ;;
	*) echo "usage: deps.sh [build] [check]" >&2; exit 2 ;;
	esac
done

if ! command -v dpkg-query >/dev/null; then
	echo "This is not a Debian system. Going on with what is installed;"
	echo "what the Debian packages are called:" $wanted
	exit 0
fi

# dpkg-query fails as soon as one of them is unknown; its list still counts.
installed=$(dpkg-query -W -f '${Package} ${db:Status-Status}\n' $wanted \
	2>/dev/null | sed -n 's/ installed$//p') || true
missing=
for package in $wanted; do
	echo "$installed" | grep -qxF "$package" || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

echo "Missing packages:$missing"
if [ "$(id -u)" -eq 0 ]; then
	as_root=
elif command -v sudo >/dev/null; then
	as_root=sudo
else
	echo "They can be installed only by root, and there is no sudo here." >&2
	echo "As root: apt-get install --no-install-recommends$missing" >&2
	exit 1
fi
apt="$as_root env DEBIAN_FRONTEND=noninteractive apt-get"
$apt update || echo "The package lists are old; trying with them." >&2
$apt install -y --no-install-recommends $missing
