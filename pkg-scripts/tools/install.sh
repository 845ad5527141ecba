# Installs what is missing. Each function is quiet when its tool is there.
# shellcheck source=common.sh
source "$(dirname "${BASH_SOURCE[0]}")/common.sh"

WASM_BINDGEN=0.2.130
WASM_PACK=0.15.1

need_base() {
  has rustup || stop "rustup is missing: install Rust with rustup, then run this again"
  has cargo || stop "cargo is missing: install Rust with rustup, then run this again"
  has node || stop "Node 20 or later is missing: install it, then run this again"
  [ "$(node -p 'process.versions.node.split(".")[0]')" -ge 20 ] || stop "Node 20 or later is needed; this is $(node -v)"
}

need_package() {
  local tool=$1
  shift
  has "$tool" && return
  has apt-get || stop "$tool is missing and can only be installed here by apt (Debian): install $* by hand"
  echo "installing $*"
  as_root apt-get update -qq
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >/dev/null
}

need_wasm_target() {
  rustup target list --installed | grep -qx wasm32-unknown-unknown || rustup target add wasm32-unknown-unknown
}

# The tools are built for use here and now, not for speed of their own.
quick_install() {
  CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=16 CARGO_PROFILE_RELEASE_OPT_LEVEL=1 \
    CARGO_TARGET_DIR="$ROOT/target/tools" cargo install --quiet "$@"
}

need_wasm_tools() {
  need_package cc gcc libc6-dev
  [ "$(wasm-bindgen --version 2>/dev/null)" = "wasm-bindgen $WASM_BINDGEN" ] ||
    { echo "installing wasm-bindgen $WASM_BINDGEN"; quick_install wasm-bindgen-cli --version "$WASM_BINDGEN" --no-default-features; }
  [ "$(wasm-pack --version 2>/dev/null)" = "wasm-pack $WASM_PACK" ] ||
    { echo "installing wasm-pack $WASM_PACK"; quick_install wasm-pack --version "$WASM_PACK" --locked; }
}

need_npm_tools() {
  [ "$SCRIPTS/node_modules/.package-lock.json" -nt "$SCRIPTS/package-lock.json" ] && return
  echo "installing npm tools"
  npm --prefix "$SCRIPTS" ci --silent
  touch "$SCRIPTS/node_modules/.package-lock.json"
}

need_build() {
  need_base
  need_wasm_target
  need_wasm_tools
  need_npm_tools
}

need_browser() {
  need_package chromium chromium fonts-dejavu-core
  need_package pdftoppm poppler-utils
  need_package zbarimg zbar-tools
}

# The Python that holds the CAD kernel.
need_kernel() {
  PYTHON=$ROOT/target/kernel-venv/bin/python
  if ! "$PYTHON" -c 'import OCP, numpy' 2>/dev/null; then
    need_package python3 python3 python3-venv
    python3 -m venv --help >/dev/null 2>&1 && python3 -c 'import ensurepip' 2>/dev/null || need_venv
    echo "installing the CAD kernel"
    python3 -m venv "$ROOT/target/kernel-venv"
    "$PYTHON" -m pip install --quiet --disable-pip-version-check -r "$ROOT/tests/kernel/requirements.txt"
    # The kernel's libraries draw, so they ask for a display's library even where nothing is drawn.
    "$PYTHON" -c 'import OCP' 2>/dev/null || install_display_libraries
  fi
}

need_venv() {
  has apt-get || stop "Python's venv is missing: install it, then run this again"
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq python3-venv >/dev/null
}

install_display_libraries() {
  has apt-get || stop "the CAD kernel needs libGL: install it, then run this again"
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends libgl1 libx11-6 libxrender1 libxext6 libsm6 >/dev/null
}
