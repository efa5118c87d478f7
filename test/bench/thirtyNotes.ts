/** A tapered transverse flute of eight holes, one of them for the thumb, with thirty fingerings in two registers. */
const PLACES = [196, 224, 251, 277, 310, 338, 366, 404];

/** Fingerings opened from the foot, and cross fingerings with one hole closed below the open ones. */
function fingerings(): string[] {
  const closed = "x".repeat(PLACES.length);
  const plain = Array.from({ length: 9 }, (_, open) => closed.slice(open) + "o".repeat(open));
  const crossed = [3, 4, 5, 6, 7, 8].map((open) => `${closed.slice(open)}o${"x".repeat(1)}${"o".repeat(open - 2)}`);
  return [...plain, ...crossed];
}

/** @param move mm by which the third hole is moved, so that no two texts need be alike */
export function thirtyNotes(move = 0): string {
  const hole = (at: number, i: number) =>
    `  - { name: H${i}, at: ${i === 3 ? at + move : at}, diameter: ${6.4 + 0.3 * (i % 4)}${i === 0 ? ", side: back" : ""} }\n`;
  const patterns = fingerings();
  const rows = [1, 2].flatMap((register) =>
    patterns.map(
      (holes, i) => `  - { degree: ${i + (register - 1) * 7 + 1}, holes: ${holes}, register: ${register} }\n`,
    ),
  );
  return (
    "borewright: 1\nname: Bench flute\nfamily: transverse\nkey: D4\nair: { temperature: 22, humidity: 60 }\nwall: 3.5\n" +
    "mouth:\n  hole: { length: 12.2, width: 10.4 }\n  cover: 0.4\n  stopper: 18\n" +
    "bore:\n  - { at: -18, diameter: 19 }\n  - { at: 120, diameter: 18.8 }\n  - { at: 300, diameter: 15.6 }\n  - { at: 520, diameter: 12.6 }\n" +
    `holes:\n${PLACES.map(hole).join("")}fingerings:\n${rows.join("")}`
  );
}
