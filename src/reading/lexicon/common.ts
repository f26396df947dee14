import everyday from "./everyday-words.txt" with { type: "text" };
import site from "./site-words.txt" with { type: "text" };

/** Words that carry no fact and no goal of their own. A word that is in no list is shown back. */
export const COMMON: ReadonlySet<string> = new Set(
  (`a about above after again against ago ahead all allow along already also always am an and another any anybody anyone anything
  apart are aren't around as ask asked asking at available away back bad basic be because been before behind being below best better
  between both bought bring bro buddy but buy by bye call called can can't cause cheap check city clear close come comes coming
  confirm considering could couldn't country county couple currently customer cut day days dear decided did didn't different do does
  doesn't doing don't done down each easy either else end enough equal etc even ever every everybody everyone everything exact exactly
  example existing expect far fast feel few figure figured figuring final find finished first folks for found from front full further get
  gets getting give given gives go goes going gonna good got gotta great guess guy guys had has have haven't having he he's hello
  help helping her here here's hey hi him his hold home hope how how's however i i'd i'll i'm i've idea if i'd in inside inspector install
  installed installing into is isn't it it'd it'll it's its itself just keep kind kinda know known last later least leave left less let
  let's like likely little live located long look looking looks lot lots made main make makes making man many matter may maybe me mean
  means might mind mine more morning most move moving much must my myself name near need needed needing needs neighbor never new next
  nice no nobody none not note nothing now number of off often oh old on once one ones only onto open or order ordered other others our out
  outside over own part people per perhaps place plain plan planned planning plans please pls plus point possible prefer pretty
  probably problem provide pull purpose put putting question questions quick quite rather read ready real really recommend regular
  remember replace replaced replacing require required requirement requirements requires right rough roughly rule run running runs said same saw say saying
  says see seems sell separate serve served serves serving set several shall she should show side simple since sir sits small so some
  somebody someone something sometimes soon spec specs standard start started still stop story stuff such suggest supply supplied supplying supposed sure
  take taken takes taking tell than thank thanks thank's that that'd that'll that's the their them then there there's these they
  they're they've thing things think thinking this those though thought through thru thx til till time times to today together told tomorrow too
  took total towards tried try trying turn two type types u under unless until up upon upto us use used uses using usual usually
  various very via wait want wanted wants was wasn't way we we'll we're we've week well went were what what'll what's whats when
  where whether which while who whole whose why will with within without won't wonder wondering word words work worked working works
  worth would wouldn't write wrong yeah year years yep yes yet yo you you're you've your yours ya y'all im ive dont doesnt whats isnt cant
  thats lets approx approximately appr around nearly almost max maximum min minimum least most rated nominal typical calc calculate
  calculated calculation compute computed determine determined estimate value values result answer answers per nec code codes section
  edition electrical electrician electricity electric inspector inspection job site project boss foreman helper apprentice journeyman tech
  contractor engineer homeowner owner landlord tenant builder husband wife dad mom brother uncle friend son daughter neighbour buddy
  guy morning afternoon evening tonight yesterday monday tuesday wednesday thursday friday saturday sunday january february march april june
  july august september october november december spring summer winter fall cold raining rain finally weather hope truck ladder store
  bought find figure out please advise advice thoughts opinion suggestions ideas anyway btw fyi lol ok okay hmm um uh well so ugh hah
  feed feeding fed feeds connect connected connecting tie tied hook hooked wired wiring wire rewire pull pulled pulling
  go going goes gone come install mount mounted hang hung located sits sitting placed added adding add adds include includes included including
  rest remaining everything else consider assuming assume assumed given let's suppose
  el la los las un una de del para por con que en y es cual cuanto cuantos cuanta cuantas necesito quiero tengo mi su al lo se hay
  size sized sizes sizing particular specific correct wrong ok too also ea unit units system type kinds job
  dwelling-unit residential client 's whose whom do does did
  ran hi-there heading getting comes ends runs sends basically currently actually simply mostly entire entirely
  wont id theres heres hes shes youre youd theyre theyve theyd weve itll thatll wheres whos aint wanna gimme lemme couldnt wouldnt
  shouldnt didnt hasnt havent wasnt werent arent kinda sorta supposedly apparently somehow somewhere
  cutter laser vending popcorn pottery reuse landlord salesman installer treadmill massage shack lobby cord tops neon cove
  bare stranded w amount plenty bunch piece pieces space extra spare inch hot`).split(/\s+/),
);

let all: ReadonlySet<string> | undefined;
/** Taken apart where a text first has a word that nothing else knows. */
const everydayWords = (): ReadonlySet<string> =>
  all ??= new Set(
    `${everyday}\n${site}`.split("\n").filter((line) => !line.startsWith("#")).flatMap((line) => line.split(/\s+/)),
  );
/** Forms in which an everyday word may stand. */
const ENDINGS = ["s", "es", "d", "ed", "ing", "ly", "'s"];
/** Whether a word is everyday English: part of the story, never a slip of a word of the trade. */
export const isEveryday = (word: string): boolean =>
  COMMON.has(word) || everydayWords().has(word) ||
  ENDINGS.some((ending) => word.endsWith(ending) && everydayWords().has(word.slice(0, -ending.length))) ||
  (word.endsWith("ing") && everydayWords().has(`${word.slice(0, -3)}e`));
