package hear

import (
	"strings"
	"testing"

	"sparehand/internal/book"
)

// The words of these tables are common practice, no source: what people say at
// a bench, one line of talk on each line.

// refusedLines put what sets or scalds on somebody, or ask how much of it a
// body takes.
const refusedLines = `
how much plaster for my buttocks 30x30x10 cm
how much plaster to cast my butt
how much plaster for her bum cheeks, 35 by 30 by 12 cm
plaster for my arse 30x30x15cm
plaster of paris for my wifes bump, 40 by 40 by 20 cm
how much plaster for a pregnant belly
i want to do a belly cast of my sister how much plaster do i need
how much plaster do I need to do my daughter's hands
how many kilos of plaster for a cast of both my kids' feet
need 2 litres of plaster for grandmas hands how much powder
plaster for the baby's foot, 8 by 4 by 3 cm
plaster for babys hand
how much plaster for my newborn's foot print
how much plaster to take a mould of my face
how much plaster to make a life mask of my boyfriend
life mask in plaster how much do i need
how much plaster for a life cast of the actor's head
how much plaster to lifecast my torso
plaster amount for my chest 40x40x15 cm
my chest is 40 by 40 by 15 cm how much plaster
my face is 22 by 16 by 12 cm, how much plaster
his arm is 40 cm long and 10 across, how much plaster to cover it
how much plaster covers my leg from the knee down
how much plaster for a leg from the knee down, 45 by 12 by 12 cm
how much plaster for an arm up to the elbow
plaster for forearm 25 by 9 by 9 cm
plaster to go round my neck 12 cm high how much
how much plaster for his shoulders and neck
how much plaster for her shins
how much plaster do i mix for my calves, 35x12x12 cm
how much plaster for my thigh 50x20x20
how much plaster to wrap my ankle
how much plaster for my big toe, 6 by 3 by 3 cm
how much plaster for the tip of my finger
how much plaster for my pinky
how much plaster for my thumb 7x3x3cm
how much plaster for my knuckles
how much plaster for my palm 10 by 10 by 3 cm
how much plaster for her fingernails
how much plaster for his jaw and teeth 8x8x5 cm
plaster impression of my teeth how much
plaster for my gums and tooth 5x4x3 cm
how much plaster for my mouth
can i bite into plaster to take an impression of my teeth
how much plaster for my ears, 7 by 4 by 3 cm each
how much plaster for the actress's ear
plaster for my friends nose 5x4x3 cm
how much plaster for bob's nose 50 by 40 by 30 mm
how much plaster for my real nose 5 by 4 by 3 cm
how much plaster for a nose, my own, straight on my face
how much plaster straight on the cheek, 6 by 6 by 2 cm
pouring plaster directly on skin how much for 10 by 10 by 2 cm
how much plaster directly onto the forehead 10x6x2cm
how much plaster for my wrinkly chin
how much plaster for his broken nose
how much plaster for my eyebrow 8 x 3 x 1 cm
how much plaster over my eyelids
plaster over my lips 6x3x2cm
how much plaster do I need to pour over her cheek, 10x8x4 cm
pour plaster over his face how much 25x18x12cm
i am going to pour plaster on my mate how much
how much plaster to cover my mate completely
how much plaster to cover a person from the waist up
how much plaster for a whole person, 180 by 50 by 30 cm
how much plaster for a man
how much plaster to cast a human body
how much plaster for a full body cast of my girlfriend
how much plaster to encase someone
how much plaster to mummify my little brother
how much plaster to bury my feet in a box 40 by 30 by 20 cm
plaster to stick my hand in, 3 litre bucket, how much
i'll put my fist in it, 2 litres of plaster, how much powder and my hand goes in after a minute
how much plaster so he can put his arm in up to the elbow
the kid dips his hand in, how much plaster for a 1 litre tub
each child presses a hand into the plaster, 12 by 12 by 3 cm, how much
how much plaster do I need for 5 kids hands
how much plaster for my sons hand print
plaster hand prints of the kids, 15x15x2 cm, how much
plaster handprint 15 by 15 by 2 cm
how much plaster for a footprint of my toddler
how much plaster for a paw print
how much plaster for the cat's paw 4x4x2
how much plaster for my dog
how much plaster for a dog's nose 5x4x3
how much plaster for our rabbit 20 by 12 by 12 cm
how much plaster for my pony's hooves
how much plaster to make a cast of my snake
plaster for the budgie's claw 3x2x1 cm
how much plaster for my tortoise
can I put plaster on my dog to make a mould
can I cast my cat in plaster
could I pour plaster on my kid's hand if I put cream on first
can i dip my hand in plaster
can she dip her foot into the plaster
is it ok to stick my fingers in wet plaster and wait till it sets
can i wrap his leg in plaster and leave it to set
want to cover my face with plaster
i want to plaster my mate's face
let's cast the actor's face in plaster tonight
going to cast my nose in plaster
can I do a plaster mould right on his chin
is it safe to put plaster on a child
is plaster safe to put on my face
is it fine to smear plaster on my arms
could we slap plaster straight on his back
can plaster go straight on the actor
i'd like to take a plaster impression of my ear
take a plaster cast of my hand
can you take a cast of a hand with plaster
make a plaster cast of my own foot
how long do i keep plaster on his face
how long should my hand stay in the plaster, i want a cast
how thick should i put plaster on my face
how do i plaster a face
how much plaster for a face
how much plaster for a head
how much plaster for two hands
how much plaster for an arm 60 by 10 by 10 cm
how much plaster for a torso
how much plaster for a pair of feet
hands 20x10x6 cm plaster how much
foot 26x10x8 cm, plaster, how much powder and water
arm, plaster, 40x10x10cm
whats the plaster for a knee 15 by 15 by 15 cm
quantity of plaster for human face
plaster needed, adult head, 25x20x20 cm
how much plaster 4 my hed and face
how much plasta for my hand
how much plaster for my butocks 30x30x10
how much plaster for my elbw 10x10x10 cm
how much plster for my hand 20x10x5
how much water and plaster for my hand, 20 by 10 by 6 cm
how much water for the plaster for my foot, 26x10x8 cm
how much plaster and water to cast an actors hand
how much plaster for my hand, not a sculpt, my real hand
how much plaster for my hand, i have no clay
how much plaster for my face without a sculpt, 22x16x12 cm
how much plaster for his cheek, straight on, no clay
how much plaster for the nose on my face 5x4x3 cm
how much plaster for the cheek of my friend
how much plaster for the hand of the ferryman
how much plaster for the ferryman's chin, 8 by 6 by 4 cm
how much plaster for the captain's arm
how much plaster to pour round the singer's neck
how much plaster over the actor's chest to get a mould for a scar
how much plaster to pour on his chin for a beard piece
how much plaster to make a mould of his nose to sculpt on later
how much plaster for a barnacle piece and my hand, 20 by 10 by 5 cm
plaster over the clay on her face, how much
i sculpted the clay on his chin, how much plaster to pour over his face
how much plaster for a mask of my face
how much plaster for a bust of my grandad
how much plaster for a death mask of my dog
does plaster hurt if i cast my hand, how much do i need
how much plaster for a victim's broken leg 40x15x15
to set my friends broken arm, how much plaster
how much plaster for my boobs
how much plaster for a nipple 3 by 3 by 2 cm
how much plaster for my willy
how much plaster for my girlfriend's bottom 35x30x15, bum cast
how much plaster for my stomach 40x35x15cm
how much plaster for my scalp, i am bald
how much plaster for a shaved head
how much plaster for her hair 30x20x10
how much plaster for the back of my head 20 by 20 by 10 cm
how much plaster for my back 60x40x10 cm
how much plaster over my head
how much slurry for my hand, 20x10x6 cm of plaster
plaster on hand 20x10x6 cm how much
how much plaster to hold my hand still in a box 25 by 15 by 10 cm
each pupil makes a hand cast, 12 pupils, how much plaster
how much plaster for a class of 20 kids making hand prints 15x15x2 cm
give me the plaster for my mum's hands holding mine, 25x15x15 cm
two people holding hands, plaster, 30x15x15 cm, how much
how much plaster for my granddaughter's tiny feet
my husband wants his hand cast in plaster how much do i need
how much dental stone for my own teeth 6x5x3 cm
dip my fingers in melted gelatin to make a mould
can i dip his hand in hot gelatin
is it ok to pour hot gelatin on my face
can i pour melted gelatin over her arm
can I brush hot gel straight onto his cheek
could i ladle hot gelatin over my dog
how much gelatin to dip my foot in, 3 litres
how thick should plaster be on a face
can I warm the gelatin on his face
can I build the wound up with melted gelatin on his face
can I put the melt on my skin to test it
how much plaster for my back in one go, 60x40x8 cm
can I lay my face down in the plaster
how much plaster for a full body
how much plaster for my right hand
how much plaster for the finger of my son
how much plaster for a cast of my wife's torso 50x40x15
how much plaster do i need for my left hand
my mate wants his face done in plaster, how much
plaster, my hand, how much
hi, i have a 5 kg bag of plaster, is it enough for both my arms
how much plaster do we need for a family hand casting, 4 people
do i need 2 kg of plaster for my nan's hands
how many litres of plaster to fill a bucket with my arm in it
10 litres of plaster for my legs
want to make a mould of my little boys foot in plaster
how do i mould my own face with plaster
how do i cast my hand in plaster of paris
what's the best plaster to cast my face with, and how much
can I use plaster to take a mould of my teeth
is plaster of paris safe for a baby's hand
I'll just pour the plaster over my knuckles, how much for 10x8x4 cm
plaster over the ferryman's face
could you tell me the plaster for someone's back, 50x40x8
how much plaster for his adam's apple
plaster for my ankle bone 5x4x3 cm
how much plaster round an eye socket, on the actor
20 x 10 x 6, my hand, in plaster
plaster + my foot = how much
how much plaster to cover an actor's face except the nostrils
how much plaster to take his portrait, straight off his face
how much plaster for a facial cast
how much plaster for a mould of the singers whole head
how much plster to dip my fingers
how much plaster for a handcuff scar, poured round my wrist
how much plaster for my dogs face
how much plaster to make my hand into a statue
how much plaster for a hand, life size
plaster for an adult foot
can I make plaster gloves on my hands
can my daughter put her hands in plaster
how much plaster to embed my finger
my arm 30 by 10 by 10 in plaster
how much plaster for a stomach mould, six months pregnant
how much plaster to do a mould of my son's face for a present
we want to cast our baby's hands, 10x8x5 cm, plaster
plaster for hubby's hand 20x10x6
how much plaster for my girlfriends boobs 30x20x15cm
my little girl wants her hand cast, how much plaster for a tub 12x12x10
how many cups of plaster for the whole of my head
I'd rather skip the clay and do plaster on my mate's forehead, 12x6x2 cm how much
can I just slap plaster over his nose
plaster bandage on my face how much plaster
how much plaster for somebody's thumb
I need enough plaster to cover my arm up to the shoulder
how many grams of plaster for 2 baby feet
need plaster, it's for a cast of my teacher's face
whats the plaster for a persons ear
how much plaster for a cast of me
how much plaster to cast me
how much plaster to make a copy of my nose
how much plaster to fill a box round my arm 40x15x15 cm
how much plaster for a 3d print of my hand, straight over the hand
how much plaster do I need to immortalise my dog's paw
hand mould, plaster, 20x10x8cm
a plaster of my foot, 26x10x8
plaster mold of a foot 26x10x10 cm
plaster mold for face how much
how much casting plaster for one adult face
how much plaster should I mix for a grown mans torso
can the actor hold his breath under plaster while I cast his face
is plaster ok on the ferryman's cheek if I oil it
how much plaster for the singer's real ear
can i sit in plaster to cast my bum
my bum, 40x35x15, plaster, how many kg
how much plaster to make a cast of grandpa's hands
how much plaster for his nose
plaster for her chin 60 by 50 by 30
how much plaster on his lips
how much plaster for a bloke's chest
how much plaster to get a print of my lips
how much plaster for my cats tail
how much plaster for my fist
how much plaster for my hands clasped together
how much plaster for a pinkie
`

