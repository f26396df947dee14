/** The words electricians use for transformers, in the phrase language. */
export const TRANSFORMER =
  "((dry type|dry|isolation|step( )?down|step( )?up|distribution|control|stepdown|stepup|pad( )?mount(ed)?|pole|utility|poco) )*(transformers?|xfmrs?|xfms?|x formers?|xformers?|trafos?|tx)";
export const DEVICES =
  "(over( )?current( protect(ion|ive))?( devices?)?|ocpd?s?|fuses?|fusing|(circuit )?(breakers?|brkrs?|cbs?)|protect(ion|ive)( devices?)?|devices?|mains?( breakers?)?)";
export const ONLY = "(only|alone)";
