/** Made by schemas/generate.mjs from schemas/instrument.schema.json. Do not edit. */

/**
 * A wind instrument of the flute family: its bore, holes and fingerings, what it is meant to play, and how it is printed. Lengths are millimetres unless `units: in`. Any number may be an expression in quotes that starts with =, such as "=spread*2 + 1".
 */
export interface InstrumentDescription {
/**
 * Version of this file format. It marks the file as an instrument; write 1.
 */
borewright: 1
/**
 * The instrument's name, shown in tables and drawings.
 */
name?: string
/**
 * Anything worth telling the next maker. It changes nothing.
 */
remark?: string
/**
 * How it is blown: `transverse` across a hole in the side, `duct` through a windway, `rim` over the end of the tube; `panpipe` a row of tubes, `vessel` a hollow body.
 */
family?: ("transverse" | "duct" | "rim" | "panpipe" | "vessel")
/**
 * The note it is meant to play with every hole closed, with its octave. Degrees of the fingerings count from it.
 */
key?: string
/**
 * How the twelve notes of the octave are tuned against each other: a name, or twelve cents above the root from the root's own 0 upward. It moves targets by up to about 20 cents; `equal` suits playing with most others.
 * 
 * @minItems 12
 * @maxItems 12
 */
temperament?: (string | [(number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string)])
/**
 * Note letter on which the temperament starts. Left out, it is the key's own note for `just` and C otherwise. It does not matter for `equal`.
 */
temperamentRoot?: string
/**
 * Frequency of A4 to which the instrument is tuned. ISO 16 says 440; early instruments are often made for 415.
 */
pitchStandard?: (number | string)
/**
 * Deviation beyond which a fingering counts as out of tune. About 10 is strict for a hand-made flute; 5 cents can just be heard.
 */
tolerance?: (number | string)
/**
 * Unit of every length in this file: millimetres or inches.
 */
units?: ("mm" | "in")
/**
 * The air in the tube while it is played. Warmer air sounds sharper: about 3 cents a degree. Or a word: `room`, 20 °C and 50 % humidity; `played`, breath in a warm instrument: 27 °C, 100 % humidity, 2.5 % carbon dioxide, which is uncertain by some 10 cents.
 */
air?: ({
/**
 * Temperature of the air in the tube. Each degree warmer raises the pitch about 3 cents. A played flute is often near 22 to 27.
 */
temperature?: (number | string)
/**
 * Relative humidity. Damp air is a little sharper: about 3 cents from 50 to 100 percent.
 */
humidity?: (number | string)
/**
 * Carbon dioxide in the air, by volume. Breath carries up to 4 percent and flattens: about 4 cents for each percent. Outdoor air has 0.04.
 */
carbonDioxide?: (number | string)
/**
 * Air pressure. It hardly changes the pitch; sea level is 101.325, a high valley 85.
 */
pressure?: (number | string)
/**
 * Friction and heat exchange at the walls. Leave it on; `false` is for comparison with textbooks, and sounds some cents sharper.
 */
losses?: boolean
/**
 * Speed of sound, given outright instead of worked out from temperature and humidity. For comparison with textbooks.
 */
speedOfSound?: (number | string)
} | string)
/**
 * Your own names for numbers, to be used in expressions: `spread: 21`, then `at: =L1.at + spread`. A parameter may itself be an expression.
 */
parameters?: {
/**
 * A number of your own, or an expression.
 */
[k: string]: number | string
}
/**
 * How the tube is blown. Duct: `window: {width, cutUp}`. Transverse: `hole: {length, width}`, `cover`, `stopper`. Rim: `cover`. Any: `correction`, a length measured on a real instrument, or the word `ideal` for the textbook's open end.
 */
mouth?: ({
/**
 * The window of a duct flute: the opening between the end of the windway and the labium.
 */
window?: {
/**
 * Width of the window across the axis. Wider sounds sharper and louder; at most the bore's diameter.
 */
width: (number | string)
/**
 * Cut-up: distance along the axis from the windway's end to the labium's edge. A longer cut-up sounds sharper, and needs more breath. Often a third to a half of the width.
 */
cutUp: (number | string)
/**
 * Depth of the window's side walls, from the bore to the outside. Deeper sounds flatter. Left out, it is the wall at that place.
 */
chimney?: (number | string)
/**
 * Distance from the window's upstream end to the plug that closes the bore, upstream: the short closed space of a two-chamber flute. It tunes the registers against each other: farther out, high notes go flat, while low ones first go a little sharp. Left out it is 0, the plug flush with the window as a whistle's block.
 */
stopper?: (number | string)
}
/**
 * The embouchure hole of a transverse flute.
 */
hole?: {
/**
 * Length of the hole along the axis. A larger hole sounds sharper.
 */
length?: (number | string)
/**
 * Width of the hole across the axis. Left out, it equals the length.
 */
width?: (number | string)
/**
 * Diameter of a round hole, instead of length and width.
 */
diameter?: (number | string)
/**
 * Height of the hole's wall, from the bore to the lip. A taller one sounds flatter. Left out, it is the wall at that place.
 */
chimney?: (number | string)
}
/**
 * Share of the mouth opening that the player's lip covers: 0 leaves it free, 0.5 covers half. More cover sounds flatter. Left out: 0.45 for a transverse flute, 0.6 for a rim, 0.55 for a pan pipe.
 */
cover?: (number | string)
/**
 * Distance from the embouchure hole's centre to the stopper's face, upstream. It tunes the registers against each other: too far out and the upper ones go flat. Left out, it is the bore's diameter.
 */
stopper?: (number | string)
/**
 * Length by which the mouth makes the tube longer than it is, taken from a measured instrument; used instead of a model of the mouth. Commonly 30 to 60 mm for a transverse flute.
 */
correction?: (number | string)
/**
 * What measuring showed of the mouth: it acts as if its opening were so much deeper than the model has it. Negative where the instrument sounds sharper than predicted. Calibrating to `measured` notes writes it; at most a few millimetres for a window, more where a lip covers the opening otherwise than thought. One for all pipes of a pan pipe. Not used beside `correction` or `ideal`.
 */
extra?: (number | string)
/**
 * The notch cut into an end-blown tube's rim, at the front, whose edge splits the breath. Left out, the rim is plain. It is drawn and made, and not reckoned with: a deeper notch sounds sharper.
 */
notch?: {
/**
 * Width of the notch across the tube, at most the bore's diameter.
 */
width: (number | string)
/**
 * How far the notch's edge lies below the rim, along the axis.
 */
depth: (number | string)
/**
 * Slope of the notch behind its edge, to the tube's axis. Left out, 45 degrees.
 */
ramp?: (number | string)
}
/**
 * The channel that leads the breath to the window. It shapes the tone and the breath needed, hardly the pitch, and is not reckoned with.
 */
windway?: {
/**
 * Length of the windway along its axis. Left out, a solid takes 25 mm.
 */
length?: (number | string)
/**
 * Width of the windway, usually the window's.
 */
width?: (number | string)
/**
 * Height of the windway at its exit; thinner needs less breath. Left out, a solid takes 1.2 mm.
 */
height?: (number | string)
/**
 * Height of the windway at its entry, where the breath comes in. Left out, it is a third more than at the exit, as far as the wall allows.
 */
entry?: (number | string)
}
/**
 * The slow air chamber of a two-chamber flute. It feeds the jet and does not change the pitch; the closed space between plug and window does, which is `window.stopper`.
 */
chamber?: {
/**
 * Inner length of the slow air chamber.
 */
length?: (number | string)
/**
 * Inner diameter of the slow air chamber.
 */
diameter?: (number | string)
}
/**
 * The block tied or set over the window of a two-chamber flute, which forms the windway.
 */
block?: {
/**
 * Length of the block along the axis.
 */
length?: (number | string)
/**
 * Width of the block.
 */
width?: (number | string)
/**
 * Height of the block.
 */
height?: (number | string)
}
} | string)
/**
 * The bore's outline from the mouth to the foot: stations along the axis, 0 at the mouth opening's centre. The last station is the foot's end; its place sets the lowest note.
 * 
 * @maxItems 1000
 * 
 * Items: One point of the bore's outline. Between two stations the bore is a straight cone or cylinder; two stations at the same place are a step.
 */
bore?: {
/**
 * Your name for the place, for expressions such as `=waist.at`.
 */
name?: string
/**
 * Distance along the axis from the mouth opening's centre, growing toward the foot; negative above the mouth.
 */
at: (number | string)
/**
 * Inner diameter of the bore here. It sets how much a hole of given size raises the pitch, and the tone's fullness.
 */
diameter: (number | string)
/**
 * True where the tube is parted here for printing, the parts joined afterwards. Each part is checked against `print.bed`, and holes keep `print.jointClearance` from the joint.
 */
joint?: boolean
/**
 * True keeps this station as drawn when the instrument is refitted to another key or brought in tune as a whole.
 */
fixed?: boolean
/**
 * How far a refit may move or resize this station. Without it, the hands, the print and what the prediction was checked for set the limits.
 */
limits?: {
/**
 * Least and greatest place that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the place.
 */
at?: [(number | string), (number | string)]
/**
 * Least and greatest diameter that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the diameter.
 */
diameter?: [(number | string), (number | string)]
}
}[]
/**
 * Distance from the bore's wall to the outer surface, across the axis. It is every hole's chimney unless the hole says otherwise; thicker sounds a little flatter. Typically 2.5 to 4 mm in print. A pan pipe may leave it out: 1.5 mm.
 */
wall?: (number | string)
/**
 * The lower end: open, as usual, or stopped, which sounds about an octave lower and only in odd registers.
 */
foot?: ("open" | "stopped")
/**
 * The tone holes, from the mouth to the foot.
 * 
 * @maxItems 100
 * 
 * Items: One tone hole, its axis across the bore's axis: round and straight unless `length`, `undercut` or `raised` say otherwise.
 */
holes?: {
/**
 * What you call the hole, such as T for the thumb or L1 for the first finger of the left hand. An expression elsewhere may refer to it: `=L1.at + 21`.
 */
name?: string
/**
 * Distance of the hole's centre from the mouth opening's centre, along the axis. A hole nearer the mouth sounds sharper.
 */
at?: (number | string)
/**
 * Diameter of the hole as drawn, where it opens outside. A larger hole sounds sharper; it must be narrower than the bore at its place. Typically 5 to 11 mm under a finger.
 */
diameter: (number | string)
/**
 * Thickness of the wall along the hole's axis, from the bore to the outside. A taller chimney sounds flatter. Left out, it is the wall at that place and what the hole is `raised` above it.
 */
chimney?: (number | string)
/**
 * Length of an oval hole along the bore; its `diameter` is then its width across. A longer hole sounds sharper. Left out, the hole is round.
 */
length?: (number | string)
/**
 * How much wider the hole is where it meets the bore than outside, on the diameter: 1 opens a hole of 6 mm to 7 mm at the bore, with straight sides. More undercut sounds sharper, and sharpens the second register more. Left out, the hole is straight; on a vessel it is always reckoned so.
 */
undercut?: (number | string)
/**
 * How far the hole's chimney stands up above the body's outer surface, with a flat rim of its own as thick as the wall; a part of `chimney`. It sounds flatter. On a vessel it only lengthens the chimney.
 */
raised?: (number | string)
/**
 * Where around the bore the hole lies: in front, under the fingers, or at the back, under a thumb. Holes on one side couple through the outside air a little more than opposite ones.
 */
side?: ("front" | "back")
/**
 * Direction of the hole around the bore in degrees: 0 is the front, 180 the back. Use it instead of `side` for a hole turned toward a finger. On a vessel, degrees round the body from the mouth; left out, the holes are spread evenly.
 */
angle?: (number | string)
/**
 * True keeps this hole as drawn when the instrument is refitted to another key or brought in tune as a whole.
 */
fixed?: boolean
/**
 * How far a refit may move or resize this hole. Without it, the hands, the print and what the prediction was checked for set the limits.
 */
limits?: {
/**
 * Least and greatest place that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the place.
 */
at?: [(number | string), (number | string)]
/**
 * Least and greatest diameter that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the diameter.
 */
diameter?: [(number | string), (number | string)]
}
}[]
/**
 * What the instrument plays: one entry a note, lowest first as a rule.
 * 
 * @maxItems 1000
 * 
 * Items: One fingering: which holes are closed, and the note it is meant to sound.
 */
fingerings?: {
/**
 * Step of the key's major scale that this fingering is meant to sound: 1 is the key's own note, 8 its octave; `b7` and `"#4"` lower and raise by a semitone. It follows the key when the design is moved.
 */
degree?: (number | string)
/**
 * The note this fingering is meant to sound, with its octave. Use `degree` instead where it should follow the key.
 */
note?: string
/**
 * One sign a hole, in the order of `holes`: closed ● or x, open ○ or o, half closed ◐ or /. Spaces and | between the hands are welcome.
 */
holes?: string
/**
 * Which resonance of the tube sounds, counted from the lowest: 1 is the fundamental, 2 the overblown one, about an octave higher in an open tube.
 */
register?: (number | string)
/**
 * What you call this fingering, where the note does not say it.
 */
name?: string
}[]
/**
 * How it is printed. The pitch is predicted for the printed object: scale, shrinkage and undersize of holes are reckoned with.
 */
print?: {
/**
 * Size of the printer's bed and the height it prints to: x, y, z. The instrument, or each of its parts between joints, is checked against it.
 * 
 * @minItems 3
 * @maxItems 3
 * 
 * Items: Size in this direction.
 */
bed?: [(number | string), (number | string), (number | string)]
/**
 * Diameter of the nozzle. Walls print best in whole lines of about this width. Left out, walls are checked for airtightness as with 0.4 mm, and not for whole lines.
 */
nozzle?: (number | string)
/**
 * Width of one printed line as your slicer is set. Walls are held to whole lines of it. Left out, a line may be 1 to 1.2 times the nozzle wide, as slicers vary it.
 */
lineWidth?: (number | string)
/**
 * Thinnest wall that your printer closes airtight; a leak makes notes weak. Left out, it is three lines of the nozzle: 1.2 mm with 0.4 mm.
 */
leastWall?: (number | string)
/**
 * Least wall between the edges of two holes, and between a hole and the mouth or the foot's end. Left out, it is 1.6 mm.
 */
holeGap?: (number | string)
/**
 * Least distance from a hole's edge to a joint of the tube, so that socket and tenon find room. Left out, it is 10 mm.
 */
jointClearance?: (number | string)
/**
 * Gap between a tenon and its socket, on the radius: what your printer needs for parts that slide into each other. Left out, 0.2 mm.
 */
fit?: (number | string)
/**
 * Print scale: one factor on every dimension, the number the slicer is given. A larger print sounds flatter; 200 % is an octave lower.
 */
scale?: (number | string)
/**
 * How much the material shrinks on cooling, on every dimension. A smaller object sounds sharper: 0.3 % is 5 cents.
 */
shrinkage?: (number | string)
/**
 * How much smaller a round hole comes out than drawn, on its diameter, after scaling. Flattens the notes. Print a test piece and measure; often 0.1 to 0.2 mm.
 */
holeUndersize?: (number | string)
/**
 * Step to which a fix or a refit draws the places and diameters it changes. Left out, it is 0.1 mm (0.001 in with `units: in`). A finer step brings notes nearer: a small hole of a vessel hears 0.1 mm as several cents.
 */
rounding?: (number | string)
/**
 * How far a printed diameter may come out from what scale, shrinkage and undersize promise, up or down; places of holes and lengths half as far. It does not move the prediction but widens its band of cents. Left out, it is 0.2 mm.
 */
tolerance?: (number | string)
}
/**
 * How the instrument is made as a solid, where it is not the usual way: labium, beak, joints, what it lies and rests on. None of it changes the prediction.
 */
solid?: {
/**
 * The edge that splits the breath of a duct.
 */
labium?: {
/**
 * Slope of the ramp behind the labium's edge, to the axis. Left out, 17 degrees.
 */
ramp?: (number | string)
/**
 * Thickness of the labium's edge: a nozzle's line, or it is not printed at all. Left out, 0.5 mm.
 */
edge?: (number | string)
/**
 * How far the edge's underside lies above the floor of the windway. Left out, 0.25 mm.
 */
lift?: (number | string)
}
/**
 * How the head is cut away under the windway, for the lips.
 */
beak?: {
/**
 * Angle of the cut to the axis; 90 leaves the end square. Left out, 42 degrees.
 */
angle?: (number | string)
/**
 * What is left under the windway's floor at the very end. Left out, 5 mm.
 */
lip?: (number | string)
}
/**
 * The tenon on the lower part at each joint, which goes into the upper part.
 */
tenon?: {
/**
 * Length of the tenon. Left out, it is as long as the bore is wide there.
 */
length?: (number | string)
/**
 * What seals it: a groove for lapping `thread`, a recess for `cork`, or `plain`, to be glued.
 */
finish?: ("thread" | "cork" | "plain")
}
/**
 * Whether each joint has a ring round it. Left out, there is one only where the wall alone cannot hold both socket and tenon.
 */
rings?: boolean
/**
 * Width of a flat along the back, on which the instrument lies without rolling; it is added to the wall, so that no chimney changes. Left out, there is none.
 */
base?: (number | string)
/**
 * A rest for the lower thumb, at the back. Left out, there is none.
 */
thumbRest?: {
/**
 * Where its middle lies, from the mouth opening's centre.
 */
at: (number | string)
/**
 * Its length along the tube. Left out, 15 mm.
 */
length?: (number | string)
/**
 * Its width across the tube. Left out, 12 mm.
 */
width?: (number | string)
/**
 * How far it stands out. Left out, 4 mm.
 */
height?: (number | string)
}
/**
 * Length of the stopper of a transverse flute, or of the stoppers of a pan pipe. Left out, 16 and 10 mm.
 */
stopperLength?: (number | string)
/**
 * Whether a vessel is made in two parts that are glued together, without supports inside; `false` makes it in one.
 */
halves?: boolean
}
/**
 * The player's hands, for checking that the holes can be reached and covered. They do not change the pitch.
 */
hands?: {
/**
 * Largest distance between the holes of neighbouring fingers of one hand that the player is comfortable with, centre to centre. Left out, 41 mm: about the most that adults reach.
 */
reach?: (number | string)
/**
 * Largest distance along the tube between the thumb's hole and the nearest finger hole of the same hand. Left out, it is as the `reach`.
 */
thumb?: (number | string)
/**
 * Largest hole that a fingertip covers safely. Left out, 12 mm: what adults' finger pads cover.
 */
fingertip?: (number | string)
}
/**
 * How grave each kind of finding is, by its code: `off`, `information`, `warning` or `error`. What stands here wins over the setting `borewright.rules`. Findings of a file that cannot be read, or of an instrument that cannot be made, always stay.
 */
rules?: {
/**
 * A note farther from its pitch than the tolerance. By itself a warning, an error beyond 50 cents.
 */
"pitch/out-of-tune"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering whose register the air column does not have. By itself a warning.
 */
"pitch/no-resonance"?: ("off" | "information" | "warning" | "error")
/**
 * A note that is weak or does not hold its pitch. By itself an information.
 */
"response/weak-note"?: ("off" | "information" | "warning" | "error")
/**
 * A dimension or note beyond what the prediction was checked for. By itself an information.
 */
"model/out-of-range"?: ("off" | "information" | "warning" | "error")
/**
 * Holes of neighbouring fingers farther apart than `hands.reach`. By itself a warning, an information where the design does not state it.
 */
"hands/out-of-reach"?: ("off" | "information" | "warning" | "error")
/**
 * A thumb hole farther from the fingers than `hands.thumb`. By itself a warning, an information where the design does not state it.
 */
"hands/thumb-out-of-reach"?: ("off" | "information" | "warning" | "error")
/**
 * A hole wider than a fingertip closes, `hands.fingertip`. By itself a warning, an information where the design does not state it.
 */
"hands/hole-too-wide"?: ("off" | "information" | "warning" | "error")
/**
 * Less wall than `print.holeGap` between two holes, or between a hole and the mouth or the foot's end. By itself a warning.
 */
"hole/too-near"?: ("off" | "information" | "warning" | "error")
/**
 * A hole nearer to a joint than `print.jointClearance`. By itself a warning.
 */
"hole/near-joint"?: ("off" | "information" | "warning" | "error")
/**
 * Two holes of one name. By itself a warning.
 */
"hole/duplicate-name"?: ("off" | "information" | "warning" | "error")
/**
 * A hole with both a side and an angle. By itself a warning.
 */
"hole/side-and-angle"?: ("off" | "information" | "warning" | "error")
/**
 * Limits whose least is greater than the greatest. By itself a warning.
 */
"limits/reversed"?: ("off" | "information" | "warning" | "error")
/**
 * A wall thinner than the printer closes airtight, `print.leastWall`. By itself a warning.
 */
"print/wall-too-thin"?: ("off" | "information" | "warning" | "error")
/**
 * A wall that is no whole number of printed lines. By itself an information.
 */
"print/wall-lines"?: ("off" | "information" | "warning" | "error")
/**
 * A print scale at which a wall of whole lines no longer is one. By itself an information.
 */
"print/scale-leaves-lines"?: ("off" | "information" | "warning" | "error")
/**
 * An instrument, or a part of it, that does not fit the printer's bed as it is. By itself a warning, an information where it fits lying askew.
 */
"print/longer-than-bed"?: ("off" | "information" | "warning" | "error")
/**
 * A print scale that looks like a factor rather than a percentage. By itself a warning.
 */
"print/scale-looks-like-factor"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering without a note. By itself a warning.
 */
"fingering/no-target"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering with both a degree and a note. By itself a warning.
 */
"fingering/two-targets"?: ("off" | "information" | "warning" | "error")
/**
 * A measured note that the design has no fingering for. By itself an information.
 */
"measured/no-fingering"?: ("off" | "information" | "warning" | "error")
/**
 * A pipe without a note. By itself a warning.
 */
"pipe/no-note"?: ("off" | "information" | "warning" | "error")
/**
 * Fingerings of a pan pipe, which are not looked at. By itself a warning.
 */
"pipe/fingerings"?: ("off" | "information" | "warning" | "error")
/**
 * A hole of a round vessel with a place along an axis, which nothing reads. By itself an information.
 */
"vessel/hole-place"?: ("off" | "information" | "warning" | "error")
/**
 * A vessel reckoned as another shape than it has. By itself an information.
 */
"vessel/shape-assumed"?: ("off" | "information" | "warning" | "error")
/**
 * How grave findings with this code are.
 */
[k: string]: "off" | "information" | "warning" | "error" | undefined
}
/**
 * Notes measured on a printed instrument of this design, to calibrate the prediction with: its mouth is fitted to them, of a pan pipe one mouth for all pipes. Measure several, at a known temperature.
 * 
 * @maxItems 1000
 * 
 * Items: One measured note.
 */
measured?: {
/**
 * The note that was played: that of a fingering, or of a pipe.
 */
note: string
/**
 * Its measured frequency, blown as in playing.
 */
hz: (number | string)
/**
 * Temperature of the air when it was measured. Left out, it is the design's.
 */
temperature?: (number | string)
/**
 * Standard uncertainty of the measured note: how far it may well be off. `listen` writes it; calibrating weighs the note by it. Left out, it is 6, as of one ordinary play.
 */
uncertainty?: (number | string)
/**
 * The fingering it was played with, as under `fingerings`. Left out, it is that of the note there.
 */
holes?: string
}[]
/**
 * The tubes of a pan pipe, stopped at the lower end.
 * 
 * @maxItems 100
 * 
 * Items: One tube of a pan pipe.
 */
pipes?: {
/**
 * The note this tube is meant to sound.
 */
note?: string
/**
 * Inner length from the rim to the stopper. Longer sounds flatter.
 */
length: (number | string)
/**
 * Inner diameter of the tube. About a tenth to a fifteenth of its length speaks well.
 */
diameter: (number | string)
}[]
/**
 * The hollow body of a vessel flute: its volume, or a shape with its dimensions.
 */
vessel?: {
/**
 * Where the mouth is on a long body: at one end of its length, or in the middle of its long side. At the side a long body sounds sharper.
 */
mouthAt?: ("end" | "side")
/**
 * Inner volume in cubic centimetres (millilitres of water), whichever unit lengths have. A larger volume sounds flatter.
 */
volume?: (number | string)
/**
 * Shape of the hollow. With its inner dimensions the volume is worked out, and how much a long body flattens; with a `volume` as well, the dimensions are only its proportions. `cylinder` is a `tube`; a `box` is reckoned as an ellipsoid.
 */
shape?: ("sphere" | "ellipsoid" | "tube" | "cylinder" | "box")
/**
 * Inner length.
 */
length?: (number | string)
/**
 * Inner width.
 */
width?: (number | string)
/**
 * Inner height.
 */
height?: (number | string)
/**
 * Inner diameter of a sphere or a tube.
 */
diameter?: (number | string)
}
/**
 * Your own data, which Borewright leaves alone: a place for YAML anchors, say.
 * 
 * This interface was referenced by `InstrumentDescription`'s JSON-Schema definition
 * via the `patternProperty` "^x-".
 */
[k: string]: {
[k: string]: unknown
} | 1 | string | "transverse" | "duct" | "rim" | "panpipe" | "vessel" | [(number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string), (number | string)] | number | "mm" | "in" | {
/**
 * Temperature of the air in the tube. Each degree warmer raises the pitch about 3 cents. A played flute is often near 22 to 27.
 */
temperature?: (number | string)
/**
 * Relative humidity. Damp air is a little sharper: about 3 cents from 50 to 100 percent.
 */
humidity?: (number | string)
/**
 * Carbon dioxide in the air, by volume. Breath carries up to 4 percent and flattens: about 4 cents for each percent. Outdoor air has 0.04.
 */
carbonDioxide?: (number | string)
/**
 * Air pressure. It hardly changes the pitch; sea level is 101.325, a high valley 85.
 */
pressure?: (number | string)
/**
 * Friction and heat exchange at the walls. Leave it on; `false` is for comparison with textbooks, and sounds some cents sharper.
 */
losses?: boolean
/**
 * Speed of sound, given outright instead of worked out from temperature and humidity. For comparison with textbooks.
 */
speedOfSound?: (number | string)
} | {
/**
 * A number of your own, or an expression.
 */
[k: string]: number | string
} | {
/**
 * The window of a duct flute: the opening between the end of the windway and the labium.
 */
window?: {
/**
 * Width of the window across the axis. Wider sounds sharper and louder; at most the bore's diameter.
 */
width: (number | string)
/**
 * Cut-up: distance along the axis from the windway's end to the labium's edge. A longer cut-up sounds sharper, and needs more breath. Often a third to a half of the width.
 */
cutUp: (number | string)
/**
 * Depth of the window's side walls, from the bore to the outside. Deeper sounds flatter. Left out, it is the wall at that place.
 */
chimney?: (number | string)
/**
 * Distance from the window's upstream end to the plug that closes the bore, upstream: the short closed space of a two-chamber flute. It tunes the registers against each other: farther out, high notes go flat, while low ones first go a little sharp. Left out it is 0, the plug flush with the window as a whistle's block.
 */
stopper?: (number | string)
}
/**
 * The embouchure hole of a transverse flute.
 */
hole?: {
/**
 * Length of the hole along the axis. A larger hole sounds sharper.
 */
length?: (number | string)
/**
 * Width of the hole across the axis. Left out, it equals the length.
 */
width?: (number | string)
/**
 * Diameter of a round hole, instead of length and width.
 */
diameter?: (number | string)
/**
 * Height of the hole's wall, from the bore to the lip. A taller one sounds flatter. Left out, it is the wall at that place.
 */
chimney?: (number | string)
}
/**
 * Share of the mouth opening that the player's lip covers: 0 leaves it free, 0.5 covers half. More cover sounds flatter. Left out: 0.45 for a transverse flute, 0.6 for a rim, 0.55 for a pan pipe.
 */
cover?: (number | string)
/**
 * Distance from the embouchure hole's centre to the stopper's face, upstream. It tunes the registers against each other: too far out and the upper ones go flat. Left out, it is the bore's diameter.
 */
stopper?: (number | string)
/**
 * Length by which the mouth makes the tube longer than it is, taken from a measured instrument; used instead of a model of the mouth. Commonly 30 to 60 mm for a transverse flute.
 */
correction?: (number | string)
/**
 * What measuring showed of the mouth: it acts as if its opening were so much deeper than the model has it. Negative where the instrument sounds sharper than predicted. Calibrating to `measured` notes writes it; at most a few millimetres for a window, more where a lip covers the opening otherwise than thought. One for all pipes of a pan pipe. Not used beside `correction` or `ideal`.
 */
extra?: (number | string)
/**
 * The notch cut into an end-blown tube's rim, at the front, whose edge splits the breath. Left out, the rim is plain. It is drawn and made, and not reckoned with: a deeper notch sounds sharper.
 */
notch?: {
/**
 * Width of the notch across the tube, at most the bore's diameter.
 */
width: (number | string)
/**
 * How far the notch's edge lies below the rim, along the axis.
 */
depth: (number | string)
/**
 * Slope of the notch behind its edge, to the tube's axis. Left out, 45 degrees.
 */
ramp?: (number | string)
}
/**
 * The channel that leads the breath to the window. It shapes the tone and the breath needed, hardly the pitch, and is not reckoned with.
 */
windway?: {
/**
 * Length of the windway along its axis. Left out, a solid takes 25 mm.
 */
length?: (number | string)
/**
 * Width of the windway, usually the window's.
 */
width?: (number | string)
/**
 * Height of the windway at its exit; thinner needs less breath. Left out, a solid takes 1.2 mm.
 */
height?: (number | string)
/**
 * Height of the windway at its entry, where the breath comes in. Left out, it is a third more than at the exit, as far as the wall allows.
 */
entry?: (number | string)
}
/**
 * The slow air chamber of a two-chamber flute. It feeds the jet and does not change the pitch; the closed space between plug and window does, which is `window.stopper`.
 */
chamber?: {
/**
 * Inner length of the slow air chamber.
 */
length?: (number | string)
/**
 * Inner diameter of the slow air chamber.
 */
diameter?: (number | string)
}
/**
 * The block tied or set over the window of a two-chamber flute, which forms the windway.
 */
block?: {
/**
 * Length of the block along the axis.
 */
length?: (number | string)
/**
 * Width of the block.
 */
width?: (number | string)
/**
 * Height of the block.
 */
height?: (number | string)
}
} | {
/**
 * Your name for the place, for expressions such as `=waist.at`.
 */
name?: string
/**
 * Distance along the axis from the mouth opening's centre, growing toward the foot; negative above the mouth.
 */
at: (number | string)
/**
 * Inner diameter of the bore here. It sets how much a hole of given size raises the pitch, and the tone's fullness.
 */
diameter: (number | string)
/**
 * True where the tube is parted here for printing, the parts joined afterwards. Each part is checked against `print.bed`, and holes keep `print.jointClearance` from the joint.
 */
joint?: boolean
/**
 * True keeps this station as drawn when the instrument is refitted to another key or brought in tune as a whole.
 */
fixed?: boolean
/**
 * How far a refit may move or resize this station. Without it, the hands, the print and what the prediction was checked for set the limits.
 */
limits?: {
/**
 * Least and greatest place that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the place.
 */
at?: [(number | string), (number | string)]
/**
 * Least and greatest diameter that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the diameter.
 */
diameter?: [(number | string), (number | string)]
}
}[] | "open" | "stopped" | {
/**
 * What you call the hole, such as T for the thumb or L1 for the first finger of the left hand. An expression elsewhere may refer to it: `=L1.at + 21`.
 */
name?: string
/**
 * Distance of the hole's centre from the mouth opening's centre, along the axis. A hole nearer the mouth sounds sharper.
 */
at?: (number | string)
/**
 * Diameter of the hole as drawn, where it opens outside. A larger hole sounds sharper; it must be narrower than the bore at its place. Typically 5 to 11 mm under a finger.
 */
diameter: (number | string)
/**
 * Thickness of the wall along the hole's axis, from the bore to the outside. A taller chimney sounds flatter. Left out, it is the wall at that place and what the hole is `raised` above it.
 */
chimney?: (number | string)
/**
 * Length of an oval hole along the bore; its `diameter` is then its width across. A longer hole sounds sharper. Left out, the hole is round.
 */
length?: (number | string)
/**
 * How much wider the hole is where it meets the bore than outside, on the diameter: 1 opens a hole of 6 mm to 7 mm at the bore, with straight sides. More undercut sounds sharper, and sharpens the second register more. Left out, the hole is straight; on a vessel it is always reckoned so.
 */
undercut?: (number | string)
/**
 * How far the hole's chimney stands up above the body's outer surface, with a flat rim of its own as thick as the wall; a part of `chimney`. It sounds flatter. On a vessel it only lengthens the chimney.
 */
raised?: (number | string)
/**
 * Where around the bore the hole lies: in front, under the fingers, or at the back, under a thumb. Holes on one side couple through the outside air a little more than opposite ones.
 */
side?: ("front" | "back")
/**
 * Direction of the hole around the bore in degrees: 0 is the front, 180 the back. Use it instead of `side` for a hole turned toward a finger. On a vessel, degrees round the body from the mouth; left out, the holes are spread evenly.
 */
angle?: (number | string)
/**
 * True keeps this hole as drawn when the instrument is refitted to another key or brought in tune as a whole.
 */
fixed?: boolean
/**
 * How far a refit may move or resize this hole. Without it, the hands, the print and what the prediction was checked for set the limits.
 */
limits?: {
/**
 * Least and greatest place that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the place.
 */
at?: [(number | string), (number | string)]
/**
 * Least and greatest diameter that a refit may choose, as drawn.
 * 
 * @minItems 2
 * @maxItems 2
 * 
 * Items: A limit of the diameter.
 */
diameter?: [(number | string), (number | string)]
}
}[] | {
/**
 * Step of the key's major scale that this fingering is meant to sound: 1 is the key's own note, 8 its octave; `b7` and `"#4"` lower and raise by a semitone. It follows the key when the design is moved.
 */
degree?: (number | string)
/**
 * The note this fingering is meant to sound, with its octave. Use `degree` instead where it should follow the key.
 */
note?: string
/**
 * One sign a hole, in the order of `holes`: closed ● or x, open ○ or o, half closed ◐ or /. Spaces and | between the hands are welcome.
 */
holes?: string
/**
 * Which resonance of the tube sounds, counted from the lowest: 1 is the fundamental, 2 the overblown one, about an octave higher in an open tube.
 */
register?: (number | string)
/**
 * What you call this fingering, where the note does not say it.
 */
name?: string
}[] | {
/**
 * Size of the printer's bed and the height it prints to: x, y, z. The instrument, or each of its parts between joints, is checked against it.
 * 
 * @minItems 3
 * @maxItems 3
 * 
 * Items: Size in this direction.
 */
bed?: [(number | string), (number | string), (number | string)]
/**
 * Diameter of the nozzle. Walls print best in whole lines of about this width. Left out, walls are checked for airtightness as with 0.4 mm, and not for whole lines.
 */
nozzle?: (number | string)
/**
 * Width of one printed line as your slicer is set. Walls are held to whole lines of it. Left out, a line may be 1 to 1.2 times the nozzle wide, as slicers vary it.
 */
lineWidth?: (number | string)
/**
 * Thinnest wall that your printer closes airtight; a leak makes notes weak. Left out, it is three lines of the nozzle: 1.2 mm with 0.4 mm.
 */
leastWall?: (number | string)
/**
 * Least wall between the edges of two holes, and between a hole and the mouth or the foot's end. Left out, it is 1.6 mm.
 */
holeGap?: (number | string)
/**
 * Least distance from a hole's edge to a joint of the tube, so that socket and tenon find room. Left out, it is 10 mm.
 */
jointClearance?: (number | string)
/**
 * Gap between a tenon and its socket, on the radius: what your printer needs for parts that slide into each other. Left out, 0.2 mm.
 */
fit?: (number | string)
/**
 * Print scale: one factor on every dimension, the number the slicer is given. A larger print sounds flatter; 200 % is an octave lower.
 */
scale?: (number | string)
/**
 * How much the material shrinks on cooling, on every dimension. A smaller object sounds sharper: 0.3 % is 5 cents.
 */
shrinkage?: (number | string)
/**
 * How much smaller a round hole comes out than drawn, on its diameter, after scaling. Flattens the notes. Print a test piece and measure; often 0.1 to 0.2 mm.
 */
holeUndersize?: (number | string)
/**
 * Step to which a fix or a refit draws the places and diameters it changes. Left out, it is 0.1 mm (0.001 in with `units: in`). A finer step brings notes nearer: a small hole of a vessel hears 0.1 mm as several cents.
 */
rounding?: (number | string)
/**
 * How far a printed diameter may come out from what scale, shrinkage and undersize promise, up or down; places of holes and lengths half as far. It does not move the prediction but widens its band of cents. Left out, it is 0.2 mm.
 */
tolerance?: (number | string)
} | {
/**
 * The edge that splits the breath of a duct.
 */
labium?: {
/**
 * Slope of the ramp behind the labium's edge, to the axis. Left out, 17 degrees.
 */
ramp?: (number | string)
/**
 * Thickness of the labium's edge: a nozzle's line, or it is not printed at all. Left out, 0.5 mm.
 */
edge?: (number | string)
/**
 * How far the edge's underside lies above the floor of the windway. Left out, 0.25 mm.
 */
lift?: (number | string)
}
/**
 * How the head is cut away under the windway, for the lips.
 */
beak?: {
/**
 * Angle of the cut to the axis; 90 leaves the end square. Left out, 42 degrees.
 */
angle?: (number | string)
/**
 * What is left under the windway's floor at the very end. Left out, 5 mm.
 */
lip?: (number | string)
}
/**
 * The tenon on the lower part at each joint, which goes into the upper part.
 */
tenon?: {
/**
 * Length of the tenon. Left out, it is as long as the bore is wide there.
 */
length?: (number | string)
/**
 * What seals it: a groove for lapping `thread`, a recess for `cork`, or `plain`, to be glued.
 */
finish?: ("thread" | "cork" | "plain")
}
/**
 * Whether each joint has a ring round it. Left out, there is one only where the wall alone cannot hold both socket and tenon.
 */
rings?: boolean
/**
 * Width of a flat along the back, on which the instrument lies without rolling; it is added to the wall, so that no chimney changes. Left out, there is none.
 */
base?: (number | string)
/**
 * A rest for the lower thumb, at the back. Left out, there is none.
 */
thumbRest?: {
/**
 * Where its middle lies, from the mouth opening's centre.
 */
at: (number | string)
/**
 * Its length along the tube. Left out, 15 mm.
 */
length?: (number | string)
/**
 * Its width across the tube. Left out, 12 mm.
 */
width?: (number | string)
/**
 * How far it stands out. Left out, 4 mm.
 */
height?: (number | string)
}
/**
 * Length of the stopper of a transverse flute, or of the stoppers of a pan pipe. Left out, 16 and 10 mm.
 */
stopperLength?: (number | string)
/**
 * Whether a vessel is made in two parts that are glued together, without supports inside; `false` makes it in one.
 */
halves?: boolean
} | {
/**
 * Largest distance between the holes of neighbouring fingers of one hand that the player is comfortable with, centre to centre. Left out, 41 mm: about the most that adults reach.
 */
reach?: (number | string)
/**
 * Largest distance along the tube between the thumb's hole and the nearest finger hole of the same hand. Left out, it is as the `reach`.
 */
thumb?: (number | string)
/**
 * Largest hole that a fingertip covers safely. Left out, 12 mm: what adults' finger pads cover.
 */
fingertip?: (number | string)
} | {
/**
 * A note farther from its pitch than the tolerance. By itself a warning, an error beyond 50 cents.
 */
"pitch/out-of-tune"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering whose register the air column does not have. By itself a warning.
 */
"pitch/no-resonance"?: ("off" | "information" | "warning" | "error")
/**
 * A note that is weak or does not hold its pitch. By itself an information.
 */
"response/weak-note"?: ("off" | "information" | "warning" | "error")
/**
 * A dimension or note beyond what the prediction was checked for. By itself an information.
 */
"model/out-of-range"?: ("off" | "information" | "warning" | "error")
/**
 * Holes of neighbouring fingers farther apart than `hands.reach`. By itself a warning, an information where the design does not state it.
 */
"hands/out-of-reach"?: ("off" | "information" | "warning" | "error")
/**
 * A thumb hole farther from the fingers than `hands.thumb`. By itself a warning, an information where the design does not state it.
 */
"hands/thumb-out-of-reach"?: ("off" | "information" | "warning" | "error")
/**
 * A hole wider than a fingertip closes, `hands.fingertip`. By itself a warning, an information where the design does not state it.
 */
"hands/hole-too-wide"?: ("off" | "information" | "warning" | "error")
/**
 * Less wall than `print.holeGap` between two holes, or between a hole and the mouth or the foot's end. By itself a warning.
 */
"hole/too-near"?: ("off" | "information" | "warning" | "error")
/**
 * A hole nearer to a joint than `print.jointClearance`. By itself a warning.
 */
"hole/near-joint"?: ("off" | "information" | "warning" | "error")
/**
 * Two holes of one name. By itself a warning.
 */
"hole/duplicate-name"?: ("off" | "information" | "warning" | "error")
/**
 * A hole with both a side and an angle. By itself a warning.
 */
"hole/side-and-angle"?: ("off" | "information" | "warning" | "error")
/**
 * Limits whose least is greater than the greatest. By itself a warning.
 */
"limits/reversed"?: ("off" | "information" | "warning" | "error")
/**
 * A wall thinner than the printer closes airtight, `print.leastWall`. By itself a warning.
 */
"print/wall-too-thin"?: ("off" | "information" | "warning" | "error")
/**
 * A wall that is no whole number of printed lines. By itself an information.
 */
"print/wall-lines"?: ("off" | "information" | "warning" | "error")
/**
 * A print scale at which a wall of whole lines no longer is one. By itself an information.
 */
"print/scale-leaves-lines"?: ("off" | "information" | "warning" | "error")
/**
 * An instrument, or a part of it, that does not fit the printer's bed as it is. By itself a warning, an information where it fits lying askew.
 */
"print/longer-than-bed"?: ("off" | "information" | "warning" | "error")
/**
 * A print scale that looks like a factor rather than a percentage. By itself a warning.
 */
"print/scale-looks-like-factor"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering without a note. By itself a warning.
 */
"fingering/no-target"?: ("off" | "information" | "warning" | "error")
/**
 * A fingering with both a degree and a note. By itself a warning.
 */
"fingering/two-targets"?: ("off" | "information" | "warning" | "error")
/**
 * A measured note that the design has no fingering for. By itself an information.
 */
"measured/no-fingering"?: ("off" | "information" | "warning" | "error")
/**
 * A pipe without a note. By itself a warning.
 */
"pipe/no-note"?: ("off" | "information" | "warning" | "error")
/**
 * Fingerings of a pan pipe, which are not looked at. By itself a warning.
 */
"pipe/fingerings"?: ("off" | "information" | "warning" | "error")
/**
 * A hole of a round vessel with a place along an axis, which nothing reads. By itself an information.
 */
"vessel/hole-place"?: ("off" | "information" | "warning" | "error")
/**
 * A vessel reckoned as another shape than it has. By itself an information.
 */
"vessel/shape-assumed"?: ("off" | "information" | "warning" | "error")
/**
 * How grave findings with this code are.
 */
[k: string]: "off" | "information" | "warning" | "error" | undefined
} | {
/**
 * The note that was played: that of a fingering, or of a pipe.
 */
note: string
/**
 * Its measured frequency, blown as in playing.
 */
hz: (number | string)
/**
 * Temperature of the air when it was measured. Left out, it is the design's.
 */
temperature?: (number | string)
/**
 * Standard uncertainty of the measured note: how far it may well be off. `listen` writes it; calibrating weighs the note by it. Left out, it is 6, as of one ordinary play.
 */
uncertainty?: (number | string)
/**
 * The fingering it was played with, as under `fingerings`. Left out, it is that of the note there.
 */
holes?: string
}[] | {
/**
 * The note this tube is meant to sound.
 */
note?: string
/**
 * Inner length from the rim to the stopper. Longer sounds flatter.
 */
length: (number | string)
/**
 * Inner diameter of the tube. About a tenth to a fifteenth of its length speaks well.
 */
diameter: (number | string)
}[] | {
/**
 * Where the mouth is on a long body: at one end of its length, or in the middle of its long side. At the side a long body sounds sharper.
 */
mouthAt?: ("end" | "side")
/**
 * Inner volume in cubic centimetres (millilitres of water), whichever unit lengths have. A larger volume sounds flatter.
 */
volume?: (number | string)
/**
 * Shape of the hollow. With its inner dimensions the volume is worked out, and how much a long body flattens; with a `volume` as well, the dimensions are only its proportions. `cylinder` is a `tube`; a `box` is reckoned as an ellipsoid.
 */
shape?: ("sphere" | "ellipsoid" | "tube" | "cylinder" | "box")
/**
 * Inner length.
 */
length?: (number | string)
/**
 * Inner width.
 */
width?: (number | string)
/**
 * Inner height.
 */
height?: (number | string)
/**
 * Inner diameter of a sphere or a tube.
 */
diameter?: (number | string)
} | undefined
}
