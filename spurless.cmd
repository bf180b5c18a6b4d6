@echo off
rem Builds the program when its sources have changed, then runs it in the folder of the caller.
rem Statuses of its own: 3 where it cannot be built or there is no SDK. Everything else is the program's.
rem A mirror of the sources is kept in .spurless; robocopy /L tells without MSBuild whether they still agree.
rem No variable stands inside a block of parentheses: the root's own name may hold some, as in Program Files (x86).
setlocal EnableExtensions DisableDelayedExpansion
rem Tools are the system's, and dotnet that of PATH: never a file of that name in the caller's folder.
set "NoDefaultCurrentDirectoryInExePath=1"
set "system=%SystemRoot%\System32"
set "root=%~dp0"
set "root=%root:~0,-1%"
set "state=%root%\.spurless"
set "program=%root%\src\Spurless\bin\Release\net10.0\spurless.dll"
set "DOTNET_NOLOGO=1"
set "DOTNET_CLI_TELEMETRY_OPTOUT=1"
set "DOTNET_GENERATE_ASPNET_CERTIFICATE=false"

set "dotnet="
for /f "delims=" %%d in ('call "%system%\where.exe" $PATH:dotnet.exe 2^>nul') do if not defined dotnet set "dotnet=%%d"
set "found=there is no dotnet on this machine"
if not defined dotnet goto :nosdk
call :current
if not errorlevel 1 goto :run

if not "%root:;=%"=="%root%" goto :badname
pushd "%root%"
"%dotnet%" --version >nul 2>nul
set "status=%errorlevel%"
popd
set "found=its version on this machine is another one (dotnet --list-sdks shows which)"
if not "%status%"=="0" goto :nosdk
if not exist "%state%" mkdir "%state%" 2>nul
if not exist "%state%" goto :unwritable
rem A file of its own name tells an unwritable folder from a lock that another call holds.
set "probe=%state%\probe.%random%%random%"
2>nul (>"%probe%" echo probe)
if not exist "%probe%" goto :unwritable
del "%probe%" 2>nul

rem Another call builds for ten minutes at most; a lock file that can never be opened is not waited for any longer.
set "tries=600"
:wait
set "locked="
2>nul (9>"%state%\lock" call :locked)
if defined locked goto :built
set /a tries-=1
if %tries% leq 0 goto :unwritable
"%system%\ping.exe" -n 2 127.0.0.1 >nul
goto :wait

:built
call :current
if not errorlevel 1 goto :run
>&2 echo spurless: the build failed:
>&2 "%system%\findstr.exe" /c:"error" "%state%\build.log"
>&2 echo   (everything it said: "%state%\build.log")
exit /b 3

:run
"%dotnet%" "%program%" %*
exit /b %errorlevel%

:locked
set "locked=1"
call :build
exit /b 0

:current
if not exist "%program%" exit /b 1
if not exist "%state%\mirror\src" exit /b 1
"%system%\robocopy.exe" "%root%\src" "%state%\mirror\src" /MIR /L /XD bin obj /XF packages.lock.json /NJH /NJS /NDL /NFL >nul 2>nul
if errorlevel 1 exit /b 1
"%system%\robocopy.exe" "%root%\demo" "%state%\mirror\demo" /MIR /L /XD .spurless /NJH /NJS /NDL /NFL >nul 2>nul
if errorlevel 1 exit /b 1
"%system%\robocopy.exe" "%root%" "%state%\mirror" Directory.Build.props Directory.Packages.props global.json .editorconfig /L /NJH /NJS /NDL /NFL >nul 2>nul
if errorlevel 1 exit /b 1
exit /b 0

:build
call :current
if not errorlevel 1 exit /b 0
>con echo spurless: building, about half a minute the first time ...
if exist "%state%\mirror" rmdir /s /q "%state%\mirror"
if exist "%state%\mirror.next" rmdir /s /q "%state%\mirror.next"
rem Taken before the build: a file saved while it runs makes the next call build again. No server of the compiler is left that holds the lock.
"%system%\robocopy.exe" "%root%\src" "%state%\mirror.next\src" /MIR /XD bin obj /XF packages.lock.json /NJH /NJS /NDL /NFL >nul 2>nul
"%system%\robocopy.exe" "%root%\demo" "%state%\mirror.next\demo" /MIR /XD .spurless /NJH /NJS /NDL /NFL >nul 2>nul
"%system%\robocopy.exe" "%root%" "%state%\mirror.next" Directory.Build.props Directory.Packages.props global.json .editorconfig /NJH /NJS /NDL /NFL >nul 2>nul
pushd "%root%"
"%dotnet%" build src\Spurless\Spurless.csproj -c Release -nologo -v:quiet -clp:NoSummary -nodeReuse:false -p:UseSharedCompilation=false -p:RunAnalyzers=false -p:TreatWarningsAsErrors=false >"%state%\build.log" 2>&1
set "status=%errorlevel%"
popd
if not "%status%"=="0" exit /b 1
move "%state%\mirror.next" "%state%\mirror" >nul
exit /b 0

:unwritable
>&2 echo spurless: cannot write to "%root%"; copy the folder to where you may write.
exit /b 3

:badname
>&2 echo spurless: the build tools cannot work in a folder with ; in its name: "%root%"
>&2 echo   Give it another name, or copy it elsewhere.
exit /b 3

:nosdk
>&2 echo spurless: needs the .NET SDK 10.0; %found%.
>&2 echo   Get it from https://dotnet.microsoft.com/download/dotnet/10.0, or: winget install Microsoft.DotNet.SDK.10
exit /b 3
