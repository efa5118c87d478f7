/** Thumb and seven fingers, two octaves; a little out of tune. */
export const EIGHT_HOLES = `borewright: 1
name: Eight holes
family: duct
key: F4
air: { temperature: 22, humidity: 60 }
mouth:
  window: { width: 11, cutUp: 4.5 }
bore:
  - { at: 0, diameter: 18 }
  - { at: 170, diameter: 18 }
  - { at: 441, diameter: 15.5 }
wall: 3.2
holes:
  - { name: T, at: 187, diameter: 7, side: back }
  - { name: L1, at: 203, diameter: 7 }
  - { name: L2, at: 233, diameter: 8 }
  - { name: L3, at: 264, diameter: 7.5 }
  - { name: R1, at: 287, diameter: 7 }
  - { name: R2, at: 312, diameter: 8.5 }
  - { name: R3, at: 347, diameter: 7.5 }
  - { name: R4, at: 384, diameter: 6.5 }
fingerings:
${Array.from({ length: 8 }, (_, open) => `  - { degree: ${open + 1}, holes: ${"●".repeat(8 - open)}${"○".repeat(open)} }`).join("\n")}
${Array.from({ length: 7 }, (_, open) => `  - { degree: ${open + 8}, holes: ${"●".repeat(8 - open)}${"○".repeat(open)}, register: 2 }`).join("\n")}
hands: { reach: 40, fingertip: 12 }
`;
