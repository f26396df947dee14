/** How many dwelling units a building has that is called by their number: a duplex, a triplex. */
export const HOMES_IN: Readonly<Record<string, number>> = {
  "two-family": 2,
  "three-family": 3,
  "four-family": 4,
  "six-family": 6,
};
