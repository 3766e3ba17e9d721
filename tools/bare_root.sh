#!/usr/bin/env bash
# Runs a command in a clone of this repository's HEAD on a bare Debian 12 that holds nothing of this machine's packages, and
# says how long it took: tools/bare_root.sh [COMMAND…], ./run.sh unless told otherwise. Ends with the command's status;
# 77 (skipped) with the reason where no such root can be made.
#   KEEP=folder   keeps the root there, for a second command
#   CACHE=folder  what the compiler cache knows of this commit is lent to it: packages, headers and scripts are tried all the
#                 same, what was compiled from the very same bytes is not compiled once more
set -euo pipefail
cd "$(dirname "$0")/.."
[ $# -gt 0 ] || set -- ./run.sh
skip() { echo "bare root: skipped, $1"; exit 77; }
[ "$(id -u)" = 0 ] || skip "only root can make one"
command -v chroot >/dev/null || skip "there is no chroot"
tools/install.sh bare || skip "mmdebstrap cannot be installed"
unshare --mount --pid --fork sh -c 'mount -t tmpfs tmpfs /mnt && mount -t proc proc /mnt' 2>/dev/null ||
  skip "name spaces with mounts of their own cannot be made here"
root=${KEEP:-$(mktemp -d)}
trap '[ -n "${KEEP:-}" ] || rm -rf --one-file-system "$root"' EXIT
if [ ! -e "$root/etc/debian_version" ]; then
  echo "== A bare Debian 12 in $root"
  mkdir -p "$root"
  # It reaches Debian as this machine does: the same archives, where this is a Debian 12 too, and the same settings.
  mapfile -t archives < <(grep -lsE '^(Suites:|deb ).*bookworm' /etc/apt/sources.list /etc/apt/sources.list.d/*.{list,sources})
  mmdebstrap --quiet --mode=root --variant=apt --include=ca-certificates --aptopt=<(apt-config dump Acquire) \
    bookworm "$root" "${archives[@]}" || skip "mmdebstrap cannot make one here"
fi
cp -L /etc/resolv.conf /etc/hosts "$root/etc/"
# And the registry of npm: its settings and the certificates this machine trusts besides Debian's.
[ ! -e "${HOME:-/root}/.npmrc" ] || cp "${HOME:-/root}/.npmrc" "$root/root/.npmrc"
trust=()
if compgen -G '/usr/local/share/ca-certificates/*.crt' >/dev/null; then
  mkdir -p "$root/usr/local/share/ca-certificates"
  cp /usr/local/share/ca-certificates/*.crt "$root/usr/local/share/ca-certificates/"
  chroot "$root" update-ca-certificates >/dev/null 2>&1
  trust=(NODE_EXTRA_CA_CERTS=/etc/ssl/certs/ca-certificates.crt)
fi
for name in http_proxy https_proxy no_proxy; do [ -z "${!name:-}" ] || trust+=("$name=${!name}"); done

# At the path that it has here, so that the compiler cache knows it again.
rm -rf "${root:?}$PWD"
git -c safe.directory='*' clone -q "file://$PWD" "$root$PWD"
# Mounts and processes in name spaces of their own: all of them end with the command, whatever happens.
inside='
set -euo pipefail
root=$1
clone=$2
shift 2
mkdir -p "$root"/{proc,dev,tmp}
if [ -n "${CACHE:-}" ]; then
  mkdir -p "$root/root/.cache/ccache"
  mount --bind "$CACHE" "$root/root/.cache/ccache"
fi
unset CACHE
mount -t proc proc "$root/proc"
mount -t tmpfs -o mode=755 tmpfs "$root/dev"
for device in null zero full random urandom tty; do cp -a "/dev/$device" "$root/dev/"; done
mkdir "$root/dev/pts" "$root/dev/shm"
mount -t devpts -o newinstance,ptmxmode=666 devpts "$root/dev/pts"
ln -s pts/ptmx "$root/dev/ptmx"
chmod 1777 "$root/dev/shm" "$root/tmp"
ln -s /proc/self/fd "$root/dev/fd"
for stream in 0:stdin 1:stdout 2:stderr; do ln -s "fd/${stream%:*}" "$root/dev/${stream#*:}"; done
exec chroot "$root" /bin/bash -c '\''cd "$0" && exec "$@"'\'' "$clone" "$@"
'
start=$(date +%s)
status=0
env -i ${CACHE:+"CACHE=$CACHE"} PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root TERM=dumb "${trust[@]}" \
  unshare --mount --pid --fork --kill-child bash -c "$inside" bash "$root" "$PWD" "$@" </dev/null || status=$?
echo "bare root: '$*' ended with $status after $(($(date +%s) - start)) s"
exit "$status"