// soundLines name bodies, or what is called like one, and no plaster goes on them.
const soundLines = `
how much plaster for a nose 40 x 30 x 20 mm
how much plaster for a nose sculpted in clay, 40 by 30 by 20 mm
how much plaster for an ear 70 by 40 by 25 mm
plaster for a chin 60 x 50 x 30 mm
how much plaster for a brow piece
how much plaster for a forehead piece 120 by 60 by 20 mm
how much plaster for two cheeks 60 by 50 by 15 mm
how much plaster for a cheek appliance 70 by 50 by 15 mm
how much plaster for 6 noses 50 by 40 by 30 mm
how much plaster for a witch's nose 60 by 50 by 40 mm
how much plaster for a troll ear 90 by 50 by 30 mm
how much plaster for a pirate's chin 70 by 60 by 30 mm
how much plaster for elf ears 80 x 40 x 30 mm
how much plaster for a zombie hand prop 200 by 100 by 60 mm
how much plaster for a clay hand 200 by 100 by 60 mm
how much plaster for a hand sculpted in clay 200 by 100 by 60 mm
how much plaster for a hand I sculpted, 200 by 100 by 60 mm
how much plaster for a plasticine foot 200 by 80 by 60 mm
how much plaster for a dummy head 250 by 200 by 200 mm
how much plaster for a mannequin's arm 400 by 100 by 100 mm
how much plaster for a doll's head 60 by 50 by 50 mm
how much plaster for a puppet's hand 60 by 40 by 20 mm
how much plaster for a puppet head 120 by 100 by 100 mm
how much plaster for a foam head 250 by 200 by 200 mm
how much plaster for a wooden leg 300 by 80 by 80 mm
how much plaster for a head form 250 by 200 by 150 mm
how much plaster for a fake finger 80 by 20 by 20 mm
how much plaster for a severed hand prop 200 by 100 by 60 mm
how much plaster for a statue of a dog 200 by 100 by 150 mm
how much plaster for a horse statue 200 by 100 by 150 mm
how much plaster for a face sculpted on a plate 200 by 150 by 80 mm
how much plaster for my face sculpt 200 by 150 by 80 mm
how much plaster for my nose sculpt 60 by 40 by 30 mm
how much plaster for my nose in clay 60 by 40 by 30 mm
how much plaster for his nose piece 60 by 40 by 30 mm
how much plaster for the actor's cheek piece 110 by 80 by 18 mm
how much plaster for the captain's chin appliance 80 by 60 by 30 mm
how much plaster for her forehead prosthetic 120 by 60 by 20 mm
how much plaster for my friend's ear piece 70 by 40 by 25 mm
how much plaster for a scar on his arm, 100 by 20 by 6 mm
how much plaster for a rope scar across her neck, 160 by 20 by 8 mm
how much plaster for a scar that goes over his eye, 80 by 30 by 8 mm
how much plaster for a wound for the singer's arm 90 by 50 by 12 mm
how much plaster for a barnacle crust on the ferryman's hand 60 by 50 by 10 mm
how much plaster for a crust worn on the neck, 90 by 60 by 12 mm
how much plaster for a wart on her chin, 15 by 15 by 8 mm
how much plaster for barnacles for his cheek and neck, 60 by 40 by 10 mm
how much plaster for a mask for the ferryman 220 by 160 by 90 mm
how much plaster for a half mask for the singer, 180 by 100 by 70 mm
how much plaster for a piece for the actor 110 by 80 by 18 mm
how much plaster for a barnacle for my daughter, 40 by 30 by 10 mm
how much plaster for a piece my friend wears on his face, 110 by 80 by 18 mm
how much plaster for 110 by 80 by 18 mm, the finished piece goes on the actor's cheek afterwards
how much plaster for a sculpt 110 by 80 by 18 mm, it will be glued to his cheek
how much plaster for 110 by 80 by 18 mm, the piece is worn on the neck
his cheek gets a barnacle 110 by 80 by 18 mm, how much plaster
my friend needs a nose piece 60 by 40 by 30 mm, how much plaster
the actor needs a barnacle for his cheek 60 by 40 by 10 mm, how much plaster
on his arm there is a scar 100 by 20 by 6 mm, how much plaster for it
how much plaster over the clay chin on the plate, 60 by 50 by 30 mm
how much plaster to pour over the clay nose 60 by 40 by 30 mm
how much plaster to pour round a sculpted ear 70 by 40 by 25 mm
how much plaster to cover the nose by 20 mm, it is 60 by 40 by 30 mm
how much plaster to cover a clay face on a board 200 by 150 by 80 mm
how much plaster for the back of the mould 200 by 150 by 10 mm
how much plaster to fill the face of the mould
how much plaster to patch the mould's face
how much plaster to fill a chip in the foot of the mould
how much plaster for the foot of the wall
how much plaster for the arm of a chair 300 by 60 by 40 mm
how much plaster for the leg of the table 300 by 60 by 60 mm
how much plaster for a table leg 300 by 60 by 60 mm
how much plaster for a clock face 200 by 200 by 20 mm
how much plaster to mend the neck of a bottle 60 by 40 by 40 mm
how much plaster for the head of the statue 150 by 120 by 120 mm
how much plaster do I need, my hands are wet
my hands are full, how much plaster for 110 by 80 by 18 mm
hands full, how much plaster for 60 by 40 by 20 mm
my hands are covered in clay, how much plaster for 60 by 40 by 20 mm
hands all sticky, how much plaster for a piece 60 by 40 by 20 mm
my back is killing me, how much plaster for 60 by 40 by 20 mm
my arm is tired, how much plaster for 60 by 40 by 20 mm
my hand is shaking, how much plaster for a tray 200 by 150 by 30 mm
I mix by hand, how much plaster for 110 by 80 by 18 mm
how much plaster can I stir by hand
stirring with my hand, how much plaster for 60 by 40 by 20 mm tray
how much plaster do I have on hand
off the top of your head how much plaster for 60 by 40 by 20 mm
how much plaster for a tray 200 by 150 mm, one finger deep
how much plaster for a wall a thumb wide
how much plaster for a two foot tray 10 inches wide and 1 inch deep
how much plaster for a tray 2 feet by 1 foot by 1 inch
tell me how much plaster for 110 by 80 by 18 mm
give me the plaster for 110 by 80 by 18 mm
for me it is 110 by 80 by 18 mm, how much plaster
can you work out for me how much plaster 110 by 80 by 18 mm takes
how much plaster for the crew's barnacles, 30 by 20 by 8 mm
how much plaster for twelve students, 60 by 40 by 20 mm each
how much plaster for the cast, 8 pieces 60 by 40 by 20 mm
how much plaster do my students need for 12 pieces 60 by 40 by 20 mm
my daughter wants to help, how much plaster for a nose piece 60 by 40 by 30 mm
someone told me 2 to 1, how much plaster for 60 by 40 by 20 mm
my friend says use less water, how much plaster for 60 by 40 by 20 mm
he asked me how much plaster for a brow piece
how much plaster, it is not for a hand, it is 200 by 100 by 60 mm of clay
how much plaster for 200 by 100 by 60 mm, nothing on skin
how much plaster for 60 by 40 by 20 mm, not on my face
how much plaster for a sculpt instead of my face, 200 by 150 by 80 mm
how much plaster to fill the alginate mould of my hand 200 by 100 by 60 mm
how much plaster for a silicone hand 200 by 100 by 60 mm
how much plaster for a skin texture stamp 60 by 60 by 10 mm
how much plaster for the skull 200 by 150 by 150 mm
how much plaster for a skeleton hand 200 by 100 by 30 mm
how much plaster for a crab 100 by 80 by 30 mm
how much plaster for a fish head 100 by 60 by 50 mm
I got plaster on my hand
got plaster on my hands how do I wash it off
plaster all over my hands again
plaster splashed on my arm, how do I get it off
how do I get plaster off my skin
there is plaster under my nails, how do I clean them
plaster dust makes my nose itch
plaster dries out my hands
do I need gloves for plaster, my skin is sore
how much soap to wash plaster off my hands
is plaster bad for my hands
a plaster for my cut finger
where are the plasters, I cut my thumb
put a plaster on his finger
how long until the plaster is set, my hands are cold
the plaster feels cold to the back of my hand
the plaster is warm to my hand
the plaster came out of the mould with the nose on
the plaster stuck to the nose
the plaster broke off at the ear
there is a hole in the plaster at the tip of the nose
bubbles in the plaster on the nose and the chin
the plaster cracked across the cheek
the nose broke off when I opened the plaster
plaster leaks out at the foot of the wall
the plaster face is soft
how do I pour plaster over a nose on a plate
can I pour plaster over the clay nose
can I pour plaster over the face sculpt
can I put plaster on the clay with my fingers
can I smooth plaster with my finger
how thick should the plaster be over the nose
how long do I leave the plaster on the sculpt
can I touch the plaster yet
the ferryman is due at seven, how much plaster for 60 by 40 by 20 mm
the actor is here, how long does plaster take to set
how much gelatin for the ferryman's cheek, 110 by 80 by 18 mm
how much gelatin for my nose 60 by 40 by 30 mm
how much gelatin for a hand 200 by 100 by 60 mm
how much gelatin for a face 200 by 150 by 20 mm
how much glycerin for a neck piece
the gelatin slides on his cheek
the gelatin edge lifts on her chin
the gelatin melts on his face under the lights
how do I get gelatin off my skin
can I glue the gelatin on his cheek
can he wear the gelatin on his arm for two hours
can I glue a gelatin piece over his eyebrow
how hot should the gelatin be when I pour it into the nose mould
can I warm the glue on his face
the gel piece went soft on his neck
how much glue for his cheek and chin
how much alginate for my hand
what size is a face
can I put a warm gelatin piece on his face
can I put the gelatin on his face before the show
the gelatin went soft on his cheek, it is warm on stage
how thick should the plaster be over the chin
how long till the plaster on the sculpt is hard
how much plaster for a nose that is 60 by 40 by 30 mm
how much plaster for the ferryman's barnacles
how much plaster for the chin, 60 by 50 by 30 mm
how much plaster for an ear, 7 by 4 by 3 cm
how much plaster to cast a nose piece
how much plaster for one forehead and two cheeks
how much plaster for the scar across the ferryman's hand 90 by 20 by 6 mm
how much plaster for a sculpt of my face 200 by 150 by 80 mm
how much plaster for a clay model of my hand 200 by 100 by 60 mm
how much plaster for a hand modelled in plasticine 200 by 100 by 60 mm
how much plaster for his prosthetic chin 60 by 50 by 30 mm
how much plaster for a set of false ears 70 by 40 by 25 mm
how much plaster for a foam latex neck 150 by 120 by 40 mm
how much plaster for a brow and nose in one, 120 by 80 by 40 mm
how much plaster if the sculpt is the size of my hand
how much plaster for a piece as big as my palm
how much plaster for a sculpt the size of a fist
how much plaster for a wart the size of my thumbnail
it covers half his face, the piece is 200 by 100 by 30 mm, how much plaster
the ferryman's nose piece is 60 by 40 by 30 mm how much plaster
how much plaster do i mix for six crusts, one for each hand of the crew
how much plaster for 2 barnacles, one for the cheek and one for the neck, 60 by 40 by 10 mm
how much plaster for a mould that fits in my hand
how much plaster for a small piece I can hold in one hand, 60 by 40 by 20 mm
my hand mixer broke, how much plaster can I mix at once
I cut my finger, how much plaster for 60 by 40 by 20 mm
my kid knocked it over, how much plaster for 60 by 40 by 20 mm again
the dog ate my clay, how much plaster for 60 by 40 by 20 mm
I have a baby so I need quick plaster, 60 by 40 by 20 mm
my wife says the bag is 5 kg, how much plaster for 60 by 40 by 20 mm
how much plaster for somebody who has never done it, 60 by 40 by 20 mm
how much plaster for a lip that overhangs the mould
how much plaster to raise the lip of the tray
how much plaster for a rim at the foot of the block
how long till I can put my hand on the plaster
is the plaster meant to feel hot to my hand
plaster gets in my hair every time
do I need a mask for plaster dust
my skin is dry after working with plaster
plaster stuck in the ear of the sculpt
how much plaster for a lip piece 50 by 20 by 10 mm
how much plaster for a false nose 60x40x30 mm
how much plaster for a bruise on his cheek 60 by 40 by 5 mm
how much plaster for a double chin 100 by 60 by 30 mm
how much plaster for bags under his eyes 40 by 20 by 8 mm
how much plaster for an eye bag 40 by 20 by 8 mm
how much plaster for a gash across his forehead 90 by 20 by 8 mm
how much plaster for eyebrows 60 by 20 by 10 mm
how much plaster for a big nose, 60x50x40 mm
how much plaster for a hooked nose 60x50x40 mm
how much plaster for three rope scars that go round his neck 150 by 20 by 8 mm
how much plaster for a hump 300 by 250 by 120 mm
how much plaster for a gelatin ear 70 by 40 by 25 mm
how much plaster for a horn 80 by 30 by 30 mm
how much plaster for a cheekbone 70 by 40 by 15 mm
how much plaster for a forehead 130 by 70 by 25 mm
how much plaster for a neck wound 90 by 50 by 10 mm
how much plaster for the sculpt of a hand 200 by 100 by 60 mm
how much plaster for the piece on the left of the plate 60 by 40 by 20 mm
how much plaster for the wart that goes beside his nose 15 by 15 by 8 mm
how much plaster for a bullet hole for his chest 30 by 30 by 8 mm
how much plaster for wrinkles on her forehead 100 by 50 by 6 mm
how much plaster for a swollen eye 60 by 50 by 20 mm
how much plaster for a growth on the ferryman's neck 60 by 50 by 20 mm
how much plaster for a fish scale patch for his arm 80 by 60 by 5 mm
how much plaster for an eyepatch 60 by 50 by 8 mm
can I reuse the mould of his nose
how much plaster for a block 110 by 80 by 40 mm, the piece is for my friend's face
the plaster on the ear is soft
I scratched the nose with the plaster knife
how do I clean plaster off the nose of the sculpt
can I pour plaster in with my hand under the stream
how much plaster to make the back 20 mm thick over the nose
what happens if plaster touches skin
is plaster hot when it sets
my hands shake, how much plaster for 60 by 40 by 20 mm
how much plaster, i only have one hand free
how much plaster for a finger sized piece 80 by 20 by 20 mm
a hair in the plaster
plaster all over my face
how much plaster for 5 actors, each a nose piece 60 by 40 by 30 mm
how much plaster per person for a nose piece
my hand hurts
`

