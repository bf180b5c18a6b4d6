@echo off
rem Builds the program when its sources have changed, then runs it in the folder of the caller.
rem Statuses of its own: 3 where it cannot be built or there is no SDK. Everything else is the program's.
rem A mirror of the sources is kept in .spurless; robocopy /L tells without MSBuild whether they still agree.
setlocal EnableExtensions DisableDelayedExpansion
set "root=%~dp0"
set "root=%root:~0,-1%"
set "state=%root%\.spurless"
set "program=%root%\src\Spurless\bin\Release\net10.0\spurless.dll"
set "DOTNET_NOLOGO=1"
set "DOTNET_CLI_TELEMETRY_OPTOUT=1"
set "DOTNET_GENERATE_ASPNET_CERTIFICATE=false"

where dotnet >nul 2>nul
if errorlevel 1 (
  set "found=there is no dotnet on this machine"
  goto :nosdk
)
call :current
if not errorlevel 1 goto :run

pushd "%root%"
dotnet --version >nul 2>nul
if errorlevel 1 (
  popd
  set "found=its version on this machine is another one (dotnet --list-sdks shows which)"
  goto :nosdk
)
popd
if not exist "%state%" mkdir "%state%" 2>nul
if not exist "%state%" (
  >&2 echo spurless: cannot write to %root%; copy the folder to where you may write.
  exit /b 3
)

:wait
set "locked="
2>nul (
  9>"%state%\lock" (
    set "locked=1"
    call :build
  )
)
if not defined locked (
  timeout /t 1 /nobreak >nul 2>nul || ping -n 2 127.0.0.1 >nul
  goto :wait
)
call :current
if errorlevel 1 (
  >&2 echo spurless: the build failed:
  >&2 findstr /c:"error" "%state%\build.log"
  >&2 echo   ^(everything it said: %state%\build.log^)
  exit /b 3
)

:run
dotnet "%program%" %*
exit /b %errorlevel%

:current
if not exist "%program%" exit /b 1
if not exist "%state%\mirror\src" exit /b 1
robocopy "%root%\src" "%state%\mirror\src" /MIR /L /XD bin obj /XF packages.lock.json /NJH /NJS /NDL /NFL >nul 2>nul
if errorlevel 1 exit /b 1
robocopy "%root%" "%state%\mirror" Directory.Build.props Directory.Packages.props global.json .editorconfig /L /NJH /NJS /NDL /NFL >nul 2>nul
if errorlevel 1 exit /b 1
exit /b 0

:build
call :current
if not errorlevel 1 exit /b 0
>con echo spurless: building, about half a minute the first time ...
if exist "%state%\mirror" rmdir /s /q "%state%\mirror"
if exist "%state%\mirror.next" rmdir /s /q "%state%\mirror.next"
rem Taken before the build: a file saved while it runs makes the next call build again.
robocopy "%root%\src" "%state%\mirror.next\src" /MIR /XD bin obj /XF packages.lock.json /NJH /NJS /NDL /NFL >nul 2>nul
robocopy "%root%" "%state%\mirror.next" Directory.Build.props Directory.Packages.props global.json .editorconfig /NJH /NJS /NDL /NFL >nul 2>nul
pushd "%root%"
dotnet build src\Spurless\Spurless.csproj -c Release -nologo -v:quiet -clp:NoSummary -nodeReuse:false >"%state%\build.log" 2>&1
set "status=%errorlevel%"
popd
if not "%status%"=="0" exit /b 1
move "%state%\mirror.next" "%state%\mirror" >nul
exit /b 0

:nosdk
>&2 echo spurless: needs the .NET SDK 10.0; %found%.
>&2 echo   Get it from https://dotnet.microsoft.com/download/dotnet/10.0, or: winget install Microsoft.DotNet.SDK.10
exit /b 3
