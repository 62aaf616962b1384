package hear

const everydayWords = `
able about above accept across act actor actress actually add after afternoon again against age ago agree ahead air all
almost alone along already alright also although always am among amount an and angry animal another answer any anybody
anyone anything anyway apart apple apply are area arm around arrive art as ask asleep at away baby back bad bag ball
bang bank bar bath bathroom be beach bear beat beautiful because become bed bedroom beer before begin behind being
believe bell belong below bench bending bent beside best better between big bike bill bird birthday bit bite black
blanket bleach blend blended blending blind block blood blow blowing blue board boat body boil bone book boot bored
boring born boss both bother bottle bottom bought bowl box boy brain brake brand brave bread break breakfast breast
breath breathing breed breeding breeze brick bridge bright bring broken brother brought brown brush bucket bug build
building bulb bump bunch bunting burden burger burgundy buried bus business busy but butter button buy by cake call
called calm came camera can cap car card care careful carry case cat catch caught ceiling cell chair chance change
charge charging chase cheap check cheek cheese chicken child children chin choice choose chopping chocolate chuck
church city class classes clean cleaning clear clever click climb clock close closed cloth clothes cloud coat coffee cold college
come comfortable coming company complain complete computer cook cooking cool corner correct cost costume cough could
count country couple course court cover crap crash crazy cream credit cross cry cup cupboard cut dad dance dancing
danger dark date daughter day dead deadline deal dear death decide deep delete depends desk detail did die different
difficult dinner dirt dirty do doctor dog doing done door doubt down draft drag drama draw drawer drawing dream dress
drink drive drop dry dull during dust dying each ear early earth easy eat eating edge eight either electric electrics
else email empty end energy enjoy enough even evening ever every everybody everyone everything exactly exam example
except excited expect explain extra eye fabric face fact fail fair fall family famous fan far farm fast fat father
favourite feed feel feeling feet fell felt fetch few field fight file fill film final finally find fine finger finish
fire fired firing first fish fit five fix flat floor flour flow flower fly foam follow food foot for force forget
forgot fork form forward found free freezing fresh friday friend from front fruit full fun funny furniture game garden
gas gave general gentle get getting girl give glad glass glasses go god going gold gone good got grab grand great
green grey ground group grow guard guess guy had hair half hall hammer hand handle hang happen happy hard has hat hate
have he head heading hear heard heart heat heater heating heavy hello help her here hers herself high hill him himself
his hit hold hole holiday home hope horrible horse hospital hot hotel hour house how however huge hundred hungry hurry
hurt husband ice idea if ill important in inside instead interest interesting into iron is island it item itself
jacket jeans job join joke juice jump june july just keen keep kept kettle key kick kid kids kill killing kind kitchen
knee knew knife knock know lab lady lamp land language large last late later laugh laughing lay lazy lead leader
leading leaf learn least leather leave left leg lemon less lesson let letter level library lie life lift light like
line lip list listen little live living local lock long look loose lose lost lot loud love lovely low luck lucky lunch
machine mad made magic mail main make making man manage many map mark market marry master matter may maybe me meal mean
meaning meant meat meet meeting member men mess message middle might mile milk mind mine minus minute mirror miss missing mix
moment monday money month mood moon more morning most mother mouth move movie much mud mum murder murdered music must
my myself name narrow near nearly neck need needle neighbour neither nervous never new news next nice night nine no
nobody noise none noon nor normal north nose not note nothing notice now number nurse of off offer office often oil ok
okay old on once one only onto open opening or orange order other our out outside oven over own pack page paid pain
paint painting pair pan pants paper parent park part particular party pass past patience patient pay peace pen pencil
people pepper perfect perhaps person phone photo pick picture piece pin pink pipe pizza place plan plane plant plastic
plate play player playing please plenty pocket point police polite poor pop possible post pot potato pound pour power
practice prefer prepare present press pressing pretty price print prison private probably problem programme promise
proper props protect pub pull pulling purple push put quarter queen question quick quickly quiet quite radio rain rang
ran rather reach read reading ready real really reason receive record recording red relax remember remind remove rent
repeat reply rest result return rice rich ride right ring river road rock roof room rope rough round row rub rubber
rubbish rule run running sad safe safety said sail salad salt same sand sandwich saturday saw say scene scent school
science scissors score scream script sea search seat second secret see seem seen seeing sell send sense sent serious
seven several shadow shake shall shame shape share sharp she sheet shelf shine ship shirt shoe shoot shooting shop
short shot should shoulder shout show shower shut sick side sight sign silly silver similar simple since sing sink sir
sister sit six sixth size skin sky sleep slept slice slide slow small smart smell smile smoke smoking smooth snack snow so
soap sock soft sold some somebody someone something sometimes son song soon sore sorry sort sound soup south space spare
speak special speech speed spell spend spoke spoon sport spot spray spring square stage stain stair stand star starring
start starve starving starved stay steal steam step stick still stole stomach stone stood stop store storm story
straight strange street string strong student study stuff stupid such sudden suddenly sugar summer sun sunday sure
surface surprise sweat sweet swim switch table take taken talk talking tall tap tape taste taught tea teach teacher
team tear tell ten term terrible test text than thank thanks that the theatre their them themselves then there these
they thick thin thing think thinking third thirsty this those though thought thousand thread three threw throat through
throw thumb thursday ticket tidy tie tight till time tin tiny tip tired to toast today toe together toilet told
tomorrow tongue tonight too took tool tooth top total touch towards towel town toy track train travel treat tree
trouble trousers truck true trust try trying tuesday turn twelve twenty twice two type ugly umbrella uncle under
understand until up upset upstairs us use used useful using usual van vegetable very video view village visit voice
wait waiting walk wall want war warm warning was wash washing waste watch watching water wave way we weak wear weather
wedding wednesday week weekend weigh weight welcome well went were west wet what wheel when where whether which while
white who whole whose why wide wife wild will win wind window wine winter wipe wire wise wish with without woman women
wonder wonderful wood word work working world worried worry worse worst worth would wrap write writing wrong yard yeah
year yellow yes yesterday yet you young your yours yourself zero zip bleating reading bonding bounding bonfire
knocking hurling burying burly burner burners shocking joking poking stroking cutting gutter cuts faint feint paints
panting bleary seize sized scolded folded fuming fumbling packet packets sachet sachets envelope envelopes carton cartons pouch pouches mile miles kilometre
kilometres fathom fathoms tickets ticket seats pockets
cooked boiled weighed mate mates wrist ankle elbow thigh shin calf torso limb toes belly chest forehead actress dancer singer sailor captain ferryman
`
