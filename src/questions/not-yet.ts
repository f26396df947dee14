/**
 * Questions of the trade that are understood by name and not worked out here yet. They are declined by that name, so that
 * none is answered as something else. A kind that gets its own folder leaves this list.
 */
import type { Cue } from "../text/phrases.ts";

export type NotYet = { readonly title: string; readonly cues: readonly Cue[] };

/** These outweigh what a text says of appliances, sizes and ratings, which every question mentions. */
const OUTRIGHT = 12;

export const notYet: readonly NotYet[] = [
  {
    title: "load added to an existing service",
    cues: [{
      pattern:
        "{section 220.83|220.87|120.83|120.87}|existing ({A} )?(load|service|house|home|panel).{0,160}(add|adding|added|new|take|handle|support)|(highest|peak|recorded) (recorded )?demand|max(imum)? demand (last|over|of the year|in the last)|utility data|(adding|add|is to be added).{0,80}(house|home|service).{0,40}{A}.{0,60}",
      points: OUTRIGHT,
    }],
  },
  {
    title: "load of two-family and multifamily dwellings",
    cues: [{
      pattern:
        "{section 220.84|220.85|120.84|120.85}|duplex|two family( dwelling| house| home)?|{n} legs and (the )?neutral|unit a (&|and) b|both units|apartment (building|house|complex)(?!.{0,80}(ranges?|dryers?|cook))|{n} (apartments|units|dwelling units).{0,80}(optional|heat|service|connected)|(above|over) {A} at {%}|unit feeder|{V} legs?.{0,120}load at {V}",
      points: OUTRIGHT,
    }, { pattern: "multi( )?family", points: 3 }],
  },
  {
    title: "load of stores, offices, kitchens and other occupancies",
    cues: [{
      pattern:
        "{section 220.56|220.44|220.47|220.88|220.86|120.56|120.47}|restaurants?|cafes?|recreational vehicle|rv (park|site|pedestal)s?|marinas?|{ft2} (foot )?school|school building|commercial (kitchen|building|occupancy|feeder)|kitchen (equipment|demand|table)|retail|(hardware |grocery |department )?store {ft2}|(office|store|school|church|warehouse|bank)s? .{0,60}(lighting|receptacle|load)|receptacle (load|demand)|{n} (general )?receptacles.{0,80}(demand|load)|multi( )?outlet",
      points: OUTRIGHT,
    }],
  },
  {
    title: "available fault current",
    cues: [{
      pattern:
        "(available |bolted |short circuit |line to line |three phase |l( )?-?l )*fault( current| amps?)|short circuit (current|amps?)|afc|aic|kaic|interrupting rating|bolted|infinite (bus|source|primary)",
      points: OUTRIGHT,
    }],
  },
  {
    title: "fault path: whether a breaker trips on a fault to the case",
    cues: [{
      pattern:
        "fault to (the )?(case|frame|metal|ground)|ground fault current|fault.{0,60}(times|multiple|trip)|loop impedance|(breaker |will it |does it |does the breaker |{n}x )trip.{0,60}fault|fault.{0,80}(case|frame)|(only )?fault (return|path)|(for |draws |draw )?{n}( )?x trip|\\d+ ?x trip|l to (case|ground) fault|ignore source|{n} times the breaker",
      points: OUTRIGHT + 2,
    }],
  },
  {
    title: "solar, storage or generator breakers on a busbar",
    cues: [{
      pattern:
        "(120|{n}|{%}) ?(percent )?rule.{0,40}(bus|pv(?![a-z])|solar)|(pv(?![a-z])|solar|back( )?feed|inverter).{0,80}(bus|bus ?bar|main|breakers?)|micro ?inverters?|(bus|busbar).{0,80}(pv(?![a-z])|solar|back( )?feed)|load side (tie|connection)",
      points: OUTRIGHT,
    }],
  },
  {
    title: "box fill",
    cues: [{
      pattern:
        "box (fill|volume|size)|{in3}|cubic inch(es)?|(octagon(al)?|square|device|junction|outlet|gang|handy) box(es)?|(in|fit) (a|an|the) ({in} )?(square |octagon )?box|fixture stud|hickey",
      points: OUTRIGHT,
    }],
  },
  {
    title: "raceway fill",
    cues: [{
      pattern:
        "(conduit|raceway|pipe|emt|pvc) fill|(smallest )?trade size|what size (conduit|emt|pvc|raceway|pipe)(?!.{0,60}(drop|breaker))|(emt|conduit|pvc|raceway|rmc|imc) size (for|of)|how many.{0,40}(wires?|conductors?).{0,60}(conduit|emt|pvc|pipe)|(number|count) of.{0,40}(wires|conductors).{0,60}(conduit|emt|pvc|pipe)|fit in (a |an |the )?({in}|.{0,20}(conduit|emt|pvc))|({in} )(emt|sch(edule)? {n}|pvc|conduit|imc|rmc).{0,30}(ok|fit)|nipple.{0,40}(trade|fit|size)|emt for (only )?",
      points: OUTRIGHT,
    }],
  },
  {
    title: "panel schedule and balance of the legs",
    cues: [{
      pattern:
        "panel schedules?|balance( the)?( legs| phases| panel| a b c|:)?|leg loads?|spaces used|legs balance|(what's|what is|how much|comes) (comes )?(back )?on the neutral|neutral (amps?|current) with|shar(e|ed|ing|es) a neutral|({A}|{n}).{0,80}(phase|leg) (a|b).{0,120}neutral",
      points: OUTRIGHT,
    }],
  },
  {
    title: "panel checks: torque, working space, bonding on its own",
    cues: [{
      pattern:
        "torque|tightening|working (space|depth|clearance)|clearance|clear (working )?space|(bond|bonded|isolated?).{0,40}(or not|isolated)|(do i |should i )?bond (the )?neutral|neutral bonded",
      points: 5,
    }],
  },
];
