/** What a bench is asked whose record somebody has meddled with: it looks at all there is. */
export const asked: readonly string[] = `
eyes
left
bottles
start colour negative with one 135-36 tank north
reminders
thermometers
rolls
recall Heron
plan tonight until 23:30
rolls left
show the sheet
summary
share
chart
season
what went wrong
runs with nobody
who did what
what is in use
last handover
in
temperature 37.9
out
set zone Asia/Tokyo
how old is Heron
retire Osprey
daily message
settings
tanks
what does a roll cost
when does Acorn expire
how long is the developer
can I do two more rolls in Heron
mix 1 litre of developer
poured 300 ml from Heron into the jug
replenish the developer
reminder done
snooze ten minutes
count is right
show run 1
change developer time to 3:30
forget everything about Dora
export everything
how long do I usually develop
last time I pushed one stop
first look
wrap up
yes
again
why
undo
`
  .trim()
  .split("\n");
