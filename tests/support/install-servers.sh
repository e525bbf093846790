#!/usr/bin/env bash
# Puts the servers and the browser that the tests need on this machine, where they are missing. Starts none: each test brings its
# own up and down (redis-server.ts, postgres-server.ts, kannel-server.ts, browser.ts). For Debian and its kin; elsewhere it names what to install by hand.
set -euo pipefail

missing=()
command -v redis-server >/dev/null || missing+=(redis-server)
# Debian keeps PostgreSQL's programs by version, off the PATH; elsewhere pg_config knows.
compgen -G '/usr/lib/postgresql/*/bin/initdb' >/dev/null || [ -x "$(pg_config --bindir 2>/dev/null)/initdb" ] || missing+=(postgresql)
[ -x /usr/bin/chromium ] || missing+=(chromium)
[ -x /usr/sbin/bearerbox ] || missing+=(kannel)

if [ ${#missing[@]} -eq 0 ]; then
  echo 'The servers and the browser that the tests start are here.'
  exit 0
fi

give_up() {
  echo "The tests need ${missing[*]}, and $1. Install Redis 6 or newer, PostgreSQL 15 or newer, Chromium (/usr/bin/chromium) and Kannel 1.4 (/usr/sbin/bearerbox) by hand, and run this again." >&2
  exit 1
}

command -v apt-get >/dev/null || give_up 'there is no apt-get here to install them with'
as_root=()
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null || give_up 'only root may install them, and there is no sudo here'
  as_root=(sudo)
fi

echo "Installing ${missing[*]}"
"${as_root[@]}" apt-get update -q
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}"
