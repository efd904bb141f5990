@echo off
rem Runs the command diesurvey; builds it first if it is missing.
rem After changing sources, build again with: mvn -q -B -Dmaven.test.skip=true package
rem DIESURVEY_JAVA_OPTS adds options for Java, for example -Xmx8g.
setlocal
set "ROOT=%~dp0..\.."
set "TARGET=%ROOT%\segment-cli\target"

set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
"%JAVA%" -version >nul 2>&1
if errorlevel 1 (
  echo diesurvey: Java is missing; install a JDK 17 or newer and set JAVA_HOME or PATH. 1>&2
  exit /b 2
)

set "JAR="
for %%J in ("%TARGET%\segment-cli-*.jar") do set "JAR=%%~fJ"
if defined JAR if exist "%TARGET%\lib" goto run

where mvn >nul 2>&1
if errorlevel 1 (
  echo diesurvey: Maven is missing; install Maven 3.8 or newer and put it on PATH. 1>&2
  exit /b 2
)
echo diesurvey: building once, about 60 s and more if libraries must be fetched 1>&2
pushd "%ROOT%"
call mvn -q -B -Dmaven.test.skip=true -Dspotless.check.skip=true package 1>&2
if errorlevel 1 (
  popd
  echo diesurvey: the build failed, as shown above. 1>&2
  exit /b 2
)
popd
for %%J in ("%TARGET%\segment-cli-*.jar") do set "JAR=%%~fJ"

:run
rem The thorough compiler is kept for what runs long; see the launcher for other systems.
set "QUICK=-XX:TieredStopAtLevel=1"
for %%C in (batch benchmark check-estimates draw masks score score-comparisons score-micrometers teach train train-changes) do if "%~1"=="%%C" set "QUICK="
"%JAVA%" -XX:+UseSerialGC -XX:MaxRAMPercentage=60 %QUICK% -Djava.awt.headless=true "-Ddiesurvey.nativeFolder=%TARGET%\native" %DIESURVEY_JAVA_OPTS% -jar "%JAR%" %*
exit /b %errorlevel%
