#!/usr/bin/env bash
# Run both commands of the README on a bare Debian 12 (debootstrap, minbase), in a chroot; by hand, as root:
#   tests/fresh_machine.sh FOLDER     # FOLDER is made; half an hour and 4 GB
# FRESH_COPY="/etc/pip.conf ..." names files that a site needs in there too (its certificates, its mirror's settings).
# FRESH_MIRROR names another Debian mirror. What was committed is tested, nothing else of the tree is seen.
set -euo pipefail

folder=$(realpath -m "${1:?a folder for the bare system}")
top=$(cd "$(dirname "$0")/.." && pwd)
root=$folder/root
mkdir -p "$folder"
[ -e "$root/bin/sh" ] || debootstrap --variant=minbase bookworm "$root" "${FRESH_MIRROR:-http://deb.debian.org/debian}"

cleanup() {
    for place in dev/pts dev/shm dev proc ""; do umount "$root/$place" 2>/dev/null || true; done
}
trap cleanup EXIT
mount --bind "$root" "$root" # a root that is a mount of its own, as a machine's is: tests mount small disks
mount --make-private "$root"
mount -t proc proc "$root/proc"
mount --bind /dev "$root/dev"
mount -t devpts devpts "$root/dev/pts" -o newinstance,ptmxmode=666 2>/dev/null || mount --bind /dev/pts "$root/dev/pts"
mount -t tmpfs tmpfs "$root/dev/shm" 2>/dev/null || true
cp /etc/resolv.conf "$root/etc/resolv.conf"
for file in ${FRESH_COPY:-}; do
    mkdir -p "$root$(dirname "$file")"
    cp -rL "$file" "$root$file"
done

rm -rf "$root/src"
git clone -q "$top" "$root/src"
# The commands of the README: the first makes the demo, the second tests.
mapfile -t commands < <(grep -F 'apt-get update' "$root/src/README.md")
[ "${#commands[@]}" = 2 ] || { echo "the README has ${#commands[@]} commands that install" >&2; exit 1; }
number=0
for command in "${commands[@]}"; do
    number=$((number + 1))
    echo "== README command $number"
    rm -rf "$root/src/.venv"
    env -i HOME=/root LANG=C.UTF-8 PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
        DEBIAN_FRONTEND=noninteractive PYTEST_ADDOPTS=-rs ${FRESH_ENV:-} \
        chroot "$root" /bin/bash -c "cd /src && $command"
done
echo "== both commands passed"
