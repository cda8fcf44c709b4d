/**
 * One long evening, said line by line; `@` lets that many seconds go by. It is there to pass
 * through every command, right words and wrong ones, and not to be a sensible evening.
 */
export const eveningScript: readonly string[] = `
hello
help
help mix
help me with bottles
help values
help nonsense
settings
set zone Europe/Lisbon
use US ounces
set lead 30 seconds
set the pour window to 20 seconds
use celsius
sheets
show saltmarsh demo
show colour negative
how much water for a quart of developer
why
how much water for 500 ml of developer
what goes into 650 ml of blix by the demo sheet
no
use the demo
cancel
mix 1 litre of developer
water in
B in
A in
A in
B in
clear
blix B in
B in
clear
undo
clear
C in
clear
full
bottle developer 1 litre mixed today
bottle it
blix
1 litre
yesterday
bottle stabilizer 32 ounces mixed today called Walnut
bottle fixer 1 litre called Akorn mixed today
bottle developer 1 litre called cola mixed today
bottles
how old is Acorn
when does Acorn expire
label for Walnut
how old is the developer
how old is the fixer
opened fixer concentrate 500 ml today called Cactus
Acorn stands in the cellar
where is Acorn
Acorn cost 14 euros
what does a roll cost
poured 300 ml from Acorn into the small jug
poured 5 litres from Acorn
back in Acorn
Banjo
Acorn
nothing back in Walnut
Acorn is half full
fill
Acorn
full
Walnut looks cloudy
clip test Walnut passed
how many rolls are left in the developer
rolls left
Acorn
which bottle should I use
can I do two more rolls in Acorn
clip test the developer
passed
the clip test failed
Acorn
blix went into Acorn
recall Acorn
start developer from Acorn one roll
no
clip test Acorn passed
Acorn is suspect
trust Acorn again
yes
I poured developer into Acorn
the thermometer was off
red
replenish the developer
how much replenisher does Acorn need after two rolls
Acorn has done 1 roll
yes
set the count of Acorn to 0 rolls
yes
our drain is septic
can I pour used blix down the drain
how do I get rid of the developer
the council collects fixer
what do I do with old fixer
mix a litre of blix
yes
mix 650 ml of blix
no
how much water
how much b
i put c in by mistake
stop mixing
dilute 500 ml 1+9
dilute 500 ml 1:9
why
500 ml of 5 % from 28 % acid
mix 20 % with 5 % to get 8 %
mix 20 % with 5 % to get 50 %
10 percent solution, 250 ml
scale D-76 to 600 ml
d-76 for 32 us ounces in grains
formulas
swap 50 g anhydrous sodium carbonate for the monohydrate
1 litre at 49 c from 60 c and 15 c
1 litre at 80 c from 60 c and 15 c
trim 1 litre from 37.2 to 38 with 60
convert 20 us fl oz to ml
what is 100 f in c
area of four 4x5
how many units are two 120 and a 135
how much developer can I mix from 60 ml of part A
how long is the blix
how long for push one
how long for push two from Acorn
what time is it
dark
left
light
start developer two rolls tank north
plan
ready
@ 12
north in
temperature 38.1
temperature 37.2
temperature 5 c
no
left
hold
@ 70
go on
hold
go on
again
in
out
no
note the second roll was loaded wet
trouble
light got in
developer
@ 85
out
north summary
count is right
nothing went in tank north
no
summary
share
undo
start saltmarsh demo one roll of 120 tank south
start stabilizer tank east
start wash for 3 minutes tank west
wait
south wait
south ready
@ 15
south in
left
where are we
ready
temperature 38
@ 45
skip the wash in tank south
yes
skip developer in tank south
retire Acorn
stop tank east
undo
stop tank east
yes
@ 400
south out
south next
@ 30
what now
cancel
next in tank south
@ 900
left
summary of tank south
bottles
the count is wrong
1
nothing went in
yes
remind me friday 8pm to order fixer
remind me to check the bottles every sunday
remind me when Acorn runs out
remind me six months after I mixed it
Acorn
remind me in two minutes to wash the jug
reminders
@ 180
snooze ten minutes
snooze
put off order fixer until monday
daily message
stop the daily message
daily message at 8
8:00 in the morning
quiet from 21:00 to 9:00
no quiet hours
I checked the thermometer
@ 700
reminder done
tick off order fixer
forget the reminder about bottles
forget reminder nonsense
eyes
I can't breathe
emergency
wet
left
bench mode
learn a sheet
garden
C-41
ounces
millilitres
developer, wash
1000
650
43
A 100 ml, B 400 ml
A 100 ml, B 100 ml
3:25
38.2 plus or minus 0.2
first 30 seconds then 5 seconds every 30
8
6 weeks
3:00
skip
skip
change 6 to 700 ml
change 99 to 1
no
yes
show garden
correct sheet garden
change developer time to 3:30
yes
stop teaching
use no sheet
start developer at 39
@ 30
next
@ 200
out
stop
undo
retire Walnut
yes
show the sheet
why
again
strat developer
yes
stop
thank you
gibberish of the worst kind
mix 1e309 ml of developer
start developer for -3 minutes
start colour negative with three 135 tank north
yes
@ 4000
summary
share
undo
yes
tank willow has two 35 mm reels of 300 ml each or one 120 reel of 500 ml
tank willow is turned over by hand
tanks
add two 135-36 C-41 called jetty
add a roll of 120
rolls
plan tonight until 23:00
why
mark jetty 1 important
push jetty 2 one stop
plan tonight
can I do two 120 tonight until 23:00
show roll 3
drop roll 3
remove jetty
no
start colour negative with jetty 1 tank willow
yes
start colour negative with roll 3
yes
set one person per tank
set one person for all tanks
rehearse developer five times faster tank alder
rehearse developer 1000 times faster
left
alder in
@ 60
summary of tank alder
chart
forget tank willow
thermometers
the glass thermometer is the reference
the red thermometer reads 38.4 where the reference reads 38.0
the red thermometer reads 48 where the reference reads 38
thermometers
tank drop: developer 38.5, tank 22, 500 ml
developer was 39.5 before and 38.1 after the pour, tank was 21, 500 ml in tank north
tank drop: developer 39, tank 21, 500 ml in tank north
how warm must the developer be for 38.2 with the tank at 21 with 500 ml
bath 46, ten minutes ago 48, room 20: when is it 38
published times
times for D-76
yes
how long at 36 C
start developer at 36.5 C tank drift
middle
in
@ 40
developer is at 37 C tank drift
keep
it was 37.1 C 10 seconds ago
strike that reading
stop tank drift
volume 60 percent
louder
softer
say less
say more
speak normally
wrap up
skip
the hose came off
first look
faint
cloudy
skip
yes
same place
first look by scanner
201 128 90
percent
180,180,176
first look all good
look time
ask for the first look at 21:00
set first look after 2 days
first look off
summary picture
summary as markdown
summary as json
season
season since march
share season
yes
share season since march
no
season since 1 may 1990
start developer one roll tank larch
in
wrap up
first look
@ 300
developer was 38 at the start and 60 at the end
developer was 38 at the start and 37.9 at the end
no
all runs
runs with the red thermometer
runs with nobody
all rehearsals
last time I pushed one stop
last time I pushed three stops
how often did the wash run short
how often did I push
what temperature do I usually end at
how long do I usually develop
what is my usual starting temperature in 2020
show run 999
sign in the red thermometer
sign in nothing
sign in
Acorn
what is in use
who has the red thermometer
who has nothing
handover to Dora
last handover
sign out Acorn
sign out
sign out
who did what
who poured the blix
who mixed Acorn
return or retire
does Acorn go back
export everything
exports
restore everything
restore from home.zip
forget everything about me
no
forget everything about nobody
forget the whole bench
rather not
share
no
share
yes
share picture
yes
share repeatable
yes
take this block
nonsense
{"schema":"wetside-repeatable","version":1,"name":"lent","process":"C-41","invented":true,"push":1,"film":[{"format":"120","count":1}],"baths":[{"name":"developer","kind":"developer","sense":"exact","time_s":200,"temp_c":38,"push":{"stops":1,"time_s":240}}]}
no
yes
the run of today
what went wrong
they came out thin
another film
the weather
faint
why
don't know
enough
confirmed 1
confirmed 99
it was the bottle
it was the thermometer
red
the negatives are blank
north
no numbers
enough
why
it was contamination
drying marks on the film
south
on the surface
yes
it was hard water
what went wrong with tank south
my film is milky, all rolls
cancel
confirmed 1
can i open the tank
thermometer broke
i forgot the stop bath
light got in
developer
what now
acorn into banjo
`
  .trim()
  .split("\n");
