# Sourced by the scripts: a home that can be written to, for the caches of compiler and npm, and the page's own Node first on the path.
# `root` is the clone.
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
if ! [ -d "${HOME:-}" ] || ! [ -w "$HOME" ]; then
  [ ! -r "${HOME:-}/.npmrc" ] || export NPM_CONFIG_USERCONFIG=$HOME/.npmrc
  export HOME=$root/build/home
  mkdir -p "$HOME"
fi
# In containers nobody may have set it; compilers and browsers then read file names and text as ASCII.
export LC_ALL=${LC_ALL:-C.UTF-8}
# Debian's npm links no program of a package that is for one processor only: its folder by name.
case $(uname -m) in aarch64) processor=arm64 ;; *) processor=x64 ;; esac
export PATH=$root/web/node_modules/node-linux-$processor/bin:$root/web/node_modules/.bin:$PATH
