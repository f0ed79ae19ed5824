/** What differs between controllers in how they take offsets, in general words; what a machine does, its builder's manual says. */
export const dialectNotes: readonly string[] = [
  "G10 L2 sets the axes that it names and leaves the others. In RS274/NGC the values are absolute machine coordinates of part zero; with G91 some controllers add them to what the register holds, so G90 goes before.",
  "The unit in force when a G10 line runs is that of its values: the words G20 or G21 go before, and a register written in one unit is shown in the other, rounded.",
  "P1 to P9 are G54 to G59.3 in RS274/NGC. Other controllers stop at P6, number further registers in another way, or give P0 a meaning of its own.",
  "A turn of the coordinates has no word in G10 of RS274/NGC version 3. Controllers that turn coordinates do it by another word, some about the programme's zero and some about a point that is named.",
  "A local shift adds to the register in use, and a global shift (G92 in RS274/NGC) to every one. Some controllers keep them over a programme's end or a restart: look at the sum, not at the register alone.",
  "Whether a shift is along the machine's axes or along turned coordinates is not the same everywhere. Here it is along the machine's axes.",
  "A number without a decimal point counts whole millimetres or inches with some controllers, and smallest steps with others.",
];
