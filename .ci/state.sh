# Shared by ./spurless and ./test (sourced, bash 3.2 and later): is the built program still that of the sources?
# Expects $root. State lies in $root/.spurless, which git ignores.
#
# Without MSBuild: a stamp taken before a build and moved into place after it, the sources (with their folders, so that
# a deleted file counts) looked through for anything newer, and their number, for a file put there with an old date.

state=$root/.spurless
program=$root/src/Spurless/bin/Release/net10.0/spurless.dll

sources() { # arguments: further conditions for find
  find "$root/src" "$root/demo" "$root/Directory.Build.props" "$root/Directory.Packages.props" "$root/global.json" "$root/.editorconfig" \
    \( -name bin -o -name obj \) -prune -o ! -name packages.lock.json "$@" -print
}

is_current() {
  [ -f "$state/stamp" ] && [ -f "$program" ] || return 1
  [ -z "$(sources -newer "$state/stamp" | head -n 1)" ] || return 1
  [ "$(sources | wc -l)" = "$(cat "$state/count" 2>/dev/null)" ]
}

before_build() {
  rm -f "$state/stamp"
  # A build makes these folders: made now, they don't change the date of the folders that hold them afterwards.
  local project
  for project in "$root"/src/*/*.csproj; do mkdir -p "${project%/*}/bin" "${project%/*}/obj"; done
  sources | wc -l >"$state/count"
  touch "$state/stamp.next"
}

after_build() { mv "$state/stamp.next" "$state/stamp"; }

lock() { # one build at a time
  mkdir -p "$state"
  if command -v flock >/dev/null 2>&1; then
    exec 9>"$state/lock"
    flock 9
  else
    local holder
    until mkdir "$state/lock.held" 2>/dev/null; do
      holder=$(cat "$state/lock.held/pid" 2>/dev/null || true)
      if [ -n "$holder" ] && ! kill -0 "$holder" 2>/dev/null; then rm -rf "$state/lock.held"; else sleep 0.2; fi
    done
    echo $$ >"$state/lock.held/pid"
  fi
}

unlock() {
  exec 9>&-
  if [ "$(cat "$state/lock.held/pid" 2>/dev/null)" = $$ ]; then rm -rf "$state/lock.held"; fi
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
