/** What people say around a question that holds nothing for it; a number in it is marked as what it is. */

export const BEFORE = [
  "Hey guys, quick one.",
  "Morning all.",
  "First post here, be gentle.",
  "Sorry for the long post.",
  "Been at this since 1998 and I still have to look this up.",
  "Boss wants an answer before lunch.",
  "Not my usual kind of job.",
  "The homeowner is already mad at the last guy, who walked off the job.",
  "I got my license in 2017.",
  "Customer paid $1,850 just for the permit and the drawings.",
  "My apprentice and I can't agree on this one.",
  "I did look it up but my book is in the truck.",
  "Ok so here goes.",
  "Second visit to this place, the gate code changed again.",
] as const;

export const BETWEEN = [
  "Inspector comes Thursday.",
  "Supply house wants $640 for it and I don't want to buy it twice.",
  "The last guy left no drawings.",
  "Parking there is a pain.",
  "I already argued with my partner about it.",
  "The place was built in 1987.",
  "It rained all week so we are behind.",
] as const;

export const AFTER = [
  "Thanks in advance.",
  "Thanks guys!",
  "Appreciate it.",
  "Any help is welcome, inspection is on the 14th.",
  "I owe you a beer.",
  "Just want to get it right the first time.",
  "Sent from my phone.",
  "They quoted her $4,200 for it last year.",
  "I'd rather ask than guess.",
  "Trying to wrap this up by Friday.",
] as const;
