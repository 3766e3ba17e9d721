#!/usr/bin/env bash
# Installs the Debian packages that are missing. Arguments: any of build, test, step, web, fuzz, bare.
set -euo pipefail
declare -A packages=(
  [build]="g++ cmake ninja-build ccache nlohmann-json3-dev libeigen3-dev libcli11-dev libfmt-dev libfast-float-dev libyaml-cpp-dev libcpp-httplib-dev pkg-config libxlsxwriter-dev libzip-dev libpugixml-dev zlib1g-dev libsqlite3-dev libpqxx-dev libsodium-dev python3"
  [test]="libgtest-dev librapidcheck-dev libbenchmark-dev libgsl-dev clang-format-14 doxygen chromium fonts-inter fonts-linuxlibertine fonts-dejavu-core poppler-utils python3-ezdxf gnumeric postgresql slurmctld slurmd slurm-client"
  [fuzz]="clang-14 libclang-rt-14-dev"
  [step]="libocct-foundation-dev libocct-modeling-data-dev libocct-modeling-algorithms-dev libocct-data-exchange-dev"
  [web]="emscripten chromium fonts-inter fonts-linuxlibertine python3-fonttools python3-brotli"
  [bare]="mmdebstrap git"
)
missing=()
for group in "$@"; do
  for package in ${packages[$group]}; do
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
done
# Any Node.js runs npm, which brings the page's own; Debian's would put another one away.
[[ " $* " != *" web "* ]] || { command -v node && command -v npm; } >/dev/null || missing+=(nodejs npm)
[ ${#missing[@]} -eq 0 ] && exit 0
echo "== Installing: ${missing[*]}"
as_root=(env DEBIAN_FRONTEND=noninteractive)  # sudo keeps nothing of the environment
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null || { echo "These packages are missing, and only root can install them (there is no sudo)." >&2; exit 1; }
  as_root=(sudo "${as_root[@]}")
fi
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
