/**
 * Everyday words that lie one letter from a word of the trade, or are one: no word is "mended" from or into these.
 * The test of mending tells when a new phrase makes one missing.
 */
export const COMMON_WORDS: ReadonlySet<string> = new Set(
  `unused able about above account across acting actor actors actual actually add added adding addition additional adds
  after again against ahead aired aires airing allow allowed alone along already also alternate although always
  american among anger another answer anything apart appropriate approximately area armor armour around articles
  aside assume assumes attacked available back baker balance base based basic bates beach beating beats because been
  before began beginning begins behind being below best better between beyond bills binding blocked blocking blood
  board bones boot both bottom bought bound brain bridge bridges bring brown building buildings built bunch buried
  buses calculated calls came camps canadian cannot card care carried carrier carriers carry case cause center
  central centres chang change changed changing charge charged chart charter chase check choose circa circus cities
  class clear close code coins cold combined come comes coming commercial common complete complex concern concert
  condition conduct congo connected contact contractor control convent coordinate coordinates correct cost could
  count county course courts cover covered crash crew cross current currently customer date dated dates dating dawn
  days dead deal debate debated decay dedicated deep degree delete della depth derives design different direct
  distance distribution does done dont door double down draw drew drive driver drivers driveway dropped during each
  early earth easy eating edge effective eight either elder elements else emergence empty end ending energy enough
  enters entire entrance entry equal equipment equivalent even every everything exact example except exist existing
  extension extra fact factory fail fails fall falling fame family farmers fast fauna feel feeling feels fees field
  fight fighting fights figure filed filing fill filling final find finding fine finish finishes fire fires firing
  first five fixed flags flame flight flights flower flowers flown follow followed force forgot form former found
  foundation four framed frames fred free fresh friend fringe from front full future gain gains games gave general
  gifts give given glad goes gone good grace grass great greatest green ground grounds group grow grows guess guest
  half hand handled hang happen hard have having head headed header heading healing hear hearing hearts heath heavy
  held help here high hills hired hiring hold holding holds hole holes holmes home homer hope hopes horse horses
  host hosts hour hours housed household households idea ignored increased individual industrial inside instead
  internal into issue item itself join jumped just keep keeping kept kick killing kills kind knew know known label
  lacked lacking landscapes laps large largest last late later lead least leave leeds left legal length less letter
  level levels life lightning like likely limit line linear lines list listed lists little live living loans local
  located location logging long look looked looking lords lose losing lost lots lower machine made main maine mainly
  major make makes many mark marked marker marking matter maximum maybe mean means measure measures meet mere metal
  methods metro meyer might miles mind mine miners minimum minus miss mixed mixture mobile moist month more most
  mostly mother mound mount mouse move much must name natural near need needed needing needs negative network never next
  nice night note nothing number office often once only onto open opened opera operas operated operating orange
  other outer outside over owner page paid part particle pass past paste path pending percent peter peters phrase
  phrases pick picks piece place places plan plane planes planet planets play player players plus pocket point polar
  polls poor potter pound present presidential press pressed pretty price problem process prof proper protect
  protected protection pull purpose push quick quite race raced racing rain raise raised ran ranger rangers ranks
  rate rates rather ratio reach read ready real really rear reason recent recommend regular remove required reside
  residency rest result return ride ridge right rise road roads rocket rockets roles rome roof room ross rough round
  rounded rule running runs safe safety said sailing same save saying says seated seating seats second section seeds
  seem seen selection sell send sent separate serve serves serving set setting seven several shade shaped shapes
  share shared shed shop shores short should show shows shut sick side sides siding sight simple since single site
  sites size sized skip slate slight slow slower small smaller sold solid some soon sort sound source space spaces
  speed spending spite split spoke spot squares stack staging stale stand standing start started starting starts
  state stating station stations stay steal steep step steve still stock stone stones stop store stories story
  straight street stripped strong structure stuck studio stuff such sufficient suit summer supplies sure surely
  system systems table tables tagging take taken takes taking talk talks tall tasks taste tell temperature than
  thank thanks that theater theaters their them then there these they thin thing things think this those three
  through tight time times tips tired together told took total tower traced traces track tract tracy trade train
  transformed trapped tree tries triple true trust turn turning type under unit units until upgraded upon used user
  uses using value variables vault vehicle verses very view visit vols wait walk wall walls walter want wanted wants warm
  wasn ways wear week well went were west what when where whether which while white whole whose wide widow will
  willing wind winning wish witch with within without wives word work working world worse worth would wrong yard
  year years your yours`.split(/\s+/),
);
