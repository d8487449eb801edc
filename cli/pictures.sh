#!/bin/sh
# Makes the pictures of the README from the program: its answer on a terminal, and a sheet.
#   sh cli/pictures.sh                  KARTWRIGHT=path sh cli/pictures.sh     else build/kartwright
# The second needs the group `browser` of tests/packages.sh. A sheet that is as it was is not
# pictured anew, since another browser would draw it a little otherwise.
set -eu
cd "$(dirname "$0")/.."
program=${KARTWRIGHT:-$(pwd)/build/kartwright}
folder=cli/pictures

/usr/bin/python3 -B $folder/terminal.py "$program" >$folder/terminal.svg.new
mv $folder/terminal.svg.new $folder/terminal.svg

sum=$("$program" advise --debrief scenarios/harbour/heat-2.yaml --format html | sha256sum)
if [ ! -f $folder/sheet.png ] || [ "$sum" != "$(cat $folder/sheet.sha256 2>/dev/null)" ]; then
  /usr/bin/python3 -B tests/browser/run.py "$program" --picture advise-change $folder/sheet.png
  echo "$sum" >$folder/sheet.sha256
fi
