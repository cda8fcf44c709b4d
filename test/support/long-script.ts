/** A long evening as script mode gets it: every kind of answer, question, refusal, cue and move. */
export const LONG_SCRIPT = `
# An evening with two tanks.
help
help values
how much water for a quart of developer
us
why
600 ml at 1+9
1:9 for 500 ml
cancel
sheets
settings
set lead to 20 seconds
bottle developer 1 quart mixed yesterday
bottles
note the thermometer reads half a degree high
hwo much water for a quart of developer
yes
flibber the gabbet
start colour negative two rolls tank north
yes
plan
ready
@+10s
in
@+1m
left
start developer one roll tank south
@+20s
south in
hold
@+2m
north out
left
@+25s
north in
again
temperature 37.5
@+7m
wait
@+3m
skip
no
undo
eyes
@+1h
summary
bottles
left
@+3
@yesterday
@2020-01-01T00:00
set zone Europe/Lisbon
learn a sheet
garden
cancel
@2027-03-28T00:30
note before the change
start blix for 90 minutes
ready
in
@2027-03-28T09:00
summary
mix developer
clear
undo
dark
light
why
999999999 litres at 1+9
1e309 ml at 1+1
-5 ml at 1+9

stop
`
  .trim()
  .split("\n");

/** Where the clock of the script starts. */
export const LONG_SCRIPT_AT = "2026-11-28T19:30:00Z";