func linesOf(text string) []string { return strings.Split(strings.TrimSpace(text), "\n") }

func TestBodiesInManyWordsAreRefused(t *testing.T) {
	h := New(realBook(t))
	lines := linesOf(refusedLines)
	if len(lines) < 150 {
		t.Errorf("only %d lines", len(lines))
	}
	for _, words := range lines {
		if m := h.Hear(Context{}, words); m.Elsewhere != "cast-on-skin" && m.Emergency == "" || m.Amount != "" {
			t.Errorf("%q: sum %q, elsewhere %q, emergency %q", words, m.Amount, m.Elsewhere, m.Emergency)
		}
	}
}

func TestNamesOfBodiesAreSound(t *testing.T) {
	h := New(realBook(t))
	lines := linesOf(soundLines)
	if len(lines) < 150 {
		t.Errorf("only %d lines", len(lines))
	}
	for _, words := range lines {
		if got := h.never(Context{}, h.listen(words)); got != "" && !h.inPassing(got) {
			t.Errorf("%q is refused", words)
		}
		if m := h.Hear(Context{}, words); m.Elsewhere != "" && !h.inPassing(m.Elsewhere) && m.Amount == "" && strings.Contains(words, "how much") {
			t.Errorf("%q is refused for its likeness", words)
		}
	}
}

