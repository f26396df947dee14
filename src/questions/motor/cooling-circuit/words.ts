/** The words electricians use for cooling equipment and for what its nameplate says, in the phrase language. */
/** A bare number counts where amperes are all it can be: not as the first of two voltages. */
export const AMPERES = "({A}|{n}(?!( )?(-|\\/|to)( )?{V}))";
/** How many: not the figure of a name before it. */
export const COUNT = "((?<!(rla|lra|fla|amps?|mca|mocp|current|load|of) ){n} )?(x )?";
/** What may stand between a name and its figure. */
export const IS =
  "(( )?(:|=|@)| of| is| are| at| says| reads| rated| rating| marked| listed| shows| calls for| on the label| on the nameplate| value)*(\\s)*";

const CIRCUIT = "(circuit|ckt|cct|circ\\.?)";
export const MCA =
  `(mca|min(imum|\\.)?( branch)?( ${CIRCUIT})? amp(acity|acities|s)?|min(imum|\\.)? supply circuit( ampacity)?|circuit ampacity|min(imum|\\.)?( branch)? ${CIRCUIT}(?=${IS}({A}|{n})))`;
const DEVICE =
  `(over( )?current( protect(ion|ive|or))?( devices?)?|ocpd?s?|fuses?|(${CIRCUIT} )?(breakers?|brkrs?|brks?|bkrs?|cb)|hacr( breakers?)?|protect(ion|ive)( devices?)?|devices?)`;
const DEVICES = `${DEVICE}((( )?\\/( )?| or | and )${DEVICE})*`;
export const MOCP =
  `(mocp|mopd?|mfs|(max(imum|\\.)?|largest|biggest)( allowable| allowed| permitted| size| rated| time delay)* ${DEVICES}( sizes?| ratings?| amps?)*|over( )?current protection)`;
export const LEAST_DEVICE = `min(imum|\\.)? ${DEVICES}( protection)?( sizes?| ratings?)*`;
export const RATED = "(rla|r\\.l\\.a\\.?|rated load( current| amps?)?|running load amps?)";
export const SELECTION = "(bcsc|branch circuit selection( current)?|selection current)";

export const COMPRESSOR =
  "(?<!air )(semi hermetic |hermetic |scroll |reciprocating |screw |refrigerant |motor |a\\/?c |cooler |freezer |outdoor )*comp(ressors?)?( motors?)?";
const FAN_OF =
  "(condenser|cond\\.?|outdoor|indoor|evaporator|evap\\.?|condensing|supply|exhaust|air handler|unit|unit's|its)";
export const FAN = `(${FAN_OF} )*(fan( motor)?s?|fan motors?|blower( motor)?s?|ofm|ifm)`;
export const HEAT =
  "((electric|aux(iliary)?|back( )?up|strip|resistance|supplemental|supplementary|emergency) )*(heat(ing)?( strips?| kits?| elements?| coils?)?|heaters?|heat( )?strips?|strips?|heat elements?)(?! pump)";
export const COOLS =
  "(air( )?condition(er|ers|ing)( unit)?s?|a\\/cs?|acs?|acs? units?|central air|heat( )?pumps?|hp(?= unit)|condens(er|ers|ing units?)|mini( )?splits?|split systems?|outdoor units?|roof( )?top units?|rtus?|pack(age|aged) units?|ptacs?|chillers?|walk in( cooler| freezer)?s?|(walk in )?(coolers?|freezers?)|refrigeration( units?| equipment)?|ice (machine|maker)s?|cooling (unit|equipment)s?)";
export const ROOM =
  "((room|window|through( the)? wall|wall|portable|cord and plug|plug in) )+(type )?(air( )?condition(er|ers|ing)|a\\/c|ac)( unit)?s?|window (units?|shakers?)|(ac|a\\/c) window units?|room units?";
