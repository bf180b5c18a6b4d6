# Shared by ./spurless and ./test (sourced, bash 3.2 and later): is the built program still that of the sources?
# Expects $root. State lies in $root/.spurless, which git ignores.
#
# Without MSBuild: a list of the sources with their sizes and dates, those of their entries on the disk among them, which nobody can set
# back. Where it differs from that of the last build, sums of the contents decide: a date alone, from tomorrow or from long ago, neither
# builds nor keeps from building.

state=$root/.spurless
program=$root/src/Spurless/bin/Release/net10.0/spurless.dll

sources() { # arguments: what find does with each
  find "$root/src" "$root/demo" "$root/Directory.Build.props" "$root/Directory.Packages.props" "$root/global.json" "$root/.editorconfig" \
    \( -name bin -o -name obj \) -prune -o ! -name packages.lock.json -type f "$@"
}

listed() { # GNU find; else BSD and macOS; else there is nothing but the contents
  sources -printf '%p %s %T@ %C@\n' 2>/dev/null || sources -print0 | xargs -0 stat -f '%N %z %Fm %Fc' 2>/dev/null || summed
}

summed() { sources -print0 | xargs -0 cksum; }

is_current() {
  [ -f "$program" ] && [ -f "$state/sources.list" ] && [ -f "$state/sources.sums" ] || return 1
  local now
  now=$(listed)
  [ "$now" != "$(cat "$state/sources.list")" ] || return 0
  [ "$(summed)" = "$(cat "$state/sources.sums")" ] || return 1
  printf '%s\n' "$now" 2>/dev/null >"$state/sources.list.next" && mv "$state/sources.list.next" "$state/sources.list" || true
}

before_build() {
  rm -f "$state/sources.list" "$state/sources.sums"
  # Taken before the build: a file saved while it runs makes the next call build again.
  listed >"$state/sources.list.next" && summed >"$state/sources.sums.next"
}

after_build() { mv "$state/sources.sums.next" "$state/sources.sums" && mv "$state/sources.list.next" "$state/sources.list"; }

lock() { # one build at a time
  mkdir -p "$state" || return 1
  if command -v flock >/dev/null 2>&1; then
    exec 9>"$state/lock" || return 1
    flock 9
  else
    local holder
    until mkdir "$state/lock.held" 2>/dev/null; do
      [ -d "$state/lock.held" ] || return 1
      holder=$(cat "$state/lock.held/pid" 2>/dev/null || true)
      # Its holder is gone; or was ended before it wrote its number; or holds it longer than any build takes, so that the number is another's.
      if { [ -n "$holder" ] && ! kill -0 "$holder" 2>/dev/null; } \
        || { [ -z "$holder" ] && [ -n "$(find "$state/lock.held" -prune -mmin +0 2>/dev/null)" ]; } \
        || [ -n "$(find "$state/lock.held" -prune -mmin +30 2>/dev/null)" ]; then
        rm -rf "$state/lock.held"
      else
        sleep 0.2
      fi
    done
    echo $$ >"$state/lock.held/pid"
  fi
}

unlock() {
  exec 9>&-
  if [ "$(cat "$state/lock.held/pid" 2>/dev/null)" = $$ ]; then rm -rf "$state/lock.held"; fi
}

needs_plain_name() { # a message and status 3 where the build tools would take the folder's name for something else
  local sign=
  case $root in
    *\;*) sign=';' ;;
    *\"*) sign='"' ;;
    *%[0-9A-Fa-f][0-9A-Fa-f]*) sign='%' ;;
    *\**) sign='*' ;;
    *\?*) sign='?' ;;
    *'$('*) sign='$(' ;;
    *'@('*) sign='@(' ;;
    *) return 0 ;;
  esac
  echo "spurless: the build tools cannot work in a folder with $sign in its name: $root" >&2
  echo '  Give it another name, or copy it elsewhere.' >&2
  exit 3
}

cannot_write() { # what the system said: a message and status 3
  case $1 in
    *'No space left'* | *'not enough space'* | *'Disk quota'*) echo "spurless: the disk of $root is full; make some room." >&2 ;;
    *) echo "spurless: cannot write to $root; copy the folder to where you may write." >&2 ;;
  esac
  exit 3
}

needs_sdk() { # a message and status 3 where no fitting SDK is there
  local found said
  if ! command -v dotnet >/dev/null 2>&1; then
    found='there is no dotnet on this machine'
  elif said=$(cd "$root" && dotnet --version 2>&1); then
    return 0
  else
    found=$(dotnet --list-sdks 2>/dev/null | sed 's/ .*//' | tr '\n' ' ')
    case " $found" in
      *' 10.0.'*)
        echo "spurless: the .NET SDK does not start: $said" >&2
        exit 3
        ;;
      ' ') found='this machine has a dotnet runtime but no SDK' ;;
      *) found="this machine has only ${found% }" ;;
    esac
  fi
  echo "spurless: needs the .NET SDK 10.0; $found." >&2
  echo '  Get it from https://dotnet.microsoft.com/download/dotnet/10.0, or by your package manager' >&2
  echo '  (often: apt install dotnet-sdk-10.0, dnf install dotnet-sdk-10.0, brew install dotnet-sdk).' >&2
  exit 3
}

export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_GENERATE_ASPNET_CERTIFICATE=false
[ -n "${HOME:-}" ] || export DOTNET_CLI_HOME="$state/home"
