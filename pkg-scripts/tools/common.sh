# Shared by all scripts: where things are, and how to stop with one clear line.
set -euo pipefail

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
SCRIPTS=$ROOT/pkg-scripts
DIST=$ROOT/dist
TARGET=${CARGO_TARGET_DIR:-$ROOT/target}
export PATH="$HOME/.cargo/bin:$SCRIPTS/node_modules/.bin:$PATH"

stop() {
  printf '%s\n' "$*" >&2
  exit 1
}

has() {
  command -v "$1" >/dev/null 2>&1
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; elif has sudo; then sudo "$@"; else stop "root is needed for: $*"; fi
}
