/** The design that keystrokes are timed in. */

/**
 * A seven-hole flute in block style, badly out of tune, each hole and fingering over several lines, with comments.
 * @param holePlace mm, of the fourth hole @param lines at least so many, by remarks at its top
 */
export function longDesign(holePlace: number, lines = 300): string {
  const places = [174, 206, 230, holePlace, 290, 322, 350];
  const hole = (at: number, i: number) =>
    `  - name: H${i + 1}\n    # drilled from outside\n    at: ${at}\n    diameter: ${6.5 + (i % 3)}\n    chimney: =wall\n    side: front\n`;
  const closed = places.length;
  const fingering = (degree: number, open: number, register: number) =>
    `  # opened from the foot\n  - degree: ${degree}\n    holes: ${"●".repeat(closed - open)}${"○".repeat(open)}\n    register: ${register}\n`;
  const pattern = Array.from({ length: 8 }, (_, open) => open);
  const low = pattern.map((open) => fingering(open + 1, open, 1));
  const high = pattern.map((open) => fingering(open + 8, open, 2));
  const head = `borewright: 1\nname: Long whistle\nfamily: duct\nkey: F#4\nair:\n  temperature: 22\n  humidity: 60\nparameters:\n  wall: 3\nmouth:\n  window:\n    width: 10\n    cutUp: 4.5\nwall: =wall\n`;
  const bore = [0, 120, 260, 400].map((at) => `  - at: ${at}\n    diameter: 16\n`).join("");
  const text = `${head}bore:\n${bore}holes:\n${places.map(hole).join("")}fingerings:\n${[...low, ...high].join("")}`;
  const missing = lines - text.split("\n").length;
  return `${"# remarks of the workshop\n".repeat(Math.max(0, missing))}${text}`;
}
