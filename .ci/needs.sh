# Shared by ./test and .ci/run (sourced, bash 3.2 and later): the browser and the fonts of the browser tests.
# They need a Chromium; the one without windows takes half the processor time of the others. Pages bring their own typefaces along, but a Chromium on a machine without any font at all draws no page of anybody's.

find_browser() { # of the variable, or on PATH; sets SPURLESS_CHROMIUM
  local name
  if [ -n "${SPURLESS_CHROMIUM:-}" ]; then [ -x "$SPURLESS_CHROMIUM" ]; return; fi
  for name in chromium-headless-shell chromium chromium-browser google-chrome google-chrome-stable chrome microsoft-edge; do
    if command -v "$name" >/dev/null 2>&1; then SPURLESS_CHROMIUM=$(command -v "$name"); export SPURLESS_CHROMIUM; return 0; fi
  done
  for name in "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome" "/Applications/Chromium.app/Contents/MacOS/Chromium" \
    "${PROGRAMFILES:-/none}/Google/Chrome/Application/chrome.exe" "${PROGRAMFILES:-/none}/Microsoft/Edge/Application/msedge.exe"; do
    if [ -x "$name" ]; then export SPURLESS_CHROMIUM="$name"; return 0; fi
  done
  return 1
}

has_font() { # a family; macOS and Windows have their own
  case $(uname -s) in Darwin | MINGW* | MSYS* | CYGWIN*) return 0 ;; esac
  if command -v fc-list >/dev/null 2>&1; then [ -n "$(fc-list "$1" 2>/dev/null)" ]; return; fi
  local folder
  for folder in /usr/share/fonts /usr/local/share/fonts "${HOME:-/none}/.local/share/fonts" "${HOME:-/none}/.fonts"; do
    if [ -d "$folder" ] && [ -n "$(find -L "$folder" -name "$(printf '%s' "$1" | tr -d ' ')*" 2>/dev/null | head -n 1)" ]; then return 0; fi
  done
  return 1
}

pages_lack() { # the packages, as Debian and Ubuntu name them, that the browser tests still need
  find_browser || echo chromium
  has_font 'Liberation Sans' || echo fonts-liberation
  has_font 'DejaVu Sans' || echo fonts-dejavu-core
}

has_lean_browser() { [ -n "${SPURLESS_CHROMIUM:-}" ] || command -v chromium-headless-shell >/dev/null 2>&1; }

can_install() { [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; }

install_packages() { # log file, package ...
  local log=$1
  shift
  { apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"; } >"$log" 2>&1 </dev/null
}

in_words() { # package: what to ask a person for
  case $1 in
    chromium) echo 'a Chromium, Chrome or Edge on PATH (Debian: apt install chromium), or its executable in SPURLESS_CHROMIUM' ;;
    fonts-liberation) echo "the fonts 'Liberation Sans' and 'Liberation Serif' (Debian: apt install fonts-liberation)" ;;
    fonts-dejavu-core) echo "the font 'DejaVu Sans' (Debian: apt install fonts-dejavu-core)" ;;
    *) echo "$1" ;;
  esac
}
