/** Everyday words that lie one letter from a word of the trade and must not be "mended" into it. */
export const COMMON_WORDS: ReadonlySet<string> = new Set(
  `able above across actual add added adding addition adds after again ahead allow allowed along already also although always
  among another answer anything apart area around aside back base based basic been before began behind being below best better
  between beyond both bottom bought bring building built came cannot card care carry case cause change check choose clear close
  code cold come common complete correct cost could count course cover current customer date days dead deal deep depth
  different does done door double down draw drew drive driveway during each early easy edge either else empty end enough even
  every exact example except exist existing extra fact fail fall family fast feel field figure fill final find fine finish fire
  first five fixed floor follow force form found four free fresh from front full future gave give given glad goes gone good
  great group grow guess half hand hang happen hard have head hear held help here high hold hole home hope hour house idea
  inside instead into issue item join just keep kept kind knew know known large last late later lead least leave left length
  less level life like likely line list little live local long look lose lost lots lower made main make many mark matter maybe
  mean means meet might mind mine minimum minus miss month more most mother move much must name near need never next nice note
  nothing number often once only onto open other outer over owner page paid part pass past path pick place plan play plus point
  poor power pretty price problem proper pull push quick quite raise ran rate rather read real reason rest result ride right
  rise road roof room rough round rule running runs safe said same save says seem seen sell send sent set seven several shed
  shop short should show shut side simple since single site size sized skip slow small smaller sold some soon sort space speed
  spot stand start state stay step still stop store street strong such suit sure table take taken talk tall tell than thank that
  their them then there these they thin thing think this those three through time times told took total track trade tree true
  trust turn type under unit until upon used user uses using very view visit wait walk wall want wants warm wasn water ways wear week
  well went were west what when where which while white whole whose wide will wind wish with within without word work working
  world worse worth would wrong yard year years your yours`.split(/\s+/),
);