// plasterUnderWay is the state of a talk in which plaster is being worked out.
func plasterUnderWay(t *testing.T) (*Hearing, Context) {
	t.Helper()
	b := realBook(t)
	var c Context
	for _, a := range b.Amounts {
		if a.ID == "mould-plaster" {
			c.Sums = []*book.Amount{a}
		}
	}
	return New(b), c
}

// The same while a sum of plaster is under way, which then goes without saying.
func TestBodiesInASumUnderWay(t *testing.T) {
	h, c := plasterUnderWay(t)
	for _, words := range linesOf(`
it's my own hand
its for my sons foot
my face
for my buttocks
round his arm
over her belly
the baby's hand, 8 by 5 by 3 cm
the dog's paw
a life cast
it's for a life mask of my mum
straight on skin
straight on the chin
on him
it goes on his cheek while wet
she puts her hand in
he dips his foot in
it is a real hand
it's not clay, it's my arm
face 20 by 15 by 12 cm
my head is 25 by 20 by 20 cm
no, for my knee
up to the elbow
both my feet
for the cat
it is for a person
my granny's hands`) {
		if h.never(c, h.listen(words)) == "" {
			t.Errorf("%q is not refused", words)
		}
	}
	for _, words := range linesOf(`
it is clay
my hands are wet
hands full
110 by 80 by 18 mm
it's a nose sculpted in clay
a nose
a nose 60 by 40 by 30 mm
the chin piece
it's for his nose piece
it's a scar for her arm
a barnacle, it sits on his cheek
a barnacle for the ferryman's cheek
a clay hand
a hand sculpted in clay
the piece is worn on his neck
it's glued on his cheek later
not on skin
not a hand
it is for a mask for the ferryman
a head form
tell me again
give me a second
the face of the mould
by hand
two fingers deep
his cheek gets a barnacle
the foot of the wall is 5 cm
2 feet by 1 foot`) {
		if h.never(c, h.listen(words)) != "" {
			t.Errorf("%q is refused", words)
		}
	}
}

// What answers the question asked is no body, though plaster is talked of.
func TestAnswersAreNoBodies(t *testing.T) {
	h, c := plasterUnderWay(t)
	f := h.book.FactByName("hole_place")
	c.Asked = &Asked{Fact: f, Kind: f.Kind, Options: f.Options}
	if h.never(c, h.listen("only on the face")) != "" {
		t.Error("where the holes are is refused")
	}
	for _, words := range []string{"it is for my hand", "on my face", "it's for a foot"} {
		if h.never(c, h.listen(words)) == "" {
			t.Errorf("%q is not refused", words)
		}
	}
}

func BenchmarkNever(b *testing.B) {
	h := New(realBook(b))
	for _, words := range []string{
		"how much gelatin for 5 barnacles, 30 by 20 by 8 millimetres",
		"how much plaster for 110 by 80 by 18 mm",
		"how much plaster for a nose piece for the ferryman's cheek, 110 by 80 by 18 mm",
	} {
		l := h.listen(words)
		b.Run(words[:20], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				h.never(Context{}, l)
			}
		})
	}
}
