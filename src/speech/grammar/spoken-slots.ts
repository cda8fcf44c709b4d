import type { ReaderName } from "../../language/readers/all.ts";

/**
 * How a slot is spoken, in the notation of command templates. `{name}` is another entry of this
 * table or one of the bench's own names. Narrower than what the readers take when typed: what
 * hands in gloves say aloud, and no free text. Every way through each entry is read by its reader,
 * which a test sees to. A reader without an entry cannot be spoken: optional parts with it are left
 * out of the grammar, and so are sentences that need it.
 */
export const spokenSlots: { readonly [name in ReaderName | SpokenPart]?: string } = {
  plural: "(two|three|four|five|six|seven|eight|nine|ten)",
  digit: "(one|two|three|four|five|six|seven|eight|nine)",
  teen: "(ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)",
  ten: "(twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)",
  longer: "(three|four|five|six|seven|eight|nine)",
  many: "({plural}|{teen}|{ten} [{digit}])",
  below: "({digit}|{teen}|{ten} [{digit}])",
  decimal: "point ({digit}|zero|{ten} {digit})",
  hundreds: "(a|{digit}) hundred [[and] {below}]",
  whole: "({below}|{hundreds}|{digit} thousand [{digit} hundred])",
  number: "({below} [{decimal}]|{hundreds}|{digit} and a half)",
  count: "({digit}|ten|twelve)",

  volume:
    "({whole} (millilitres|ounces)|{plural} (litres|quarts|gallons)|(a|one|half a|a half) (litre|quart|gallon)|{digit} and a half litres|{digit} point {digit} litres|{whole} (us|imperial) ounces)",
  temperature:
    "((fifteen|sixteen|seventeen|eighteen|nineteen|(twenty|thirty|forty) [{digit}]) [{decimal}] [degrees [celsius]]|(sixty|seventy|eighty|ninety) [{digit}] [{decimal}] [degrees] fahrenheit|(a|one) hundred [and {below}] [{decimal}] [degrees] [fahrenheit])",
  reading: "{temperature}",
  heat: "({below} [{decimal}] degrees [celsius|fahrenheit]|(a|one) hundred [and {below}] degrees [fahrenheit])",
  difference: "(half a degree|({digit}|point {digit}|{digit} point {digit}) (degree|degrees))",
  duration:
    "({many} (seconds|minutes|hours|days)|(a|one) (minute|hour)|half (a minute|an hour)|{plural} and a half (minutes|hours)|{plural} minutes [and] {many} seconds|one minute [and] {many} seconds|{longer} ({teen}|(twenty|thirty|forty|fifty) [{digit}]|oh {digit}))",
  delay: "([for] ({many} minutes|an hour|two hours|{plural} days)|until tomorrow)",
  dilution: "(one (plus|to) {below}|stock)",
  percent: "{below} percent",
  film: "({filmItem} [and {filmItem}])",
  filmItem:
    "((a|one) roll [of {format}]|(two|three|four|five|six) rolls [of {format}]|(two|three|four|five|six) {format})",
  format: "(one twenty|one thirty five|two twenty|four by five)",
  newRolls: "({film} [c forty one] [{push}])",
  rolls: "(roll ({digit}|ten|eleven|thirteen|fourteen|fifteen)|all rolls)",
  push: "((push|pushed|pull|pulled) (one stop|(two|three) stops)|(push|pull) (one|two|three))",
  solution:
    "(developer|first developer|second developer|colour developer|bleach|fixer|blix|stop [bath]|wash|stabilizer|wetting agent|prewash|reversal|conditioner|hypo clear)",
  role: "(stock|working) [solution]",
  fill: "(full|nearly full|three quarters full|half full|less than half full|nearly empty|a quarter full)",
  sign: "(yellow|dark|brown|black|cloudy|milky|crunchy)",
  verdict: "(passed|failed)",
  foul: "contaminated",
  mishap:
    "(light got in|someone (turned the light on|opened the door)|the lid came off|i (opened|dropped) the tank|[i] forgot the (stop|wash|fixer|bleach)|[i] forgot to agitate|(the tank leaks|it is leaking|the tank is leaking)|i spilled [the] (developer|bleach|blix|fixer)|[i] poured the (fixer|blix) first)",
  mixedDate: "(today|yesterday|{plural} (days|weeks) ago|a week ago|last {weekday}|on {weekday})",
  weekday: "(monday|tuesday|wednesday|thursday|friday|saturday|sunday)",
  clock: "({hour} ([o'clock]|thirty|fifteen|forty five)|noon|midnight)",
  hour: "(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)",
  when: "(tomorrow|tonight|in {many} (minutes|hours|days|weeks)|in an hour|[on] {weekday} [at {clock}])",
  country: "(us|imperial)",
  degrees: "(celsius|fahrenheit)",
  volumeUnit: "(millilitres|litres|ounces|quarts|gallons)",
  massUnit: "(grams|ounces|pounds)",
  mass: "{whole} (grams|ounces)",
  drain: "(sewer|septic|septic tank)",
  movement: "(inversion|rotary|stick)",
  speed: "((two|three|four|five|ten) times faster)",
  place: "in the (cellar|fridge|cupboard|dark)",
  container: "(glass|plastic)",
  partName: "(water|[part] (a|b|c|d)|starter)",
  toppedUp: "(topped up|filled up)",
  none: "nothing",
  reference: "reference",
  serving: "one person per tank",
  formula: "d seventy six",
  yes: "(yes|no|right|correct|wrong)",
};

/** Parts that only other entries name. */
export type SpokenPart =
  | "digit"
  | "plural"
  | "many"
  | "longer"
  | "teen"
  | "ten"
  | "below"
  | "decimal"
  | "hundreds"
  | "whole"
  | "filmItem"
  | "format"
  | "hour"
  | "weekday";
