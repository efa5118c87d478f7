#!/usr/bin/env bash
# Puts a real VS Code server, and a Chromium to look at it with, on a Linux machine from registry packages alone.
#
#   install-server.sh [--no-browser]
#
# What it does goes to stderr; stdout gets two lines for install.mjs: "server FOLDER" and "chromium PROGRAM".
# The server lives in a cache outside the clone, in a folder named by everything it was made from: a second run costs nothing.
set -euo pipefail

CODE_SERVER=4.100.3   # VS Code 1.100.3: the last of these packages whose engines say Node 20
RIPGREP=1.18.0        # ships its program inside the package, where @vscode/ripgrep would download it

say() { printf 'editor: %s\n' "$*" >&2; }
die() { say "$*"; exit 1; }

timed() {
  local what=$1 begun=$SECONDS log
  shift
  log=$("$@" 2>&1) || { printf '%s\n' "$log" | tail -40 >&2; die "$what failed (the lines above say why)"; }
  say "$what: $((SECONDS - begun)) s"
}

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; elif command -v sudo >/dev/null; then sudo "$@"; else
    die "Chromium is missing and only root may install it: run 'apt-get install chromium' as root, or set BOREWRIGHT_CHROMIUM to one you have"
  fi
}

find_chromium() { command -v "${BOREWRIGHT_CHROMIUM:-chromium}" || command -v chromium-browser || command -v google-chrome; }

install_chromium() {
  local apt=(apt-get -o DPkg::Lock::Timeout=600 -qq)
  command -v apt-get >/dev/null || die "Chromium is missing and there is no apt-get here: install one and set BOREWRIGHT_CHROMIUM to its path"
  timed "apt-get update" as_root "${apt[@]}" update
  timed "apt-get install chromium" as_root env DEBIAN_FRONTEND=noninteractive "${apt[@]}" install -y --no-install-recommends chromium
}

install_server() {
  local npm_install=(npm install --ignore-scripts --omit=dev --no-audit --no-fund --loglevel=error)
  rm -rf "$SERVER_DIR"
  mkdir -p "$SERVER_DIR/.home"
  cd "$SERVER_DIR"
  printf '{ "private": true, "dependencies": { "code-server": "%s", "@vscode/ripgrep-linux-x64": "%s" } }\n' "$CODE_SERVER" "$RIPGREP" > package.json
  timed "npm install code-server" "${npm_install[@]}"

  cd "$SERVER_DIR/$VSCODE"
  timed "npm install (VS Code)" "${npm_install[@]}"   # not `npm ci`: this version's shrinkwrap lacks tslib
  (cd extensions && timed "npm install (VS Code's own extensions)" "${npm_install[@]}")

  # Native modules, from source. argon2 is left out: only code-server's login page, which is never started, needs it.
  export npm_config_build_from_source=true npm_config_yes=true JOBS=max
  timed "build native-watchdog" npm rebuild native-watchdog --foreground-scripts
  timed "build node-pty (the terminal)" npm rebuild node-pty --foreground-scripts
  timed "build spdlog (without it output channels stay empty)" npm rebuild @vscode/spdlog --foreground-scripts

  # What code-server's own postinstall script would have done.
  ln -sfn node_modules node_modules.asar
  mkdir -p node_modules/@vscode/ripgrep/bin           # without it Quick Open finds no file
  ln -f "$SERVER_DIR/node_modules/@vscode/ripgrep-linux-x64/bin/rg" node_modules/@vscode/ripgrep/bin/rg
  ln -sfn code-linux.sh bin/remote-cli/code-server
  ln -sfn browser-linux.sh bin/helpers/browser.sh
  find "$SERVER_DIR" -name obj.target -prune -exec rm -rf {} +
}

[ "$(uname -sm)" = "Linux x86_64" ] || die "this VS Code server is put together for Linux on x86_64 only, and this is $(uname -sm)"
[ "$(node -p 'process.versions.node.split(".")[0]')" = 20 ] || die "VS Code server $CODE_SERVER runs on Node 20, and this is Node $(node --version)"

VSCODE=node_modules/code-server/lib/vscode
STAMP="$CODE_SERVER-node$(node -p process.versions.modules)-$(sha256sum "${BASH_SOURCE[0]}" | cut -c1-12)"
CACHE=${XDG_CACHE_HOME:-$HOME/.cache}/borewright-editor
SERVER_DIR=$CACHE/$STAMP

mkdir -p "$CACHE"
exec 9> "$CACHE/.lock"
flock 9                                               # two runs at once: the second waits and finds it done
if [ ! -e "$SERVER_DIR/.complete" ]; then
  (install_server)
  say "$(HOME=$SERVER_DIR/.home node "$SERVER_DIR/$VSCODE/out/server-main.js" --version | tr '\n' ' ')in $SERVER_DIR"
  touch "$SERVER_DIR/.complete"
fi
if [ "${1:-}" != --no-browser ]; then find_chromium >/dev/null || install_chromium; fi

echo "server $SERVER_DIR/$VSCODE/out/server-main.js"
echo "chromium $(find_chromium || true)"
